/** Words of scanning: which boot lies at the bench. */
import type { Side } from '../../../core/index.ts';
import { Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/scan.ts';

const scanEn = {
  ask: {
    tagged: (side: Side): string => `Take the ${side} boot, and scan its tag`,
    untagged: (side: Side): string => `Take the ${side} boot, and read what stands on it`,
  },
  here: (side: Side, ticket: string): string => `This is the ${side} boot of ${ticket}`,
  hereHint: {
    tagged: 'no scanner: side letter and ticket read on the boot itself',
    untagged: 'side letter and ticket read on the boot itself',
  },
  putTag: 'A free tag that is scanned now can be put on this boot.',
  before: 'The instruction comes once it is sure which boot this is.',
  waits: 'What waits',
  inHand: (side: Side, ticket: string): string =>
    `The ${side} boot of ${ticket} was in hand: nothing more to do on it now.`,
  model: 'Model',

  otherTitle: { side: 'The other boot of this pair', job: 'A boot of another job' },
  scanned: 'Scanned',
  wanted: 'Wanted here',
  boot: (side: Side, ticket: string): string => `${Sided(side)} boot, ${ticket}`,
  nothing: 'Nothing was entered.',
  stay: (side: Side, ticket: string): string => `Put it down: the ${side} boot of ${ticket} is wanted`,
  stayHint: 'then scan the right one',
  change: (side: Side, ticket: string): string => `Change over to the ${side} boot of ${ticket}`,
  changeHint: 'its instruction comes up; the other one keeps',

  unknownTitle: 'A code of no open boot',
  unknown: (code: string): string => `No boot in the shop carries “${code}”.`,
  pickFirst: 'To put this tag on a boot, pick the boot on the left and scan again.',
  put: (side: Side, ticket: string): string => `Put this tag on the ${side} boot of ${ticket}`,
  putHint: (code: string): string => `enters the tag ${code} in the boot’s description`,
  replaceHint: (was: string): string => `in the place of its tag ${was}`,
  leave: 'Leave it',

  severalTitle: 'More than one boot carries this code',
  several: 'Which of them is it? Read side letter and ticket on the boot.',

  tags: 'Tags on the boots',
  tag: (side: Side): string => `${Sided(side)} boot’s tag`,
  tagHint: 'scan it here; empty: none',
  sameTag: 'Both boots have the same tag: each needs one of its own.',
};
export const scan: Words<typeof scanEn> = inLanguage(scanEn, german.scan);
