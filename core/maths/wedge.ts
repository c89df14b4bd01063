/**
 * Which test wedge to try next: the one whose reading narrows the cant most.
 *
 * A reading on wedge δ with error σ changes the covariance C of (k0, r) by a step of rank one,
 * `C' = C − C·a·aᵀ·C / (σ² + aᵀ·C·a)` with a = (1, δ). By propagation the cant δ* varies as the knee's place on it,
 * `gᵀ·C·g / r²` with g = (1, δ*), so this reading takes `(gᵀ·C·a)² / (σ² + aᵀ·C·a)` off it, whatever it will say.
 * The wedge with the most to take off wins.
 *
 * With n flat readings and nothing else the best wedge is δ*·(n + 1), twice the cant after one: farther out tells
 * more of the slope, until what it tells of the slope is no longer about this cant. Where no cant can be given,
 * g = (0, 1): the reading shall then settle the slope.
 */
import { deg, SAME_DEG } from '../units.ts';
import type { Deg } from '../units.ts';
import type { Sym2 } from './normal.ts';
import { placeVariance } from './stance.ts';
import type { Stance, StanceRules } from './stance.ts';

type Weights = readonly [k0: number, r: number];

/** What a reading on one wedge takes off the variance of `g0·k0 + g1·r`, mm². */
function gain([a, b, c]: Sym2, [g0, g1]: Weights, wedgeDeg: number, errorMm: number): number {
  const shared = g0 * (a + b * wedgeDeg) + g1 * (b + c * wedgeDeg);
  return shared ** 2 / (errorMm ** 2 + placeVariance([a, b, c], wedgeDeg));
}

/** Every wedge there is: plate steps within the limit, the thinnest first, each toward the target before its opposite. */
function wedges(rules: StanceRules, toward: number): number[] {
  const most = Math.floor(rules.maxCantDeg / rules.plateStepDeg + SAME_DEG);
  const thin = Array.from({ length: most + 1 }, (_, i) => i * rules.plateStepDeg);
  return thin.flatMap((wedge) => (wedge === 0 ? [0] : [toward * wedge, -toward * wedge]));
}

export interface NextWedge {
  /** 0: stand again on a flat sole. */
  readonly wedgeDeg: Deg;
  /** Standard deviation of the cant expected after that reading; null while no cant can be given. */
  readonly cantSdAfterDeg: Deg | null;
}

/** Null before the first reading, which is flat. Of wedges that tell alike, the thinnest. */
export function nextWedge(stance: Stance, rules: StanceRules): NextWedge | null {
  if (stance.verdict === 'unread') return null;
  const { line } = stance;
  const cant = stance.verdict === 'contradictory' ? null : stance.cantDeg;
  const weights: Weights = cant === null ? [0, 1] : [1, cant];
  let best = 0;
  let most = -1;
  for (const wedge of wedges(rules, rules.targetMm < line.offsetMm ? -1 : 1)) {
    const gained = gain(line.covariance, weights, wedge, rules.errorMm);
    if (gained > most * (1 + 1e-9)) [best, most] = [wedge, gained];
  }
  const left = cant === null ? null : Math.max(0, placeVariance(line.covariance, cant) - most);
  return {
    wedgeDeg: deg(best),
    cantSdAfterDeg: left === null ? null : deg(Math.sqrt(left) / line.slopeMmPerDeg),
  };
}
