/** Words of what is measured beside the usual walk, and of boots that are to stand at different heights. */
import type { Plan, Side } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/more.ts';

const moreEn = {
  open: 'More',
  title: 'More to measure',
};
export const more: Words<typeof moreEn> = inLanguage(moreEn, german.more);

const standWantedEn = {
  title: 'Height of the boots',
  caution:
    'This program never advises that one boot stands higher. Enter only what a clinician has asked for, or what the skier knows and asks for; pain or a new difference goes to a clinician first.',
  which: 'Which boot is to stand higher',
  higher: 'Higher by',
  level: '0: both level',
  word: 'On whose word',
  words: { clinician: 'a clinician’s', skier: 'the skier’s own' },
  note: 'Note',
  record: 'Record the height that is wanted',
  missing: 'Still needed: which boot, by how much, on whose word',
  asked: (side: Side, mm: number, word: 'clinician' | 'skier'): string =>
    `${Sided(side)} boot to stand ${shown(mm)} mm higher, on ${standWantedEn.words[word]} word`,
  none: 'Nobody asked for a difference: both boots are to stand level.',
};
export const standWanted: Words<typeof standWantedEn> = inLanguage(standWantedEn, german.standWanted);

/** What stands on record of the boots' heights. */
export function standText(plan: Plan): string {
  const left = plan.sides.left.sole.wantedStand;
  if (!left || left.overMm === 0) return standWanted.none;
  return standWanted.asked(left.overMm > 0 ? 'left' : 'right', Math.abs(left.overMm), left.onWordOf);
}
