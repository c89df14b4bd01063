/** Calculations of core/maths/share: shares that were counted, and values in the middle of others. */
import { z } from 'zod';
import { numberIn } from '../../bounds.ts';
import { sampleQuantile, wilson } from '../share.ts';
import { calculation } from './entry.ts';
import type { Calculations } from './entry.ts';
import { unitIn } from './fields.ts';

const object = z.strictObject;
const count = z.int('must be a whole number').min(0).max(1e9);

export const shareCalculations = (): Calculations => ({
  wilson: calculation({
    means: 'A share that was counted, and the interval in which the true one lies',
    input: object({ count, others: count, z: unitIn(0.01, 10, 'deviations').default(1.645) }),
    gives: {
      share: ['1', 'null in all: there were none'],
      low: ['1', 'lower end'],
      high: ['1', 'upper end'],
    },
    formula: '(p + z²/2n ± z·√((p(1 − p) + z²/4n)/n)) / (1 + z²/n), n = count + others',
    source: 'E. B. Wilson, J Am Stat Assoc 1927;22:209–212; checked in tests/outside',
    example: {
      input: { count: 81, others: 182, z: 1.959964 },
      output: { share: 0.308, low: 0.255, high: 0.366 },
    },
    run: (is) => wilson(is.count, is.count + is.others, is.z),
  }),
  sampleQuantile: calculation({
    means: 'The value under which a share p of some values lies, between two of them in proportion',
    input: object({ values: z.array(numberIn(-1e9, 1e9)).min(1).max(1000), p: numberIn(0, 1) }),
    gives: { value: ['of the values', ''] },
    formula: 'x₍⌊h⌋₎ + (h − ⌊h⌋)·(x₍⌊h⌋₊₁₎ − x₍⌊h⌋₎), h = (n − 1)·p, counted from 0',
    source: 'Hyndman and Fan, Am Stat 1996;50:361–365, definition 7',
    example: { input: { values: [10, 20, 30, 40], p: 0.8 }, output: { value: 34 } },
    run: ({ values, p }) => ({
      value: sampleQuantile(
        values.toSorted((a, b) => a - b),
        p,
      ),
    }),
  }),
});
