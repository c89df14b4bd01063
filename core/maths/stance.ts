/**
 * From where the knee stands over the boot to the cant under it, in the frontal plane of one leg.
 *
 * `k = k0 + r·δ + error`: k the knee centre's offset from the reference line (mm, lateral positive), δ the cant
 * of the test wedge under the boot (°, outward positive: thick edge medial), k0 the offset on a flat sole, r the
 * knee's movement for one degree. k0 is flat before the readings; r has a normal prior, since a leg is nearly
 * rigid and never quite: the posterior is normal, and the normal equations give it exactly.
 *
 * Source of the prior's shape: rotation of a rigid leg about the sole, H·tan 1° for a degree, is the most a cant
 * can move a knee; real legs give less and differ [from memory, low].
 */
import { deg, mm, tanDeg } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { inverse2 } from './normal.ts';
import type { Sym2 } from './normal.ts';

/** Where the knee centre stood over the boot, on one test wedge. */
export interface StanceReading {
  /** Cant under the boot, 0 for none. */
  readonly wedgeDeg: Deg;
  readonly offsetMm: Mm;
}

export interface StanceRules {
  /** Standard deviation of one offset reading, > 0. */
  readonly errorMm: Mm;
  /** Where the knee shall stand, lateral positive. */
  readonly targetMm: Mm;
  /** Share q of the rigid leg's movement that is expected, > 0 to 1. */
  readonly slopeShare: number;
  /** Step in which plates and wedges come, > 0. */
  readonly plateStepDeg: Deg;
  /** Over this a second technician looks. */
  readonly secondLookDeg: Deg;
  /** Past this no plate is proposed. */
  readonly maxCantDeg: Deg;
}

/** The knee's movement per degree of cant before any reading, mm/°. */
export interface SlopePrior {
  readonly mean: number;
  readonly sd: number;
}

/**
 * `r ~ N(q·H·tan 1°, (0.35·H·tan 1°)²)`, H the height of the knee centre above the sole. H = 468 mm and q = 0.75
 * give 6.127 ± 2.859 mm/°.
 */
export function slopePrior(kneeHeightMm: Mm, slopeShare: number): SlopePrior {
  const rigid = kneeHeightMm * tanDeg(deg(1));
  return { mean: slopeShare * rigid, sd: 0.35 * rigid };
}

/** What the readings say of one knee. */
export interface KneeLine {
  /** Offset on a flat sole, k0. */
  readonly offsetMm: Mm;
  /** Movement for one degree of cant, r, lateral positive. */
  readonly slopeMmPerDeg: number;
  /** Covariance of (k0, r): mm², mm²/°, mm²/°². */
  readonly covariance: Sym2;
}

/** The posterior of (k0, r); null without a reading. One flat reading of 6 mm gives k0 = 6 and the prior's slope. */
export function kneeLine(
  readings: readonly StanceReading[],
  prior: SlopePrior,
  errorMm: Mm,
): KneeLine | null {
  if (readings.length === 0) return null;
  const weight = 1 / errorMm ** 2;
  const precision: Sym2 = [0, 0, 1 / prior.sd ** 2];
  const right = [0, prior.mean / prior.sd ** 2];
  for (const { wedgeDeg, offsetMm } of readings) {
    precision[0] += weight;
    precision[1] += weight * wedgeDeg;
    precision[2] += weight * wedgeDeg ** 2;
    right[0]! += weight * offsetMm;
    right[1]! += weight * wedgeDeg * offsetMm;
  }
  const covariance = inverse2(precision);
  const [a, b, c] = covariance;
  return {
    offsetMm: mm(a * right[0]! + b * right[1]!),
    slopeMmPerDeg: b * right[0]! + c * right[1]!,
    covariance,
  };
}

/** Variance of the knee's place on one wedge, without the error of reading it there, mm². */
export const placeVariance = ([a, b, c]: Sym2, wedgeDeg: number): number =>
  a + 2 * b * wedgeDeg + c * wedgeDeg ** 2;

/**
 * The cant that brings the knee to the target, `δ* = (target − k0)/r`, and its standard deviation by
 * propagation: `√var(k at δ*)/r`. `slopeMmPerDeg` must be > 0. k0 = 6, target −4, r = 5: −2°, thick edge lateral.
 *
 * The limits of propagation: it is the first order only, and a ratio's spread is skewed away from 0. Where the
 * slope alone is uncertain, the far half of a 95 % interval is really a quarter longer at a slope of ten of its own
 * deviations, twice as long at four, and without end under two. Over simulated knees read four times 1.96 deviations
 * hold the true cant in some 90 %, not 95 (tests/outside/stance). `cantRange` has no such limit.
 */
export function cantFor(line: KneeLine, targetMm: Mm): { readonly cantDeg: Deg; readonly sdDeg: Deg } {
  const cant = (targetMm - line.offsetMm) / line.slopeMmPerDeg + 0;
  return {
    cantDeg: deg(cant),
    sdDeg: deg(Math.sqrt(placeVariance(line.covariance, cant)) / line.slopeMmPerDeg),
  };
}

/**
 * Every cant that the posterior, within z of its standard deviations, lets put the knee on the target:
 * `(k0 + r·δ − target)² ≤ z²·var(k at δ)`, a quadratic in δ. Null when that has no end, the slope being less than z
 * of its own deviations from 0. k0 = 10 ± 0, target 0, r = 5 ± 0.5, z = 2: −2.5° to −1.667°.
 *
 * Source: Fieller, Some problems in interval estimation, J R Stat Soc B 1954;16:175–185 [from memory].
 */
export function cantRange(
  line: KneeLine,
  targetMm: Mm,
  z: number,
): { readonly lowDeg: Deg; readonly highDeg: Deg } | null {
  const [a, b, c] = line.covariance;
  const r = line.slopeMmPerDeg;
  const off = line.offsetMm - targetMm;
  const square = r ** 2 - z ** 2 * c;
  if (square <= 0) return null;
  const half = r * off - z ** 2 * b;
  const root = Math.sqrt(Math.max(0, half ** 2 - square * (off ** 2 - z ** 2 * a)));
  return { lowDeg: deg((-half - root) / square), highDeg: deg((-half + root) / square) };
}

/** Why a slope is not clearly positive, and what would explain it. */
export interface Contradiction {
  readonly under: 'quarter-of-prior' | 'two-deviations';
  /** `signs`: with every wedge turned round the readings would agree. `readings`: they contradict each other. */
  readonly cause: 'signs' | 'readings';
}

/** What keeps a slope from being clearly positive. */
function unclear(line: KneeLine, prior: SlopePrior): Contradiction['under'] | null {
  if (line.slopeMmPerDeg < prior.mean / 4) return 'quarter-of-prior';
  return line.slopeMmPerDeg < 2 * Math.sqrt(line.covariance[2]) ? 'two-deviations' : null;
}

/**
 * Do the readings contradict each other, or were the signs mixed up? Null when not. Readings on one wedge alone
 * say nothing of the slope, so they cannot contradict the prior's.
 */
export function contradiction(
  readings: readonly StanceReading[],
  prior: SlopePrior,
  errorMm: Mm,
): Contradiction | null {
  const line = kneeLine(readings, prior, errorMm);
  if (!line || new Set(readings.map((r) => r.wedgeDeg)).size < 2) return null;
  const under = unclear(line, prior);
  if (!under) return null;
  const turned = readings.map((r) => ({ ...r, wedgeDeg: deg(-r.wedgeDeg) }));
  const other = kneeLine(turned, prior, errorMm)!;
  return { under, cause: unclear(other, prior) ? 'readings' : 'signs' };
}

/** To the plate step, half steps toward zero: 0.75° on steps of 0.5° is 0.5°, 0.76° is 1°. */
export function toStep(angleDeg: Deg, stepDeg: Deg): Deg {
  // A half step that a float leaves a hair too long is still a half step.
  const steps = Math.ceil(Math.abs(angleDeg) / stepDeg - 0.5 - 1e-9);
  return deg(Math.sign(angleDeg) * Math.max(0, steps) * stepDeg + 0);
}

/** Where a plate of this cant is thick. */
export type ThickEdge = 'medial' | 'lateral' | 'none';
export const thickEdge = (cantDeg: Deg): ThickEdge =>
  cantDeg > 0 ? 'medial' : cantDeg < 0 ? 'lateral' : 'none';

interface Solved {
  readonly line: KneeLine;
  readonly prior: SlopePrior;
}

interface Solution extends Solved {
  /** Exact, before rounding. */
  readonly cantDeg: Deg;
  readonly cantSdDeg: Deg;
}

/** What is to be done under one boot. */
export type Stance =
  | { readonly verdict: 'unread' }
  | ({ readonly verdict: 'contradictory'; readonly contradiction: Contradiction } & Solved)
  /** The exact cant is past the limit: no plate. */
  | ({ readonly verdict: 'refer' } & Solution)
  | ({
      readonly verdict: 'flat-enough' | 'cant';
      readonly roundedDeg: Deg;
      readonly secondLook: boolean;
    } & Solution);

/** One knee, from its readings alone: never from the other knee's. */
export function stance(readings: readonly StanceReading[], kneeHeightMm: Mm, rules: StanceRules): Stance {
  const prior = slopePrior(kneeHeightMm, rules.slopeShare);
  const line = kneeLine(readings, prior, rules.errorMm);
  if (!line) return { verdict: 'unread' };
  const fault = contradiction(readings, prior, rules.errorMm);
  if (fault) return { verdict: 'contradictory', contradiction: fault, line, prior };
  const { cantDeg, sdDeg: cantSdDeg } = cantFor(line, rules.targetMm);
  const solution = { line, prior, cantDeg, cantSdDeg };
  if (Math.abs(cantDeg) > rules.maxCantDeg) return { verdict: 'refer', ...solution };
  const roundedDeg = toStep(cantDeg, rules.plateStepDeg);
  return {
    verdict: roundedDeg === 0 ? 'flat-enough' : 'cant',
    ...solution,
    roundedDeg,
    secondLook: Math.abs(cantDeg) > rules.secondLookDeg,
  };
}

/** What is still missing before a cant may be chosen: it needs two re-stands, and one reading on a wedge. */
export function missingForChoice(readings: readonly (StanceReading & { readonly restood: boolean })[]): {
  readonly restands: number;
  readonly wedge: boolean;
} {
  const restands = readings.filter((r) => r.restood).length;
  return { restands: Math.max(0, 2 - restands), wedge: readings.every((r) => r.wedgeDeg === 0) };
}

/** A cant and its standard deviation. */
export interface Cant {
  readonly cantDeg: Deg;
  readonly cantSdDeg: Deg;
}

/**
 * Left and right, each solved by itself, then compared: left − right, each outward positive on its own side. 1.5°
 * and −0.5° are 2° apart; over `maxDifferenceDeg` leg length, cuffs and footbeds are looked at first.
 */
export function compareCants(
  left: Cant,
  right: Cant,
  maxDifferenceDeg: Deg,
): { readonly differenceDeg: Deg; readonly sdDeg: Deg; readonly questioned: boolean } {
  const difference = left.cantDeg - right.cantDeg;
  return {
    differenceDeg: deg(difference),
    sdDeg: deg(Math.hypot(left.cantSdDeg, right.cantSdDeg)),
    questioned: Math.abs(difference) > maxDifferenceDeg,
  };
}
