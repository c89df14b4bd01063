/**
 * Cuff lean from gaps, in the frontal plane of one leg: what a reading says, and what a move will give.
 *
 * Source of the geometry: plane trigonometry of a rigid cuff on two pivots; checked against a rigid-body
 * solution in tests/outside.
 */
import { deg, degAsin, degAtan, mm, sinDeg } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { lean, settable, spread, spreadRange } from './hardware.ts';
import type { HardwareNow, Pair } from './hardware.ts';

/** Bias of a reading, medial − lateral gap: positive when the leg stands lateral of the cuff centre. 12 and 6 give 6. */
export const bias = (gaps: Pair): Mm => mm(gaps.medialMm - gaps.lateralMm);

/**
 * How far the cuff centre at the reading height stands lateral of where it stands at neutral:
 * `h·(sin lean − sin factory lean)`. 160 mm up and 2° out from an upright neutral is 5.58 mm.
 */
export function shift(hardware: HardwareNow, set: Pair, heightMm: Mm = hardware.readingHeightMm): Mm {
  const factory = hardware.factoryLeanDeg ?? deg(0);
  return mm(heightMm * (sinDeg(lean(hardware, set)) - sinDeg(factory)));
}

/** What is known of the leg at one setting of the cuff. */
export interface Sight {
  /** Bias at the pivots as they are set. */
  readonly biasMm: Mm;
  /** Share of the geometric shift that this boot gives, > 0. */
  readonly response: number;
}

/** Bias after a move: `D' = D − 2·k·(change of the cuff centre)`. */
export const biasAfter = (hardware: HardwareNow, sight: Sight, from: Pair, to: Pair): Mm =>
  mm(sight.biasMm - 2 * sight.response * (shift(hardware, to) - shift(hardware, from)));

/**
 * Lean that evens the gap: `sin lean* = sin lean + D / (2·k·h)`. A bias of 6 mm, 150 mm up, k = 1, from
 * upright: 1.146°.
 */
export function evenLean(hardware: HardwareNow, sight: Sight, set: Pair): Deg {
  const now = sinDeg(lean(hardware, set));
  return degAsin(now + sight.biasMm / (2 * sight.response * hardware.readingHeightMm));
}

/** The spread of the pivots that makes a lean: `s* = w·sin(lean* − factory lean)`. */
export const spreadFor = (hardware: HardwareNow, leanDeg: Deg): Mm =>
  mm(hardware.pivotSpacingMm * sinDeg(deg(leanDeg - (hardware.factoryLeanDeg ?? 0))));

/** The gaps around an unchanged sum: `(S ± D) / 2`. A negative gap says that the leg would press there. */
export const gapsFor = (sumMm: Mm, biasMm: Mm): Pair => ({
  medialMm: mm((sumMm + biasMm) / 2),
  lateralMm: mm((sumMm - biasMm) / 2),
});

export interface Correction {
  /** Change of lean that evens the gap, outward positive. */
  readonly correctionDeg: Deg;
  /** Settable pivots that come closest; null when none can be set. */
  readonly target: Pair | null;
  readonly biasAfterMm: Mm;
  readonly limitedBy: null | 'travel' | 'marks';
  /** False when no move inside the travel, marks set aside, makes the bias smaller. */
  readonly canImprove: boolean;
  /** What the travel does not reach: lean and bias with their signs, pivot travel as a length. */
  readonly shortBy: { readonly leanDeg: Deg; readonly biasMm: Mm; readonly pivotMm: Mm } | null;
}

/** A bias under this is no bias: under what a float leaves over, far under any reading. */
const NO_BIAS = mm(1e-6);

/** From what is known at the pivots as set: the correction, and what this hardware makes of it. */
export function correct(hardware: HardwareNow, sight: Sight, set: Pair): Correction {
  const wantedLean = evenLean(hardware, sight, set);
  return aim(hardware, sight, set, wantedLean, (pair) => biasAfter(hardware, sight, set, pair));
}

/** The hardware's best answer to a wanted lean, measured by `biasOf`. */
export function aim(
  hardware: HardwareNow,
  sight: Sight,
  set: Pair,
  wantedLean: Deg,
  biasOf: (pair: Pair) => Mm,
): Correction {
  const wanted = spreadFor(hardware, wantedLean);
  const { min, max } = spreadRange(hardware);
  const reached = mm(Math.min(Math.max(wanted, min), max));
  const missing = Math.abs(wanted - reached);
  const atEnd: Pair = { medialMm: reached, lateralMm: mm(0) };
  const target = settable(hardware, wanted, biasOf, set);
  const after = biasOf(target ?? set);
  const short = missing > NO_BIAS;
  return {
    correctionDeg: deg(wantedLean - lean(hardware, set)),
    target,
    biasAfterMm: after,
    limitedBy: Math.abs(after) <= NO_BIAS ? null : short ? 'travel' : 'marks',
    canImprove:
      Math.abs(biasOf(atEnd)) < Math.abs(sight.biasMm) - NO_BIAS && Math.abs(reached - spread(set)) > NO_BIAS,
    shortBy: short
      ? {
          leanDeg: deg(wantedLean - lean(hardware, atEnd)),
          biasMm: biasOf(atEnd),
          pivotMm: mm(missing),
        }
      : null,
  };
}

/** Gaps at an upper and a lower height, both above the pivot line. */
export interface TwoHeights {
  /** `extraSdMm`: deviation of its bias beside the error of reading, as of a gap that was read off a picture. */
  readonly upper: { readonly biasMm: Mm; readonly heightMm: Mm; readonly extraSdMm?: Mm };
  readonly lower: { readonly biasMm: Mm; readonly heightMm: Mm };
}

/** Two heights part tilt from offset only when they lie this far apart. */
export const LEAST_HEIGHT_DIFFERENCE = mm(30);

/**
 * Tilt of the leg against the cuff, and its offset at the pivot line, from two heights:
 * `δ = atan((m1 − m2)/(h1 − h2))`, `m0 = m1 − h1·(m1 − m2)/(h1 − h2)`, with m half a bias; the offset's
 * standard deviation by propagation from gaps read with `gapErrorMm`. Null when the heights are too close.
 *
 * m1 = 4 at 160 and m2 = 2 at 80 give δ = 1.432° and no offset.
 */
export function tiltAndOffset(
  { upper, lower }: TwoHeights,
  gapErrorMm: Mm,
): { readonly angleDeg: Deg; readonly offsetMm: Mm; readonly offsetSdMm: Mm } | null {
  const apart = upper.heightMm - lower.heightMm;
  if (Math.abs(apart) < LEAST_HEIGHT_DIFFERENCE) return null;
  const [m1, m2] = [upper.biasMm / 2, lower.biasMm / 2];
  const share = upper.heightMm / apart;
  return {
    angleDeg: degAtan((m1 - m2) / apart),
    offsetMm: mm(m1 - share * (m1 - m2)),
    // m = (gap − gap)/2, so its variance is σ²/2, and a quarter of what its bias has beside that.
    offsetSdMm: mm(
      Math.hypot(
        gapErrorMm * Math.sqrt(((1 - share) ** 2 + share ** 2) / 2),
        ((1 - share) * (upper.extraSdMm ?? 0)) / 2,
      ),
    ),
  };
}
