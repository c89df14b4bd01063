/** Stance and cant. Expected numbers are worked by hand from the formulas beside them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cantFor,
  cantRange,
  compareCants,
  kneeLine,
  missingForChoice,
  placeVariance,
  slopePrior,
  stance,
  thickEdge,
  toStep,
} from '../../../core/maths/stance.ts';
import type { StanceReading, StanceRules } from '../../../core/maths/stance.ts';
import { nextWedge } from '../../../core/maths/wedge.ts';
import { deg, mm } from '../../../core/units.ts';

const RULES: StanceRules = {
  errorMm: mm(5),
  targetMm: mm(-4),
  slopeShare: 0.75,
  plateStepDeg: deg(0.5),
  secondLookDeg: deg(2),
  maxCantDeg: deg(3),
};
const H = mm(468);
const RIGID = 468 * Math.tan(Math.PI / 180);
const read = (wedge: number, offset: number): StanceReading => ({
  wedgeDeg: deg(wedge),
  offsetMm: mm(offset),
});
const solve = (...readings: StanceReading[]) => stance(readings, H, RULES);

describe('the knee line', () => {
  it('one flat reading keeps the prior slope and takes the offset as it is read', () => {
    const { mean, sd } = slopePrior(H, 0.75);
    expect([mean, sd]).toEqual([expect.closeTo(0.75 * RIGID, 12), expect.closeTo(0.35 * RIGID, 12)]);
    const line = kneeLine([read(0, 6)], { mean, sd }, mm(5))!;
    expect(line.offsetMm).toBeCloseTo(6, 9);
    expect(line.slopeMmPerDeg).toBeCloseTo(mean, 9);
    expect(line.covariance[0]).toBeCloseTo(25, 9);
    expect(line.covariance[1]).toBeCloseTo(0, 9);
    expect(line.covariance[2]).toBeCloseTo(sd ** 2, 9);
  });

  it('many readings outweigh the prior: the least-squares line remains', () => {
    const readings = [0, 1, 2, 3].flatMap((w) => Array.from({ length: 5000 }, () => read(w, 3 + 4 * w)));
    const line = kneeLine(readings, slopePrior(H, 0.75), mm(5))!;
    expect(line.offsetMm).toBeCloseTo(3, 2);
    expect(line.slopeMmPerDeg).toBeCloseTo(4, 2);
  });

  it('is nothing without a reading', () => {
    expect(kneeLine([], slopePrior(H, 0.75), mm(5))).toBeNull();
    expect(solve()).toEqual({ verdict: 'unread' });
    expect(nextWedge(solve(), RULES)).toBeNull();
  });
});

describe('the cant', () => {
  it('brings the knee to the target, with its deviation by propagation', () => {
    const plan = solve(read(0, 6));
    const slope = 0.75 * RIGID;
    if (plan.verdict !== 'cant') throw new Error(plan.verdict);
    expect(plan.cantDeg).toBeCloseTo(-10 / slope, 9);
    const spread = Math.sqrt(25 + (0.35 * RIGID * (10 / slope)) ** 2) / slope;
    expect(plan.cantSdDeg).toBeCloseTo(spread, 9);
    // −1.632° rounds to −1.5°: the sole tips the boot inward, so it is thick on the lateral edge.
    expect(plan.roundedDeg).toBe(-1.5);
    expect(thickEdge(plan.roundedDeg)).toBe('lateral');
    expect(plan.secondLook).toBe(false);
  });

  it('a knee medial of the target wants the thick edge medial', () => {
    const plan = solve(read(0, -14));
    expect(plan).toMatchObject({ verdict: 'cant', roundedDeg: 1.5 });
    expect(thickEdge(deg(1.5))).toBe('medial');
  });

  it('is none when it rounds to none, and the words say so', () => {
    const plan = solve(read(0, -5));
    expect(plan).toMatchObject({ verdict: 'flat-enough', roundedDeg: 0 });
    expect(thickEdge(deg(0))).toBe('none');
  });

  it('past the limit refers on and proposes no plate; over 2° a second technician looks', () => {
    const slope = 0.75 * RIGID;
    const at = (cant: number) => solve(read(0, -4 - cant * slope));
    expect(at(3.01).verdict).toBe('refer');
    expect(at(3.01)).not.toHaveProperty('roundedDeg');
    expect(at(2.99)).toMatchObject({ verdict: 'cant', roundedDeg: 3, secondLook: true });
    expect(at(2.01)).toMatchObject({ verdict: 'cant', roundedDeg: 2, secondLook: true });
    expect(at(1.99)).toMatchObject({ verdict: 'cant', roundedDeg: 2, secondLook: false });
  });

  it.each([
    [0.25, 0],
    [0.26, 0.5],
    [-0.25, 0],
    [0.75, 0.5],
    [-0.75, -0.5],
    [0.76, 1],
    [-1.25, -1],
    [2.75, 2.5],
  ])('%d° on half-degree plates is %d°: half steps toward zero', (exact, rounded) => {
    expect(toStep(deg(exact), deg(0.5))).toBe(rounded);
  });

  it('a half step that a float left too long stays a half step', () => {
    expect(toStep(deg(0.1 + 0.05), deg(0.1))).toBeCloseTo(0.1, 12);
    expect(toStep(deg(0.3 - 0.05), deg(0.1))).toBeCloseTo(0.2, 12);
  });

  it('its range is the closed form of one uncertain slope', () => {
    const line = { offsetMm: mm(10), slopeMmPerDeg: 5, covariance: [0, 0, 0.25] as [number, number, number] };
    const range = cantRange(line, mm(0), 2)!;
    expect(range.lowDeg).toBeCloseTo(-10 / (5 - 1), 12);
    expect(range.highDeg).toBeCloseTo(-10 / (5 + 1), 12);
    expect(cantRange({ ...line, covariance: [0, 0, 7] }, mm(0), 2)).toBeNull();
  });

  it.each([
    [10, 1.24],
    [4, 1.96],
  ])(
    'at a slope of %d deviations the far half of 95 %% is %d times what propagation says',
    (ratio, times) => {
      const line = {
        offsetMm: mm(10),
        slopeMmPerDeg: 5,
        covariance: [0, 0, (5 / ratio) ** 2] as [number, number, number],
      };
      const { cantDeg, sdDeg } = cantFor(line, mm(0));
      const far = cantDeg - cantRange(line, mm(0), 1.96)!.lowDeg;
      expect(far / (1.96 * sdDeg)).toBeCloseTo(times, 2);
    },
  );
});

describe('contradiction', () => {
  it('a knee that moves the wrong way has its signs mixed up', () => {
    const plan = solve(read(0, 2), read(3, -22));
    expect(plan).toMatchObject({
      verdict: 'contradictory',
      contradiction: { under: 'quarter-of-prior', cause: 'signs' },
    });
    expect(plan).not.toHaveProperty('cantDeg');
  });

  it('a knee that does not move contradicts the leg', () => {
    const still = [0, 3, -3, 0, 3, -3].map((w) => read(w, 2));
    expect(solve(...still)).toMatchObject({
      verdict: 'contradictory',
      contradiction: { cause: 'readings' },
    });
  });

  it('a slope under two of its deviations is not clear', () => {
    // Two readings a degree apart hardly tell, and what they tell pulls the slope down.
    const plan = solve(read(0, 0), read(2, 2));
    expect(plan).toMatchObject({ verdict: 'contradictory', contradiction: { under: 'two-deviations' } });
  });

  it.each([
    [1.45, 'contradictory'],
    [1.65, 'clear'],
  ])('a slope of %d, however well read, is judged by a quarter of the prior: %s', (slope, verdict) => {
    // A quarter of 6.127 is 1.532; so many readings leave it uncertain by 0.08.
    const many = Array.from({ length: 400 }, (_, i) => read(i % 2 ? 3 : -3, 0.5 + slope * (i % 2 ? 3 : -3)));
    const plan = solve(...many);
    expect(plan.verdict === 'contradictory' ? plan.contradiction.under : null).toBe(
      verdict === 'contradictory' ? 'quarter-of-prior' : null,
    );
  });

  it('readings on one wedge alone cannot contradict the slope, however uncertain the prior', () => {
    const unsure = { ...RULES, slopeShare: 0.5 };
    expect(stance([read(0, 2), read(0, 9)], H, unsure).verdict).toBe('cant');
  });
});

describe('the next wedge', () => {
  const next = (...readings: StanceReading[]) => nextWedge(solve(...readings), RULES)!;

  it('after one flat reading is twice the cant', () => {
    const slope = 0.75 * RIGID;
    expect(next(read(0, -4 - 1 * slope)).wedgeDeg).toBe(2);
    expect(next(read(0, -4 + 1.25 * slope)).wedgeDeg).toBe(-2.5);
  });

  it('after two flat readings is three times the cant', () => {
    const slope = 0.75 * RIGID;
    const flat = read(0, -4 - 0.5 * slope);
    expect(next(flat, flat).wedgeDeg).toBe(1.5);
  });

  it('stays within the limit, and is none where the knee stands right', () => {
    expect(next(read(0, 12)).wedgeDeg).toBe(-3);
    expect(next(read(0, -4)).wedgeDeg).toBe(0);
  });

  it('says what the cant will be known to, and then it is', () => {
    const first = solve(read(0, 6));
    const { wedgeDeg, cantSdAfterDeg } = nextWedge(first, RULES)!;
    // Read as predicted, the means stay, and the deviation is the one foretold.
    const predicted = 6 + wedgeDeg * 0.75 * RIGID;
    const second = solve(read(0, 6), read(wedgeDeg, predicted));
    if (first.verdict !== 'cant' || second.verdict !== 'cant') throw new Error('no cant');
    expect(second.cantDeg).toBeCloseTo(first.cantDeg, 9);
    expect(second.cantSdDeg).toBeCloseTo(cantSdAfterDeg!, 9);
    expect(second.cantSdDeg).toBeLessThan(first.cantSdDeg);
  });

  it('no other wedge narrows the cant more', () => {
    const readings = [read(0, 6), read(-2, -9)];
    const plan = solve(...readings);
    if (plan.verdict !== 'cant') throw new Error(plan.verdict);
    const { cantSdAfterDeg } = nextWedge(plan, RULES)!;
    for (let wedge = -3; wedge <= 3; wedge += 0.5) {
      const more = kneeLine([...readings, read(wedge, 0)], plan.prior, RULES.errorMm)!;
      const sd = Math.sqrt(placeVariance(more.covariance, plan.cantDeg)) / plan.line.slopeMmPerDeg;
      expect(sd).toBeGreaterThanOrEqual(cantSdAfterDeg! - 1e-9);
    }
  });

  it('where no cant can be given, settles the slope, toward the target', () => {
    const plan = solve(read(0, 2), read(2, -14));
    expect(plan.verdict).toBe('contradictory');
    expect(nextWedge(plan, RULES)).toEqual({ wedgeDeg: -3, cantSdAfterDeg: null });
  });
});

it('a choice needs two re-stands and one reading on a wedge', () => {
  const at = (wedge: number, restood: boolean) => ({ ...read(wedge, 0), restood });
  expect(missingForChoice([])).toEqual({ restands: 2, wedge: true });
  expect(missingForChoice([at(0, true), at(0, true)])).toEqual({ restands: 0, wedge: true });
  expect(missingForChoice([at(0, true), at(1, false)])).toEqual({ restands: 1, wedge: false });
  expect(missingForChoice([at(0, false), at(1, true), at(1, true)])).toEqual({ restands: 0, wedge: false });
});

it('left and right far apart are questioned', () => {
  const cant = (cantDeg: number, sd: number) => ({ cantDeg: deg(cantDeg), cantSdDeg: deg(sd) });
  expect(compareCants(cant(1.5, 0.3), cant(-0.5, 0.4), deg(1.5))).toEqual({
    differenceDeg: 2,
    sdDeg: 0.5,
    questioned: true,
  });
  expect(compareCants(cant(1.5, 0), cant(0, 0), deg(1.5)).questioned).toBe(false);
});

const angle = fc.double({ min: -12, max: 12, noNaN: true });
const offset = fc.double({ min: -120, max: 120, noNaN: true });
const anyReadings = fc.array(fc.tuple(angle, offset), { minLength: 1, maxLength: 8 });
const anyRules = fc.record({
  errorMm: fc.double({ min: 0.5, max: 20, noNaN: true }),
  targetMm: fc.double({ min: -20, max: 20, noNaN: true }),
  slopeShare: fc.double({ min: 0.1, max: 1, noNaN: true }),
  plateStepDeg: fc.double({ min: 0.1, max: 2, noNaN: true }),
  secondLookDeg: fc.double({ min: 0.5, max: 6, noNaN: true }),
  maxCantDeg: fc.double({ min: 0.5, max: 6, noNaN: true }),
}) as unknown as fc.Arbitrary<StanceRules>;
const anyHeight = fc.double({ min: 200, max: 750, noNaN: true }).map(mm);

const numbers = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(numbers)
      : [];

describe('whatever is read', () => {
  it('every number is finite, and a plate is inside its limit', () => {
    fc.assert(
      fc.property(anyReadings, anyHeight, anyRules, (pairs, height, rules) => {
        const plan = stance(
          pairs.map(([w, o]) => read(w, o)),
          height,
          rules,
        );
        const next = nextWedge(plan, rules)!;
        for (const n of numbers([plan, next])) expect(Number.isFinite(n)).toBe(true);
        expect(Math.abs(next.wedgeDeg)).toBeLessThanOrEqual(rules.maxCantDeg + 1e-9);
        if (plan.verdict === 'cant' || plan.verdict === 'flat-enough')
          expect(Math.abs(plan.roundedDeg - plan.cantDeg)).toBeLessThanOrEqual(rules.plateStepDeg / 2 + 1e-6);
      }),
    );
  });

  it('mirrored readings give the mirrored cant and the mirrored wedge', () => {
    fc.assert(
      fc.property(anyReadings, anyHeight, anyRules, (pairs, height, rules) => {
        fc.pre(pairs.every(([, o]) => Math.abs(o - rules.targetMm) > 1e-6));
        const one = stance(
          pairs.map(([w, o]) => read(w, o)),
          height,
          rules,
        );
        const mirror = { ...rules, targetMm: mm(-rules.targetMm) };
        const other = stance(
          pairs.map(([w, o]) => read(-w, -o)),
          height,
          mirror,
        );
        expect(other.verdict).toBe(one.verdict);
        if ('cantDeg' in one && 'cantDeg' in other) expect(other.cantDeg).toBeCloseTo(-one.cantDeg, 8);
        if ('roundedDeg' in one && 'roundedDeg' in other) expect(other.roundedDeg + one.roundedDeg).toBe(0);
        expect(nextWedge(other, mirror)!.wedgeDeg + nextWedge(one, rules)!.wedgeDeg).toBeCloseTo(0, 9);
      }),
    );
  });

  it('one more reading never widens what is known of the knee, on any wedge', () => {
    fc.assert(
      fc.property(anyReadings, angle, offset, angle, (pairs, w, o, at) => {
        const readings = pairs.map(([a, b]) => read(a, b));
        const prior = slopePrior(H, 0.75);
        const before = kneeLine(readings, prior, mm(5))!;
        const after = kneeLine([...readings, read(w, o)], prior, mm(5))!;
        const slack = 1 + 1e-9;
        expect(placeVariance(after.covariance, at)).toBeLessThanOrEqual(
          placeVariance(before.covariance, at) * slack,
        );
      }),
    );
  });

  it('the order of the readings changes nothing', () => {
    fc.assert(
      fc.property(anyReadings, (pairs) => {
        const readings = pairs.map(([w, o]) => read(w, o));
        const [one, other] = [solve(...readings), solve(...readings.toReversed())];
        expect(other.verdict).toBe(one.verdict);
        if ('cantDeg' in one && 'cantDeg' in other) expect(other.cantDeg).toBeCloseTo(one.cantDeg, 9);
      }),
    );
  });
});
