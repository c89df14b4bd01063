/** Wilson's interval against published ones, against the equation that it solves, and by how often it holds the truth. */
import { describe, expect, it } from 'vitest';
import { sampleQuantile, wilson } from '../../core/index.ts';
import { randomFrom } from './random.ts';

const Z95 = 1.959964;
const Z90 = 1.644854;

describe('the interval of a share', () => {
  // R. G. Newcombe, Stat Med 1998;17:857–872, table I, method 3 (score, without a correction for continuity).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('[NUM-4] is the published one: %i of %i', (count, of, low, high) => {
    const found = wilson(count, of, Z95)!;
    expect(found.share).toBe(count / of);
    expect(found.low).toBeCloseTo(low, 4);
    expect(found.high).toBeCloseTo(high, 4);
  });

  it('[NUM-4] ends where the share seen lies just z deviations from the true one', () => {
    for (let of = 1; of <= 60; of++)
      for (let count = 0; count <= of; count++) {
        const { share, low, high } = wilson(count, of, Z90)!;
        expect(low).toBeLessThanOrEqual(share);
        expect(high).toBeGreaterThanOrEqual(share);
        for (const end of [low, high])
          if (end > 0 && end < 1)
            expect(Math.abs(share - end) / Math.sqrt((end * (1 - end)) / of)).toBeCloseTo(Z90, 8);
        // Seen the other way round it is the same interval.
        const other = wilson(of - count, of, Z90)!;
        expect(other.low).toBeCloseTo(1 - high, 12);
      }
  });

  it('[NUM-4] holds the true share about as often as it says, also of few', () => {
    const random = randomFrom(41);
    const trials = 4_000;
    // The mean over true shares: at a single one, what is counted in whole cuffs is now above and now below.
    for (const of of [5, 12, 40]) {
      let held = 0;
      for (let trial = 0; trial < trials; trial++) {
        const truth = random.uniform();
        let count = 0;
        for (let i = 0; i < of; i++) if (random.uniform() < truth) count += 1;
        const { low, high } = wilson(count, of, Z90)!;
        if (low <= truth && truth <= high) held += 1;
      }
      expect(Math.abs(held / trials - 0.9)).toBeLessThan(0.03);
    }
  });

  it('is not told where there are none', () => {
    expect(wilson(0, 0, Z90)).toBeNull();
  });
});

describe('the middle of some values', () => {
  it('lies between two of them in proportion, as a spreadsheet says it', () => {
    // LibreOffice Calc: MEDIAN and PERCENTILE of these; from memory.
    expect(sampleQuantile([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(sampleQuantile([1, 2, 3, 4], 0.8)).toBeCloseTo(3.4, 12);
    expect(sampleQuantile([15, 20, 35, 40, 50], 0.4)).toBeCloseTo(29, 12);
    expect(sampleQuantile([7], 0.8)).toBe(7);
    expect([0, 1].map((p) => sampleQuantile([3, 5, 9], p))).toEqual([3, 9]);
  });
});
