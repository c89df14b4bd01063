/** Four ways to come from a knee to a cant: what is done next, from what has been read so far. */
import type { Case } from './cases.ts';
import { cantRange, missingForChoice, stance, toStep } from '../../../core/maths/stance.ts';
import type { StanceReading, StanceRules } from '../../../core/maths/stance.ts';
import { Z90 } from '../../../core/maths/quantile.ts';
import { nextWedge } from '../../../core/maths/wedge.ts';
import { DEFAULT_SETTINGS } from '../../../core/record/settings.ts';
import { deg, mm, tanDeg } from '../../../core/units.ts';

/** One standing, on one wedge. */
export type Stood = StanceReading & { readonly restood: boolean };

export type Next =
  | { readonly do: 'read'; readonly wedgeDeg: number }
  | { readonly do: 'choose'; readonly cantDeg: number; readonly range: Range | null }
  /** No plate: the cant is past the limit, or the readings do not agree. */
  | { readonly do: 'refer' };
export interface Range {
  readonly lowDeg: number;
  readonly highDeg: number;
}
export type Practice = (of: Case, heightMm: number, read: readonly Stood[]) => Next;

export const TARGET_MM = DEFAULT_SETTINGS.kneeTargetMm;
const STEP = deg(DEFAULT_SETTINGS.plateStepDeg);
const MOST = DEFAULT_SETTINGS.maxCantDeg;
/** Readings after which a person would have called somebody. */
const MOST_READINGS = 10;

const within = (cantDeg: number): Next =>
  Math.abs(cantDeg) > MOST ? { do: 'refer' } : { do: 'choose', cantDeg, range: null };

/** One flat reading, and the angle by which a rigid leg would have to be turned. */
export const rigidLeg: Practice = (_of, heightMm, [flat]) =>
  flat
    ? within(toStep(deg((TARGET_MM - flat.offsetMm) / (heightMm * tanDeg(deg(1)))), STEP))
    : { do: 'read', wedgeDeg: 0 };

/** Wedges of half a degree more each time, until the knee looks right: within the band, or past the target. */
const LOOKS_RIGHT_MM = 4;
export const untilItLooksRight: Practice = (_of, _height, read) => {
  const last = read.at(-1);
  if (!last) return { do: 'read', wedgeDeg: 0 };
  const off = last.offsetMm - TARGET_MM;
  const turned = read.length > 1 && Math.sign(off) !== Math.sign(read.at(-2)!.offsetMm - TARGET_MM);
  if (Math.abs(off) <= LOOKS_RIGHT_MM || turned) return within(last.wedgeDeg);
  const next = last.wedgeDeg - Math.sign(off) * 2 * STEP;
  return Math.abs(next) > MOST ? { do: 'refer' } : { do: 'read', wedgeDeg: next };
};

const rulesOf = ({ errorMm, swayMm }: Case): StanceRules => ({
  // What the shop's own study of repeated standings would have found.
  errorMm: mm(Math.hypot(errorMm, swayMm)),
  targetMm: mm(TARGET_MM),
  slopeShare: DEFAULT_SETTINGS.kneeSlopeShare,
  plateStepDeg: STEP,
  secondLookDeg: deg(DEFAULT_SETTINGS.secondLookDeg),
  maxCantDeg: deg(MOST),
});

/** As the tool asks for it; `more` readings beyond what it must have before a cant is chosen. */
const planned =
  (more: number): Practice =>
  (of, heightMm, read) => {
    const rules = rulesOf(of);
    const solved = stance(read, mm(heightMm), rules);
    const next = nextWedge(solved, rules)?.wedgeDeg ?? 0;
    const missing = missingForChoice(read);
    const least = 3 + more;
    if (missing.restands > 0 || missing.wedge || read.length < least) {
      // A wedge is what it must have; the readings that are only to be more stand where they tell most.
      return { do: 'read', wedgeDeg: next };
    }
    switch (solved.verdict) {
      case 'unread':
      case 'contradictory':
        return read.length < MOST_READINGS ? { do: 'read', wedgeDeg: next } : { do: 'refer' };
      case 'refer':
        return { do: 'refer' };
      default:
        return {
          do: 'choose',
          cantDeg: solved.roundedDeg,
          range: cantRange(solved.line, rules.targetMm, Z90),
        };
    }
  };
export const withTool = planned(0);
export const withToolAndMore = planned(2);
