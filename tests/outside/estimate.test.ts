/**
 * The response and the joint estimate against general-purpose linear algebra (ml-matrix: weighted least squares,
 * prior as one more row) and, where presses bound it, against brute-force summing of the posterior.
 */
import { Matrix, inverse, solve } from 'ml-matrix';
import { normalCdf } from '../../core/maths/normal.ts';
import { describe, expect, it } from 'vitest';
import { mm } from '../../core/index.ts';
import { estimate, learnedResponse } from '../../core/maths/estimate.ts';
import type { Observation, Prior } from '../../core/maths/estimate.ts';
import { summed } from './brute-force.ts';
import type { Grid } from './brute-force.ts';
import { randomFrom } from './random.ts';
import type { Random } from './random.ts';

/** Rows of equal weight → solution and covariance, by QR and by the normal matrix's inverse. */
function leastSquares(rows: readonly (readonly number[])[], right: readonly number[]) {
  const a = new Matrix(rows.map((row) => [...row]));
  return {
    solution: solve(a, Matrix.columnVector([...right])).to1DArray(),
    covariance: inverse(a.transpose().mmul(a)),
  };
}

const observed = (
  shift: number,
  bias: number,
  sd = 1.5 * Math.SQRT2,
  bound: Observation['bound'] = 'exact',
): Observation => ({ shiftMm: mm(shift), biasMm: mm(bias), sdMm: mm(sd), bound });

describe('learned response', () => {
  it('is weighted least squares with the prior as one more row, on 200 random histories', () => {
    const random = randomFrom(41);
    for (let trial = 0; trial < 200; trial++) {
      const prior = { k: random.between(0.6, 1.4), sd: random.between(0.05, 0.4) };
      const sigma = random.between(0.5, 3);
      const pairs = Array.from({ length: Math.floor(random.between(0, 9)) }, () => ({
        predictedMm: mm(random.between(-14, 14)),
        observedMm: mm(random.between(-14, 14)),
      }));
      const { solution, covariance } = leastSquares(
        [[1 / prior.sd], ...pairs.map((p) => [p.predictedMm / (2 * sigma)])],
        [prior.k / prior.sd, ...pairs.map((p) => p.observedMm / (2 * sigma))],
      );
      const found = learnedResponse(prior, pairs, mm(sigma));
      expect(found.k).toBeCloseTo(solution[0]!, 9);
      expect(found.sd).toBeCloseTo(Math.sqrt(covariance.get(0, 0)), 9);
    }
  });
});

describe('joint estimate without a press', () => {
  const someSession = (random: Random): { prior: Prior; observations: Observation[] } => ({
    prior: {
      response: { k: random.between(0.7, 1.3), sd: random.between(0.05, 0.4) },
      leg:
        random.uniform() < 0.5
          ? null
          : { mLegMm: mm(random.between(-10, 10)), sdMm: mm(random.between(0.5, 8)) },
    },
    observations: Array.from({ length: 1 + Math.floor(random.between(0, 7)) }, () =>
      observed(random.between(-15, 15), random.between(-20, 20), random.between(0.7, 4)),
    ),
  });

  it('is weighted least squares in place and response, on 300 random sessions', () => {
    const random = randomFrom(7);
    for (let trial = 0; trial < 300; trial++) {
      const { prior, observations } = someSession(random);
      const { response, leg } = prior;
      const { solution, covariance } = leastSquares(
        [
          [0, 1 / response.sd],
          ...(leg ? [[1 / leg.sdMm, 0]] : []),
          ...observations.map((o) => [2 / o.sdMm, (-2 * o.shiftMm) / o.sdMm]),
        ],
        [
          response.k / response.sd,
          ...(leg ? [leg.mLegMm / leg.sdMm] : []),
          ...observations.map((o) => o.biasMm / o.sdMm),
        ],
      );
      const x = random.between(-15, 15);
      const toward = new Matrix([
        [2, -2 * x],
        [0, 1],
      ]);
      const mean = toward.mmul(Matrix.columnVector(solution)).to1DArray();
      const spread = toward.mmul(covariance).mmul(toward.transpose());
      const found = estimate(prior, observations)!.at(mm(x));
      expect(found.biasMm).toBeCloseTo(mean[0]!, 7);
      expect(found.response.k).toBeCloseTo(mean[1]!, 8);
      expect(found.sdMm).toBeCloseTo(Math.sqrt(spread.get(0, 0)), 7);
      expect(found.response.sd).toBeCloseTo(Math.sqrt(spread.get(1, 1)), 8);
      expect(found.covariance).toBeCloseTo(spread.get(0, 1), 7);
    }
  });

  it('with one reading, is that reading: bias as read, response as before, deviation σ√2', () => {
    const prior = { response: { k: 0.9, sd: 0.2 }, leg: null };
    const found = estimate(prior, [observed(4, 9)])!.at(mm(4));
    expect(found.biasMm).toBeCloseTo(9, 9);
    expect(found.sdMm).toBeCloseTo(1.5 * Math.SQRT2, 9);
    expect(found.response.k).toBeCloseTo(0.9, 9);
    expect(found.response.sd).toBeCloseTo(0.2, 9);
  });

  it('gives the chance of even that counting random draws gives', () => {
    const random = randomFrom(3);
    const prior = { response: { k: 1, sd: 0.2 }, leg: null };
    const found = estimate(prior, [observed(0, 8), observed(3, 3)])!.at(mm(3));
    const draws = 40_000;
    let even = 0;
    for (let i = 0; i < draws; i++) if (Math.abs(random.normal(found.biasMm, found.sdMm)) <= 3) even++;
    const chance = found.chanceWithin(mm(3));
    expect(Math.abs(even / draws - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / draws));
  });
});

describe('joint estimate with presses, against brute-force summing', () => {
  const flat: Prior = { response: { k: 1, sd: 0.2 }, leg: null };
  const wide: Grid = { m: [-45, 45, 0.1], k: [-0.6, 2.6, 0.008] };
  const press = (shift: number, bias: number, side: 'lateral' | 'medial', sd = 1.5 * Math.SQRT2) =>
    observed(shift, bias, sd, side === 'lateral' ? 'at-least' : 'at-most');

  it.each<{ name: string; prior: Prior; seen: Observation[]; at: number; grid?: Grid }>([
    {
      name: 'a press before, a free reading after',
      prior: flat,
      seen: [press(0, 14, 'lateral'), observed(7, 5)],
      at: 7,
    },
    {
      name: 'a free reading before, a press after',
      prior: flat,
      seen: [observed(0, 4), press(-4, -6, 'medial')],
      at: -4,
    },
    {
      name: 'presses on both ends',
      prior: flat,
      seen: [press(0, 12, 'lateral'), press(11, -9, 'medial'), observed(6, 1)],
      at: 6,
    },
    {
      name: 'a bound that says little',
      prior: flat,
      seen: [observed(2, 3), press(2, -20, 'lateral')],
      at: 5,
    },
    {
      name: 'a bound that the reading contradicts',
      prior: flat,
      seen: [observed(0, 2), press(0, 9, 'lateral')],
      at: 0,
    },
    {
      name: 'presses alone on a leg known from before',
      prior: { response: { k: 0.9, sd: 0.1 }, leg: { mLegMm: mm(5), sdMm: mm(3) } },
      seen: [press(0, 16, 'lateral')],
      at: 0,
    },
    {
      name: 'six bounds on one side',
      prior: flat,
      seen: [...Array.from({ length: 6 }, (_, i) => press(i, 12 - i, 'lateral')), observed(8, 2)],
      at: 8,
    },
    {
      name: 'fine gauges',
      prior: { response: { k: 1, sd: 0.05 }, leg: null },
      seen: [press(0, 10, 'lateral', 0.4), observed(6, -1.5, 0.4)],
      at: 6,
      grid: { m: [-5, 15, 0.02], k: [0.4, 1.6, 0.002] },
    },
    {
      name: 'a bound thirty deviations off',
      prior: flat,
      seen: [observed(0, -20), press(0, 45, 'lateral')],
      at: 0,
    },
  ])('$name', ({ prior, seen, at, grid = wide }) => {
    const found = estimate(prior, seen)!.at(mm(at));
    const plain = summed(prior, seen, at, 3, grid);
    expect(Math.abs(found.biasMm - plain.bias)).toBeLessThan(0.01);
    expect(Math.abs(found.sdMm - plain.sd)).toBeLessThan(0.01);
    expect(Math.abs(found.response.k - plain.k)).toBeLessThan(0.001);
    expect(Math.abs(found.response.sd - plain.kSd)).toBeLessThan(0.001);
    expect(Math.abs(found.covariance - plain.covariance)).toBeLessThan(0.005);
    expect(Math.abs(found.chanceWithin(mm(3)) - plain.within)).toBeLessThan(0.004);
  });

  it('the grid and the closed form agree where a bound says nothing', () => {
    const exact = [observed(0, 7), observed(4, 1)];
    const [closed, gridded] = [
      estimate(flat, exact)!.at(mm(4)),
      estimate(flat, [...exact, press(4, -60, 'lateral')])!.at(mm(4)),
    ];
    expect(gridded.biasMm).toBeCloseTo(closed.biasMm, 6);
    expect(gridded.sdMm).toBeCloseTo(closed.sdMm, 6);
    expect(gridded.chanceWithin(mm(3))).toBeCloseTo(closed.chanceWithin(mm(3)), 2);
    const z = (3 - closed.biasMm) / closed.sdMm;
    expect(closed.chanceWithin(mm(3))).toBeCloseTo(
      normalCdf(z) - normalCdf((-3 - closed.biasMm) / closed.sdMm),
      12,
    );
  });

  it('bounds alone on an unknown leg give no estimate', () => {
    expect(estimate(flat, [press(0, 12, 'lateral')])).toBeNull();
  });
});
