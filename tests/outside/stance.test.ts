/**
 * The knee line against general-purpose linear algebra and regression, and the rigid leg against rotation itself.
 */
import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { cantFor, kneeLine, slopePrior } from '../../core/maths/stance.ts';
import type { StanceReading } from '../../core/maths/stance.ts';
import { deg, mm } from '../../core/units.ts';

const read = (wedge: number, offset: number): StanceReading => ({
  wedgeDeg: deg(wedge),
  offsetMm: mm(offset),
});
const anyReadings = fc.array(
  fc.tuple(fc.double({ min: -4, max: 4, noNaN: true }), fc.double({ min: -60, max: 60, noNaN: true })),
  { minLength: 1, maxLength: 10 },
);

describe('the knee line', () => {
  it('is generalised least squares with the prior as one more observation (ml-matrix)', () => {
    fc.assert(
      fc.property(anyReadings, fc.double({ min: 1, max: 10, noNaN: true }), (pairs, error) => {
        const prior = slopePrior(mm(468), 0.75);
        const line = kneeLine(
          pairs.map(([w, o]) => read(w, o)),
          prior,
          mm(error),
        )!;
        const design = new Matrix([...pairs.map(([w]) => [1, w]), [0, 1]]);
        const seen = Matrix.columnVector([...pairs.map(([, o]) => o), prior.mean]);
        const weights = Matrix.diag([...pairs.map(() => error ** -2), prior.sd ** -2]);
        const normal = design.transpose().mmul(weights);
        const covariance = inverse(normal.mmul(design));
        const mean = covariance.mmul(normal.mmul(seen));
        expect(line.offsetMm).toBeCloseTo(mean.get(0, 0), 7);
        expect(line.slopeMmPerDeg).toBeCloseTo(mean.get(1, 0), 7);
        expect(line.covariance[0]).toBeCloseTo(covariance.get(0, 0), 7);
        expect(line.covariance[1]).toBeCloseTo(covariance.get(0, 1), 7);
        expect(line.covariance[2]).toBeCloseTo(covariance.get(1, 1), 7);
      }),
    );
  });

  it('with a prior that knows nothing is ordinary regression (simple-statistics)', () => {
    const pairs: [number, number][] = [
      [0, 6],
      [1, 10.5],
      [-1.5, -2],
      [2, 19],
      [0, 4],
    ];
    const { m, b } = linearRegression(pairs);
    const line = kneeLine(
      pairs.map(([w, o]) => read(w, o)),
      { mean: 0, sd: 1e6 },
      mm(5),
    )!;
    expect(line.slopeMmPerDeg).toBeCloseTo(m, 6);
    expect(line.offsetMm).toBeCloseTo(b, 6);
  });
});

describe('the rigid leg (q = 1)', () => {
  it.each([
    // rotation about the sole: lateral movement for a tilt, H·tan θ (exact maths; heights near ANSUR II means)
    [468, 1, 8.169],
    [449, 1, 7.837],
    [500, 1, 8.728],
  ])('at %d mm moves the knee with %d° by %d mm (exact maths)', (height, angle, moved) => {
    expect(slopePrior(mm(height), 1).mean * angle).toBeCloseTo(moved, 3);
  });

  it.each([
    // H·sin θ, the true rotation: the straight line leaves it by less than a tenth of a millimetre up to 3°
    [500, 1, 8.726],
    [500, 1.5, 13.088],
    [500, 2, 17.45],
    [500, 3, 26.168],
  ])('at %d mm and %d° differs from the exact rotation, %d mm, by under 0.05 mm', (height, angle, exact) => {
    expect(Math.abs(slopePrior(mm(height), 1).mean * angle - exact)).toBeLessThan(0.05);
  });

  it.each([
    // offset, height, angle that undoes it: atan(offset/height) (exact maths)
    [10, 468, 1.2241],
    [5, 468, 0.6121],
    [20, 500, 2.2906],
  ])('an offset of %d mm at %d mm is undone by %d°, the line within 0.002°', (offset, height, angle) => {
    const line = kneeLine([read(0, offset)], slopePrior(mm(height), 1), mm(5))!;
    expect(Math.abs(-cantFor(line, mm(0)).cantDeg - angle)).toBeLessThan(0.002);
  });
});
