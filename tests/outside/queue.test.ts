/**
 * The queue's closed forms against published values, and its simulation against closed forms. A simulated mean is
 * allowed four standard errors, from batches of one long run; the seeds are fixed, so a run is always the same.
 */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { minutesAt } from '../../core/maths/duration.ts';
import type { Duration } from '../../core/maths/duration.ts';
import { completions } from '../../core/maths/floor.ts';
import type { FloorJob } from '../../core/maths/floor.ts';
import { forecast } from '../../core/maths/forecast.ts';
import { handsFor, waiting } from '../../core/maths/queue.ts';
import { randomStream } from '../../core/maths/random.ts';

describe('M/M/c in closed form', () => {
  it.each([
    // λ, μ, c, P0, P(wait), Lq, L, Wq, W, source and confidence
    [10, 12, 2, 0.41176, 0.2451, 0.17507, 1.0084, 0.01751, 0.10084, 'printed textbook sheet, read'],
    [10, 12, 4, 0.43433, 0.01102, 0.0029, 0.83623, 0.00029, 0.08362, 'printed textbook sheet, read'],
    [2, 3, 1, 1 / 3, 2 / 3, 4 / 3, 2, 2 / 3, 1, 'Hillier & Lieberman, hospital, memory'],
    [2, 3, 2, 0.5, 1 / 6, 1 / 12, 0.75, 1 / 24, 0.375, 'Hillier & Lieberman, hospital, memory'],
    [
      0.75,
      1,
      2,
      0.45455,
      0.20455,
      0.12273,
      0.87273,
      0.16364,
      1.16364,
      'Anderson, Sweeney & Williams, memory',
    ],
    [
      30,
      12,
      6,
      0.08162,
      0.04744,
      0.03389,
      2.53389,
      0.00113,
      0.08446,
      'exercise, question read, answer computed',
    ],
    [
      150,
      100,
      2,
      0.14286,
      0.64286,
      1.92857,
      3.42857,
      0.01286,
      0.02286,
      'two-line exercise, question read, answer computed',
    ],
    [10, 1, 14, 0.00004, 0.17413, 0.43533, 10.43533, 0.04353, 1.04353, '10 erlang, exact maths'],
  ])('λ %d, μ %d, c %d (P0 %d, wait %d, Lq %d, L %d, Wq %d, W %d; %s)', (λ, μ, c, p0, wait, lq, l, wq, w) => {
    const at = waiting(λ, μ, c);
    if (!at.stable) throw new Error('not stable');
    const off = [
      at.emptyChance - p0,
      at.waitChance - wait,
      at.waiting - lq,
      at.present - l,
      at.waitTime - wq,
      at.time - w,
      at.utilisation - λ / (c * μ),
    ];
    for (const d of off) expect(Math.abs(d)).toBeLessThan(6e-6);
  });

  it('three hands as printed: P0 .432, wait .058, Lq .022, L .856, Wq .002, W .086 (textbook sheet, read)', () => {
    const at = waiting(10, 12, 3);
    if (!at.stable) throw new Error('not stable');
    const printed = [at.emptyChance, at.waitChance, at.waiting, at.present, at.waitTime, at.time];
    expect(printed.map((v) => Math.round(v * 1000) / 1000)).toEqual([
      0.432, 0.058, 0.022, 0.856, 0.002, 0.086,
    ]);
  });

  it('six hands are the fewest with which 90 % are not delayed, at 30 an hour and five minutes (exercise read)', () => {
    expect(handsFor(30, 12, 0.1)).toBe(6);
  });
});

interface Line {
  readonly jobs: FloorJob[];
  readonly waits: number[];
}

/** A long line of random arrivals at one station, each with one task. */
function line(
  seed: number,
  hands: number,
  arrivals: number,
  n: number,
  minutes: (u: number) => number,
  priority = (_u: number) => 0,
): Line {
  const random = randomStream(seed);
  let now = 0;
  const jobs = Array.from({ length: n }, (): FloorJob => {
    now -= Math.log(random()) / arrivals;
    const task = { station: 0, minutes: minutes(random()) };
    return { tasks: [task], fromMin: now, priority: priority(random()), inHand: false };
  });
  const done = completions([hands], jobs);
  return { jobs, waits: done.map((end, i) => end - jobs[i]!.fromMin - jobs[i]!.tasks[0]!.minutes) };
}

/** Mean of a long run without its first tenth, and the standard error from 20 batches of the rest. */
function batched(values: readonly number[]): { mean: number; se: number } {
  const rest = values.slice(Math.floor(values.length / 10));
  const size = Math.floor(rest.length / 20);
  const batches = Array.from({ length: 20 }, (_, i) => mean(rest.slice(i * size, (i + 1) * size)));
  return { mean: mean(batches), se: sampleStandardDeviation(batches) / Math.sqrt(20) };
}

/** Is a simulated mean the true one, within its error, and is that error small enough to tell? */
function expectMean(values: readonly number[], truth: number): void {
  const { mean: is, se } = batched(values);
  expect(se).toBeLessThan(0.08 * truth);
  expect(Math.abs(is - truth)).toBeLessThan(4 * se);
}

const N = 60_000;
const exponential = (mean: number) => (u: number) => -mean * Math.log(u);

describe('the simulated floor', () => {
  it.each([
    [1, 0.6, 1],
    [2, 1.4, 1],
    [4, 3, 1],
  ])('with %d hands, λ %d and μ %d waits as M/M/c says', (hands, arrivals, service) => {
    const { waits } = line(101 + hands, hands, arrivals, N, exponential(1 / service));
    const truth = waiting(arrivals, service, hands);
    if (!truth.stable) throw new Error('not stable');
    expectMean(waits, truth.waitTime);
    expectMean(
      waits.map((w) => (w > 1e-9 ? 1 : 0)),
      truth.waitChance,
    );
  });

  it('with lognormal work waits as M/G/1 says: λ·E[S²]/(2(1 − ρ)) (Pollaczek and Khinchine, exact)', () => {
    const work: Duration = { kind: 'lognormal', medianMin: 1, spread: 0.6 };
    const [first, second] = [Math.exp(0.6 ** 2 / 2), Math.exp(2 * 0.6 ** 2)];
    const arrivals = 0.6 / first;
    const { waits } = line(202, 1, arrivals, N, (u) => minutesAt(work, u));
    expectMean(waits, (arrivals * second) / (2 * (1 - 0.6)));
  });

  it('with two priorities waits as Cobham says: R/(1 − ρ1) and R/((1 − ρ1)(1 − ρ)) (exact)', () => {
    const { jobs, waits } = line(303, 1, 0.7, N, exponential(1), (u) => (u < 0.4 ? 1 : 0));
    const rest = 0.7; // λ·E[S²]/2 with E[S²] = 2
    const first = 0.7 * 0.4;
    expectMean(
      waits.filter((_, i) => jobs[i]!.priority === 1),
      rest / (1 - first),
    );
    expectMean(
      waits.filter((_, i) => jobs[i]!.priority === 0),
      rest / ((1 - first) * (1 - 0.7)),
    );
  });

  it('that is full from the start empties as exponential stages do: (n − c)/c + 1 + 1/2 + … + 1/c (exact)', () => {
    const [hands, n] = [3, 9];
    const random = randomStream(404);
    const ends = Array.from({ length: 20_000 }, () => {
      const jobs = Array.from({ length: n }, (): FloorJob => {
        return {
          tasks: [{ station: 0, minutes: -Math.log(random()) }],
          fromMin: 0,
          priority: 0,
          inHand: false,
        };
      });
      return Math.max(...completions([hands], jobs));
    });
    expectMean(ends, (n - hands) / hands + 1 + 1 / 2 + 1 / 3);
  });
});

describe('the forecast', () => {
  const stations = [
    { id: 'floor', hands: 1 },
    { id: 'bench', hands: 2 },
  ];
  const step = (station: string, medianMin: number, spread: number) => ({
    station,
    duration: { kind: 'lognormal' as const, medianMin, spread },
  });
  const open = (id: string, steps: ReturnType<typeof step>[]) => ({
    id,
    steps,
    fromMin: 0,
    priority: 0,
    inHandMin: null,
  });

  it('of a job alone is its duration’s own quantiles, median·exp(z·σ), within the error of 4000 runs (exact)', () => {
    const answer = forecast(stations, [open('a', [step('floor', 30, 0.5)])], 5, 4000);
    if (!answer.ok) throw new Error(answer.fault.code);
    const { medianMin, promiseMin } = answer.jobs[0]!;
    // Standard error of a quantile: √(p(1 − p)/n)/density, here on the scale of the logarithm in units of σ.
    const error = (p: number, z: number) =>
      (0.5 * Math.sqrt((p * (1 - p)) / 4000)) / (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));
    expect(Math.abs(Math.log(medianMin / 30))).toBeLessThan(4 * error(0.5, 0));
    expect(Math.abs(Math.log(promiseMin / 30) - 0.5 * 0.8416)).toBeLessThan(4 * error(0.8, 0.8416));
  });

  it('is kept as often as it says, in runs of another seed', () => {
    const jobs = Array.from({ length: 8 }, (_, i) =>
      open(`job-${i}`, [step('floor', 20, 0.4), step('bench', 45, 0.6), step('floor', 10, 0.4)]),
    );
    const told = forecast(stations, jobs, 6, 2000);
    if (!told.ok) throw new Error(told.fault.code);
    // Each run of its own: what the floor then does, one day after the other.
    const days = 600;
    const kept = jobs.map(() => 0);
    for (let day = 0; day < days; day++) {
      const truth = forecast(stations, jobs, 1_000_000 + day, 1);
      if (!truth.ok) throw new Error(truth.fault.code);
      truth.jobs.forEach(({ medianMin }, j) => {
        if (medianMin <= told.jobs[j]!.promiseMin) kept[j]!++;
      });
    }
    // Binomial error of the days and of the 2000 runs behind the promise.
    const se = Math.sqrt(0.16 / days + 0.16 / 2000);
    for (const count of kept) expect(Math.abs(count / days - 0.8)).toBeLessThan(4 * se);
  });
});

describe('the random stream', () => {
  it('is uniform in 64 cells, alone and from stream to stream (chi-square, 63 degrees of freedom)', () => {
    const chiSquare = (draw: (i: number) => number) => {
      const cells = new Array<number>(64).fill(0);
      for (let i = 0; i < 64_000; i++) cells[Math.floor(draw(i) * 64)]!++;
      return cells.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    };
    const one = randomStream(42);
    // 0.01 % and 99.99 % points of chi-square with 63 degrees of freedom.
    for (const value of [
      chiSquare(one),
      chiSquare((i) => randomStream(1, i)()),
      chiSquare((i) => randomStream(i, 9)()),
    ]) {
      expect(value).toBeGreaterThan(29);
      expect(value).toBeLessThan(113);
    }
  });

  it('does not go with its own next number', () => {
    const random = randomStream(43);
    const n = 50_000;
    let last = random();
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const next = random();
      sum += (last - 0.5) * (next - 0.5) * 12;
      last = next;
    }
    expect(Math.abs(sum / n)).toBeLessThan(4 / Math.sqrt(n));
  });

  it('stays under 1 and over 0', () => {
    const random = randomStream(44);
    for (let i = 0; i < 100_000; i++) {
      const u = random();
      if (!(u > 0 && u < 1)) throw new Error(String(u));
    }
    expect(randomStream(44)()).toBe(randomStream(44)());
  });
});
