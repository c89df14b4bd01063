/** Calculations about time: durations, the floor, the forecast, and a queue in closed form. */
import { z } from 'zod';
import { name, numberIn } from '../../bounds.ts';
import { learnedDuration, minutesAt, minutesLeft } from '../duration.ts';
import { completions } from '../floor.ts';
import { forecast, FORECAST_LIMIT } from '../forecast.ts';
import { handsFor, MOST_HANDS, waiting } from '../queue.ts';
import { calculation } from './entry.ts';
import type { Calculations } from './entry.ts';
import { unitIn } from './fields.ts';

const object = z.strictObject;

/** Up to some ten weeks of open doors. */
const minutes = (min: number) => unitIn(min, 100_000, 'min');
const spread = numberIn(0, 3);

type Point = { readonly p: number; readonly minutes: number };
const ascend = (points: readonly Point[]): boolean =>
  points.every(({ p, minutes: at }, i) => {
    const before = points[i - 1];
    return !before || (p >= before.p && at >= before.minutes);
  });

const duration = z.discriminatedUnion('kind', [
  object({ kind: z.literal('lognormal'), medianMin: minutes(0.01), spread }),
  object({
    kind: z.literal('quantiles'),
    points: z
      .array(object({ p: numberIn(0, 1), minutes: minutes(0) }))
      .min(1)
      .max(100)
      .refine(ascend, { error: 'must ascend in p and in minutes' }),
  }),
]);
const chance = numberIn(1e-6, 1 - 1e-6);
const TWENTY = { kind: 'lognormal' as const, medianMin: 20, spread: 0.5 };

export const durationCalculations = (): Calculations => ({
  minutesAt: calculation({
    means: 'Minutes that a step takes at most with chance p',
    input: object({ duration, p: chance }),
    gives: { minutes: ['min', ''] },
    formula: 'median·exp(spread·Φ⁻¹(p)), or straight between the points',
    source: 'log-normal distribution',
    example: { input: { duration: TWENTY, p: 0.8 }, output: { minutes: 30.464 } },
    run: (is) => ({ minutes: minutesAt(is.duration, is.p) }),
  }),
  minutesLeft: calculation({
    means: 'Minutes still to go with chance p once a step has run for a while',
    input: object({ duration, elapsedMin: minutes(0), p: chance }),
    gives: { minutes: ['min', '0: longer than was thought possible'] },
    formula: 'the distribution of what is left, given what has gone',
    source: 'conditional probability',
    example: { input: { duration: TWENTY, elapsedMin: 20, p: 0.5 }, output: { minutes: 8.022 } },
    run: (is) => ({ minutes: minutesLeft(is.duration, is.elapsedMin, is.p) }),
  }),
  learnedDuration: calculation({
    means: 'How long a step takes, from past ones and a prior',
    input: object({
      pastMin: z.array(minutes(0.01)).max(10_000),
      prior: object({ medianMin: minutes(0.01), spread, weight: numberIn(0.1, 1000) }),
    }),
    gives: { kind: ['', 'lognormal'], medianMin: ['min', ''], spread: ['1', 'of the logarithm'] },
    formula: 'μ′ = (w·μ + Σlog x)/(w + n); spread² = σ′²·(1 + 1/(w + n))',
    source: 'normal-inverse-chi-square update, Gelman et al., Bayesian Data Analysis, ch. 3 [from memory]',
    example: {
      input: { pastMin: [18, 25, 31], prior: { medianMin: 20, spread: 0.5, weight: 3 } },
      output: { kind: 'lognormal', medianMin: 21.942, spread: 0.43 },
    },
    run: (is) => learnedDuration(is.pastMin, is.prior),
  }),
});

const priority = numberIn(-100, 100).describe('larger goes first').default(0);
const fromMin = minutes(0).default(0);

const floorInput = object({
  hands: z.array(z.int().min(1).max(MOST_HANDS)).min(1).max(FORECAST_LIMIT.stations),
  jobs: z
    .array(
      object({
        tasks: z
          .array(
            object({
              station: z
                .int()
                .min(0)
                .max(FORECAST_LIMIT.stations - 1),
              minutes: minutes(0),
            }),
          )
          .max(FORECAST_LIMIT.stepsPerJob),
        fromMin,
        priority,
        inHand: z.boolean().default(false),
      }),
    )
    .max(FORECAST_LIMIT.jobs),
}).refine(({ hands, jobs }) => jobs.every((job) => job.tasks.every((task) => task.station < hands.length)), {
  path: ['jobs'],
  error: 'must name stations by their place in hands, from 0',
});

export const floorCalculations = (): Calculations => ({
  completions: calculation({
    means: 'When each job is done, if every step took just as long as told',
    input: floorInput,
    gives: { doneMin: ['min', 'from now, in the order of the jobs'] },
    formula:
      'jobs wait where all hands are busy; by priority, then in the order they came; nobody is interrupted',
    source: 'discrete-event simulation',
    example: {
      input: {
        hands: [1],
        jobs: [{ tasks: [{ station: 0, minutes: 10 }] }, { tasks: [{ station: 0, minutes: 5 }] }],
      },
      output: { doneMin: [10, 15] },
    },
    run: (is) => ({ doneMin: completions(is.hands, is.jobs) }),
  }),
});

export const forecastCalculations = (): Calculations => ({
  forecast: calculation({
    means: 'When each open job will be ready: its median, and the time that holds in 80 % of cases',
    input: object({
      stations: z
        .array(object({ id: name(40), hands: z.int().min(1).max(MOST_HANDS) }))
        .max(FORECAST_LIMIT.stations),
      jobs: z
        .array(
          object({
            id: name(40),
            steps: z.array(object({ station: name(40), duration })).max(FORECAST_LIMIT.stepsPerJob),
            fromMin,
            priority,
            inHandMin: minutes(0).nullable().default(null),
          }),
        )
        .max(FORECAST_LIMIT.jobs),
      seed: z
        .int()
        .min(0)
        .max(2 ** 32 - 1),
      runs: z.int().min(1).max(FORECAST_LIMIT.runs).default(1000),
    }),
    gives: {
      ok: ['', 'false: for the fault named'],
      'jobs[].id': ['', ''],
      'jobs[].medianMin': ['min', 'ready by then in half of the runs'],
      'jobs[].promiseMin': ['min', 'ready by then in 80 % of the runs'],
      jobs: ['', ''],
      fault: ['', 'code, and what is too much or unknown'],
    },
    formula: 'completions, with durations drawn anew in each run; the same seed gives the same answer',
    source: 'simulation; checked against closed forms in tests/outside',
    example: {
      input: {
        stations: [{ id: 'bench', hands: 1 }],
        jobs: [
          { id: 'a', steps: [{ station: 'bench', duration: TWENTY }] },
          { id: 'b', steps: [{ station: 'bench', duration: TWENTY }] },
        ],
        seed: 7,
      },
      output: {
        ok: true,
        jobs: [
          { id: 'a', medianMin: 19.747, promiseMin: 30.488 },
          { id: 'b', medianMin: 42.185, promiseMin: 58.842 },
        ],
      },
    },
    run: (is) => forecast(is.stations, is.jobs, is.seed, is.runs),
  }),
});

const arrivals = unitIn(0, 1000, 'jobs a unit of time');
const service = unitIn(0.001, 1000, 'jobs a unit of time, by one hand');
const ERLANG = 'Erlang’s B and C formulas and Little’s law, as in any text on queues';

export const queueCalculations = (): Calculations => ({
  waiting: calculation({
    means: 'A station with c hands, random arrivals and exponential service (M/M/c)',
    input: object({ arrivals, service, hands: z.int().min(1).max(MOST_HANDS) }),
    gives: {
      stable: ['', 'false: work comes in faster than it is done'],
      utilisation: ['1', 'share of the time that a hand is busy'],
      emptyChance: ['1', 'that nobody is there'],
      waitChance: ['1', 'that an arrival waits'],
      waiting: ['jobs', 'mean number that wait'],
      present: ['jobs', 'mean number there'],
      waitTime: ['unit of time', 'mean'],
      time: ['unit of time', 'mean, waiting and work'],
    },
    formula: 'C = c·B/(c − a·(1 − B)), a = λ/μ; Wq = C/(c·μ − λ); L = λ·W',
    source: ERLANG,
    example: {
      input: { arrivals: 2, service: 3, hands: 2 },
      output: {
        stable: true,
        utilisation: 0.333,
        emptyChance: 0.5,
        waitChance: 0.167,
        waiting: 0.083,
        present: 0.75,
        waitTime: 0.042,
        time: 0.375,
      },
    },
    run: (is) => waiting(is.arrivals, is.service, is.hands),
  }),
  handsFor: calculation({
    means: 'The fewest hands with which at most a share of the arrivals waits',
    input: object({ arrivals, service, mostWaiting: numberIn(0.0001, 1) }),
    gives: { hands: ['1', `null: more than ${MOST_HANDS}`] },
    formula: 'the least c with C ≤ the share',
    source: ERLANG,
    example: { input: { arrivals: 2, service: 3, mostWaiting: 0.2 }, output: { hands: 2 } },
    run: (is) => ({ hands: handsFor(is.arrivals, is.service, is.mostWaiting) }),
  }),
});
