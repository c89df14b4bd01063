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
  away: 'Skier has gone',
  pick: 'Scan a boot’s tag, or pick a boot on the left.',
  gone: (back: string | null): string =>
    back === null
      ? 'The skier has gone: no re-read is possible now.'
      : `The skier has gone: no re-read is possible before ${back}.`,
  goneDo: 'Do what is told and enter it; the floor reads it when they are back.',
  goneLoose: 'The pivot bolts were left loose.',
  goneWedges: 'Test wedges were left in.',
  soleWaits: 'the sole, once it may be worked',
  boot: (side: Side): string => `${Sided(side)} boot`,
  inHand: (side: Side): string => `${side} boot in hand`,
  told: 'Done as told',
  toldHint: (what: string): string => `enters ${what}`,
  else: 'Did something else',
  enter: 'Enter these positions',
  orderTitle: 'In this order',
  order: [
    'Loosen the bolts with the maker’s own key',
    'Move to the mark',
    'Close the cuff lightly',
    'Tighten both by torque driver',
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
const acts = {
  'cuff.set': 'set the pivots',
  'shell.worked': 'shell at the press',
  'pivot.reworked': 'longer slot',
  'sole.set': 'sole back to zero',
  'sole.measured': 'measure the sole',
  'plate.fitted': 'plate or plane the sole',
};
export const benchActs: Words<typeof acts> = inLanguage(acts, german.benchActs);
export const bench: Words<typeof benchEn> = inLanguage(benchEn, german.bench);
