/**
 * The normal distribution against printed tables and a general-purpose statistics library (simple-statistics).
 *
 * The values of Abramowitz & Stegun, Handbook of Mathematical Functions, tables 26.1 and 26.2, are from memory;
 * they agree with each other and with the library, which is read.
 */
import { cumulativeStdNormalProbability, errorFunction } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { inverse2, logNormalCdf, normalCdf, normalHazard } from '../../core/maths/normal.ts';
import { Matrix, inverse } from 'ml-matrix';

describe('Φ', () => {
  it.each([
    [0, 0.5],
    [0.5, 0.6914624613],
    [1, 0.8413447461],
    [1.5, 0.9331927987],
    [1.959963985, 0.975],
    [2, 0.9772498681],
    [2.5, 0.9937903347],
    [3, 0.998650102],
  ])('of %d is %d (Abramowitz & Stegun, table 26.1; from memory)', (z, phi) => {
    expect(Math.abs(normalCdf(z) - phi)).toBeLessThan(1e-10);
    expect(Math.abs(normalCdf(-z) - (1 - phi))).toBeLessThan(1e-10);
  });

  it.each([
    [4, 3.167124183e-5],
    [5, 2.866515719e-7],
    [6, 9.865876e-10],
  ])('of −%d is %d, to seven digits of itself (from memory)', (z, tail) => {
    expect(Math.abs(normalCdf(-z) / tail - 1)).toBeLessThan(1e-7);
  });

  it.each([
    [5, 6.54265],
    [10, 23.11805],
    [20, 88.5601],
    // From here on the core takes the leading term alone, good to 1/z² of a natural logarithm.
    [30, 197.30921],
    [50, 544.96634],
  ])('of −%d has −log10 %d (Abramowitz & Stegun, table 26.2; from memory)', (z, minusLog10) => {
    const tolerance = 0.6e-5 + (z > 25 ? 1 / (z * z) / Math.LN10 : 0);
    expect(Math.abs(-logNormalCdf(-z) / Math.LN10 - minusLog10)).toBeLessThan(tolerance);
  });

  it('is the library’s table to its four digits, and its error function to 1.2e-7 (both as it states)', () => {
    for (let z = -3; z <= 3; z += 0.01) {
      const rounded = Math.round(z * 100) / 100;
      expect(Math.abs(normalCdf(rounded) - cumulativeStdNormalProbability(rounded))).toBeLessThan(1e-4);
      expect(Math.abs(normalCdf(z) - (1 + errorFunction(z / Math.SQRT2)) / 2)).toBeLessThan(1.2e-7);
    }
  });

  it('has no step where one way of reckoning takes over from another', () => {
    for (const at of [2 * Math.SQRT2, -2 * Math.SQRT2])
      expect(Math.abs(normalCdf(at + 1e-9) / normalCdf(at - 1e-9) - 1)).toBeLessThan(1e-7);
    expect(Math.abs(logNormalCdf(-25.0000001) - logNormalCdf(-24.9999999))).toBeLessThan(2e-3);
  });
});

describe('φ/Φ', () => {
  it('is the slope of log Φ', () => {
    for (let z = -24; z <= 8; z += 0.37) {
      const slope = (logNormalCdf(z + 1e-4) - logNormalCdf(z - 1e-4)) / 2e-4;
      expect(Math.abs(normalHazard(z) - slope)).toBeLessThan(1e-5 * Math.max(1, slope));
    }
  });
});

describe('the inverse of a symmetric 2 × 2 matrix', () => {
  it.each([[[4, 1, 3]], [[2, -1.9, 2]], [[1e-4, 0, 25]]] as const)('of %j is ml-matrix’s', ([a, b, c]) => {
    const theirs = inverse(
      new Matrix([
        [a, b],
        [b, c],
      ]),
    );
    const ours = inverse2([a, b, c]);
    expect(ours[0]).toBeCloseTo(theirs.get(0, 0), 9);
    expect(ours[1]).toBeCloseTo(theirs.get(0, 1), 9);
    expect(ours[2]).toBeCloseTo(theirs.get(1, 1), 9);
  });
});
