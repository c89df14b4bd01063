/** The simulated leg is what the demo measures, so it is checked by hand-worked cases of its own. */
import { describe, expect, it } from 'vitest';
import { readGaps, trueGaps } from '../../demo/leg.ts';
import type { Cuff, Leg } from '../../demo/leg.ts';
import { randomFrom } from '../../demo/random.ts';

const cuff: Cuff = { pivotSpacingMm: 80, readingHeightMm: 200, factoryLeanDeg: 0 };
const leg = (placeMm: number, response = 1): Leg => ({ placeMm, roomMm: 20, response });
const neutral = { medialMm: 0, lateralMm: 0 };
const bias = (gaps: { medialMm: number; lateralMm: number }) => gaps.medialMm - gaps.lateralMm;

describe('a simulated leg', () => {
  it('in the middle of an upright cuff leaves half the room on each side', () => {
    const gaps = trueGaps(leg(0), cuff, neutral);
    expect(gaps.medialMm).toBeCloseTo(10, 9);
    expect(gaps.lateralMm).toBeCloseTo(10, 9);
  });

  it('that stands 4 mm lateral reads 4 mm more on the medial side and 4 mm less on the lateral', () => {
    // The leg leans by atan(4/200) = 1.1°: across the walls the room is less by 60 mm × (1 − cos 1.1°) = 0.012 mm.
    const gaps = trueGaps(leg(4), cuff, neutral);
    expect(gaps.medialMm).toBeCloseTo(14, 1);
    expect(gaps.lateralMm).toBeCloseTo(6, 1);
  });

  it('is met by a cuff that is turned as far as the leg leans', () => {
    // sin φ = 4/200 exactly where (medial up − lateral up)/80 = 0.02: 0.8 mm up on each side of the pair.
    const gaps = trueGaps(leg(4), cuff, { medialMm: 0.8, lateralMm: -0.8 });
    expect(Math.abs(bias(gaps))).toBeLessThan(0.01);
  });

  it('answers half a move with half the change when the cuff slips by half', () => {
    const set = { medialMm: 0.8, lateralMm: -0.8 };
    const whole = bias(trueGaps(leg(4), cuff, neutral)) - bias(trueGaps(leg(4), cuff, set));
    const half = bias(trueGaps(leg(4, 0.5), cuff, neutral)) - bias(trueGaps(leg(4, 0.5), cuff, set));
    expect(half / whole).toBeCloseTo(0.5, 2);
  });

  it('is mirrored by the same leg on the other side', () => {
    const out = trueGaps(leg(5), cuff, { medialMm: 1, lateralMm: -2 });
    const inward = trueGaps(leg(-5), cuff, { medialMm: -2, lateralMm: 1 });
    expect(inward.medialMm).toBeCloseTo(out.lateralMm, 9);
    expect(inward.lateralMm).toBeCloseTo(out.medialMm, 9);
  });
});

describe('a reading of it', () => {
  const exact = (medialMm: number, lateralMm: number) => readGaps({ medialMm, lateralMm }, 0, randomFrom(1));

  it('is to the half millimetre', () => {
    expect(exact(9.8, 4.3)).toEqual({ medialMm: 10, lateralMm: 4.5, contact: 'none' });
  });

  it('is a press where the leg would stand in the wall, and the other side loses as much', () => {
    expect(exact(22, -2)).toEqual({ medialMm: 20, lateralMm: 0, contact: 'lateral', pressure: 'press' });
    expect(exact(-1, -1)).toEqual({ medialMm: 0, lateralMm: 0, contact: 'both', pressure: 'press' });
  });

  it('is a graze where it only touches', () => {
    expect(exact(0.1, 20)).toEqual({ medialMm: 0, lateralMm: 20, contact: 'medial', pressure: 'graze' });
  });

  it('is the same again from the same seed, and has the spread that was asked for', () => {
    const draw = (seed: number) => {
      const random = randomFrom(seed);
      return Array.from({ length: 4000 }, () => random.normal(2));
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
    // 4,000 draws: the standard error of the mean is 0.03, of the standard deviation 0.022; four of each.
    const drawn = draw(7);
    const mean = drawn.reduce((a, b) => a + b, 0) / drawn.length;
    const sd = Math.sqrt(drawn.reduce((a, b) => a + (b - mean) ** 2, 0) / drawn.length);
    expect(Math.abs(mean)).toBeLessThan(0.13);
    expect(Math.abs(sd - 2)).toBeLessThan(0.09);
  });
});
