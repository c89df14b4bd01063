/**
 * Where the leg stands, and how this boot answers a move: two unknowns, narrowed by every reading of one leg in
 * one boot.
 *
 * `D = 2·(m − k·x) + error`: D the bias read, m the leg's place (mm lateral of the cuff centre at factory
 * neutral, at the reading height), x the geometric shift of the cuff centre at that setting, k the response.
 * Exact readings are linear in (m, k) and, with a normal prior on k, leave a normal posterior: the normal
 * equations give it exactly. A press is only a bound: the probability that the true bias lies beyond it
 * multiplies in, and the moments come from a grid laid over the posterior's mode. Both factors are
 * log-concave, so Newton's method finds that mode and the grid's edges hold nothing.
 */
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import { inverse2, logNormalCdf, normalCdf, normalHazard } from './normal.ts';
import type { Sym2 } from './normal.ts';

export interface Observation {
  /** Geometric shift of the cuff centre at this setting, mm lateral of neutral. */
  readonly shiftMm: Mm;
  /** Bias read; for a bound, the bias that the true one is at least or at most. */
  readonly biasMm: Mm;
  /** Standard deviation of the bias read: σ√2 for one reading of two gaps. */
  readonly sdMm: Mm;
  readonly bound: 'exact' | 'at-least' | 'at-most';
}

export interface Prior {
  /** Response of this boot before its own readings. */
  readonly response: { readonly k: number; readonly sd: number };
  /** The leg's place from other boots or seasons; null: flat. */
  readonly leg: { readonly mLegMm: Mm; readonly sdMm: Mm } | null;
}

/** The bias at one setting, true and not read, with the response beside it. */
export interface BiasEstimate {
  readonly biasMm: Mm;
  readonly sdMm: Mm;
  readonly response: { readonly k: number; readonly sd: number };
  /** Covariance of bias and response, mm. */
  readonly covariance: number;
  /** Probability that |bias| is at most `toleranceMm`, 0 to 1. */
  chanceWithin(toleranceMm: Mm): number;
}

export interface Estimate {
  /** Everything about the bias at one setting. */
  at(shiftMm: Mm): BiasEstimate;
  /** The most likely bias at one setting: without bounds the mean, beside them close to it, and cheap. */
  likeliest(shiftMm: Mm): Mm;
}

type Point = readonly [m: number, k: number];

/** Log density of the bounds, its gradient and curvature at one point. */
function bounds(observations: readonly Observation[], [m, k]: Point) {
  let log = 0;
  const gradient = [0, 0];
  const curvature: Sym2 = [0, 0, 0];
  for (const o of observations) {
    if (o.bound === 'exact') continue;
    const sign = o.bound === 'at-least' ? 1 : -1;
    const z = (sign * (2 * (m - k * o.shiftMm) - o.biasMm)) / o.sdMm;
    log += logNormalCdf(z);
    const hazard = normalHazard(z);
    const slope = [(sign * 2) / o.sdMm, (-sign * 2 * o.shiftMm) / o.sdMm];
    const bend = hazard * (hazard + z);
    gradient[0]! += hazard * slope[0]!;
    gradient[1]! += hazard * slope[1]!;
    curvature[0] += bend * slope[0]! * slope[0]!;
    curvature[1] += bend * slope[0]! * slope[1]!;
    curvature[2] += bend * slope[1]! * slope[1]!;
  }
  return { log, gradient, curvature };
}

/** Normal equations of the prior and the exact readings: precision matrix and mean of (m, k). */
function linear(prior: Prior, observations: readonly Observation[]) {
  const kWeight = 1 / prior.response.sd ** 2;
  const mWeight = prior.leg ? 1 / prior.leg.sdMm ** 2 : 0;
  const precision: Sym2 = [mWeight, 0, kWeight];
  const right = [mWeight * (prior.leg?.mLegMm ?? 0), kWeight * prior.response.k];
  for (const o of observations) {
    if (o.bound !== 'exact') continue;
    const weight = 1 / o.sdMm ** 2;
    precision[0] += 4 * weight;
    precision[1] -= 4 * weight * o.shiftMm;
    precision[2] += 4 * weight * o.shiftMm ** 2;
    right[0]! += 2 * weight * o.biasMm;
    right[1]! -= 2 * weight * o.shiftMm * o.biasMm;
  }
  const [a, b, c] = inverse2(precision);
  const mean: Point = [a * right[0]! + b * right[1]!, b * right[0]! + c * right[1]!];
  return { precision, mean };
}

/** Newton's method with halving to the posterior's mode. Without bounds it is there at once. */
function modeOf(prior: Prior, observations: readonly Observation[]) {
  const { precision, mean } = linear(prior, observations);
  const [p, q, r] = precision;
  const logDensity = (at: Point): number => {
    const [dm, dk] = [at[0] - mean[0], at[1] - mean[1]];
    return -(p * dm * dm + 2 * q * dm * dk + r * dk * dk) / 2 + bounds(observations, at).log;
  };
  let at: Point = mean;
  for (let round = 0; round < 60; round++) {
    const { gradient, curvature } = bounds(observations, at);
    const [dm, dk] = [at[0] - mean[0], at[1] - mean[1]];
    const g = [gradient[0]! - p * dm - q * dk, gradient[1]! - q * dm - r * dk];
    const [a, b, c] = inverse2([p + curvature[0], q + curvature[1], r + curvature[2]]);
    const step = [a * g[0]! + b * g[1]!, b * g[0]! + c * g[1]!];
    if (Math.abs(step[0]!) < 1e-10 && Math.abs(step[1]!) < 1e-12) break;
    let share = 1;
    const here = logDensity(at);
    let to: Point = [at[0] + step[0]!, at[1] + step[1]!];
    while (share > 1e-6 && logDensity(to) < here) {
      share /= 2;
      to = [at[0] + share * step[0]!, at[1] + share * step[1]!];
    }
    at = to;
  }
  const { curvature } = bounds(observations, at);
  const covariance = inverse2([p + curvature[0], q + curvature[1], r + curvature[2]]);
  return { at, covariance, logDensity };
}

/** Covariance of (D, k) at a shift, from that of (m, k): D = 2m − 2xk. */
const towardBias = ([mm_, mk, kk]: Sym2, x: number): Sym2 => [
  4 * (mm_ - 2 * x * mk + x * x * kk),
  2 * (mk - x * kk),
  kk,
];

function fromNormal([m, k]: Point, covariance: Sym2, x: number): BiasEstimate {
  const mean = 2 * (m - x * k);
  const [dd, dk, kk] = towardBias(covariance, x);
  const sd = Math.sqrt(dd);
  return {
    biasMm: mm(mean),
    sdMm: mm(sd),
    response: { k, sd: Math.sqrt(kk) },
    covariance: dk,
    chanceWithin: (tolerance) => normalCdf((tolerance - mean) / sd) - normalCdf((-tolerance - mean) / sd),
  };
}

/**
 * Grid of the whitened posterior, in its standard deviations. For a smooth density a plain sum over steps of a half is
 * exact to 1e-30; bias has the finer step for the chances that are read off its distribution.
 */
const REACH = 7;
const BIAS_STEP = 0.125;
const RESPONSE_STEP = 0.5;

/** Moments and chances of (D, k) on a grid whose first axis is D, so that a chance is a one-dimensional sum. */
function fromGrid(mode: ReturnType<typeof modeOf>, x: number): BiasEstimate {
  const [dd, dk, kk] = towardBias(mode.covariance, x);
  const d0 = 2 * (mode.at[0] - x * mode.at[1]);
  const sdD = Math.sqrt(dd);
  const [slope, rest] = [dk / sdD, Math.sqrt(Math.max(kk - (dk * dk) / dd, 1e-18))];
  const peak = mode.logDensity(mode.at);
  const rows: { d: number; weight: number; k: number; kk: number }[] = [];
  for (let u = -REACH; u <= REACH; u += BIAS_STEP) {
    const row = { d: d0 + sdD * u, weight: 0, k: 0, kk: 0 };
    for (let v = -REACH; v <= REACH; v += RESPONSE_STEP) {
      const k = mode.at[1] + slope * u + rest * v;
      const weight = Math.exp(mode.logDensity([row.d / 2 + x * k, k]) - peak);
      row.weight += weight;
      row.k += weight * k;
      row.kk += weight * k * k;
    }
    rows.push(row);
  }
  const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((total, row) => total + of(row), 0);
  const total = sum((r) => r.weight);
  const mean = sum((r) => r.weight * r.d) / total;
  const k = sum((r) => r.k) / total;
  const below = (limit: number): number => {
    // The row whose cell holds the limit counts by the share below it.
    const cell = sdD * BIAS_STEP;
    return sum((r) => r.weight * Math.min(1, Math.max(0, (limit - r.d) / cell + 0.5))) / total;
  };
  return {
    biasMm: mm(mean),
    sdMm: mm(Math.sqrt(Math.max(0, sum((r) => r.weight * (r.d - mean) ** 2) / total))),
    response: { k, sd: Math.sqrt(Math.max(0, sum((r) => r.kk) / total - k * k)) },
    covariance: sum((r) => (r.d - mean) * (r.k - k * r.weight)) / total,
    chanceWithin: (tolerance) => Math.max(0, below(tolerance) - below(-tolerance)),
  };
}

/**
 * The joint posterior of leg and response. Null when only bounds are known: they say at least or at most, and
 * no more.
 */
export function estimate(prior: Prior, observations: readonly Observation[]): Estimate | null {
  if (!prior.leg && !observations.some((o) => o.bound === 'exact')) return null;
  const mode = modeOf(prior, observations);
  const bounded = observations.some((o) => o.bound !== 'exact');
  return {
    at: (shiftMm) => (bounded ? fromGrid(mode, shiftMm) : fromNormal(mode.at, mode.covariance, shiftMm)),
    likeliest: (shiftMm) => mm(2 * (mode.at[0] - shiftMm * mode.at[1])),
  };
}

/**
 * Response of one boot from pairs of predicted and observed changes of bias, by the conjugate update:
 * `1/τ'² = 1/τ² + Σx²/s²`, `k' = τ'²·(k/τ² + Σxy/s²)`, with s² = 4σ² for the change between two readings of
 * two gaps each. Pairs that share a reading are not independent; give each reading to one pair.
 */
export function learnedResponse(
  prior: { readonly k: number; readonly sd: number },
  pairs: readonly { readonly predictedMm: Mm; readonly observedMm: Mm }[],
  gapErrorMm: Mm,
): { readonly k: number; readonly sd: number } {
  const weight = 1 / (4 * gapErrorMm ** 2);
  let precision = 1 / prior.sd ** 2;
  let sum = prior.k * precision;
  for (const { predictedMm, observedMm } of pairs) {
    precision += weight * predictedMm ** 2;
    sum += weight * predictedMm * observedMm;
  }
  return { k: sum / precision, sd: Math.sqrt(1 / precision) };
}
