/** A short study, so that it still runs and still says something: the whole one is `npm run study`. */
import { describe, expect, it } from 'vitest';
import { CASES } from './cases.ts';
import { study } from './summary.ts';

/** With a third of them what the plan gains on the last reading is within what such a sample varies by. */
const SKIERS = 240;
const SEED = 7;

describe.each(CASES.filter(({ name }) => name === 'fine pivots' || name === 'marks of 1 mm'))(
  'with $name',
  (of) => {
    const rows = study(of, SKIERS, SEED);
    const by = (practice: string) => rows.find((row) => row.practice === practice)!;

    it('the plan closes with fewer rounds than the last reading alone, and that than a mark or two', () => {
      const [marks, last, plan] = ['a mark or two', 'last reading', 'the plan'].map(
        (name) => by(name).rounds!,
      );
      expect(plan!).toBeLessThan(last!);
      expect(last!).toBeLessThan(marks!);
    });

    it('nearly all are closed, and what is called nine tenths holds about that', () => {
      const { closed, heldByInterval, intervals } = by('the plan');
      expect(closed!).toBeGreaterThan(0.9);
      // Three standard deviations of a share of so many, and what the skiers' own spread adds.
      const spread = 3 * Math.sqrt((0.9 * 0.1) / intervals) + 0.02;
      expect(Math.abs(heldByInterval! - 0.9)).toBeLessThan(spread);
    });
  },
);
