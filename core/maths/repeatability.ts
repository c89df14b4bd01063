/**
 * How repeatable a reading is: within one technician, between two, and what that makes of a change.
 *
 * Readings of any unit; the results are in the same one. A table has one row for each thing read and its repeated
 * readings in it. Null where there are too few of them to say anything.
 */
import { chiSquareQuantile, studentQuantile } from './spread-quantile.ts';

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** `over/under`; null where that divides by nothing, or nearly so. */
export function quotient(over: number, under: number): number | null {
  const value = over / under;
  return Number.isFinite(value) ? value : null;
}

/** Sum of squares about the mean; exactly 0 for equal values, which a float's mean would miss by a hair. */
export function squaresAbout(values: readonly number[]): number {
  const mean = meanOf(values);
  const sum = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  const size = values.reduce((total, value) => total + value ** 2, 0);
  return sum > size * 1e-26 ? sum : 0;
}

/** For n = 2 to 10 readings. Source: ISO 5725-6:1994, table 1, from memory; the tests work it out again. */
const CRITICAL_RANGE = [2.8, 3.3, 3.6, 3.9, 4, 4.2, 4.3, 4.4, 4.5] as const;

/**
 * How many standard deviations the least and the greatest of `n` ≥ 2 readings of one thing lie apart at most, in 95 % of
 * cases; beyond ten readings as of ten. 2: 2.8.
 */
export const criticalRange = (n: number): number =>
  CRITICAL_RANGE[Math.min(n - 2, CRITICAL_RANGE.length - 1)]!;

/** A standard deviation with the degrees of freedom that it rests on. */
export interface Spread {
  readonly sd: number;
  readonly df: number;
}

/**
 * Within-subject standard deviation: the root of the residual mean square of a one-way analysis, rows of unequal
 * length allowed. For pairs it is √(Σd²/2n).
 * Source: Bland & Altman, Measurement error, BMJ 1996;313:744.
 */
export function withinSubject(rows: readonly (readonly number[])[]): Spread | null {
  const df = rows.reduce((sum, row) => sum + Math.max(0, row.length - 1), 0);
  if (df < 1) return null;
  const squares = rows.reduce((sum, row) => sum + (row.length > 0 ? squaresAbout(row) : 0), 0);
  return { sd: Math.sqrt(squares / df), df };
}

/** Two readings of one thing differ by less than this in 95 % of cases: 1.96·√2·s_w = 2.77·s_w. */
export const repeatabilityCoefficient = (withinSd: number): number => 1.96 * Math.SQRT2 * withinSd;

/**
 * What a standard deviation may truly be: `s·√(ν/χ²)`, exact for normal errors. `level` between 0 and 1. 1.5 with
 * 10 degrees of freedom at 0.95: 1.048 to 2.632.
 */
export function sdInterval(
  { sd, df }: Spread,
  level = 0.95,
): { readonly low: number; readonly high: number } {
  const tail = (1 - level) / 2;
  const at = (p: number) => sd * Math.sqrt(df / chiSquareQuantile(p, df));
  return { low: at(1 - tail), high: at(tail) };
}

/** Standard error of measurement, `SD·√(1 − ICC)`. Source: Weir, J Strength Cond Res 2005;19:231–240. 10 and 0.91: 3. */
export const standardError = (sd: number, icc: number): number => sd * Math.sqrt(Math.max(0, 1 - icc));

/** Least change that is no chance, at 95 %: `SEM·1.96·√2` (Weir 2005). 3: 8.316. */
export const minimalChange = (sem: number): number => repeatabilityCoefficient(sem);

/** Intraclass correlations of single readings, by Shrout and Fleiss' names; negative ones are left as they are. */
export interface Icc {
  /** ICC(1,1): repeats are interchangeable. One-way random effects. */
  readonly oneWay: number;
  /**
   * ICC(2,1), absolute agreement: each column is one technician of many. Two-way random effects. Null where readings
   * that only cross leave nothing to divide by, as in 0, 1.5 against 1.5, 0.
   */
  readonly agreement: number | null;
  /**
   * ICC(3,1), consistency: these technicians and no others, whose fixed differences do not count. Two-way mixed
   * effects. Null where nothing but those differences varies.
   */
  readonly consistency: number | null;
}

/**
 * From a table of n ≥ 2 rows and k ≥ 2 columns, all filled. Null for fewer, for uneven rows, and where all readings
 * are equal.
 * Source: Shrout & Fleiss, Psychol Bull 1979;86:420–428.
 */
export function icc(rows: readonly (readonly number[])[]): Icc | null {
  const [n, k] = [rows.length, rows[0]?.length ?? 0];
  if (n < 2 || k < 2 || rows.some((row) => row.length !== k)) return null;
  const total = squaresAbout(rows.flat());
  if (total === 0) return null;
  const between = k * squaresAbout(rows.map(meanOf));
  const columns = n * squaresAbout(rows[0]!.map((_, j) => meanOf(rows.map((row) => row[j]!))));
  const msRow = between / (n - 1);
  const msWithin = Math.max(0, total - between) / (n * (k - 1));
  const msColumn = columns / (k - 1);
  const msError = Math.max(0, total - between - columns) / ((n - 1) * (k - 1));
  return {
    oneWay: (msRow - msWithin) / (msRow + (k - 1) * msWithin),
    agreement: quotient(msRow - msError, msRow + (k - 1) * msError + (k * (msColumn - msError)) / n),
    consistency: quotient(msRow - msError, msRow + (k - 1) * msError),
  };
}

/** A number with its confidence interval. */
export interface Estimated {
  readonly is: number;
  readonly low: number;
  readonly high: number;
}

export interface Agreement {
  readonly pairs: number;
  /** Mean of first − second: how much higher the first reads. */
  readonly mean: Estimated;
  /** Standard deviation of the differences. */
  readonly sd: number;
  /** Limits of agreement: most differences lie between them. */
  readonly lower: Estimated;
  readonly upper: Estimated;
}

/**
 * Limits of agreement between two technicians who read the same things, `mean ± times·s`, with confidence intervals
 * by Student's t: the mean's standard error is s/√n, a limit's √(3·s²/n). Null for fewer than two pairs.
 * Source: Bland & Altman, Lancet 1986;327:307–310, which takes `times` = 2; 1.96 since their 1999 paper.
 */
export function agreement(
  pairs: readonly (readonly [first: number, second: number])[],
  times = 1.96,
  level = 0.95,
): Agreement | null {
  const n = pairs.length;
  if (n < 2) return null;
  const differences = pairs.map(([first, second]) => first - second);
  const mean = meanOf(differences);
  const sd = Math.sqrt(squaresAbout(differences) / (n - 1));
  const t = studentQuantile((1 + level) / 2, n - 1);
  const around = (is: number, se: number): Estimated => ({ is, low: is - t * se, high: is + t * se });
  const seLimit = Math.sqrt((3 * sd ** 2) / n);
  return {
    pairs: n,
    mean: around(mean, sd / Math.sqrt(n)),
    sd,
    lower: around(mean - times * sd, seLimit),
    upper: around(mean + times * sd, seLimit),
  };
}
