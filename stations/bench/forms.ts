/** Small things that the bench's forms share. */
import { parseNumber } from '../kit/numbers.ts';

export const optionsOf = <T extends string>(words: Readonly<Record<T, string>>) =>
  (Object.keys(words) as T[]).map((value) => ({ value, label: words[value] }));

/** A field that may stay empty: it is left out then. */
export function withNumber(key: string, typed: string): Record<string, number> {
  const value = parseNumber(typed);
  return value === null ? {} : { [key]: value };
}
