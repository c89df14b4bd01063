/** Words of what comes after: another session for the same skier, what is told from the snow, boots as they were left. */
import type { Side } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { signed } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/again.ts';

const againEn = {
  open: 'Second pair or re-check',
  title: 'Another session for this skier',
  which: 'Which boots',
  recheck: 'These boots again',
  recheckHint: 'their description comes with them; how they stand is looked at first',
  recheckBare: 'nobody described them yet',
  pair: 'A second pair',
  pairHint: 'the boots are still to be described',
  linked: (ticket: string): string => `Goes on from ${ticket}`,
  linkedUnknown: 'Goes on from an earlier session',

  snow: 'Told afterwards',
  snowTitle: 'What the skier tells afterwards',
  from: 'From where',
  fromSnow: 'from the snow',
  fromHome: 'mirror check at home',
  side: 'Which boot',
  both: 'Both',
  said: 'What was told',
  saidHint: 'How the boots ski; no names and no health here.',
  wants: 'Comes again?',
  fine: 'All is well',
  wanted: 'Re-check wanted',
  enter: 'Enter what was told',
  enterAndOpen: 'Enter, and open the re-check',

  referenceMissing: 'A test that was passed has a reference: type it.',
  declineDo: 'The warning was read: declined, on record',
  bindingAsks: 'Declined: read the warning above to the owner before it goes on record.',
};
export const again: Words<typeof againEn> = inLanguage(againEn, german.again);

const asLeftEn = {
  title: 'As these boots left the shop',
  cuff: (side: Side, lateralMm: number, medialMm: number | undefined): string =>
    `${Sided(side)}: lateral pivot ${signed(lateralMm)} mm${medialMm === undefined ? '' : `, medial pivot ${signed(medialMm)} mm`}`,
  cuffUnknown: (side: Side): string => `${Sided(side)}: where the pivots were left is not on record`,
  sole: (deg: number): string => (deg === 0 ? 'sole flat' : `cant of ${signed(deg)}° on the sole`),
  soleUnknown: 'cant not on record',
  look: 'Look at the dials and under the sole before you say so.',
  still: (side: Side): string => `${Sided(side)}: looked at, still so`,
  stillHint: 'enters it as found',
  other: 'Otherwise, enter what you find at the item itself.',
  expectedHint: 'footbed in, no shell work, nothing loose; cuff and sole as you find them',
  coming: 'Looking up how the boots were left.',
};
export const asLeft: Words<typeof asLeftEn> = inLanguage(asLeftEn, german.asLeft);
