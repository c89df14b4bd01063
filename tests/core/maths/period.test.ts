/** Days, weeks, months and seasons of a shop's calendar. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { besideOf, bucketFor, cut, dayOf, dayText, periodOf, PERIODS } from '../../../core/index.ts';
import type { PeriodOf } from '../../../core/index.ts';
import { check } from '../../properties/check.ts';

const day = (text: string) => dayOf(text)!;
const shown = (of: PeriodOf, text: string, later = 0) => {
  const { from, to } = periodOf(of, day(text), later);
  return [dayText(from), dayText(to - 1)];
};

describe('a period', () => {
  it('[NUM-1] is a day, a week from Monday, a month, or a season from 1 September', () => {
    expect(shown('day', '2026-01-09')).toEqual(['2026-01-09', '2026-01-09']);
    expect(shown('week', '2026-01-09')).toEqual(['2026-01-05', '2026-01-11']);
    expect(shown('week', '2026-01-04')).toEqual(['2025-12-29', '2026-01-04']);
    expect(shown('month', '2028-02-10')).toEqual(['2028-02-01', '2028-02-29']);
    expect(shown('season', '2026-01-09')).toEqual(['2025-09-01', '2026-08-31']);
    expect(shown('season', '2026-09-01')).toEqual(['2026-09-01', '2027-08-31']);
  });

  it('[NUM-1] has one before it and one after it, whatever their lengths', () => {
    expect(shown('month', '2026-03-31', -1)).toEqual(['2026-02-01', '2026-02-28']);
    expect(shown('month', '2025-12-31', 1)).toEqual(['2026-01-01', '2026-01-31']);
    expect(shown('season', '2026-01-09', -1)).toEqual(['2024-09-01', '2025-08-31']);
    expect(besideOf({ from: 10, to: 14 }, -1)).toEqual({ from: 6, to: 10 });
  });

  it('[NUM-1] holds its day, and meets the next one without a gap', () => {
    const any = fc.record({ of: fc.constantFrom(...PERIODS), at: fc.integer({ min: 400, max: 300_000 }) });
    check(500, any, ({ of, at }) => {
      const { from, to } = periodOf(of, at);
      expect(from).toBeLessThanOrEqual(at);
      expect(to).toBeGreaterThan(at);
      expect(periodOf(of, at, 1).from).toBe(to);
      expect(periodOf(of, from - 1)).toEqual(periodOf(of, at, -1));
    });
  });

  it('is cut at the bounds of what it is cut into, with nothing lost', () => {
    const span = { from: day('2026-01-09'), to: day('2026-03-03') };
    expect(cut(span, 'month').map(({ from, to }) => [dayText(from), dayText(to - 1)])).toEqual([
      ['2026-01-09', '2026-01-31'],
      ['2026-02-01', '2026-02-28'],
      ['2026-03-01', '2026-03-02'],
    ]);
    const lengths = [1, 2, 45, 46, 190, 191, 1_100, 1_101].map((to) => bucketFor({ from: 0, to }));
    expect(lengths).toEqual(['hour', 'day', 'day', 'week', 'week', 'month', 'month', 'season']);
  });

  it('takes a day as a calendar has it, and nothing else', () => {
    expect(dayOf('1970-01-02')).toBe(1);
    for (const text of ['2026-02-29', '2026-2-1', '1.2.2026', '', '2026-13-01', '2026-01-09T10:00'])
      expect(dayOf(text), text).toBeNull();
  });
});
