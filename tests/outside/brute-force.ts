/**
 * The joint posterior of leg and response by plain summing over a fine grid, with nothing clever about it: no mode,
 * no whitening, and a normal integral of its own.
 */
import type { Observation, Prior } from '../../core/maths/estimate.ts';

const SPACING = 0.01;
const LOWEST = -60;
const HIGHEST = 12;

/**
 * log Φ from the integral itself: Φ(z) = φ(z)·∫₀^∞ exp(zt − t²/2) dt by Simpson's rule, where the integrand falls
 * at once; the tail's complement above.
 */
function logPhi(z: number): number {
  if (z > 0) return Math.log1p(-Math.exp(logPhi(-z)));
  const reach = Math.min(12, 45 / Math.max(1, -z));
  const pieces = 400;
  const step = reach / pieces;
  let sum = 0;
  for (let i = 0; i <= pieces; i++) {
    const t = i * step;
    sum += Math.exp(z * t - (t * t) / 2) * (i === 0 || i === pieces ? 1 : i % 2 ? 4 : 2);
  }
  return Math.log((sum * step) / 3) - (z * z) / 2 - Math.log(2 * Math.PI) / 2;
}

const table = Array.from({ length: Math.round((HIGHEST - LOWEST) / SPACING) + 2 }, (_, i) =>
  logPhi(LOWEST + i * SPACING),
);

function looked(z: number): number {
  if (z >= HIGHEST) return 0;
  const at = Math.max(0, (z - LOWEST) / SPACING);
  const low = Math.floor(at);
  return table[low]! + (at - low) * (table[low + 1]! - table[low]!);
}

export interface Summed {
  readonly bias: number;
  readonly sd: number;
  readonly k: number;
  readonly kSd: number;
  readonly covariance: number;
  readonly within: number;
}

export interface Grid {
  readonly m: readonly [low: number, high: number, step: number];
  readonly k: readonly [low: number, high: number, step: number];
}

export function summed(
  prior: Prior,
  observations: readonly Observation[],
  shift: number,
  tolerance: number,
  { m: [mLow, mHigh, mStep], k: [kLow, kHigh, kStep] }: Grid,
): Summed {
  const cells: { d: number; k: number; log: number }[] = [];
  let peak = -Infinity;
  for (let m = mLow; m <= mHigh; m += mStep)
    for (let k = kLow; k <= kHigh; k += kStep) {
      let log = -(((k - prior.response.k) / prior.response.sd) ** 2) / 2;
      if (prior.leg) log -= ((m - prior.leg.mLegMm) / prior.leg.sdMm) ** 2 / 2;
      for (const o of observations) {
        const z = (2 * (m - k * o.shiftMm) - o.biasMm) / o.sdMm;
        log += o.bound === 'exact' ? -(z * z) / 2 : looked(o.bound === 'at-least' ? z : -z);
      }
      peak = Math.max(peak, log);
      if (log > peak - 60) cells.push({ d: 2 * (m - k * shift), k, log });
    }
  let [weight, d, dd, k, kk, dk, within] = [0, 0, 0, 0, 0, 0, 0];
  const cell = 2 * mStep;
  for (const c of cells) {
    const w = Math.exp(c.log - peak);
    weight += w;
    d += w * c.d;
    dd += w * c.d * c.d;
    k += w * c.k;
    kk += w * c.k * c.k;
    dk += w * c.d * c.k;
    // A cell is a strip of bias; the share of it inside counts.
    const inside = Math.min(c.d + cell / 2, tolerance) - Math.max(c.d - cell / 2, -tolerance);
    within += (w * Math.max(0, inside)) / cell;
  }
  const [bias, kMean] = [d / weight, k / weight];
  return {
    bias,
    sd: Math.sqrt(dd / weight - bias * bias),
    k: kMean,
    kSd: Math.sqrt(kk / weight - kMean * kMean),
    covariance: dk / weight - bias * kMean,
    within: within / weight,
  };
}
