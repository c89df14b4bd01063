/** Words of the keypad and of the number fields. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/keypad.ts';

const keypadEn = {
  title: (label: string): string => `Keypad: ${label}`,
  erase: 'Erase',
  sign: 'Plus or minus',
  half: 'And a half',
  next: 'Next',
  done: 'Done',
  away: 'Put away',
  less: (label: string, step: string): string => `${label}: ${step} less`,
  more: (label: string, step: string): string => `${label}: ${step} more`,
  inches: 'That is in inches: switch the instrument to millimetres and read again.',
  otherUnit: (unit: string): string => `That is another unit: this field takes ${unit}.`,
};
export const keypad: Words<typeof keypadEn> = inLanguage(keypadEn, german.keypad);
