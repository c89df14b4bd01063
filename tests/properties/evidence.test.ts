/** More readings never make an interval wider. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mm, plan } from '../../core/index.ts';
import { estimate } from '../../core/maths/estimate.ts';
import type { Observation } from '../../core/maths/estimate.ts';
import { check } from './check.ts';
import { story } from './story.ts';

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const exact: fc.Arbitrary<Observation> = fc
  .tuple(double(-15, 15), double(-25, 25), double(0.5, 5))
  .map(([x, d, sd]) => ({ shiftMm: mm(x), biasMm: mm(d), sdMm: mm(sd), bound: 'exact' }));
const prior = fc
  .tuple(double(0.5, 1.5), double(0.02, 0.5), fc.option(fc.tuple(double(-10, 10), double(0.5, 10))))
  .map(([k, sd, leg]) => ({ response: { k, sd }, leg: leg && { mLegMm: mm(leg[0]), sdMm: mm(leg[1]) } }));

describe('one more exact reading', () => {
  it('never widens the bias at any setting, nor the response', () => {
    check(
      500,
      fc.tuple(prior, fc.array(exact, { minLength: 1, maxLength: 6 }), exact, double(-15, 15)),
      ([of, seen, more, x]) => {
        const [before, after] = [estimate(of, seen)!.at(mm(x)), estimate(of, [...seen, more])!.at(mm(x))];
        expect(after.sdMm).toBeLessThanOrEqual(before.sdMm * (1 + 1e-7));
        expect(after.response.sd).toBeLessThanOrEqual(before.response.sd * (1 + 1e-7));
      },
    );
  });

  it('is as good wherever it stands among the others', () => {
    check(
      300,
      fc.tuple(prior, fc.array(exact, { minLength: 2, maxLength: 6 }), double(-15, 15)),
      ([of, seen, x]) => {
        const [a, b] = [estimate(of, seen)!.at(mm(x)), estimate(of, [...seen].reverse())!.at(mm(x))];
        expect(b.biasMm).toBeCloseTo(a.biasMm, 6);
        expect(b.sdMm).toBeCloseTo(a.sdMm, 6);
      },
    );
  });

  it('at one setting narrows the plan’s own interval by √n', () => {
    const gap = fc.integer({ min: 0, max: 40 }).map((n) => n / 2);
    check(60, fc.array(fc.tuple(gap, gap), { minLength: 2, maxLength: 5 }), (readings) => {
      const s = story();
      readings.forEach(([medial, lateral], i) => {
        s.read('left', medial, lateral);
        const { cuff } = plan(s.facts).sides.left;
        expect(cuff.biasSdMm).toBeCloseTo((1.5 * Math.SQRT2) / Math.sqrt(i + 1), 6);
        expect(cuff.reading!.repeats).toBe(i + 1);
        expect(cuff.biasMm).toBeCloseTo(cuff.reading!.biasMm, 6);
      });
    });
  });
});
