/** Quantiles of the normal distribution; `spread-quantile.ts` has those that a few readings need. */

/** Coefficients of a rational function, constant term first. */
const ratio = (x: number, over: readonly number[], under: readonly number[]): number => {
  const at = (c: readonly number[]) => c.reduceRight((sum, value) => sum * x + value, 0);
  return at(over) / at(under);
};

/**
 * Φ⁻¹(p) for 0 < p < 1, to about 7 digits. 0.975 gives 1.959964.
 * Source: Wichura, Algorithm AS 241 (PPND7), Appl Stat 1988;37:477–484.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425)
    return (
      q *
      ratio(
        0.180625 - q * q,
        [3.3871327179, 50.434271938, 159.29113202, 59.10937472],
        [1, 17.895169469, 78.757757664, 67.1875636],
      )
    );
  const r = Math.sqrt(-Math.log(Math.min(p, 1 - p)));
  const tail =
    r <= 5
      ? ratio(
          r - 1.6,
          [1.4234372777, 2.75681539, 1.3067284816, 0.17023821103],
          [1, 0.7370016425, 0.12021132975],
        )
      : ratio(
          r - 5,
          [6.657905115, 3.081226386, 0.42868294337, 0.017337203997],
          [1, 0.24197894225, 0.012258202635],
        );
  return q < 0 ? -tail : tail;
}

/** Deviations of a normal on either side of its mean that hold nine tenths of it: 1.645. */
export const Z90 = normalQuantile(0.95);
