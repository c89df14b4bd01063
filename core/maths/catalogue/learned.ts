/** Calculations of core/maths/learned: what before-and-after pairs say of boots. */
import { z } from 'zod';
import { mmIn, name, numberIn } from '../../bounds.ts';
import { learnFrom, measuredResponse, moveSeen, spreadsOf } from '../learned.ts';
import { calculation } from './entry.ts';
import type { Calculations } from './entry.ts';
import { biasMm, response, responseSd, shiftMm, unitIn } from './fields.ts';

const object = z.strictObject;

const stop = object({ shiftMm, biasMm, sdMm: mmIn(0.2, 20), jump: unitIn(0, 1e4, 'mm²').default(0) });
const seen = object({
  model: name(120),
  boot: name(120),
  k: numberIn(-10, 10),
  weight: numberIn(0, 1e6),
});
const spread = numberIn(0.01, 0.5);

export const learnedCalculations = (): Calculations => ({
  measuredResponse: calculation({
    means: 'Response of one boot from its readings at several settings, the leg’s place unknown',
    input: object({ stops: z.array(stop).max(200) }),
    gives: {
      k: ['1', 'share of the geometric shift that the boot gave; null in all: no two settings to compare'],
      weight: ['1', 'one over its variance'],
    },
    formula: 'D = L − 2·k·x + error, L flat; a jump is a variance of L between two settings',
    source: 'Kalman filter of a constant slope and a level that may jump',
    example: {
      input: {
        stops: [
          { shiftMm: 0, biasMm: 8, sdMm: 2.121 },
          { shiftMm: 4, biasMm: 2, sdMm: 2.121 },
        ],
      },
      output: { k: 0.75, weight: 7.113 },
    },
    run: (is) => measuredResponse(is.stops),
  }),
  moveSeen: calculation({
    means: 'What a move changed, beside what was foretold of it',
    input: object({ before: stop, after: stop, response: object({ k: response, sd: responseSd }) }),
    gives: {
      predictedMm: ['mm', 'change of bias foretold'],
      observedMm: ['mm', 'change of bias read'],
      sdMm: ['mm', 'deviation of the change read about the one foretold'],
    },
    formula: 'Δ = −2·k·(x₂ − x₁) ± √((2·(x₂ − x₁)·sd)² + s₁² + s₂²)',
    source: 'propagation of the response’s and both readings’ errors',
    example: {
      input: {
        before: { shiftMm: 0, biasMm: 8, sdMm: 2.121 },
        after: { shiftMm: 4, biasMm: 2, sdMm: 2.121 },
        response: { k: 1, sd: 0.2 },
      },
      output: { predictedMm: -8, observedMm: -6, sdMm: 3.4 },
    },
    run: (is) => moveSeen(is.before, is.after, is.response),
  }),
  learnFrom: calculation({
    means: 'Responses of shop, model and boot from all boots that were measured',
    input: object({
      responsePriorSd: spread.default(0.2),
      bootSpreadSd: spread.default(0.1),
      boots: z.array(seen).max(1000),
      model: name(120),
      boot: name(120),
    }),
    gives: {
      'shop.k': ['1', 'mean of all models, met or not'],
      'shop.sd': ['1', 'its standard deviation'],
      'model.k': ['1', 'mean of the asked model’s boots'],
      'model.sd': ['1', 'its standard deviation'],
      'boot.k': ['1', 'response of the asked boot'],
      'boot.sd': ['1', 'its standard deviation'],
    },
    formula:
      'β ~ N(κ, boot²), κ ~ N(μ, τ²), μ ~ N(1, prior²/2), τ half-normal of scale prior/√2, summed out on a grid',
    source: 'Gelman et al., Bayesian Data Analysis, 3rd ed., sections 5.4 and 5.5; checked in tests/outside',
    example: {
      input: {
        boots: [
          { model: 'a', boot: '1', k: 0.8, weight: 100 },
          { model: 'a', boot: '2', k: 0.8, weight: 100 },
        ],
        model: 'a',
        boot: '3',
      },
      output: {
        shop: { k: 0.903, sd: 0.106 },
        model: { k: 0.848, sd: 0.088 },
        boot: { k: 0.848, sd: 0.133 },
      },
    },
    run: ({ responsePriorSd, bootSpreadSd, boots, ...ask }) =>
      learnFrom(spreadsOf(responsePriorSd, bootSpreadSd), boots, ask),
  }),
});
