/** Words of what is measured beside the usual walk, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../more.ts';
import { Of } from './sides.ts';

export const more: typeof english.more = {
  open: 'Mehr',
  title: 'Mehr messen',
};

const WORD = { clinician: 'ärztliche Weisung', skier: 'Wunsch des Skifahrers' } as const;

export const standWanted: typeof english.standWanted = {
  title: 'Höhe der Schuhe',
  caution:
    'Dieses Programm rät nie dazu, einen Schuh höher zu stellen. Nur eintragen, was ärztlich verlangt ist oder was der Skifahrer selbst weiß und wünscht; Schmerz oder ein neuer Unterschied gehört zuerst ärztlich abgeklärt.',
  which: 'Welcher Schuh höher stehen soll',
  higher: 'Höher um',
  level: '0: beide gleich hoch',
  word: 'Wer es verlangt',
  words: WORD,
  note: 'Notiz',
  record: 'Gewünschte Höhe eintragen',
  missing: 'Fehlt noch: welcher Schuh, um wie viel, wer es verlangt',
  asked: (side, mm, word) => `${Of(side, 'er')} Schuh soll ${shown(mm)} mm höher stehen: ${WORD[word]}`,
  none: 'Niemand hat einen Unterschied verlangt: beide Schuhe sollen gleich hoch stehen.',
};
