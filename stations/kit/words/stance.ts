/** Words of the knees and the cant. A sign never stands without its word: the thick edge says which way. */
import type { Side, StancePlan } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';

export const knees = {
  view: 'Knees',
  goOn: 'Go on to the knees',
  goOnHint: 'both cuffs are closed',

  skierAfterCuffs:
    'Both cuffs now stand as your legs do. Please close the buckles as for skiing: next we look at your knees.',

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
  skier: 'Stand as you glide straight ahead, and hold the rail. Step on or off a wedge only when I say so.',

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
} as const;

export const stanceWord: Record<StancePlan['verdict'], string> = {
  blocked: 'cuffs first',
  unread: 'not read',
  'flat-enough': 'flat is right',
  cant: 'needs a cant',
  refer: 'too much for a plate',
  contradictory: 'readings disagree',
};
export const stanceSign: Record<StancePlan['verdict'], string> = {
  blocked: '▨',
  unread: '○',
  'flat-enough': '●',
  cant: '◐',
  refer: '⊘',
  contradictory: '⚠',
};

/** `1.5°, thick edge medial`; `flat` for none. */
export const cantWords = (cantDeg: number, digits = 2): string =>
  Number(Math.abs(cantDeg).toFixed(digits)) === 0
    ? 'flat'
    : `${shown(Math.abs(cantDeg), digits)}°, thick edge ${cantDeg > 0 ? 'medial' : 'lateral'}`;

const end = (cantDeg: number): string =>
  Math.abs(cantDeg) < 0.05 ? '0°' : `${shown(Math.abs(cantDeg))}° ${cantDeg > 0 ? 'medial' : 'lateral'}`;

/**
 * Where the cant lies, 9 times of 10: `1.2° to 2.8° lateral`, `0.4° medial to 1° lateral`; null while it is not known, or
 * has no end.
 */
export function intervalWords({ cantRange }: StancePlan): string | null {
  if (cantRange === null) return null;
  const { lowDeg: low, highDeg: high } = cantRange;
  if (low > 0) return `${shown(low)}° to ${shown(high)}° medial`;
  if (high < 0) return `${shown(-high)}° to ${shown(-low)}° lateral`;
  return `${end(low)} to ${end(high)}`;
}

/** How sure the thick edge's side is, in words with the chance that they stand for; null while no cant is known. */
export function sureWords({ cantDeg, cantSdDeg }: StancePlan): string | null {
  if (cantDeg === null || cantSdDeg === null || Math.abs(cantDeg) < 0.005) return null;
  const deviations = Math.abs(cantDeg) / cantSdDeg;
  const thick = `thick edge ${cantDeg > 0 ? 'medial' : 'lateral'}`;
  if (deviations >= 2.33) return `${thick}: almost certain (over 99 %)`;
  if (deviations >= 1.65) return `${thick}: very likely (over 95 %)`;
  if (deviations >= 1) return `${thick}: likely (over 84 %)`;
  return `${thick}: little more than a guess, read again`;
}

/** Where the knee stands when flat, and how far a degree moves it. */
export function offsetWords({ offsetMm, slopeMmPerDeg }: StancePlan): string | null {
  if (offsetMm === null) return null;
  const where =
    Math.abs(offsetMm) < 0.05
      ? 'on the line'
      : `${shown(Math.abs(offsetMm))} mm ${offsetMm > 0 ? 'lateral' : 'medial'} of the line`;
  return `Flat, the knee stands ${where}${slopeMmPerDeg === null ? '' : `; 1° moves it ${shown(slopeMmPerDeg)} mm`}.`;
}

/** The cant that the readings propose: none where none is carried. */
export const proposedCant = ({ verdict, roundedDeg }: StancePlan): number =>
  verdict === 'cant' ? (roundedDeg ?? 0) : 0;
