/**
 * Do the intervals hold what they say? Legs drawn at random, read with the error that the settings state, and the
 * share of 90 % intervals that hold the truth counted. The room for chance is three binomial deviations.
 */
import { describe, expect, it } from 'vitest';
import { deg, mm, plan, sinDeg } from '../../core/index.ts';
import type { HardwareNow } from '../../core/index.ts';
import { shift } from '../../core/maths/cuff.ts';
import { estimate } from '../../core/maths/estimate.ts';
import { lean } from '../../core/maths/hardware.ts';
import { story } from '../properties/story.ts';
import { randomFrom } from './random.ts';
import type { Random } from './random.ts';

const Z90 = 1.6448536269514722;
const SIGMA = 1.5;
const PRIOR = { response: { k: 1, sd: 0.2 }, leg: null };

const boot: HardwareNow = {
  pivots: 'dual',
  pivotSpacingMm: mm(84),
  readingHeightMm: mm(160),
  factoryLeanDeg: deg(1),
  lateral: { minMm: mm(-8), maxMm: mm(8), stops: null },
  medial: { minMm: mm(-8), maxMm: mm(8), stops: null },
  markMm: null,
};

/** A leg in a boot; its bias at a setting that shifts the cuff's centre by `x`. */
function drawn(random: Random) {
  const [place, k] = [random.between(-8, 8), random.normal(1, 0.2)];
  return { place, k, bias: (x: number) => 2 * (place - k * x) };
}

const chanceRoom = (share: number, trials: number) => 3 * Math.sqrt((share * (1 - share)) / trials);

describe('the 90 % interval of the bias', () => {
  it.each([
    ['one reading', [0]],
    ['two at one setting', [0, 0]],
    ['three settings', [0, 5, 3]],
    ['four far apart', [-8, -2, 4, 9]],
  ] as const)('holds the true bias in 90 of 100 legs: %s', (_, shifts) => {
    const random = randomFrom(2026);
    const trials = 6000;
    let held = 0;
    for (let trial = 0; trial < trials; trial++) {
      const leg = drawn(random);
      const observations = shifts.map((x) => ({
        shiftMm: mm(x),
        biasMm: mm(leg.bias(x) + random.normal(0, SIGMA) - random.normal(0, SIGMA)),
        sdMm: mm(SIGMA * Math.SQRT2),
        bound: 'exact' as const,
      }));
      const x = shifts.at(-1)!;
      const found = estimate(PRIOR, observations)!.at(mm(x));
      if (Math.abs(found.biasMm - leg.bias(x)) <= Z90 * found.sdMm) held++;
    }
    expect(Math.abs(held / trials - 0.9)).toBeLessThan(chanceRoom(0.9, trials));
  });

  it('holds it where a wall stops the leg too: presses enter as bounds', () => {
    const random = randomFrom(515);
    const trials = 600;
    let held = 0;
    for (let trial = 0; trial < trials; trial++) {
      const leg = drawn(random);
      // One free reading; at the other setting all that is known is on which side of a line the reading fell.
      const line = random.between(-6, 6);
      const read = (x: number) => leg.bias(x) + random.normal(0, SIGMA * Math.SQRT2);
      const seen = estimate(PRIOR, [
        { shiftMm: mm(0), biasMm: mm(read(0)), sdMm: mm(SIGMA * Math.SQRT2), bound: 'exact' },
        {
          shiftMm: mm(4),
          biasMm: mm(line),
          sdMm: mm(SIGMA * Math.SQRT2),
          bound: read(4) >= line ? 'at-least' : 'at-most',
        },
      ])!.at(mm(4));
      if (Math.abs(seen.biasMm - leg.bias(4)) <= Z90 * seen.sdMm) held++;
    }
    // The posterior is no longer quite normal: one more hundredth.
    expect(Math.abs(held / trials - 0.9)).toBeLessThan(chanceRoom(0.9, trials) + 0.01);
  });
});

describe('the chance of even', () => {
  it('comes true as often as it says, in tenths', () => {
    const random = randomFrom(99);
    const bins = Array.from({ length: 10 }, () => ({ said: 0, true: 0, n: 0 }));
    for (let trial = 0; trial < 12_000; trial++) {
      const leg = drawn(random);
      const observations = [0, 4].map((x) => ({
        shiftMm: mm(x),
        biasMm: mm(leg.bias(x) + random.normal(0, SIGMA * Math.SQRT2)),
        sdMm: mm(SIGMA * Math.SQRT2),
        bound: 'exact' as const,
      }));
      const chance = estimate(PRIOR, observations)!.at(mm(4)).chanceWithin(mm(3));
      const bin = bins[Math.min(9, Math.floor(chance * 10))]!;
      bin.n++;
      bin.said += chance;
      if (Math.abs(leg.bias(4)) <= 3) bin.true++;
    }
    for (const { n, said, true: came } of bins.filter((b) => b.n >= 100)) {
      const share = said / n;
      expect(Math.abs(came / n - share)).toBeLessThan(chanceRoom(share, n) + 0.01);
    }
    expect(bins.filter((b) => b.n >= 100).length).toBeGreaterThanOrEqual(8);
  });
});

describe('the 90 % interval of the correction, as a plan gives it', () => {
  it('holds the lean that truly evens the gaps in 90 of 100 legs, in the first round and in the second', () => {
    const random = randomFrom(1234);
    const trials = 700;
    const held = [0, 0];
    const atRest = { medialMm: mm(0), lateralMm: mm(0) };
    for (let trial = 0; trial < trials; trial++) {
      const leg = drawn(random);
      const s = story({
        hardware: {
          pivots: 'dual',
          pivotSpacingMm: 84,
          readingHeightMm: 160,
          factoryLeanDeg: 1,
          travel: { lateral: { upMm: 8, downMm: 8 }, medial: { upMm: 8, downMm: 8 } },
        },
      });
      let at = atRest;
      for (const round of [0, 1]) {
        const bias = leg.bias(shift(boot, at));
        const gap = (share: number) => 25 + (share * bias) / 2 + random.normal(0, SIGMA);
        s.read('left', gap(1), gap(-1));
        const { cuff } = plan(s.facts).sides.left;
        // By its definition: the lean at which the centre has moved as far as the bias asks for, at this response.
        const wanted = sinDeg(lean(boot, at)) + bias / (2 * leg.k * 160);
        const truth = (Math.asin(wanted) * 180) / Math.PI - lean(boot, at);
        if (Math.abs(cuff.correctionDeg! - truth) <= Z90 * cuff.correctionSdDeg!) held[round]!++;
        at = { medialMm: cuff.target!.medialMm, lateralMm: cuff.target!.lateralMm };
        s.set('left', at.medialMm, at.lateralMm);
      }
    }
    // A ratio of two uncertain numbers is not quite normal: one more hundredth.
    for (const count of held)
      expect(Math.abs(count / trials - 0.9)).toBeLessThan(chanceRoom(0.9, trials) + 0.01);
  });
});
