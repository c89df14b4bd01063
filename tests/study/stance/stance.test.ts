/** A short study, so that it still runs and still says something: the whole one is `npm run study`. */
import { describe, expect, it } from 'vitest';
import { CASES } from './cases.ts';
import { study } from './summary.ts';

const KNEES = 400;
const SEED = 7;

describe.each(CASES.filter(({ name }) => name === 'as expected' || name === 'error 2 mm'))('$name', (of) => {
  const rows = study(of, KNEES, SEED);
  const by = (practice: string) => rows.find((row) => row.practice === practice)!;

  it('the plan leaves fewer knees out of the band than a flat reading or looking right, and fewer still with more readings', () => {
    const [flat, looks, plan, more] = [
      'one flat reading',
      'until it looks right',
      'the plan',
      'the plan, two more',
    ].map((name) => by(name).outOfBand!);
    expect(plan!).toBeLessThan(Math.min(flat!, looks!));
    expect(more!).toBeLessThan(plan!);
  });

  it('what is called nine tenths holds about that, where knees follow as the prior expects', () => {
    const { heldByInterval, intervals } = by('the plan');
    // Three standard deviations of a share of so many, and what the knees' own spread adds.
    const spread = 3 * Math.sqrt((0.9 * 0.1) / intervals) + 0.02;
    expect(Math.abs(heldByInterval! - 0.9)).toBeLessThan(spread);
  });
});
