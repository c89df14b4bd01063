/** Words of the keypad and of the number fields, in German. */
import type * as english from '../keypad.ts';

export const keypad: typeof english.keypad = {
  title: (label) => `Ziffern: ${label}`,
  erase: 'Löschen',
  sign: 'Plus oder minus',
  half: 'Und ein halber',
  next: 'Weiter',
  done: 'Fertig',
  away: 'Weglegen',
  less: (label, step) => `${label}: ${step} weniger`,
  more: (label, step) => `${label}: ${step} mehr`,
  inches: 'Das sind Zoll: das Messgerät auf Millimeter stellen und noch einmal messen.',
  otherUnit: (unit) => `Das ist eine andere Einheit: Dieses Feld nimmt ${unit}.`,
};
