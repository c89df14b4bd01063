/** Calculations of core/maths/reach: one leg carried into other boots. */
import { z } from 'zod';
import { degIn, factoryLeanDeg, heightMm, mmIn } from '../../bounds.ts';
import { mm } from '../../units.ts';
import { legAt, legLine, placeInShell, reachOf } from '../reach.ts';
import { calculation, TRIGONOMETRY } from './entry.ts';
import type { Calculations } from './entry.ts';
import { hardware, response } from './fields.ts';

const object = z.strictObject;

const placeMm = mmIn(-80, 80);
const offsetMm = mmIn(-60, 60);
const legLineField = object({ offsetMm, angleDeg: degIn(-30, 30) });
const anyHeightMm = mmIn(0, 320);

/** A boot whose factory lean is known. */
const knownHardware = hardware.transform((is, context) => {
  if (is.factoryLeanDeg !== null) return { ...is, factoryLeanDeg: is.factoryLeanDeg };
  context.addIssue({ code: 'custom', path: ['factoryLeanDeg'], message: 'must be known here' });
  return z.NEVER;
});

export const reachCalculations = (): Calculations => ({
  legLine: calculation({
    means: 'The leg’s centre line in the shell, from its place at one height and its offset at the pivots',
    input: object({ placeMm, heightMm, offsetMm: offsetMm.default(mm(0)) }),
    gives: { offsetMm: ['mm', 'lateral positive'], angleDeg: ['°', 'outward positive'] },
    formula: 'angle = atan((place − offset)/h)',
    source: TRIGONOMETRY,
    example: { input: { placeMm: 5.6, heightMm: 160 }, output: { offsetMm: 0, angleDeg: 2.005 } },
    run: (is) => legLine(is.placeMm, is.heightMm, is.offsetMm),
  }),
  legAt: calculation({
    means: 'Where the leg stands at a height',
    input: object({ line: legLineField, heightMm: anyHeightMm }),
    gives: { placeMm: ['mm', 'lateral positive'] },
    formula: 'x_leg(h) = offset + h·tan(angle)',
    source: TRIGONOMETRY,
    example: {
      input: { line: { offsetMm: 1, angleDeg: 2 }, heightMm: 150 },
      output: { placeMm: 6.238 },
    },
    run: (is) => ({ placeMm: legAt(is.line, is.heightMm) }),
  }),
  placeInShell: calculation({
    means: 'Where the leg stands in the shell, from its place against the cuff at neutral',
    input: object({ mLegMm: placeMm, heightMm, factoryLeanDeg }),
    gives: { placeMm: ['mm', 'lateral positive'] },
    formula: 'h·sin f + m',
    source: TRIGONOMETRY,
    example: {
      input: { mLegMm: 3, heightMm: 160, factoryLeanDeg: 1 },
      output: { placeMm: 5.792 },
    },
    run: (is) => ({ placeMm: placeInShell(is.mLegMm, is.heightMm, is.factoryLeanDeg) }),
  }),
  reachOf: calculation({
    means: 'What one boot can do for a leg, its pivots at neutral',
    input: object({
      line: legLineField,
      hardware: knownHardware,
      response: response.default(1),
    }),
    gives: {
      leanDeg: ['°', 'lean that leaves no bias, outward positive'],
      reachable: ['', 'that lean lies inside the travel'],
      spareDeg: ['°', 'from it to the nearer end of the travel; negative: not reached'],
      residualMm: ['mm', 'bias left at the end of the travel; null: reached'],
      'target.medialMm': ['mm', 'pivot to set, up positive'],
      'target.lateralMm': ['mm', 'pivot to set, up positive'],
      target: ['', 'null: nothing can be set'],
      biasMm: ['mm', 'bias at that pair'],
    },
    formula: 'sin lean* = sin f + (x_leg(h) − h·sin f)/(k·h)',
    source: TRIGONOMETRY,
    example: {
      input: {
        line: { offsetMm: 0, angleDeg: 2.073 },
        hardware: {
          pivotSpacingMm: 80,
          readingHeightMm: 150,
          factoryLeanDeg: 0,
          lateral: { minMm: -3, maxMm: 3 },
        },
      },
      output: {
        leanDeg: 2.074,
        reachable: true,
        spareDeg: 0.075,
        residualMm: null,
        target: { medialMm: 0, lateralMm: -2.896 },
        biasMm: 0,
      },
    },
    run: ({ line, ...boot }) => reachOf(line, boot),
  }),
});
