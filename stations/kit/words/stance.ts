/** Words of the knees and the cant. A sign never stands without its word: the thick edge says which way. */
import type { Adjuster, Side, StancePlan } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/stance.ts';

const kneesEn = {
  view: 'Knees',
  goOn: 'Go on to the knees',
  goOnHint: 'both cuffs are closed',

  floor: 'Floor under the skier',
  floorUnchecked: 'Not checked in this session: half a degree is 4 mm at the knee.',
  floorLevel: 'Level both ways: 0°',
  floorEnter: 'Enter the slope',
  floorCross: 'Slope across',
  floorAlong: 'Slope along',
  floorHint: 'how much, either way; 0 is level',
  floorIs: (cross: number, along: number): string =>
    `Checked: ${shown(Math.abs(cross))}° across, ${shown(Math.abs(along))}° along`,

  standTitle: 'Buckles closed as for skiing. Does the skier stand like this?',
  posture: {
    parallel: { name: 'Boots parallel', detail: 'on the floor marks' },
    straightRunStance: { name: 'Own straight-run stance', detail: 'weight even, eyes ahead' },
    midFlex: { name: 'Knees flexed', detail: 'half way through the flex' },
  },
  how: 'How the knee is read',
  mark: 'Knee taken at',
  marks: { patella: 'middle of the kneecap', condyles: 'middle between the condyles' },
  go: 'All three are so: read the knees',
  goNot: 'Read anyway: the posture is noted as not right',
  standMissing: 'Still needed: stance width, and where the knee is taken.',
  again: 'How the skier stands',

  leg: (side: Side): string => `${Sided(side)} knee`,
  under: 'Under the boot',
  flat: 'nothing, flat',
  unknown: 'not recorded',
  wedge: (words: string): string => `test wedge, ${words}`,
  nextWedge: 'Tells most next',
  nextFlat: 'stand again, flat',
  put: (words: string): string => `Put under: ${words}`,
  putFlat: 'Take the wedge out: flat',
  isUnder: 'is under the boot: read the knee',
  otherWedge: 'Other wedge',
  wedgeTitle: (side: Side): string => `${Sided(side)} boot: wedge under it`,
  wedgeSize: 'Wedge',
  thickEdge: 'Thick edge',
  edges: { medial: 'medial', lateral: 'lateral' },
  wedgeEnter: 'This wedge is under the boot',

  offset: 'Knee from the line',
  toward: 'Toward',
  towards: { medial: 'medial', lateral: 'lateral' },
  height: 'Knee height',
  heightHint: 'above the sole',
  restood: 'Stood afresh',
  restoodYes: 'yes',
  restoodNo: 'no',
  record: (side: Side): string => `Record the ${side} knee`,
  recordOn: (words: string): string => `on: ${words}`,

  method: 'Made as',
  methods: { plate: 'plates', plane: 'planing' },
  choose: (words: string): string => `Choose ${words}`,
  between: (interval: string): string => `9 times of 10 within ${interval}`,
  chooseNone: 'Choose none: stays flat',
  other: 'Another cant',
  otherTitle: (side: Side): string => `${Sided(side)} boot: another cant`,
  otherLead: (missing: string): string => `The readings do not carry this yet. ${missing}`,
  cantSize: 'Cant',
  why: 'Why',
  whyHint: 'stays on record beside the cant',
  otherEnter: 'Choose this cant',
  chosen: (words: string, method: string | null): string => `Chosen: ${words}${method ? `, ${method}` : ''}`,
  readMore: 'Read once more',
  next: 'Both cants are chosen.',
  wedgesIn: (sides: readonly Side[]): string =>
    `Under the ${sides.join(' and the ')} boot a test wedge still lies: the bench takes it off.`,
} as const;
export const knees: Words<typeof kneesEn> = inLanguage(kneesEn, german.knees);

const stanceWordEn: Record<StancePlan['verdict'], string> = {
  blocked: 'cuffs first',
  unread: 'not read',
  'flat-enough': 'flat is right',
  cant: 'needs a cant',
  refer: 'too much for a plate',
  contradictory: 'readings disagree',
};
export const stanceWord: Words<typeof stanceWordEn> = inLanguage(stanceWordEn, german.stanceWord);
export const stanceSign: Record<StancePlan['verdict'], string> = {
  blocked: '▨',
  unread: '○',
  'flat-enough': '●',
  cant: '◐',
  refer: '⊘',
  contradictory: '⚠',
};

const kneeSaysEn = {
  flat: 'flat',
  thick: (edge: Adjuster): string => `thick edge ${edge}`,
  end: (size: string, edge: Adjuster): string => `${size} ${edge}`,
  range: (low: string, high: string, edge: Adjuster | null): string =>
    `${low} to ${high}${edge ? ` ${edge}` : ''}`,
  certain: (thick: string): string => `${thick}: almost certain (over 99 %)`,
  veryLikely: (thick: string): string => `${thick}: very likely (over 95 %)`,
  likely: (thick: string): string => `${thick}: likely (over 84 %)`,
  guess: (thick: string): string => `${thick}: little more than a guess, read again`,
  onLine: 'on the line',
  off: (mm: number, toward: Adjuster): string => `${shown(mm)} mm ${toward} of the line`,
  stands: (where: string, mmPerDeg: number | null): string =>
    `Flat, the knee stands ${where}${mmPerDeg === null ? '' : `; 1° moves it ${shown(mmPerDeg)} mm`}.`,
};
export const kneeSays: Words<typeof kneeSaysEn> = inLanguage(kneeSaysEn, german.kneeSays);

const edgeOf = (cantDeg: number): Adjuster => (cantDeg > 0 ? 'medial' : 'lateral');

/** `1.5°, thick edge medial`; `flat` for none. */
export const cantWords = (cantDeg: number, digits = 2): string =>
  Number(Math.abs(cantDeg).toFixed(digits)) === 0
    ? kneeSays.flat
    : `${shown(Math.abs(cantDeg), digits)}°, ${kneeSays.thick(edgeOf(cantDeg))}`;

const end = (cantDeg: number): string =>
  Math.abs(cantDeg) < 0.05 ? '0°' : kneeSays.end(`${shown(Math.abs(cantDeg))}°`, edgeOf(cantDeg));

/**
 * Where the cant lies, 9 times of 10: `1.2° to 2.8° lateral`, `0.4° medial to 1° lateral`; null while it is not known, or
 * has no end.
 */
export function intervalWords({ cantRange }: StancePlan): string | null {
  if (cantRange === null) return null;
  const { lowDeg: low, highDeg: high } = cantRange;
  if (low > 0) return kneeSays.range(`${shown(low)}°`, `${shown(high)}°`, 'medial');
  if (high < 0) return kneeSays.range(`${shown(-high)}°`, `${shown(-low)}°`, 'lateral');
  return kneeSays.range(end(low), end(high), null);
}

/** How sure the thick edge's side is, in words with the chance that they stand for; null while no cant is known. */
export function sureWords({ cantDeg, cantSdDeg }: StancePlan): string | null {
  if (cantDeg === null || cantSdDeg === null || Math.abs(cantDeg) < 0.005) return null;
  const deviations = Math.abs(cantDeg) / cantSdDeg;
  const thick = kneeSays.thick(edgeOf(cantDeg));
  if (deviations >= 2.33) return kneeSays.certain(thick);
  if (deviations >= 1.65) return kneeSays.veryLikely(thick);
  if (deviations >= 1) return kneeSays.likely(thick);
  return kneeSays.guess(thick);
}

/** Where the knee stands when flat, and how far a degree moves it. */
export function offsetWords({ offsetMm, slopeMmPerDeg }: StancePlan): string | null {
  if (offsetMm === null) return null;
  const where =
    Math.abs(offsetMm) < 0.05
      ? kneeSays.onLine
      : kneeSays.off(Math.abs(offsetMm), offsetMm > 0 ? 'lateral' : 'medial');
  return kneeSays.stands(where, slopeMmPerDeg);
}

/** The cant that the readings propose: none where none is carried. */
export const proposedCant = ({ verdict, roundedDeg }: StancePlan): number =>
  verdict === 'cant' ? (roundedDeg ?? 0) : 0;
