/**
 * The knee line against general-purpose linear algebra and regression, and the rigid leg against rotation itself.
 */
import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { linearRegression } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../core/maths/quantile.ts';
import { randomStream } from '../../core/maths/random.ts';
import { cantFor, cantRange, kneeLine, slopePrior, stance } from '../../core/maths/stance.ts';
import type { StanceReading, StanceRules } from '../../core/maths/stance.ts';
import { nextWedge } from '../../core/maths/wedge.ts';
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

describe('simulated knees: height as ANSUR II men (tibial height 468.2 ± 26.6 mm, computed from public data), slope as the prior, cants to ±2.5°, errors of 5 mm', () => {
  const RULES: StanceRules = {
    errorMm: mm(5),
    targetMm: mm(-4),
    slopeShare: 0.75,
    plateStepDeg: deg(0.5),
    secondLookDeg: deg(2),
    maxCantDeg: deg(3),
  };
  const random = randomStream(20);
  const normal = () => normalQuantile(random());

  /** One knee, read twice on the flat and twice on the wedge that the tool says next; null without an answer. */
  function knee() {
    const height = mm(468.2 + 26.6 * normal());
    const prior = slopePrior(height, RULES.slopeShare);
    // The prior's tail lets one knee in sixty go the other way; none here does.
    const slope = Math.max(0.2, prior.mean + prior.sd * normal());
    const cant = 5 * random() - 2.5;
    const see = (wedge: number) =>
      read(wedge, RULES.targetMm + slope * (wedge - cant) + RULES.errorMm * normal());
    const readings = [see(0), see(0)];
    for (let i = 0; i < 2; i++)
      readings.push(see(nextWedge(stance(readings, height, RULES), RULES)!.wedgeDeg));
    const answer = stance(readings, height, RULES);
    if (!('cantDeg' in answer)) return null;
    const range = cantRange(answer.line, RULES.targetMm, 1.96);
    return {
      inSd: Math.abs(answer.cantDeg - cant) <= 1.96 * answer.cantSdDeg,
      inRange: range !== null && cant >= range.lowDeg && cant <= range.highDeg,
      near: Math.abs(answer.cantDeg - cant) <= 1,
    };
  }

  const knees = Array.from({ length: 6000 }, knee);
  const answered = knees.filter((one) => one !== null);
  const share = (of: 'inSd' | 'inRange' | 'near') =>
    answered.filter((one) => one[of]).length / answered.length;

  it('Fieller’s 95 % set holds the true cant in 92 to 96 % of those that get an answer', () => {
    expect(share('inRange')).toBeGreaterThan(0.92);
    expect(share('inRange')).toBeLessThan(0.96);
  });

  it('1.96 deviations by propagation hold it in 88 to 93 %: less than they say', () => {
    expect(share('inSd')).toBeGreaterThan(0.88);
    expect(share('inSd')).toBeLessThan(0.93);
  });

  it('at most one in ten has no answer, and at least 85 % of the answers are within a degree', () => {
    expect(answered.length / knees.length).toBeGreaterThan(0.9);
    expect(share('near')).toBeGreaterThan(0.85);
  });
});
