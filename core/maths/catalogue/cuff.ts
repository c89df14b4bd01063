/** Calculations of core/maths/cuff: what a reading says, and what a move will give. */
import { z } from 'zod';
import { degIn, gapMm, heightMm, mmIn } from '../../bounds.ts';
import {
  aim,
  bias,
  biasAfter,
  correct,
  evenLean,
  gapsFor,
  shift,
  spreadFor,
  tiltAndOffset,
} from '../cuff.ts';
import { mm } from '../../units.ts';
import { calculation, DEFINITION, TRIGONOMETRY } from './entry.ts';
import type { Calculations, Given } from './entry.ts';
import { biasMm, gapErrorMm, hardware, pivots, response } from './fields.ts';

const object = z.strictObject;

const BOOT = { pivotSpacingMm: 84, readingHeightMm: 150, factoryLeanDeg: 0 };
const MARKED = {
  ...BOOT,
  lateral: { minMm: -4, maxMm: 4, markMm: 1 },
  medial: { minMm: -4, maxMm: 4, markMm: 1 },
};
const AT_REST = { medialMm: 0, lateralMm: 0 };

const seen = { biasMm, response: response.default(1) };
const leanDeg = degIn(-45, 45);

const CORRECTION: Readonly<Record<string, Given>> = {
  correctionDeg: ['°', 'change of lean that evens the gap, outward positive'],
  'target.medialMm': ['mm', 'pivot to set, up positive'],
  'target.lateralMm': ['mm', 'pivot to set, up positive'],
  target: ['', 'null: nothing can be set'],
  biasAfterMm: ['mm', 'bias that the move leaves'],
  limitedBy: ['', 'travel or marks; null: the bias goes'],
  canImprove: ['', 'false: no move inside the travel makes the bias smaller'],
  'shortBy.leanDeg': ['°', 'lean that the travel does not reach'],
  'shortBy.biasMm': ['mm', 'bias that the end of the travel leaves'],
  'shortBy.pivotMm': ['mm', 'travel that is missing, a length'],
  shortBy: ['', 'null: the travel reaches'],
};

const reading = (): Calculations => ({
  bias: calculation({
    means: 'Bias of a reading',
    input: object({ medialMm: gapMm, lateralMm: gapMm }),
    gives: { biasMm: ['mm', 'positive: the leg stands lateral of the cuff’s centre, by half of it'] },
    formula: 'D = gap_medial − gap_lateral',
    source: DEFINITION,
    example: { input: { medialMm: 12, lateralMm: 6 }, output: { biasMm: 6 } },
    run: (gaps) => ({ biasMm: bias(gaps) }),
  }),
  shift: calculation({
    means: 'How far the cuff’s centre at a height stands lateral of where it stands at neutral',
    input: object({ hardware, set: pivots, heightMm: heightMm.optional() }),
    gives: { shiftMm: ['mm', 'lateral positive'] },
    formula: 'x = h·(sin lean − sin factory lean)',
    source: TRIGONOMETRY,
    example: {
      input: { hardware: { ...BOOT, readingHeightMm: 160 }, set: { medialMm: 2.93156, lateralMm: 0 } },
      output: { shiftMm: 5.584 },
    },
    run: (is) => ({ shiftMm: shift(is.hardware, is.set, is.heightMm) }),
  }),
  gapsFor: calculation({
    means: 'The gaps of a bias around an unchanged sum',
    input: object({ sumMm: mmIn(0, 120), biasMm: mmIn(-120, 120) }),
    gives: {
      medialMm: ['mm', 'negative: the leg would press there'],
      lateralMm: ['mm', 'negative: the leg would press there'],
    },
    formula: '(S ± D)/2',
    source: 'arithmetic of the definitions',
    example: { input: { sumMm: 18, biasMm: 6 }, output: { medialMm: 12, lateralMm: 6 } },
    run: (is) => gapsFor(is.sumMm, is.biasMm),
  }),
  tiltAndOffset: calculation({
    means: 'Tilt of the leg against the cuff and its offset at the pivots, from gaps at two heights',
    input: object({
      upper: object({ biasMm, heightMm }),
      lower: object({ biasMm, heightMm: mmIn(0, 320) }),
      gapErrorMm: gapErrorMm.default(mm(1.5)),
    }),
    gives: {
      angleDeg: ['°', 'outward positive'],
      offsetMm: ['mm', 'lateral positive'],
      offsetSdMm: ['mm', 'its standard deviation'],
    },
    formula:
      'δ = atan((m1 − m2)/(h1 − h2)), m0 = m1 − h1·(m1 − m2)/(h1 − h2), m = D/2; null under 30 mm apart',
    source: TRIGONOMETRY,
    example: {
      input: { upper: { biasMm: 8, heightMm: 160 }, lower: { biasMm: 4, heightMm: 80 } },
      output: { angleDeg: 1.432, offsetMm: 0, offsetSdMm: 2.372 },
    },
    run: ({ gapErrorMm: error, ...heights }) => tiltAndOffset(heights, error),
  }),
});

const moving = (): Calculations => ({
  biasAfter: calculation({
    means: 'Bias after a move of the pivots',
    input: object({ hardware, ...seen, from: pivots, to: pivots }),
    gives: { biasMm: ['mm', 'as for a reading'] },
    formula: 'D′ = D − 2·k·(x_to − x_from)',
    source: TRIGONOMETRY,
    example: {
      input: { hardware: BOOT, biasMm: 6, from: AT_REST, to: { medialMm: 0, lateralMm: -1 } },
      output: { biasMm: 2.429 },
    },
    run: ({ hardware: boot, from, to, ...sight }) => ({ biasMm: biasAfter(boot, sight, from, to) }),
  }),
  evenLean: calculation({
    means: 'Lean at which the gap is even',
    input: object({ hardware, ...seen, set: pivots }),
    gives: { leanDeg: ['°', 'outward positive; 90 where no lean would do'] },
    formula: 'sin lean* = sin lean + D/(2·k·h)',
    source: TRIGONOMETRY,
    example: { input: { hardware: BOOT, biasMm: 6, set: AT_REST }, output: { leanDeg: 1.146 } },
    run: ({ hardware: boot, set, ...sight }) => ({ leanDeg: evenLean(boot, sight, set) }),
  }),
  spreadFor: calculation({
    means: 'Spread of the pivots that makes a lean',
    input: object({ hardware, leanDeg }),
    gives: { spreadMm: ['mm', 'outward positive'] },
    formula: 's* = w·sin(lean* − factory lean)',
    source: TRIGONOMETRY,
    example: { input: { hardware: BOOT, leanDeg: 1.146 }, output: { spreadMm: 1.68 } },
    run: (is) => ({ spreadMm: spreadFor(is.hardware, is.leanDeg) }),
  }),
  correct: calculation({
    means: 'The correction of a bias, and what this hardware makes of it',
    input: object({ hardware, ...seen, set: pivots }),
    gives: CORRECTION,
    formula: 'evenLean, then settable; predicted by biasAfter',
    source: TRIGONOMETRY,
    example: {
      input: { hardware: MARKED, biasMm: 6, set: AT_REST },
      output: {
        correctionDeg: 1.146,
        target: { medialMm: 1, lateralMm: -1 },
        biasAfterMm: -1.143,
        limitedBy: 'marks',
        canImprove: true,
        shortBy: null,
      },
    },
    run: ({ hardware: boot, set, ...sight }) => correct(boot, sight, set),
  }),
  aim: calculation({
    means: 'The hardware’s best answer to a wanted lean, whatever it was wanted for',
    input: object({ hardware, ...seen, set: pivots, leanDeg }),
    gives: CORRECTION,
    formula: 'spreadFor, then settable; predicted by biasAfter',
    source: TRIGONOMETRY,
    example: {
      input: { hardware: { ...MARKED, medial: null }, biasMm: 20, set: AT_REST, leanDeg: 4 },
      output: {
        correctionDeg: 4,
        target: { medialMm: 0, lateralMm: -4 },
        biasAfterMm: 5.714,
        limitedBy: 'travel',
        canImprove: true,
        shortBy: { leanDeg: 1.271, biasMm: 5.714, pivotMm: 1.86 },
      },
    },
    run: ({ hardware: boot, set, leanDeg: wanted, ...sight }) =>
      aim(boot, sight, set, wanted, (pair) => biasAfter(boot, sight, set, pair)),
  }),
});

export const cuffCalculations = (): Calculations => ({ ...reading(), ...moving() });
