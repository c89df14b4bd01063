/** Calculations of core/maths/stance and wedge: from the knee to the cant. */
import { z } from 'zod';
import { cantDeg, degIn, numberIn } from '../../bounds.ts';
import { deg, mm } from '../../units.ts';
import {
  cantFor,
  cantRange,
  compareCants,
  contradiction,
  kneeLine,
  missingForChoice,
  placeVariance,
  slopePrior,
  stance,
  thickEdge,
  toStep,
} from '../stance.ts';
import { nextWedge } from '../wedge.ts';
import { calculation, DEFINITION } from './entry.ts';
import type { Calculations, Given } from './entry.ts';
import {
  kneeErrorMm,
  kneeHeightMm,
  kneeLineField,
  kneeTargetMm,
  plateStepDeg,
  slopePriorField,
  slopeShare,
  stanceReading,
  stanceReadings,
  stanceRules,
} from './fields.ts';

const object = z.strictObject;

const NORMAL_EQUATIONS =
  'Bayesian linear model by its normal equations; checked against ml-matrix in tests/outside';

const READINGS = [
  { wedgeDeg: 0, offsetMm: 6 },
  { wedgeDeg: -1.5, offsetMm: -3 },
];
const wholeKnee = { readings: stanceReadings, kneeHeightMm, rules: stanceRules };

const CONTRADICTION: Readonly<Record<string, Given>> = {
  under: ['', 'quarter-of-prior or two-deviations: what the slope is under'],
  cause: ['', 'signs: turned round they would agree; readings: they contradict each other'],
};
const LINE: Readonly<Record<string, Given>> = {
  offsetMm: ['mm', 'knee on a flat sole, lateral positive'],
  slopeMmPerDeg: ['mm/°', 'its movement for one degree of cant'],
  'covariance[]': ['mm², mm²/°, mm²/°²', 'of offset, of both, of slope'],
};
const under = (path: string, gives: Readonly<Record<string, Given>>): Readonly<Record<string, Given>> =>
  Object.fromEntries(Object.entries(gives).map(([name, given]) => [`${path}.${name}`, given]));

const line = (): Calculations => ({
  slopePrior: calculation({
    means: 'What the knee is expected to move for one degree of cant, before any reading',
    input: object({ kneeHeightMm, slopeShare }),
    gives: { mean: ['mm/°', ''], sd: ['mm/°', 'its standard deviation'] },
    formula: 'r ~ N(q·H·tan 1°, (0.35·H·tan 1°)²)',
    source: 'rotation of a rigid leg about the sole is the most; the rest from memory, low',
    example: { input: { kneeHeightMm: 468 }, output: { mean: 6.127, sd: 2.859 } },
    run: (is) => slopePrior(is.kneeHeightMm, is.slopeShare),
  }),
  kneeLine: calculation({
    means: 'Where the knee stands on a flat sole and how it moves, from readings and a prior',
    input: object({ readings: stanceReadings, prior: slopePriorField, errorMm: kneeErrorMm }),
    gives: LINE,
    formula: 'k = k0 + r·δ + error; k0 flat, r normal; null without a reading',
    source: NORMAL_EQUATIONS,
    example: {
      input: { readings: READINGS, prior: { mean: 6, sd: 3 } },
      output: { offsetMm: 6, slopeMmPerDeg: 6, covariance: [16.103, 4.804, 6.406] },
    },
    run: (is) => kneeLine(is.readings, is.prior, is.errorMm),
  }),
  placeVariance: calculation({
    means: 'Variance of the knee’s place on one wedge, without the error of reading it there',
    input: object({ line: kneeLineField, wedgeDeg: cantDeg }),
    gives: { varianceMm2: ['mm²', ''] },
    formula: 'a + 2·b·δ + c·δ²',
    source: 'propagation of a linear function, exact',
    example: {
      input: {
        line: { offsetMm: 6, offsetSdMm: 4, slopeMmPerDeg: 5, slopeSdMmPerDeg: 2, correlation: 0.5 },
        wedgeDeg: 1,
      },
      output: { varianceMm2: 28 },
    },
    run: (is) => ({ varianceMm2: placeVariance(is.line.covariance, is.wedgeDeg) }),
  }),
  contradiction: calculation({
    means: 'Do the readings contradict each other, or were the signs mixed up',
    input: object({ readings: stanceReadings, prior: slopePriorField, errorMm: kneeErrorMm }),
    gives: CONTRADICTION,
    formula: 'slope under a quarter of the prior’s, or under two of its own deviations; null: no',
    source: 'a rule of this program',
    example: {
      input: {
        readings: [
          { wedgeDeg: -3, offsetMm: 20 },
          { wedgeDeg: 3, offsetMm: -20 },
        ],
        prior: { mean: 6, sd: 3 },
      },
      output: { under: 'quarter-of-prior', cause: 'signs' },
    },
    run: (is) => contradiction(is.readings, is.prior, is.errorMm),
  }),
});

const LINE_EXAMPLE = { offsetMm: 6, offsetSdMm: 3, slopeMmPerDeg: 5, slopeSdMmPerDeg: 1 };

const cant = (): Calculations => ({
  cantFor: calculation({
    means: 'The cant that brings the knee to the target',
    input: object({ line: kneeLineField, targetMm: kneeTargetMm }),
    gives: {
      cantDeg: ['°', 'outward positive: thick edge medial'],
      sdDeg: ['°', 'its standard deviation, to first order'],
    },
    formula: 'δ* = (target − k0)/r; √var(k at δ*)/r',
    source: 'propagation to first order; how often it holds is shown in tests/outside',
    example: { input: { line: LINE_EXAMPLE }, output: { cantDeg: -2, sdDeg: 0.721 } },
    run: (is) => cantFor(is.line, is.targetMm),
  }),
  cantRange: calculation({
    means: 'Every cant that the readings let put the knee on the target',
    input: object({
      line: kneeLineField,
      targetMm: kneeTargetMm,
      z: numberIn(0.1, 5).describe('standard deviations: 1.645 for 90 %').default(1.645),
    }),
    gives: { lowDeg: ['°', 'outward positive'], highDeg: ['°', 'outward positive'] },
    formula: '(k0 + r·δ − target)² ≤ z²·var(k at δ); null: without end',
    source: 'Fieller, J R Stat Soc B 1954;16:175–185 [from memory]',
    example: {
      input: {
        line: { offsetMm: 10, offsetSdMm: 0, slopeMmPerDeg: 5, slopeSdMmPerDeg: 0.5 },
        targetMm: 0,
        z: 2,
      },
      output: { lowDeg: -2.5, highDeg: -1.667 },
    },
    run: (is) => cantRange(is.line, is.targetMm, is.z),
  }),
  toStep: calculation({
    means: 'A cant rounded to the plate step, half steps toward zero',
    input: object({ angleDeg: degIn(-45, 45), stepDeg: plateStepDeg }),
    gives: { angleDeg: ['°', 'as it was'] },
    formula: 'sign·⌈|δ|/step − ½⌉·step',
    source: 'a rule of this program',
    example: { input: { angleDeg: -0.75 }, output: { angleDeg: -0.5 } },
    run: (is) => ({ angleDeg: toStep(is.angleDeg, is.stepDeg) }),
  }),
  thickEdge: calculation({
    means: 'Where a plate of this cant is thick',
    input: object({ cantDeg }),
    gives: { edge: ['', 'medial, lateral or none'] },
    formula: 'over 0 medial, under 0 lateral',
    source: DEFINITION,
    example: { input: { cantDeg: -1 }, output: { edge: 'lateral' } },
    run: (is) => ({ edge: thickEdge(is.cantDeg) }),
  }),
  compareCants: calculation({
    means: 'Left and right cant, each solved by itself, compared',
    input: object({
      left: object({ cantDeg, cantSdDeg: degIn(0, 20) }),
      right: object({ cantDeg, cantSdDeg: degIn(0, 20) }),
      maxDifferenceDeg: degIn(0.5, 6).default(deg(1.5)),
    }),
    gives: {
      differenceDeg: ['°', 'left − right, each outward positive on its own side'],
      sdDeg: ['°', 'its standard deviation'],
      questioned: ['', 'over the most: leg length, cuffs and footbeds first'],
    },
    formula: 'left − right; √(sd² + sd²)',
    source: 'independent errors',
    example: {
      input: { left: { cantDeg: 1.5, cantSdDeg: 0.6 }, right: { cantDeg: -0.5, cantSdDeg: 0.8 } },
      output: { differenceDeg: 2, sdDeg: 1, questioned: true },
    },
    run: (is) => compareCants(is.left, is.right, is.maxDifferenceDeg),
  }),
});

const knee = (): Calculations => ({
  stance: calculation({
    means: 'One knee from its readings: cant, how sure, and what is to be done',
    input: object(wholeKnee),
    gives: {
      verdict: ['', 'unread, flat-enough, cant, refer (past the limit) or contradictory'],
      ...under('contradiction', CONTRADICTION),
      ...under('line', LINE),
      'prior.mean': ['mm/°', 'slope before the readings'],
      'prior.sd': ['mm/°', 'its standard deviation'],
      cantDeg: ['°', 'exact, outward positive: thick edge medial'],
      cantSdDeg: ['°', 'its standard deviation, to first order'],
      roundedDeg: ['°', 'on a plate step'],
      secondLook: ['', 'a second technician looks'],
    },
    formula: 'slopePrior, kneeLine, contradiction, cantFor, toStep',
    source: NORMAL_EQUATIONS,
    example: {
      input: { readings: READINGS, kneeHeightMm: 468 },
      output: {
        verdict: 'cant',
        line: { offsetMm: 6.069, slopeMmPerDeg: 6.093, covariance: [15.862, 4.482, 5.976] },
        prior: { mean: 6.127, sd: 2.859 },
        cantDeg: -1.653,
        cantSdDeg: 0.684,
        roundedDeg: -1.5,
        secondLook: false,
      },
    },
    run: (is) => stance(is.readings, is.kneeHeightMm, is.rules),
  }),
  missingForChoice: calculation({
    means: 'What is still missing before a cant may be chosen',
    input: object({ readings: z.array(stanceReading.extend({ restood: z.boolean() })).max(100) }),
    gives: { restands: ['1', 'how many'], wedge: ['', 'true: a reading on a wedge'] },
    formula: 'two re-stands and one reading on a wedge',
    source: 'a rule of this program',
    example: {
      input: { readings: [{ wedgeDeg: 0, offsetMm: 6, restood: true }] },
      output: { restands: 1, wedge: true },
    },
    run: (is) => missingForChoice(is.readings),
  }),
});

export const stanceCalculations = (): Calculations => ({ ...line(), ...cant(), ...knee() });

export const wedgeCalculations = (): Calculations => ({
  nextWedge: calculation({
    means: 'The test wedge whose reading narrows the cant most',
    input: object(wholeKnee),
    gives: {
      wedgeDeg: ['°', '0: on a flat sole again; outward positive'],
      cantSdAfterDeg: ['°', 'standard deviation of the cant after it; null while there is no cant'],
    },
    formula: '(gᵀCa)²/(σ² + aᵀCa), a = (1, δ), g = (1, δ*); null before the first reading',
    source: 'rank-one step of the normal equations, exact',
    example: {
      input: { readings: [{ wedgeDeg: 0, offsetMm: mm(6) }], kneeHeightMm: 468 },
      output: { wedgeDeg: -3, cantSdAfterDeg: 0.578 },
    },
    run: (is) => nextWedge(stance(is.readings, is.kneeHeightMm, is.rules), is.rules),
  }),
});
