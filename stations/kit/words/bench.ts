/** Words of the bench. */
import type { Side } from '../../../core/index.ts';
import { Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/bench.ts';

const benchEn = {
  title: 'Bench',
  queue: 'Boots to do now',
  empty: 'No boots to do. They appear here when the floor has read them.',
  pick: 'Pick a boot on the left.',
  boot: (side: Side): string => `${Sided(side)} boot`,
  inHand: (side: Side): string => `${side} boot in hand`,
  told: 'Done as told',
  toldHint: (what: string): string => `enters ${what}`,
  else: 'Did something else',
  elseTitle: (side: Side): string => `${Sided(side)} boot: where the pivots stand now`,
  elseHint: 'From factory neutral, up is plus. Not how far they were moved.',
  enter: 'Enter these positions',
  orderTitle: 'In this order',
  order: [
    'Loosen the pivot bolts',
    'Move to the mark',
    'Close the cuff lightly',
    'Tighten both bolts',
    'Read the dial back',
  ],
  soleTitle: 'Sole back to zero',
  soleDone: 'The sole is at zero now',
  nothingNow: 'Nothing more to do on this pair now.',
  nothingHint: 'The floor reads again. You can still undo, or enter other work.',
  entered: (what: string, state: string): string => `Entered: ${what} (${state})`,
  otherWork: 'Other work on this boot',
  otherTitle: 'Other work',
  which: 'Which boot?',
  rework: 'Pivot reworked',
  reworkHint: 'a longer slot or a moved hole: the travel from now on',
  shell: 'Shell worked',
  shellHint: 'punched, ground or stretched',
  neutralise: 'Sole brought to zero',
  neutraliseHint: 'plates off, or a counter-wedge under the boot',
  adjuster: 'Adjuster',
  adjusters: { lateral: 'lateral', medial: 'medial' },
  method: 'How',
  reworkMethods: { slot: 'slot made longer', 'moved-hole': 'hole moved', other: 'other' },
  newUp: 'Travel up now',
  newDown: 'Travel down now',
  neutralShift: 'Neutral shifted by',
  neutralHint: 'up is plus; leave empty for none',
  edge: 'Shell left to the edge',
  edgeHint: 'leave empty when not measured',
  spot: 'Where on the shell',
  spotHint: 'for example: fifth metatarsal head',
  shellMethods: { punch: 'punched', grind: 'ground', stretch: 'stretched' },
  amount: 'By how much',
  ready: 'Enter',
  ticket: (ticket: string): string => `ticket ${ticket}`,
  agreedMissing:
    'No agreement of the owner to irreversible work is on record. Ask the front desk before you cut.',
};
export const bench: Words<typeof benchEn> = inLanguage(benchEn, german.bench);
