/** The standard normal distribution, and the two-by-two symmetric matrix: all the linear algebra the estimate needs. */

/** A symmetric matrix [[a, b], [b, c]] as [a, b, c]. */
export type Sym2 = [a: number, b: number, c: number];

/** Inverse of a positive definite symmetric matrix. */
export function inverse2([a, b, c]: Sym2): Sym2 {
  const determinant = a * c - b * b;
  return [c / determinant, -b / determinant, a / determinant];
}

/**
 * Complementary error function for z ≥ 0, to about 14 digits of itself even far out, where its logarithm is
 * needed: the all-positive series below 2, the continued fraction above.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.6 and 7.1.14.
 */
function erfc(z: number): number {
  const scale = Math.exp(-z * z) / Math.sqrt(Math.PI);
  if (z < 2) {
    let term = 2 * z;
    let sum = 0;
    for (let n = 1; term > sum * 1e-17; n++) {
      sum += term;
      term *= (2 * z * z) / (2 * n + 1);
    }
    return 1 - scale * sum;
  }
  let tail = z;
  for (let n = 60; n > 0; n--) tail = z + n / 2 / tail;
  return scale / tail;
}

/** Φ(z), 0 to 1. Φ(0) = 0.5, Φ(1.96) = 0.975. */
export function normalCdf(z: number): number {
  const tail = erfc(Math.abs(z) / Math.SQRT2) / 2;
  return z > 0 ? 1 - tail : tail;
}

/** log Φ(z); far below 0, where Φ vanishes, by its leading term −z²/2 − log(−z·√2π). */
export const logNormalCdf = (z: number): number =>
  z < -25 ? (-z * z) / 2 - Math.log(-z * Math.sqrt(2 * Math.PI)) : Math.log(normalCdf(z));

/**
 * φ(z)/Φ(z): the slope of log Φ. Far below 0, where both vanish, by its series −z − 1/z + 2/z³, whose second term
 * keeps the curvature that Newton's method needs.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.2.12.
 */
export function normalHazard(z: number): number {
  if (z < -25) return -z - 1 / z + 2 / z ** 3;
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / normalCdf(z);
}
