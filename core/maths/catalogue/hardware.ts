/** Calculations of core/maths/hardware: where pivots can stand and what lean that makes. */
import { z } from 'zod';
import { mmIn, pivotMm, pivotSpacingMm } from '../../bounds.ts';
import { ADJUSTERS } from '../../frame.ts';
import { mm } from '../../units.ts';
import { biasAfter } from '../cuff.ts';
import { lean, marks, marksBetween, misplaced, settable, spread, spreadRange, tilt } from '../hardware.ts';
import { calculation, DEFINITION, TRIGONOMETRY } from './entry.ts';
import type { Calculations } from './entry.ts';
import { lengthen } from '../slot.ts';
import { biasMm, hardware, pivots, reach, response, spreadMm } from './fields.ts';

const object = z.strictObject;

const DUAL = {
  pivotSpacingMm: 84,
  readingHeightMm: 160,
  factoryLeanDeg: 1,
  lateral: { minMm: -4, maxMm: 4, markMm: 1 },
  medial: { minMm: -4, maxMm: 4, markMm: 1 },
};

const turning = (): Calculations => ({
  spread: calculation({
    means: 'What tilts the cuff: the difference of its pivots',
    input: pivots,
    gives: { spreadMm: ['mm', 'outward positive'] },
    formula: 's = u_medial − u_lateral',
    source: DEFINITION,
    example: { input: { medialMm: 1, lateralMm: -2 }, output: { spreadMm: 3 } },
    run: (set) => ({ spreadMm: spread(set) }),
  }),
  tilt: calculation({
    means: 'Tilt of the cuff against its neutral from the spread of its pivots',
    input: object({ spreadMm, spacingMm: pivotSpacingMm }),
    gives: { tiltDeg: ['°', 'outward positive; a spread over the spacing gives 90'] },
    formula: 'sin φ = s/w',
    source: TRIGONOMETRY,
    example: { input: { spreadMm: 3, spacingMm: 84 }, output: { tiltDeg: 2.047 } },
    run: (is) => ({ tiltDeg: tilt(is.spreadMm, is.spacingMm) }),
  }),
  lean: calculation({
    means: 'Lean of the cuff with its factory lean, an unknown one taken as 0',
    input: object({ hardware, set: pivots }),
    gives: { leanDeg: ['°', 'outward positive'] },
    formula: 'lean = factory lean + φ',
    source: TRIGONOMETRY,
    example: {
      input: { hardware: DUAL, set: { medialMm: 1, lateralMm: -2 } },
      output: { leanDeg: 3.047 },
    },
    run: (is) => ({ leanDeg: lean(is.hardware, is.set) }),
  }),
  spreadRange: calculation({
    means: 'Smallest and largest spread that the travel allows, marks set aside',
    input: object({ hardware }),
    gives: { min: ['mm', 'most inward'], max: ['mm', 'most outward'] },
    formula: 'u_medial,min − u_lateral,max to u_medial,max − u_lateral,min',
    source: 'arithmetic',
    example: { input: { hardware: DUAL }, output: { min: -8, max: 8 } },
    run: (is) => spreadRange(is.hardware),
  }),
});

const setting = (): Calculations => ({
  marks: calculation({
    means: 'Places of the marks inside a travel, counted from neutral',
    input: object({
      minMm: pivotMm,
      maxMm: pivotMm,
      stepMm: mmIn(0.1, 10),
      neutralMm: pivotMm.default(mm(0)),
    }),
    gives: {
      'stops[].mm': ['mm', 'up positive'],
      'stops[].label': ['', 'count from neutral, up positive'],
      stops: ['', 'empty: no mark lies inside the travel'],
    },
    formula: 'neutral + i·step, inside the travel',
    source: DEFINITION,
    example: {
      input: { minMm: -1.2, maxMm: 1, stepMm: 1 },
      output: {
        stops: [
          { mm: -1, label: '-1' },
          { mm: 0, label: '0' },
          { mm: 1, label: '1' },
        ],
      },
    },
    run: (is) => ({ stops: marks(is.minMm, is.maxMm, is.stepMm, is.neutralMm) }),
  }),
  settable: calculation({
    means: 'The pair of pivots that can be set and leaves the least bias, from where the pivots stand',
    input: object({ hardware, wantedMm: spreadMm, biasMm, response: response.default(1), set: pivots }),
    gives: {
      'pair.medialMm': ['mm', 'up positive'],
      'pair.lateralMm': ['mm', 'up positive'],
      pair: ['', 'null: no mark lies inside the travel'],
    },
    formula: 'least |D′|; then least movement; then most even; then the larger part lateral',
    source: 'common practice, no source',
    example: {
      input: { hardware: DUAL, wantedMm: 1.68, biasMm: 6, set: { medialMm: 0, lateralMm: 0 } },
      output: { pair: { medialMm: 1, lateralMm: -1 } },
    },
    run: ({ hardware: boot, wantedMm, set, ...sight }) => ({
      pair: settable(boot, wantedMm, (pair) => biasAfter(boot, sight, set, pair), set),
    }),
  }),
  marksBetween: calculation({
    means: 'Marks from one place of an adjuster to another',
    input: object({ reach, fromMm: pivotMm, toMm: pivotMm }),
    gives: { marks: ['1', 'up positive; null: without marks, or between them'] },
    formula: 'a count',
    source: DEFINITION,
    example: {
      input: { reach: { minMm: -4, maxMm: 4, markMm: 1 }, fromMm: 0, toMm: -3 },
      output: { marks: -3 },
    },
    run: (is) => ({ marks: marksBetween(is.reach, is.fromMm, is.toMm) ?? null }),
  }),
  misplaced: calculation({
    means: 'What keeps a pivot from standing where it was recorded',
    input: object({ hardware, adjuster: z.enum(ADJUSTERS), atMm: pivotMm }),
    gives: { why: ['', 'travel or marks; null: nothing'] },
    formula: 'inside the travel, and on a mark where there are marks',
    source: DEFINITION,
    example: { input: { hardware: DUAL, adjuster: 'lateral', atMm: 1.5 }, output: { why: 'marks' } },
    run: (is) => ({ why: misplaced(is.hardware, is.adjuster, is.atMm) }),
  }),
});

export const hardwareCalculations = (): Calculations => ({ ...turning(), ...setting() });

const edgeMm = mmIn(0, 80);

export const slotCalculations = (): Calculations => ({
  lengthen: calculation({
    means: 'How much longer the slots must be for travel that is missing, and what is left to the edge',
    input: object({
      missingMm: mmIn(0, 50),
      lateralEdgeMm: edgeMm.nullable().default(null).describe('null: no slot there'),
      medialEdgeMm: edgeMm.nullable().default(null).describe('null: no slot there'),
      leastMm: edgeMm.describe('the maker’s; no default'),
    }),
    gives: {
      'lateral.byMm': ['mm', 'to cut'],
      'lateral.edgeLeftMm': ['mm', 'then left to the edge'],
      lateral: ['', 'null: no slot there'],
      'medial.byMm': ['mm', 'to cut'],
      'medial.edgeLeftMm': ['mm', 'then left to the edge'],
      medial: ['', 'null: no slot there'],
      shortMm: ['mm', 'what both together still do not give'],
    },
    formula: 'lateral: min(missing, edge − least); medial: the rest, alike',
    source: 'arithmetic; the edge straight ahead is the worst case',
    example: {
      input: { missingMm: 3, lateralEdgeMm: 7, medialEdgeMm: 7, leastMm: 5 },
      output: { lateral: { byMm: 2, edgeLeftMm: 5 }, medial: { byMm: 1, edgeLeftMm: 6 }, shortMm: 0 },
    },
    run: (is) =>
      lengthen(is.missingMm, { lateralMm: is.lateralEdgeMm, medialMm: is.medialEdgeMm }, is.leastMm),
  }),
});
