/** Words of taking somebody in: who was here before, what was done to the boots, a child's guardian. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/intake.ts';

const intakeEn = {
  asLast: (model: string): string => `As last time: ${model}`,
  asLastHint: 'their description is taken over; how they stand is looked at on the floor',
  youth: 'A child or youth: a guardian agrees',
  guardianAgrees: 'For a child or youth a guardian agrees to work that cannot be undone.',
  guardianMissing:
    'For a child or youth a guardian agrees to work that cannot be undone. Choose the guardian.',
  before: 'Done to these boots before',
  beforeWhat: {
    shell: 'shell worked',
    pivots: 'pivots reworked',
    plates: 'cant plates',
    planed: 'sole planed',
  },
  beforeNote: (what: readonly string[]): string => `before: ${what.join(', ')}`,
  agreeNow: 'Work that cannot be undone: agreed already',
  keys: 'Ctrl and Enter from anywhere',
  openPrint: 'Open and print',
  openPrintHint: (boots: boolean): string => (boots ? 'ticket and boot tags' : 'its ticket'),
};
export const intakeWords: Words<typeof intakeEn> = inLanguage(intakeEn, german.intakeWords);
