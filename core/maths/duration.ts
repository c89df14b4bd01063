/** How long a step of work takes: an estimate with its spread, in minutes of working time. */
import { normalCdf } from './normal.ts';
import { normalQuantile } from './quantile.ts';
import { meanOf, squaresAbout } from './repeatability.ts';

export interface LogNormal {
  readonly kind: 'lognormal';
  /** > 0. */
  readonly medianMin: number;
  /** Standard deviation of the natural logarithm, ≥ 0: 0.5 puts one in six over 1.65 times the median. */
  readonly spread: number;
}

export interface Quantiles {
  readonly kind: 'quantiles';
  /** At least one, both ascending: with chance p, 0 to 1, it takes at most this long. Straight between, level beyond. */
  readonly points: readonly { readonly p: number; readonly minutes: number }[];
}

export type Duration = LogNormal | Quantiles;

/** Along the points, from one of their fields to the other. */
function along(points: Quantiles['points'], from: 'p' | 'minutes', to: 'p' | 'minutes', at: number): number {
  const after = points.findIndex((point) => point[from] >= at);
  if (after === 0) return points[0]![to];
  if (after < 0) return points.at(-1)![to];
  const [a, b] = [points[after - 1]!, points[after]!];
  return a[to] + ((b[to] - a[to]) * (at - a[from])) / (b[from] - a[from]);
}

/** The minutes that it takes at most with chance p, 0 < p < 1. Median 20, spread 0.5: 0.8 gives 30.46. */
export function minutesAt(duration: Duration, p: number): number {
  switch (duration.kind) {
    case 'lognormal':
      return duration.medianMin * Math.exp(duration.spread * normalQuantile(p));
    case 'quantiles':
      return along(duration.points, 'p', 'minutes', p);
    default:
      return duration satisfies never;
  }
}

/** The chance that it takes at most so many minutes. */
function chanceWithin(duration: Duration, minutes: number): number {
  switch (duration.kind) {
    case 'lognormal': {
      if (minutes <= 0) return 0;
      const over = Math.log(minutes / duration.medianMin);
      return duration.spread > 0 ? normalCdf(over / duration.spread) : over >= 0 ? 1 : 0;
    }
    case 'quantiles': {
      const { points } = duration;
      if (minutes < points[0]!.minutes) return 0;
      return minutes >= points.at(-1)!.minutes ? 1 : along(points, 'minutes', 'p', minutes);
    }
    default:
      return duration satisfies never;
  }
}

/** The longest that counts: what has run over every chance is due at any moment. */
const SURE = 1 - 1e-9;

/**
 * Minutes still to go with chance p once it has run for `elapsedMin`: the distribution of what is left of it. One
 * that ran longer than was thought possible has 0 to go.
 */
export function minutesLeft(duration: Duration, elapsedMin: number, p: number): number {
  if (elapsedMin <= 0) return minutesAt(duration, p);
  const gone = chanceWithin(duration, elapsedMin);
  if (gone >= SURE) return 0;
  return Math.max(0, minutesAt(duration, Math.min(SURE, gone + p * (1 - gone))) - elapsedMin);
}

/** What is thought of a step before the shop has done it: a duration that counts as so many seen. */
export interface DurationPrior {
  readonly medianMin: number;
  readonly spread: number;
  /** How many past durations it is worth, > 0. */
  readonly weight: number;
}

/**
 * A step's duration from the shop's own past ones, over 0 minutes each, and a prior until there are enough. The
 * logarithms are normal; mean and variance have the conjugate prior, so that the prior counts as `weight` seen
 * durations: `μ' = (w·μ + Σ log x)/(w + n)`, `(w + n)·σ'² = w·σ² + Σ(log x − x̄)² + w·n/(w + n)·(x̄ − μ)²`. The
 * spread of the next one holds the mean's own uncertainty too: `σ'²·(1 + 1/(w + n))`.
 * Source: normal-inverse-chi-square update, Gelman et al., Bayesian Data Analysis, ch. 3 [from memory].
 */
export function learnedDuration(pastMin: readonly number[], prior: DurationPrior): LogNormal {
  const logs = pastMin.map(Math.log);
  const n = logs.length;
  const count = prior.weight + n;
  const before = Math.log(prior.medianMin);
  const mean = n > 0 ? meanOf(logs) : before;
  const about = n > 0 ? squaresAbout(logs) : 0;
  const squares =
    prior.weight * prior.spread ** 2 + about + ((prior.weight * n) / count) * (mean - before) ** 2;
  return {
    kind: 'lognormal',
    medianMin: Math.exp((prior.weight * before + n * mean) / count),
    spread: Math.sqrt((squares / count) * (1 + 1 / count)),
  };
}
