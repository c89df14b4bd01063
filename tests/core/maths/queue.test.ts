/** The queue's forecast: by hand where durations are certain, and what must hold where they are not. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { learnedDuration, minutesAt, minutesLeft } from '../../../core/maths/duration.ts';
import type { Duration } from '../../../core/maths/duration.ts';
import { completions } from '../../../core/maths/floor.ts';
import type { FloorJob } from '../../../core/maths/floor.ts';
import { FORECAST_LIMIT, forecast } from '../../../core/maths/forecast.ts';
import type { FloorStation, OpenJob } from '../../../core/maths/forecast.ts';
import { handsFor, waiting } from '../../../core/maths/queue.ts';
import { randomStream } from '../../../core/maths/random.ts';

const sure = (minutes: number): Duration => ({ kind: 'lognormal', medianMin: minutes, spread: 0 });
const about = (minutes: number, spread = 0.5): Duration => ({
  kind: 'lognormal',
  medianMin: minutes,
  spread,
});
const SHOP: FloorStation[] = [
  { id: 'floor', hands: 1 },
  { id: 'bench', hands: 2 },
];
const job = (id: string, steps: [string, Duration][], more: Partial<OpenJob> = {}): OpenJob => ({
  id,
  steps: steps.map(([station, duration]) => ({ station, duration })),
  fromMin: 0,
  priority: 0,
  inHandMin: null,
  ...more,
});

function ready(jobs: readonly OpenJob[], stations = SHOP, seed = 7, runs = 200) {
  const answer = forecast(stations, jobs, seed, runs);
  if (!answer.ok) throw new Error(answer.fault.code);
  return answer.jobs;
}

describe('certain durations', () => {
  const median = (...jobs: OpenJob[]) => ready(jobs).map((one) => one.medianMin);

  it('jobs wait for one another where hands are few', () => {
    expect(median(job('a', [['floor', sure(20)]]), job('b', [['floor', sure(30)]]))).toEqual([20, 50]);
    expect(median(job('a', [['bench', sure(20)]]), job('b', [['bench', sure(30)]]))).toEqual([20, 30]);
    const three = ['a', 'b', 'c'].map((id) => job(id, [['bench', sure(30)]]));
    expect(median(...three)).toEqual([30, 30, 60]);
  });

  it('steps follow one another from station to station', () => {
    // b is measured while a is at the bench: 20, 20 + 40; a comes back to the floor after b.
    const a = job('a', [
      ['floor', sure(20)],
      ['bench', sure(10)],
      ['floor', sure(5)],
    ]);
    const b = job('b', [
      ['floor', sure(40)],
      ['bench', sure(10)],
    ]);
    expect(median(a, b)).toEqual([65, 70]);
  });

  it('the larger priority goes first, and interrupts nobody', () => {
    const slow = job('a', [['floor', sure(30)]]);
    const urgent = job('b', [['floor', sure(10)]], { priority: 1 });
    expect(median(slow, urgent)).toEqual([40, 10]);
    expect(median(slow, { ...urgent, fromMin: 5 })).toEqual([30, 40]);
  });

  it('a job in hand goes on before any priority, for what is left of it', () => {
    const begun = job('a', [['floor', { kind: 'quantiles', points: [{ p: 0, minutes: 30 }] }]], {
      inHandMin: 12,
    });
    const urgent = job('b', [['floor', sure(10)]], { priority: 9 });
    expect(median(urgent, begun)).toEqual([28, 18]);
    // What follows it begins from nothing.
    const more = [...begun.steps, { station: 'bench', duration: sure(50) }];
    expect(median({ ...begun, steps: more })[0]).toBeCloseTo(68, 6);
    // It has run longer than it was thought it could: due at any moment.
    expect(median(urgent, { ...begun, inHandMin: 45 })).toEqual([10, 0]);
  });

  it('a job with nothing left is ready when it is there', () => {
    expect(median(job('a', []), job('b', [], { fromMin: 15 }))).toEqual([0, 15]);
  });

  it('the promise is no earlier than the median', () => {
    expect(ready([job('a', [['floor', sure(20)]])])).toEqual([{ id: 'a', medianMin: 20, promiseMin: 20 }]);
  });
});

describe('what cannot be forecast', () => {
  it.each([
    [{ code: 'unknown-station', job: 'a', station: 'oven' }, SHOP, [job('a', [['oven', sure(1)]])], 10],
    [{ code: 'no-hands', station: 'floor' }, [{ id: 'floor', hands: 0 }], [], 10],
    [{ code: 'no-runs' }, SHOP, [], 0],
    [{ code: 'too-much', what: 'runs', is: 20_000, max: 10_000 }, SHOP, [], 20_000],
  ])('is refused with %j', (fault, stations, jobs, runs) => {
    expect(forecast(stations, jobs, 1, runs)).toEqual({ ok: false, fault });
  });

  it('is too much work', () => {
    const steps = Array.from({ length: FORECAST_LIMIT.stepsPerJob }, (): [string, Duration] => [
      'floor',
      sure(1),
    ]);
    const jobs = Array.from({ length: 100 }, (_, i) => job(String(i), steps));
    expect(forecast(SHOP, jobs, 1, 1000)).toMatchObject({
      ok: false,
      fault: { what: 'work', is: 5_000_000 },
    });
    const long = job('a', [...steps, ['floor', sure(1)]]);
    expect(forecast(SHOP, [long], 1)).toMatchObject({ ok: false, fault: { what: 'stepsPerJob', is: 51 } });
  });
});

const anyDuration: fc.Arbitrary<Duration> = fc.oneof(
  fc.record({
    kind: fc.constant('lognormal' as const),
    medianMin: fc.double({ min: 0.1, max: 600, noNaN: true }),
    spread: fc.double({ min: 0, max: 1.5, noNaN: true }),
  }),
  fc
    .tuple(
      fc.array(fc.double({ min: 0, max: 600, noNaN: true }), { minLength: 1, maxLength: 5 }),
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
    )
    .map(([minutes, chances]): Duration => {
      const ps = chances.toSorted((a, b) => a - b);
      const points = minutes.toSorted((a, b) => a - b).map((m, i) => ({ p: ps[i]!, minutes: m }));
      return { kind: 'quantiles', points };
    }),
);
const anyJob = (id: string) =>
  fc
    .record({
      steps: fc.array(fc.tuple(fc.constantFrom('floor', 'bench'), anyDuration), { maxLength: 4 }),
      fromMin: fc.double({ min: 0, max: 500, noNaN: true }),
      priority: fc.integer({ min: 0, max: 2 }),
      inHandMin: fc.oneof(fc.constant(null), fc.double({ min: 0, max: 2000, noNaN: true })),
    })
    .map(({ steps, ...more }) => job(id, steps, more));
const anyJobs = fc
  .integer({ min: 0, max: 6 })
  .chain((n) => fc.tuple(...Array.from({ length: n }, (_, i) => anyJob(`j${i}`))));

describe('whatever is open', () => {
  it('every time is finite, and no earlier than the job comes', () => {
    fc.assert(
      fc.property(anyJobs, fc.integer(), (jobs, seed) => {
        ready(jobs, SHOP, seed, 20).forEach(({ medianMin, promiseMin }, i) => {
          expect(Number.isFinite(promiseMin)).toBe(true);
          expect(medianMin).toBeGreaterThanOrEqual(jobs[i]!.fromMin);
          expect(promiseMin).toBeGreaterThanOrEqual(medianMin);
        });
      }),
    );
  });

  it('the same seed says the same, another one something else', () => {
    const jobs = [job('a', [['floor', about(20)]]), job('b', [['bench', about(40)]])];
    expect(ready(jobs, SHOP, 11)).toEqual(ready(jobs, SHOP, 11));
    expect(ready(jobs, SHOP, 11)).not.toEqual(ready(jobs, SHOP, 12));
  });

  it('a job at another station changes nothing for those it does not meet', () => {
    const mine = [job('a', [['floor', about(20)]]), job('b', [['floor', about(40)]])];
    const other = job('c', [['bench', about(60)]]);
    expect(ready([other, ...mine]).slice(1)).toEqual(ready(mine));
  });

  it('one more hand at the only station makes nobody later', () => {
    const one = fc.double({ min: 0, max: 100, noNaN: true });
    const floorJob = fc.tuple(one, one).map(([fromMin, minutes]): FloorJob => ({
      tasks: [{ station: 0, minutes }],
      fromMin,
      priority: 0,
      inHand: false,
    }));
    fc.assert(
      fc.property(fc.array(floorJob, { maxLength: 12 }), fc.integer({ min: 1, max: 4 }), (jobs, hands) => {
        const [few, more] = [completions([hands], jobs), completions([hands + 1], jobs)];
        few.forEach((done, i) => expect(more[i]).toBeLessThanOrEqual(done + 1e-9));
      }),
    );
  });

  it('no station has more jobs in hand than hands, and none idles while a job waits', () => {
    // One station and jobs that are all there: the busy time is the work, shared by the hands.
    const work = fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(work, fc.integer({ min: 1, max: 3 }), (minutes, hands) => {
        const jobs = minutes.map((m): FloorJob => ({
          tasks: [{ station: 0, minutes: m }],
          fromMin: 0,
          priority: 0,
          inHand: false,
        }));
        const done = completions([hands], jobs);
        const begun = done.map((end, i) => end - minutes[i]!);
        for (const at of begun)
          expect(begun.filter((b, i) => b <= at && done[i]! > at).length).toBeLessThanOrEqual(hands);
        const total = minutes.reduce((sum, m) => sum + m, 0);
        expect(Math.max(...done)).toBeGreaterThanOrEqual(total / hands);
        expect(Math.max(...begun)).toBeLessThanOrEqual(total / hands);
        // In the order of the list: nobody begins before an earlier one.
        expect(begun).toEqual(begun.toSorted((a, b) => a - b));
      }),
    );
  });
});

describe('durations', () => {
  it('quantiles are straight between their points and level beyond', () => {
    const points = [
      { p: 0.1, minutes: 10 },
      { p: 0.5, minutes: 20 },
      { p: 0.9, minutes: 60 },
    ];
    const at = (p: number) => minutesAt({ kind: 'quantiles', points }, p);
    expect([at(0.01), at(0.1), at(0.3), at(0.7), at(0.99)].map((m) => Math.round(m * 1e9) / 1e9)).toEqual([
      10, 10, 15, 40, 60,
    ]);
  });

  it('what is left of one is the rest of those that ran as long', () => {
    const points = [
      { p: 0, minutes: 0 },
      { p: 1, minutes: 60 },
    ];
    // Uniform to 60, run for 40: uniform over the 20 left.
    expect(minutesLeft({ kind: 'quantiles', points }, 40, 0.5)).toBeCloseTo(10, 9);
    expect(minutesLeft(about(20), 0, 0.8)).toBeCloseTo(20 * Math.exp(0.5 * 0.8416212), 4);
    // At its median, half of the chance is gone: the median of the rest is the 75 % point.
    expect(minutesLeft(about(20), 20, 0.5)).toBeCloseTo(20 * Math.exp(0.5 * 0.6744898) - 20, 4);
    expect(minutesLeft(sure(20), 15, 0.3)).toBeCloseTo(5, 6);
  });

  it('a prior stands until there are enough, then the shop’s own durations speak', () => {
    const prior = { medianMin: 30, spread: 0.5, weight: 5 };
    expect(learnedDuration([], prior)).toEqual({
      kind: 'lognormal',
      medianMin: expect.closeTo(30, 9) as number,
      spread: expect.closeTo(0.5 * Math.sqrt(1 + 1 / 5), 9) as number,
    });
    const random = randomStream(3);
    const past = Array.from({ length: 4000 }, () => minutesAt(about(12, 0.3), random()));
    const learned = learnedDuration(past, prior);
    expect(learned.medianMin).toBeCloseTo(12, 0);
    expect(learned.spread).toBeCloseTo(0.3, 1);
    const some = learnedDuration([12, 12, 12], prior);
    expect(some.medianMin).toBeGreaterThan(12);
    expect(some.medianMin).toBeLessThan(30);
  });
});

describe('a station in closed form', () => {
  it('that gets more than it can do has no waiting time', () => {
    expect(waiting(4, 2, 2)).toEqual({ stable: false, utilisation: 1 });
    expect(handsFor(1000, 1, 0.1)).toBeNull();
  });

  it('keeps Little’s law, and nobody waits where nobody comes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        (utilisation, service, hands) => {
          const arrivals = utilisation * hands * service;
          const at = waiting(arrivals, service, hands);
          if (!at.stable) return;
          for (const value of Object.values(at))
            if (value !== true) expect(Number.isFinite(value)).toBe(true);
          expect(at.present - at.waiting).toBeCloseTo(arrivals / service, 6);
          expect(at.waitChance).toBeGreaterThanOrEqual(0);
          expect(at.waitChance).toBeLessThanOrEqual(1);
        },
      ),
    );
    expect(waiting(0, 1, 1)).toMatchObject({ emptyChance: 1, waitChance: 0, waitTime: 0, time: 1 });
  });
});
