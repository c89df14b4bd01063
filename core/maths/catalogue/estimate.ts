/** Calculations of core/maths/estimate and the distributions under it. */
import { z } from 'zod';
import { mmIn, numberIn } from '../../bounds.ts';
import { mm } from '../../units.ts';
import { estimate, learnedResponse } from '../estimate.ts';
import { normalCdf } from '../normal.ts';
import { normalQuantile } from '../quantile.ts';
import { chiSquareQuantile, studentQuantile } from '../spread-quantile.ts';
import { calculation } from './entry.ts';
import type { Calculations } from './entry.ts';
import { biasMm, gapErrorMm, response, responseSd, shiftMm, unitIn } from './fields.ts';

const object = z.strictObject;

const observation = object({
  shiftMm,
  biasMm,
  sdMm: mmIn(0.2, 20),
  bound: z.enum(['exact', 'at-least', 'at-most']).default('exact'),
});
const changeMm = mmIn(-120, 120);

export const estimateCalculations = (): Calculations => ({
  estimate: calculation({
    means: 'Bias of a leg at one setting, and how the boot answers, from all its readings together',
    input: object({
      response: object({ k: response, sd: responseSd }).default({ k: 1, sd: 0.2 }),
      leg: object({ mLegMm: mmIn(-80, 80), sdMm: mmIn(0.01, 100) })
        .nullable()
        .default(null),
      observations: z.array(observation).max(200),
      atShiftMm: shiftMm,
      toleranceMm: mmIn(0, 15).default(mm(3)),
    }),
    gives: {
      biasMm: ['mm', 'mean; null in all: only bounds are known'],
      sdMm: ['mm', 'standard deviation of the true bias'],
      likeliestMm: ['mm', 'most likely bias'],
      'response.k': ['1', 'share of the geometric shift that the boot gives'],
      'response.sd': ['1', 'its standard deviation'],
      covarianceMm: ['mm', 'of bias and response'],
      chanceWithin: ['1', 'chance that |bias| is at most the tolerance'],
    },
    formula: 'D = 2·(m − k·x) + error; normal prior on k; a press multiplies in the chance to lie beyond it',
    source:
      'Bayesian linear model by its normal equations; bounds on a grid; checked by brute force in tests/outside',
    example: {
      input: {
        observations: [
          { shiftMm: 0, biasMm: 8, sdMm: 2 },
          { shiftMm: 4, biasMm: 1, sdMm: 2 },
        ],
        atShiftMm: 4,
      },
      output: {
        biasMm: 0.621,
        sdMm: 1.576,
        likeliestMm: 0.621,
        response: { k: 0.97, sd: 0.174 },
        covarianceMm: -0.121,
        chanceWithin: 0.924,
      },
    },
    run: ({ observations, atShiftMm, toleranceMm, ...prior }) => {
      const found = estimate(prior, observations);
      if (!found) return null;
      const at = found.at(atShiftMm);
      return {
        biasMm: at.biasMm,
        sdMm: at.sdMm,
        likeliestMm: found.likeliest(atShiftMm),
        response: at.response,
        covarianceMm: at.covariance,
        chanceWithin: at.chanceWithin(toleranceMm),
      };
    },
  }),
  learnedResponse: calculation({
    means: 'Response of a boot from predicted and observed changes of bias',
    input: object({
      prior: object({ k: response, sd: responseSd }).default({ k: 1, sd: 0.2 }),
      pairs: z.array(object({ predictedMm: changeMm, observedMm: changeMm })).max(1000),
      gapErrorMm: gapErrorMm.default(mm(1.5)),
    }),
    gives: {
      k: ['1', 'share of the geometric shift that the boot gives'],
      sd: ['1', 'its standard deviation'],
    },
    formula: '1/τ′² = 1/τ² + Σx²/4σ²; k′ = τ′²·(k/τ² + Σxy/4σ²)',
    source: 'conjugate update of a normal mean',
    example: {
      input: { pairs: [{ predictedMm: -6, observedMm: -4.5 }] },
      output: { k: 0.966, sd: 0.186 },
    },
    run: (is) => learnedResponse(is.prior, is.pairs, is.gapErrorMm),
  }),
});

export const normalCalculations = (): Calculations => ({
  normalCdf: calculation({
    means: 'Chance that a standard normal value is at most z',
    input: object({ z: numberIn(-40, 40) }),
    gives: { chance: ['1', '0 to 1'] },
    formula: 'Φ(z) = erfc(−z/√2)/2',
    source: 'Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.6 and 7.1.14',
    example: { input: { z: 1.959964 }, output: { chance: 0.975 } },
    run: (is) => ({ chance: normalCdf(is.z) }),
  }),
});

const p = numberIn(1e-6, 1 - 1e-6);
const df = unitIn(1, 1e6, 'degrees of freedom');

export const quantileCalculations = (): Calculations => ({
  normalQuantile: calculation({
    means: 'The standard normal value under which a share p lies',
    input: object({ p }),
    gives: { z: ['1', ''] },
    formula: 'Φ⁻¹(p)',
    source: 'Wichura, Algorithm AS 241 (PPND7), Appl Stat 1988;37:477–484',
    example: { input: { p: 0.975 }, output: { z: 1.96 } },
    run: (is) => ({ z: normalQuantile(is.p) }),
  }),
});

export const spreadQuantileCalculations = (): Calculations => ({
  chiSquareQuantile: calculation({
    means: 'The chi-square value under which a share p lies',
    input: object({ p, df }),
    gives: { chiSquare: ['1', 'over 0'] },
    formula: 'P(df/2, χ²/2) = p',
    source: 'Abramowitz & Stegun 6.5.29 and 6.5.31',
    example: { input: { p: 0.95, df: 10 }, output: { chiSquare: 18.307 } },
    run: (is) => ({ chiSquare: chiSquareQuantile(is.p, is.df) }),
  }),
  studentQuantile: calculation({
    means: 'The value of Student’s t under which a share p lies',
    input: object({ p, df }),
    gives: { t: ['1', ''] },
    formula: 'P(T > t) = I_x(df/2, 1/2)/2, x = df/(df + t²)',
    source: 'Abramowitz & Stegun 26.5.8',
    example: { input: { p: 0.975, df: 16 }, output: { t: 2.12 } },
    run: (is) => ({ t: studentQuantile(is.p, is.df) }),
  }),
});
