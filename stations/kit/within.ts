/** What is wrong with one typed number, in a sentence; null when nothing is. */
import { parseNumber } from './numbers.ts';
import { common } from './words/common.ts';

export interface Bounds {
  readonly unit: 'mm' | '°';
  readonly min: number;
  readonly max: number;
}

export function faultIn(text: string, { unit, min, max }: Bounds): string | null {
  const value = parseNumber(text);
  if (value === null) return common.notANumber;
  return value < min || value > max ? common.outside(min, max, unit) : null;
}
