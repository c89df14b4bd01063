/**
 * One leg carried from the boot it was read in into other boots: which of their cuffs could stand even at it.
 *
 * The shell's frame, in the frontal plane: x lateral positive, 0 on the pivot line's centre; heights above the
 * pivot line. The leg's centre line there, `x_leg(h) = offset + h·tan(angle)`, belongs to the skier in a boot that
 * stands flat; pivot spacing, reading height, factory lean, travel and response belong to the boot.
 */
import { deg, degAtan, mm, sinDeg, tanDeg } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { correct, evenLean } from './cuff.ts';
import { lean, spreadRange } from './hardware.ts';
import type { HardwareNow, Pair } from './hardware.ts';

/** A leg's centre line in the shell's frame. */
export interface LegLine {
  /** Where it crosses the pivot line, lateral positive. */
  readonly offsetMm: Mm;
  /** Its tilt from the shell's vertical, outward positive. */
  readonly angleDeg: Deg;
}

/**
 * The line through a place and through the pivot line at `offsetMm`. 5.6 mm lateral at 160 mm, through the centre:
 * 2.005° outward.
 */
export const legLine = (placeMm: Mm, heightMm: Mm, offsetMm: Mm = mm(0)): LegLine => ({
  offsetMm,
  angleDeg: degAtan((placeMm - offsetMm) / heightMm),
});

/** `x_leg(h)`: a line of 2° through 1 mm lateral stands at 6.238 mm, 150 mm up. */
export const legAt = ({ offsetMm, angleDeg }: LegLine, heightMm: Mm): Mm =>
  mm(offsetMm + heightMm * tanDeg(angleDeg));

/** Where the leg stands in the shell's frame, from its place lateral of the cuff's centre at neutral: `h·sin f + m`. */
export const placeInShell = (mLegMm: Mm, heightMm: Mm, factoryLeanDeg: Deg): Mm =>
  mm(heightMm * sinDeg(factoryLeanDeg) + mLegMm);

/** A boot's cuff as the leg would meet it. Its factory lean must be known: it carries the leg to first order. */
export interface OtherCuff {
  readonly hardware: HardwareNow & { readonly factoryLeanDeg: Deg };
  /** Share of the geometric shift that it gives, > 0. */
  readonly response: number;
}

/** What one boot can do for a leg. */
export interface Reached {
  /** Lean that would leave no bias, outward positive. */
  readonly leanDeg: Deg;
  /** That lean lies inside the travel, marks set aside. */
  readonly reachable: boolean;
  /** From that lean to the nearer end of the travel; negative: the lean that the travel does not reach. */
  readonly spareDeg: Deg;
  /** Bias left at the end of the travel; null where the lean is reached. */
  readonly residualMm: Mm | null;
  /** The settable pair that comes closest, from neutral; null when none can be set. */
  readonly target: Pair | null;
  /** Bias predicted at that pair; at neutral where there is none. */
  readonly biasMm: Mm;
}

const NEUTRAL: Pair = { medialMm: mm(0), lateralMm: mm(0) };

/** Lean at both ends of the travel, `factory lean ± tilt`, marks set aside. */
function leanRange(hardware: HardwareNow): { readonly min: Deg; readonly max: Deg } {
  const { min, max } = spreadRange(hardware);
  const at = (spreadMm: Mm): Deg => lean(hardware, { medialMm: spreadMm, lateralMm: mm(0) });
  return { min: at(min), max: at(max) };
}

/**
 * A leg in a boot whose pivots stand at neutral: the leg stands `m = x_leg(h) − h·sin f` lateral of the cuff's
 * centre, so the cuff is even at `sin lean* = sin f + m/(k·h)`; what lies between lean* and the nearer end of the
 * travel is to spare.
 *
 * A leg of 2.073° through the centre, 150 mm up in a boot upright at neutral, k = 1: m = 5.430 mm, lean* = 2.075°.
 * One pivot 80 mm from the other with 3 mm either way reaches 2.149°: 0.074° to spare.
 */
export function reachOf(line: LegLine, { hardware, response }: OtherCuff): Reached {
  const m =
    legAt(line, hardware.readingHeightMm) - hardware.readingHeightMm * sinDeg(hardware.factoryLeanDeg);
  const sight = { biasMm: mm(2 * m), response };
  const leanDeg = evenLean(hardware, sight, NEUTRAL);
  const { min, max } = leanRange(hardware);
  const { target, biasAfterMm, shortBy } = correct(hardware, sight, NEUTRAL);
  const spare = Math.min(max - leanDeg, leanDeg - min);
  return {
    leanDeg,
    reachable: shortBy === null,
    // At the very end of the travel a float may be left over on either side.
    spareDeg: deg(shortBy === null ? Math.max(0, spare) : spare),
    residualMm: shortBy?.biasMm ?? null,
    target,
    biasMm: biasAfterMm,
  };
}
