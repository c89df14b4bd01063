/** What the plan proposes, against every pair of pivots that could be set, tried one by one. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { CuffPlan } from '../../core/index.ts';
import { check } from './check.ts';
import { rigs } from './hardware.ts';
import type { Places, Rig } from './hardware.ts';
import { story } from './story.ts';
import type { Story } from './story.ts';

interface Setting {
  readonly m: number;
  readonly l: number;
}

interface Case {
  readonly rig: Rig;
  readonly from: Setting;
  readonly gaps: readonly [medial: number, lateral: number];
  readonly k: number | null;
}

const RADIAN = Math.PI / 180;
const gap = fc.integer({ min: 0, max: 44 }).map((n) => n / 2);
const cases = (marked: Parameters<typeof rigs>[0]): fc.Arbitrary<Case> =>
  fc
    .record({
      rig: rigs(marked),
      pick: fc.tuple(fc.nat({ max: 999 }), fc.nat({ max: 999 })),
      gaps: fc.tuple(gap, gap),
      k: fc.constantFrom(null, null, 0.7, 1.2),
    })
    .map(({ rig, pick, gaps, k }) => {
      const at = (places: Places, n: number): number =>
        'at' in places
          ? places.at[n % places.at.length]!
          : places.low + Math.round(((places.high - places.low) * (n % 11)) / 5) / 2;
      return { rig, from: { m: at(rig.medial, pick[0]), l: at(rig.lateral, pick[1]) }, gaps, k };
    })
    .filter(({ rig, from }) => inside(rig.medial, from.m) && inside(rig.lateral, from.l));

const inside = (places: Places, at: number): boolean =>
  'at' in places
    ? places.at.some((place) => Math.abs(place - at) < 1e-9)
    : at >= places.low - 1e-9 && at <= places.high + 1e-9;

function told({ rig, from, gaps, k }: Case): { cuff: CuffPlan; s: Story } {
  const s = story({ hardware: rig.hardware });
  if (k !== null) s.add('response.known', { side: 'left', k, sd: 0.1, pairs: 3 });
  if (rig.rework)
    s.add('pivot.reworked', {
      side: 'left',
      adjuster: rig.rework.adjuster,
      method: 'slot',
      ...rig.rework.payload,
    });
  s.add('cuff.set', {
    side: 'left',
    lateralMm: from.l,
    ...(rig.hardware['pivots'] === 'dual' && { medialMm: from.m }),
  });
  s.read('left', ...gaps);
  return { cuff: plan(s.facts).sides.left.cuff, s };
}

/** The bias that a setting leaves, by the formulas as they stand on paper. */
function biasOf({ rig, from, gaps, k }: Case): (to: Setting) => number {
  const { pivotSpacingMm: w, readingHeightMm: h, factoryLeanDeg = 0 } = rig.hardware;
  const centre = ({ m, l }: Setting) => h * Math.sin(factoryLeanDeg * RADIAN + Math.asin((m - l) / w));
  return (to) => gaps[0] - gaps[1] - 2 * (k ?? 1) * (centre(to) - centre(from));
}

/** The medial place that leaves no bias beside a lateral one, halving an interval; the nearer end where none does. */
function answer(places: { low: number; high: number }, l: number, bias: (to: Setting) => number): number {
  let { low, high } = places;
  if (bias({ m: low, l }) <= 0) return low;
  if (bias({ m: high, l }) >= 0) return high;
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (bias({ m: middle, l }) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Every pair worth naming; on a free side, its best answer to each place of the other. */
function everyPair(of: Case, step = 0.01): Setting[] {
  const { medial, lateral } = of.rig;
  const bias = biasOf(of);
  const laterals =
    'at' in lateral
      ? lateral.at
      : Array.from(
          { length: Math.floor((lateral.high - lateral.low) / step + 1e-9) + 1 },
          (_, i) => lateral.low + i * step,
        );
  if ('at' in medial && !('at' in lateral))
    return medial.at.map((m) => {
      // The other way about: the bias rises with the lateral place.
      const mirror = ({ m: at }: Setting) => bias({ m, l: -at });
      return { m, l: -answer({ low: -lateral.high, high: -lateral.low }, 0, mirror) };
    });
  return laterals.flatMap((l) =>
    'at' in medial ? medial.at.map((m) => ({ m, l })) : [{ m: answer(medial, l, bias), l }],
  );
}

/** Least bias, then least movement, then most even, then the larger part of the move lateral. */
const keysOf = (of: Case): ((to: Setting) => number)[] => [
  (to) => Math.abs(biasOf(of)(to)),
  (to) => Math.abs(to.m - of.from.m) + Math.abs(to.l - of.from.l),
  (to) => Math.abs(to.m + to.l),
  (to) => -Math.abs(to.l - of.from.l),
];

function best(of: Case, pairs: readonly Setting[], slack = 1e-9): { keys: number[] } {
  let left = pairs;
  const keys = keysOf(of).map((key) => {
    const least = Math.min(...left.map(key));
    left = left.filter((pair) => key(pair) <= least + slack);
    return least;
  });
  return { keys };
}

const target = (cuff: CuffPlan): Setting => ({ m: cuff.target!.medialMm, l: cuff.target!.lateralMm });

describe('[CUF-3] the target', () => {
  it('with marks or places on every pivot is the best of all pairs, tie for tie', () => {
    check(
      500,
      cases(['marks', 'stops']).filter(({ rig }) => 'at' in rig.medial && 'at' in rig.lateral),
      (of) => {
        const to = target(told(of).cuff);
        expect(inside(of.rig.medial, to.m) && inside(of.rig.lateral, to.l)).toBe(true);
        const { keys } = best(of, everyPair(of));
        keysOf(of).forEach((key, i) => expect(Math.abs(key(to) - keys[i]!), `key ${i}`).toBeLessThan(3e-9));
      },
    );
  });

  it('with one side free is the best of that side’s answers, inside its travel and on the other’s places', () => {
    const oneSided = cases(['stops-one-side', 'stops', 'marks']).filter(
      ({ rig }) => 'at' in rig.medial !== 'at' in rig.lateral,
    );
    check(300, oneSided, (of) => {
      const to = target(told(of).cuff);
      expect(inside(of.rig.medial, to.m) && inside(of.rig.lateral, to.l)).toBe(true);
      const { keys } = best(of, everyPair(of), 1e-8);
      keysOf(of)
        .slice(0, 3)
        .forEach((key, i) => expect(Math.abs(key(to) - keys[i]!), `key ${i}`).toBeLessThan(1e-6));
    });
  });

  it('without marks is as good as a search in hundredths, moves no further, and is as even', () => {
    check(150, cases(['free']), (of) => {
      const { rig } = of;
      const to = target(told(of).cuff);
      expect(inside(rig.medial, to.m) && inside(rig.lateral, to.l)).toBe(true);
      const [bias, movement, uneven] = keysOf(of) as [
        (s: Setting) => number,
        (s: Setting) => number,
        (s: Setting) => number,
      ];
      const pairs = everyPair(of);
      const leastBias = Math.min(...pairs.map(bias));
      expect(bias(to)).toBeLessThan(leastBias + 1e-6);
      if (leastBias > bias(to) + 1e-6) return;
      // A hundredth of a millimetre of the search is at most two of movement and of evenness.
      const asGood = pairs.filter((pair) => bias(pair) < leastBias + 1e-6);
      const leastMovement = Math.min(...asGood.map(movement));
      expect(movement(to)).toBeLessThan(leastMovement + 1e-6);
      const asNear = asGood.filter((pair) => movement(pair) < movement(to) + 1e-9);
      expect(uneven(to)).toBeLessThan(Math.min(Infinity, ...asNear.map(uneven)) + 1e-6);
    });
  });

  it('from neutral and without marks is ±s/2, with all the travel there', () => {
    check(100, cases(['free']), (of) => {
      const free = { ...of, from: { m: 0, l: 0 }, rig: { ...of.rig, rework: null } };
      if (!inside(free.rig.medial, 0) || 'at' in free.rig.medial) return;
      const to = target(told(free).cuff);
      const spread = to.m - to.l;
      const { travel } = free.rig.hardware as unknown as {
        travel: Record<'lateral' | 'medial', { upMm: number; downMm: number }>;
      };
      const room = [travel.lateral, travel.medial].every(
        (t) => Math.min(t.upMm, t.downMm) >= Math.abs(spread) / 2,
      );
      if (room) expect(to.m + to.l).toBeCloseTo(0, 9);
    });
  });
});

describe('[CUF-4] the prediction', () => {
  const any = cases(['marks', 'stops', 'free', 'stops-one-side']);

  it('keeps the sum of the gaps, and gives the bias of the pair that can really be made', () => {
    check(400, any, (of) => {
      const { cuff } = told(of);
      const { medialMm, lateralMm } = cuff.predicted!;
      expect(medialMm + lateralMm).toBeCloseTo(of.gaps[0] + of.gaps[1], 9);
      expect(medialMm - lateralMm).toBeCloseTo(biasOf(of)(target(cuff)), 8);
      expect(cuff.move!.medialMm).toBeCloseTo(cuff.target!.medialMm - of.from.m, 9);
      expect(cuff.move!.lateralMm).toBeCloseTo(cuff.target!.lateralMm - of.from.l, 9);
    });
  });

  it('says what limits it just where it is not even, and what is missing just where the travel ends', () => {
    check(400, any, (of) => {
      const { cuff } = told(of);
      const left = Math.abs(biasOf(of)(target(cuff)));
      expect(cuff.limitedBy === null).toBe(left <= 1e-6);
      expect(cuff.shortBy !== null).toBe(cuff.limitedBy === 'travel');
      if (cuff.shortBy) {
        expect(cuff.shortBy.pivotMm).toBeGreaterThan(0);
        expect(Math.sign(cuff.shortBy.leanDeg)).toBe(Math.sign(cuff.correctionDeg!));
      }
    });
  });

  it('comes true: moved as told and read as predicted, a cuff predicted even is even', () => {
    let evens = 0;
    check(300, any, (of) => {
      const { cuff, s } = told(of);
      const { medialMm, lateralMm } = cuff.predicted!;
      if (Math.abs(medialMm - lateralMm) > 3 || Math.min(medialMm, lateralMm) < 0) return;
      evens++;
      const { m, l } = target(cuff);
      s.add('cuff.set', {
        side: 'left',
        lateralMm: l,
        ...(of.rig.hardware['pivots'] === 'dual' && { medialMm: m }),
      });
      s.read('left', medialMm, lateralMm);
      const after = plan(s.facts).sides.left.cuff;
      expect(after.verdict).toBe('even');
      expect(after.biasMm).toBeCloseTo(medialMm - lateralMm, 6);
    });
    expect(evens).toBeGreaterThan(60);
  });

  it('never proposes a move for the worse', () => {
    check(300, any, (of) => {
      const { cuff } = told(of);
      expect(Math.abs(biasOf(of)(target(cuff)))).toBeLessThanOrEqual(Math.abs(cuff.biasMm!) + 1e-9);
    });
  });
});
