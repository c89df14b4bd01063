/**
 * When each open job will be ready: its median, and the time that holds in 80 % of cases. Many runs of the floor,
 * each with durations drawn anew; the draws come from the caller's seed, so the same question has the same answer.
 *
 * Times are minutes of working time from now: who is open when is for the caller to say.
 */
import { minutesLeft } from './duration.ts';
import type { Duration } from './duration.ts';
import { completions } from './floor.ts';
import type { FloorJob, Task } from './floor.ts';
import { hashText, randomStream } from './random.ts';

export interface FloorStation {
  readonly id: string;
  /** How many can work there at once, a whole number ≥ 1. */
  readonly hands: number;
}

export interface RemainingStep {
  readonly station: string;
  readonly duration: Duration;
  /** With this chance it and those after it, `steps` in all, are not needed. */
  readonly skip?: Perhaps;
  /** With this chance it and those before it, `steps` in all, are done once more; asked anew each time. */
  readonly again?: Perhaps;
}

export interface Perhaps {
  /** 0 to 1; a chance to do it again counts as 0.95 at most. */
  readonly chance: number;
  readonly steps: number;
}

/** Who will come meanwhile: at random, so many a minute, each with these steps and in the order of coming. */
export interface Arrivals {
  readonly perMin: number;
  readonly steps: readonly RemainingStep[];
  /** Nobody later than this is looked at, minutes from now. */
  readonly untilMin: number;
}

export interface OpenJob {
  readonly id: string;
  /** What is still to be done, in order. */
  readonly steps: readonly RemainingStep[];
  /** When it comes to the floor, minutes from now; 0: it is there. */
  readonly fromMin: number;
  /** Larger goes first; jobs of one priority in the order of the list. */
  readonly priority: number;
  /** How long its first step has been in hand, minutes; null: nobody has begun it. */
  readonly inHandMin: number | null;
}

export interface JobForecast {
  readonly id: string;
  /** Ready by then in half of the runs. */
  readonly medianMin: number;
  /** Ready by then in at least 80 % of the runs. */
  readonly promiseMin: number;
}

/** Bounds, so that a forecast always ends soon. */
export const FORECAST_LIMIT = {
  /** Far over any shop. */
  stations: 50,
  jobs: 500,
  stepsPerJob: 50,
  runs: 10_000,
  /** Runs × steps: a second or two. */
  work: 2_000_000,
} as const;

export type Forecast =
  | { readonly ok: true; readonly jobs: readonly JobForecast[] }
  | { readonly ok: false; readonly fault: ForecastFault };

export type ForecastFault =
  | {
      readonly code: 'too-much';
      readonly what: keyof typeof FORECAST_LIMIT;
      readonly is: number;
      readonly max: number;
    }
  | { readonly code: 'unknown-station'; readonly job: string; readonly station: string }
  | { readonly code: 'no-hands'; readonly station: string }
  | { readonly code: 'no-runs' };

function faultOf(
  stations: readonly FloorStation[],
  jobs: readonly OpenJob[],
  runs: number,
): ForecastFault | null {
  const steps = jobs.reduce((sum, job) => sum + job.steps.length, 0);
  const sizes = {
    stations: stations.length,
    jobs: jobs.length,
    stepsPerJob: Math.max(0, ...jobs.map((job) => job.steps.length)),
    runs,
    work: runs * steps,
  };
  for (const [what, max] of Object.entries(FORECAST_LIMIT) as [keyof typeof FORECAST_LIMIT, number][])
    if (sizes[what] > max) return { code: 'too-much', what, is: sizes[what], max };
  if (!Number.isInteger(runs) || runs < 1) return { code: 'no-runs' };
  const idle = stations.find(({ hands }) => !Number.isInteger(hands) || hands < 1);
  if (idle) return { code: 'no-hands', station: idle.id };
  const known = new Set(stations.map(({ id }) => id));
  for (const job of jobs)
    for (const { station } of job.steps)
      if (!known.has(station)) return { code: 'unknown-station', job: job.id, station };
  return null;
}

/** The least of the sorted times that a share p of them keeps. */
const keptBy = (sorted: readonly number[], p: number): number =>
  sorted[Math.ceil(p * sorted.length - 1e-9) - 1]!;

/** The share of runs that a promise holds in. */
export const PROMISE = 0.8;

/** A job that never ends would be no forecast. */
const MOST_TASKS = 100;
/** Comers of one run at most: a day of the largest shop. */
const MOST_COMERS = 200;
const COMERS_KEY = hashText('who will come');

/** Many runs of one floor, some at a time, so that whoever has other work can do it between them. */
export class Forecaster {
  readonly #hands: readonly number[];
  readonly #indexOf: ReadonlyMap<string, number>;
  readonly #jobs: readonly OpenJob[];
  readonly #keys: readonly number[];
  readonly #seed: number;
  readonly #comers: Arrivals | null;
  readonly #times: number[][];
  #runs = 0;

  /** The stations and jobs must be such as `forecast` takes. */
  constructor(
    stations: readonly FloorStation[],
    jobs: readonly OpenJob[],
    seed: number,
    comers: Arrivals | null = null,
  ) {
    this.#hands = stations.map((station) => station.hands);
    this.#indexOf = new Map(stations.map(({ id }, i) => [id, i]));
    this.#jobs = jobs;
    this.#keys = jobs.map((job) => hashText(job.id));
    this.#seed = seed;
    this.#comers = comers;
    this.#times = jobs.map((): number[] => []);
  }

  run(count: number): void {
    for (const until = this.#runs + count; this.#runs < until; this.#runs++) this.#once(this.#runs);
  }

  /** At least one run must have been. */
  result(): JobForecast[] {
    return this.#jobs.map(({ id }, j) => {
      const sorted = this.#times[j]!.toSorted((a, b) => a - b);
      return { id, medianMin: keptBy(sorted, 0.5), promiseMin: keptBy(sorted, PROMISE) };
    });
  }

  #once(run: number): void {
    const drawn = this.#jobs.map((job, j): FloorJob => {
      const random = randomStream(this.#seed, run, this.#keys[j]!);
      return {
        tasks: this.#tasks(job.steps, job.inHandMin ?? 0, random),
        fromMin: job.fromMin,
        priority: job.priority,
        inHand: job.inHandMin !== null,
      };
    });
    const done = completions(this.#hands, [...drawn, ...this.#come(run)]);
    for (const [j, times] of this.#times.entries()) times.push(done[j]!);
  }

  #tasks(steps: readonly RemainingStep[], inHandMin: number, random: () => number): Task[] {
    const tasks: Task[] = [];
    for (let i = 0; i < steps.length && tasks.length < MOST_TASKS; i++) {
      const { station, duration, skip, again } = steps[i]!;
      if (skip && random() < skip.chance) {
        i += skip.steps - 1;
        continue;
      }
      const elapsed = tasks.length === 0 && i === 0 ? inHandMin : 0;
      tasks.push({
        station: this.#indexOf.get(station)!,
        minutes: minutesLeft(duration, elapsed, random()),
      });
      if (again && random() < Math.min(0.95, again.chance)) i = Math.max(-1, i - again.steps);
    }
    return tasks;
  }

  #come(run: number): FloorJob[] {
    const comers = this.#comers;
    if (!comers || comers.perMin <= 0) return [];
    const random = randomStream(this.#seed, run, COMERS_KEY);
    const jobs: FloorJob[] = [];
    for (let at = 0; jobs.length < MOST_COMERS;) {
      at -= Math.log(random()) / comers.perMin;
      if (at > comers.untilMin) break;
      jobs.push({ tasks: this.#tasks(comers.steps, 0, random), fromMin: at, priority: 0, inHand: false });
    }
    return jobs;
  }
}

/**
 * @param seed a whole number; its lower 32 bits count
 * @param runs at least 1; with 1000 an 80 % promise is truly kept in 77.5 to 82.5 % (two standard errors)
 *
 * Each job draws from a stream of its own in each run, so that one more job changes the others' waiting and not
 * their work.
 */
export function forecast(
  stations: readonly FloorStation[],
  jobs: readonly OpenJob[],
  seed: number,
  runs = 1000,
): Forecast {
  const fault = faultOf(stations, jobs, runs);
  if (fault) return { ok: false, fault };
  const forecaster = new Forecaster(stations, jobs, seed);
  forecaster.run(runs);
  return { ok: true, jobs: forecaster.result() };
}
