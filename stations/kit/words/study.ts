/** Words of the shop's own repeatability study. */
import type { Agreement, StudyOf, StudyResult, Sure } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown, signed } from '../numbers.ts';
import * as german from './de/study.ts';

const of: Record<StudyOf, string> = { gap: 'gaps at the cuff', knee: 'knee from the line' };

const studyEn = {
  title: 'How alike we read',
  lead: 'The same subjects are read again and again, in an order by chance and without sight of earlier values. What comes out is how far one reading of this shop can be trusted.',
  what: 'What is read',
  of,
  hints: {
    gap: 'one leg of each subject in one boot; choose legs that touch on neither side',
    knee: 'one knee of each subject, flat',
  } satisfies Record<StudyOf, string>,
  first: 'First technician, initials',
  second: 'Second technician, initials',
  secondHint: 'empty: one alone',
  subjects: 'How many subjects',
  subjectsHint: '10 or more; they are numbers here, and no names',
  repeats: 'How often each is read',
  seed: (seed: number): string => `Order No. ${seed}, by chance; it is kept with the study.`,
  amount: (turns: number): string => `${turns} readings in all.`,
  begin: 'Begin the study',
  missing: 'Still needed: initials, and 2 to 20 subjects. Two technicians have different initials.',
  earlier: 'Studies of this shop',
  none: 'None yet.',
  goOn: (done: number, turns: number): string => `Go on: ${done} of ${turns} read`,
  show: 'Show the result',
  line: (kind: string, technicians: readonly string[], subjects: number, repeats: number): string =>
    `${kind}, ${technicians.join(' and ')}, ${subjects} subjects, each ${repeats} times`,

  turn: (technician: string, subject: number): string => `${technician} reads subject ${subject}`,
  progress: (turn: number, turns: number): string => `Reading ${turn} of ${turns}`,
  handOver: (technician: string): string => `Hand the tablet over: now ${technician} reads.`,
  how: {
    gap: 'The subject steps in anew, buckles light, mid-flex. Read both gaps as you always do, and do not look for what you read before.',
    knee: 'The subject stands afresh. Read as you always do, and do not look for what you read before.',
  } satisfies Record<StudyOf, string>,
  caution:
    'Standing tires. Let subjects sit between readings, a rail within reach; whoever feels pain stops.',
  medial: 'Medial gap',
  lateral: 'Lateral gap',
  offset: 'Knee from the line',
  offsetHint: 'lateral plus, medial minus',
  record: 'Record, and hide it',
  incomplete: 'A reading is missing, or is no number that is possible here.',
  redo: 'The last one was mistyped: read it again',
  redone: 'It was taken back. The subject steps in anew.',
  kept: 'Kept on the server',
  waits: 'Kept on this device; the server does not answer',
  leave: 'Leave it for now',
  unreachable: 'The shop’s server does not answer.',
  back: 'All studies',

  sigma: ({ sd }: Sure): string => `One reading errs by ${shown(sd, 2)} mm (standard deviation).`,
  sure: ({ low, high, df }: Sure): string =>
    `Truly ${shown(low, 2)} to ${shown(high, 2)} mm, at 95 %, on ${shown(df, 0)} degrees of freedom.`,
  within: 'One technician alone, s_w',
  withInterval: ({ sd, low, high }: Sure): string =>
    `${shown(sd, 2)} mm (${shown(low, 2)} to ${shown(high, 2)})`,
  repeatability: 'Two readings of one technician differ by less, 95 % of the time',
  icc: 'Intraclass correlation, single readings',
  ratio: (value: number): string => shown(value, 3),
  unknown: 'nothing varies',
  difference: (technicians: readonly string[]): string =>
    technicians.length > 1
      ? `${technicians[0]!} − ${technicians[1]!}, on average`
      : 'First − second reading, on average',
  limits: 'Limits of agreement, 95 %',
  estimated: ({
    is,
    low,
    high,
  }: {
    readonly is: number;
    readonly low: number;
    readonly high: number;
  }): string => `${signed(is, 2)} mm (${signed(low, 2)} to ${signed(high, 2)})`,
  fromTo: (low: number, high: number): string => `${signed(low, 2)} to ${signed(high, 2)} mm`,
  noteGap:
    'The two gaps of one stand do not err each by itself: intervals count one stand once. Repeatability after Bland and Altman 1986 and 1996, correlation after Shrout and Fleiss 1979.',
  noteKnee: 'Repeatability after Bland and Altman 1986 and 1996, correlation after Shrout and Fleiss 1979.',
  table: 'All readings as a table',
  plotTitle: (technicians: readonly string[]): string =>
    technicians.length > 1
      ? `Difference ${technicians[0]!} − ${technicians[1]!} of the first readings, over their mean`
      : 'Difference of the first two readings, over their mean',
  plotSays: (pairs: StudyResult['pairs'], { mean, lower, upper }: Agreement): string =>
    `${pairs.length} pairs: ${pairs.map(([a, b]) => `mean ${shown((a + b) / 2)}, difference ${signed(a - b)}`).join('; ')}. Mean difference ${signed(mean.is, 2)} mm; limits ${signed(lower.is, 2)} and ${signed(upper.is, 2)} mm.`,
  variance: 'What the readings vary by',
  source: (
    source: 'subjects' | 'technicians' | 'interaction' | 'repeats',
    share: string,
    variance: number,
  ): string => `${studyEn.sources[source]}: ${share} (${shown(variance, 2)} mm²)`,
  sources: {
    subjects: 'the subjects themselves',
    technicians: 'who reads',
    interaction: 'who reads whom',
    repeats: 'reading again',
  },

  deskTitle: 'The shop’s own error of a reading',
  deskLead:
    'A finished study of the measuring station can take the place of the figure that is in use. It holds for sessions opened from then on.',
  deskNone: 'No finished study yet. The measuring station takes one: “How alike we read”.',
  settings: { gap: 'Error of one gap reading', knee: 'Error of one knee reading' } satisfies Record<
    StudyOf,
    string
  >,
  now: (setting: string, mm: number, own: boolean): string =>
    `${setting}: now ${shown(mm, 2)} mm, ${own ? 'the shop’s own' : 'the default'}.`,
  use: (mm: number): string => `Work by ${shown(mm, 2)} mm from now on`,
  used: (was: number, is: number, by: string, when: string): string =>
    `Set from ${shown(was, 2)} to ${shown(is, 2)} mm at ${by}, ${when}.`,
};
export const studyWords: Words<typeof studyEn> = inLanguage(studyEn, german.studyWords);
