/** Words that stand on paper. What a plan or an entry says has its words elsewhere. */
import type { FactOf, Side } from '../../../core/index.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { Sided, sideWord } from './common.ts';
import * as german from './de/paper.ts';

const paperEn = {
  ticket: 'Ticket',
  boot: (side: Side): string => `${Sided(side)} boot`,
  promised: (when: string): string => `Promised for ${when}`,
  noPromise: 'No time promised yet',
  state: (entries: number, when: string): string => `Record: ${entries} entries, the last ${when}`,
  practice: 'Common practice, no source.',
  unknown: 'not recorded',

  bring: 'Please bring',
  brings: [
    'Both ski boots, with their liners and footbeds',
    'The thin socks that you ski in',
    'Shorts, or trousers that roll up over the knee',
    'What was made for these boots before: wedges, plates, an earlier alignment card',
  ],
  bringSkis: 'Your skis with their bindings: after work on a sole, boot, binding and ski are tested together',
  bringRace: 'The class that you race in, and its rules of the season',
  bringGuardian: 'A parent or guardian, who must agree to what cannot be undone',
  tell: 'Tell us before we begin',

  keep: 'Please show this ticket when you collect the boots.',
  inWork: 'In work: not to be worn before it is handed over.',

  setOn: (when: string): string => `Set ${when}`,
  pivot: { lateral: 'Lateral pivot', medial: 'Medial pivot' },
  pivotsFixed: 'Pivots cannot be moved',
  cuff: 'Cuff',
  cant: 'Cant under the boot',
  sole: 'Sole',
  soles: {
    untouched: 'not altered',
    plate: 'ALTERED: plates under it',
    plane: 'ALTERED: planed',
  },
  thinEdge: (mm: number): string => `thin edge ${shown(mm, 2)} mm`,
  lifter: (mm: number): string => `lifter ${shown(mm, 2)} mm`,
  wedge: 'a test wedge is under it',
  inside: 'Inside',
  lift: (mm: number): string => `heel lift ${shown(mm)} mm`,
  lean: (place: string): string => `forward lean at ${place}`,
  shell: (spots: readonly string[]): string => `shell worked: ${spots.join(', ')}`,

  nothingToDo: (side: Side): string => `Nothing to do on the ${sideWord(side)} boot now.`,
  orderTitle: 'In this order',
  enter: 'Then enter at the bench what was done: this card is not the record.',
  doneBy: 'Done by',
  readBack: 'Read back, mm',
  initials: 'initials',

  cardTitle: 'How your boots are set',
  cardLead: 'If a screw has turned, set it back to where this card shows it, or come to us.',
  yours: (side: Side): string => `Your ${sideWord(side)} boot`,
  dialHow:
    'Each picture is one adjuster, seen from its own side of the boot: lateral is the outer side, medial the inner side. The filled mark is where it stands; 0 is factory neutral, + is up.',
  gaps: (medialMm: number, lateralMm: number): string =>
    `room beside the leg: inner side ${shown(medialMm)} mm, outer side ${shown(lateralMm)} mm`,
  scale: (times: number): string => `Scale 1 : ${times}`,
  mirror: 'At home, before a mirror',
  mirrorSteps: [
    'Boots on, with the liners, footbeds and socks of your skiing; buckles closed lightly; on a flat floor.',
    'Feet hip-wide and parallel, weight on both, knees a little bent, as you glide straight ahead.',
    'Look at one leg after the other from the front: it stands in the middle of its cuff, with as much room inside as outside.',
    'It touches on one side, or stands otherwise than on the day of this card: look whether each screw still stands as pictured and is tight.',
    'Still not even, or something hurts: do not ski on it, come back.',
  ],
  fold: 'fold here',

  opened: 'Taken in',
  found: 'As found',
  left: 'As left',
  rounds: 'Rounds and readings',
  round: 'Round',
  pivots: 'Pivots, mm',
  gapsRead: 'Gaps, mm',
  medialLateral: 'medial | lateral',
  biasForetold: 'Bias foretold',
  biasRead: 'Bias read',
  noRounds: 'No cuff was read.',
  decision: 'Decision on the cuff',
  decisions: {
    even: 'closed as even',
    accepted: 'accepted as it is',
    'other-boot': 'given up for another boot',
  },
  open: 'not closed',
  gapsRow: 'Gaps, medial | lateral',
  standHeight: 'Stand height',
  conforms: 'Sole against its standard',
  conformsIs: { yes: 'conforms', no: 'DOES NOT CONFORM', unknown: 'not checked' },
  unfinished: 'Not finished',
  finished: 'Every step is done, or decided against on record.',
  history: 'All entries',
  columns: { when: 'When', who: 'Who', what: 'What' },
  struckBecause: (reason: string): string => `struck: ${reason}`,
  taken: (by: FactOf<'handed.over'>['acknowledgedBy']): string =>
    `Taken by the ${{ owner: 'owner', guardian: 'guardian', other: 'one who may collect' }[by]}`,
  sign: 'Cautions read and understood',
  signature: 'Date, signature',
};
export const paper: Words<typeof paperEn> = inLanguage(paperEn, german.paper);

/** `9 January 2026`, in the shop's own time zone. */
export const paperDay = (iso: string, timeZone: string): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone }).format(new Date(iso));
