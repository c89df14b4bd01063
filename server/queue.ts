/**
 * When each open job will be ready, and when one more would be: worked out from the shop's own turns a little at a
 * time, so that no entry waits for it. docs/queue.md says how, and what it assumes.
 */
import { setImmediate as breathe } from 'node:timers/promises';
import {
  FLOOR_ROLES,
  Forecaster,
  LEARNED_TURNS,
  minutesAt,
  momentAfter,
  roleOfWork,
  stepsAhead,
  stepsOfNew,
  turnOf,
  waysOf,
  workingMinutes,
} from '../core/index.ts';
import type {
  Arrivals,
  FloorRole,
  ForecastJob,
  JobRow,
  OpenSpan,
  RemainingStep,
  ShopWays,
} from '../core/index.ts';
import type { Openings } from './opening.ts';
import type { StoredTurn, Turns } from './turns.ts';

export interface Ready {
  /** Ready by then in half of the runs, and in 80 % of them; ms since 1970. */
  readonly medianMs: number;
  readonly promiseMs: number;
}

export interface QueueTold {
  readonly atMs: number;
  /** Past turns that it rests on. */
  readonly seen: number;
  readonly jobs: Readonly<Record<string, Ready>>;
}

export interface Offer extends Ready {
  /** Jobs with work before them. */
  readonly ahead: number;
  /** The station with the most work for its hands; null where nobody has any. */
  readonly narrow: FloorRole | null;
  readonly seen: number;
}

export interface QueueOutside {
  readonly turns: Turns;
  readonly openings: Openings;
  /** The rows of the board. */
  rows(): Iterable<JobRow>;
  now(): number;
}

/** Runs of the floor: an 80 % promise of so many is kept in 76 to 84 % (two standard errors). */
const RUNS = 400;
/** Runs between two looks at what else there is to do: a few milliseconds with a hundred jobs. */
const AT_ONCE = 4;
/** Past turns of a station that are looked at. */
const TURNS = 400;
/** How long an answer is good while nothing changes, and at least whatever changes, ms. */
const GOOD_MS = { unchanged: 60_000, changed: 5_000 } as const;
const DAY_MS = 86_400_000;
/** Days that are looked back for who comes, and ahead for open doors. */
const COMERS_DAYS = 28;
const AHEAD_DAYS = 120;
/** Who comes later than so many minutes of open doors changes little of what is here now. */
const COMERS_MIN = 960;

interface Basis {
  readonly ways: ShopWays;
  readonly seen: number;
  readonly spans: readonly OpenSpan[];
  readonly comers: Arrivals;
  readonly hands: Readonly<Record<FloorRole, number>>;
}

export class Queue {
  readonly #outside: QueueOutside;
  #told: { readonly value: QueueTold; readonly key: string } | null = null;
  #telling: Promise<QueueTold> | null = null;

  constructor(outside: QueueOutside) {
    this.#outside = outside;
  }

  /** When the open jobs will be ready. Whoever asks meanwhile gets the same answer. */
  async told(): Promise<QueueTold> {
    const now = this.#outside.now();
    const key = this.#key();
    if (this.#told) {
      const age = now - this.#told.value.atMs;
      const good = this.#told.key === key ? GOOD_MS.unchanged : GOOD_MS.changed;
      if (age >= 0 && age < good) return this.#told.value;
    }
    this.#telling ??= this.#tell(key).finally(() => (this.#telling = null));
    return this.#telling;
  }

  /** When a job of this service would be ready that is taken in now. */
  async offer(service: JobRow['service']): Promise<Offer | null> {
    const basis = this.#basis();
    const now = this.#outside.now();
    const jobs = this.#jobs(basis, now);
    const fresh: ForecastJob = {
      id: 'one more',
      steps: stepsOfNew(service, basis.ways),
      fromMin: 0,
      priority: 0,
      inHandMin: null,
    };
    const [ready] = (await this.#ready([...jobs, fresh], basis, now, jobs.length)).values();
    if (!ready) return null;
    return {
      ...ready,
      ahead: jobs.filter(({ steps }) => steps.length > 0).length,
      narrow: narrowOf(jobs, basis.hands),
      seen: basis.seen,
    };
  }

  #key(): string {
    let key = JSON.stringify(this.#outside.openings.value);
    for (const row of this.#outside.rows()) if (!row.closed) key += ` ${row.session} ${row.lastMs}`;
    return key;
  }

  async #tell(key: string): Promise<QueueTold> {
    const basis = this.#basis();
    const atMs = this.#outside.now();
    const jobs = Object.fromEntries(await this.#ready(this.#jobs(basis, atMs), basis, atMs));
    const value = { atMs, seen: basis.seen, jobs };
    this.#told = { value, key };
    return value;
  }

  /** @returns the jobs from the place `from` on, by id; without those that no open door is known for. */
  async #ready(
    jobs: readonly ForecastJob[],
    basis: Basis,
    atMs: number,
    from = 0,
  ): Promise<Map<string, Ready>> {
    const ready = new Map<string, Ready>();
    if (jobs.length === 0) return ready;
    const stations = FLOOR_ROLES.map((id) => ({ id, hands: basis.hands[id] }));
    const forecaster = new Forecaster(stations, jobs, 1, basis.comers);
    for (let run = 0; run < RUNS; run += AT_ONCE) {
      forecaster.run(AT_ONCE);
      await breathe();
    }
    for (const { id, medianMin, promiseMin } of forecaster.result().slice(from)) {
      const medianMs = momentAfter(basis.spans, atMs, medianMin);
      const promiseMs = momentAfter(basis.spans, atMs, promiseMin);
      if (medianMs !== null && promiseMs !== null) ready.set(id, { medianMs, promiseMs });
    }
    return ready;
  }

  /** Open jobs in the order in which they came to where they are; those that rest are not in the queue. */
  #jobs({ ways, spans }: Basis, nowMs: number): ForecastJob[] {
    const { turns, rows } = this.#outside;
    return [...rows()]
      .filter(({ closed, paused }) => !closed && !paused)
      .map((row) => {
        const own = turns.of(row.session);
        const steps = stepsAhead(row, own, ways);
        return {
          sinceMs: own.findLast(({ done }) => done)?.endedMs ?? row.openedMs,
          job: jobOf(row, own, steps, spans, nowMs),
        };
      })
      .sort((a, b) => a.sinceMs - b.sinceMs)
      .map(({ job }) => job);
  }

  #basis(): Basis {
    const { turns, openings, now } = this.#outside;
    const { hands } = openings.value;
    const nowMs = now();
    const last = Object.fromEntries(FLOOR_ROLES.map((role) => [role, turns.last(role, TURNS)])) as Record<
      FloorRole,
      StoredTurn[]
    >;
    const firstMs = Math.min(nowMs, ...FLOOR_ROLES.flatMap((role) => last[role][0]?.turnMs ?? []));
    const sinceMs = nowMs - COMERS_DAYS * DAY_MS;
    openings.forget(Math.min(firstMs, sinceMs) - 2 * DAY_MS);
    const spans = openings.spans(Math.min(firstMs, sinceMs), nowMs + AHEAD_DAYS * DAY_MS);
    const { ways, seen } = waysOf({
      turns: last,
      hands,
      spans,
      followed: (work, by) => turns.followed(work, by, LEARNED_TURNS),
    });
    const came = turns.takenIn(sinceMs);
    const openMin = workingMinutes(spans, sinceMs, nowMs);
    return {
      ways,
      seen,
      spans,
      hands,
      comers: {
        perMin: openMin > 0 ? came.n / openMin : 0,
        steps: comersSteps(ways, came.n > 0 ? came.full / came.n : 0),
        untilMin: COMERS_MIN,
      },
    };
  }
}

/** Those who come want the stance too as often as those who came. */
function comersSteps(ways: ShopWays, fullShare: number): RemainingStep[] {
  const cuffs = stepsOfNew('cuffs', ways);
  const [stance, ...soles] = stepsOfNew('full', ways).slice(cuffs.length);
  return [...cuffs, { ...stance!, skip: { chance: 1 - fullShare, steps: 1 + soles.length } }, ...soles];
}

function jobOf(
  row: JobRow,
  turns: readonly StoredTurn[],
  steps: readonly RemainingStep[],
  spans: readonly OpenSpan[],
  nowMs: number,
): ForecastJob {
  const last = turns.at(-1);
  // Somebody has entered something in this turn, and it is still theirs.
  const inHand = last && !last.done && roleOfWork[last.work] === turnOf(row) && steps.length > 0;
  return {
    id: row.session,
    steps,
    fromMin: 0,
    priority: 0,
    inHandMin: inHand ? workingMinutes(spans, last.begunMs, nowMs) : null,
  };
}

/** Where the most minutes of work wait for each hand. */
function narrowOf(
  jobs: readonly ForecastJob[],
  hands: Readonly<Record<FloorRole, number>>,
): FloorRole | null {
  const load = (role: FloorRole) =>
    jobs
      .flatMap(({ steps }) => steps)
      .filter(({ station }) => station === role)
      .reduce((sum, { duration }) => sum + minutesAt(duration, 0.5), 0) / hands[role];
  const [most] = FLOOR_ROLES.map((role) => ({ role, minutes: load(role) })).sort(
    (a, b) => b.minutes - a.minutes,
  );
  return most && most.minutes > 0 ? most.role : null;
}
