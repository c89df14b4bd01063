/** What a station says of the server's own state, and what a person can do about it. */
import type { ReadOnly } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/server.ts';

interface Said {
  readonly title: string;
  /** What to do, after the sentence on entries. */
  readonly todo: string;
}

const serverWordsEn = {
  readOnly: {
    full: {
      title: 'The server’s disk is full.',
      todo: 'Free some space on the shop’s computer.',
    },
    forbidden: {
      title: 'The server may not write its data.',
      todo: 'On the shop’s computer, let it write in its data directory.',
    },
    failing: {
      title: 'The server’s disk does not take entries.',
      todo: 'Look after the disk of the shop’s computer; the server’s log says more.',
    },
    locked: {
      title: 'Another program holds the server’s database.',
      todo: 'Close that program on the shop’s computer.',
    },
    damaged: {
      title: 'The server’s database is damaged.',
      todo: 'Start the server again on the shop’s computer: it says what to do. Do not clear this browser.',
    },
  } satisfies Record<ReadOnly, Said>,
  waits: 'Keep working: entries wait on this device and are saved by themselves later.',
  waitsLong: 'Keep working: entries wait on this device.',
  lowSpace: (freeMb: number): string =>
    `Only ${shown(freeMb)} MB are free on the disk of the shop’s computer. Free some space before it is full.`,
  backup: (lastGood: string | null): string =>
    `Backups fail, or are overdue: ${lastGood === null ? 'there is no good one yet' : `the last good one is of ${lastGood}`}. What to do stands in the locked corner, under “Server”.`,
  mark: 'The server needs attention',
};
export const serverWords: Words<typeof serverWordsEn> = inLanguage(serverWordsEn, german.serverWords);
