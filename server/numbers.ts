/**
 * The shop's numbers over a period, from rows that are kept as sessions change: no session is read for them. They are added up a
 * piece at a time, so that no entry waits for a season. docs/numbers.md says what each of them means.
 */
import { setImmediate as breathe } from 'node:timers/promises';
import {
  cut,
  dayText,
  FLOOR_ROLES,
  MANY_MOVES,
  NOTHING_COUNTED,
  PROMISE,
  roleOfWork,
  sampleQuantile,
  STAGES,
  workedTurns,
  workingMinutes,
} from '../core/index.ts';
import type {
  Bucket,
  BucketOf,
  ByService,
  Counted,
  FloorRole,
  Halfway,
  JobRow,
  LeftAs,
  NumbersTold,
  Period,
  Service,
  Stage,
  StageTimes,
  Times,
} from '../core/index.ts';
import { beginOf, shopTime } from './days.ts';
import type { Lessons } from './lessons.ts';
import type { Openings } from './opening.ts';
import type { Db } from './schema.ts';
import type { StoredTurn, Turns } from './turns.ts';

export interface NumbersOutside {
  readonly turns: Turns;
  readonly openings: Openings;
  readonly lessons: Pick<Lessons, 'unread'>;
  readonly timeZone: string;
  /** The rows of the board. */
  rows(): Iterable<JobRow>;
  now(): number;
}

export interface Asked extends Period {
  readonly by: BucketOf;
}

const DAY_MS = 86_400_000;
const MIN_MS = 60_000;
/** Turns of so much time are added up at once: some hundred in a large shop. */
const AT_ONCE_MS = DAY_MS;
/** A turn that is older than this began by a clock that was wrong. */
const OLDEST_MS = 1_100 * DAY_MS;

/** Minutes that were seen at one stage. */
class Seen {
  readonly waited: number[] = [];
  readonly worked: number[] = [];
  readonly whole: number[] = [];

  get times(): StageTimes {
    const { waited, worked, whole } = this;
    return {
      n: whole.length,
      waited: halfway(waited),
      worked: halfway(worked),
      whole: halfway(whole),
    };
  }
}

type SeenAt = Readonly<Record<Stage, Seen>>;
const ofStages = <T>(value: (stage: Stage) => T): Readonly<Record<Stage, T>> =>
  Object.fromEntries(STAGES.map((stage) => [stage, value(stage)])) as Record<Stage, T>;
const noneSeen = (): SeenAt => ofStages(() => new Seen());
const timesOf = (seen: SeenAt): Times => ofStages((stage) => seen[stage].times);

function halfway(minutes: readonly number[]): Halfway {
  if (minutes.length === 0) return null;
  const ascending = Float64Array.from(minutes).sort();
  const at = (share: number) => sampleQuantile(ascending, share);
  return { medianMin: at(0.5), mostMin: at(PROMISE) };
}

type Piece = Pick<Bucket, 'from' | 'to' | 'hour' | 'fromMs' | 'toMs'>;

const statements = (db: Db) => ({
  opened: db.prepare<[number, number], { service: Service; n: number }>(
    'SELECT service, count(*) AS n FROM journeys WHERE opened_ms >= ? AND opened_ms < ? GROUP BY service',
  ),
  left: db.prepare<[number, number], { service: Service; leftAs: LeftAs; n: number }>(
    `SELECT service, left_as AS leftAs, count(*) AS n FROM journeys
     WHERE closed_ms >= ? AND closed_ms < ? AND left_as IS NOT NULL GROUP BY left_as, service`,
  ),
  cuffs: db.prepare<[number, number], { decision: string; moves: number; n: number }>(
    `SELECT decision, moves, count(*) AS n FROM closed_cuffs WHERE closed_ms >= ? AND closed_ms < ?
     GROUP BY decision, moves`,
  ),
  pickedUp: db.prepare<[number, number], { workedMs: number; closedMs: number }>(
    `SELECT worked_ms AS workedMs, closed_ms AS closedMs FROM journeys
     WHERE closed_ms >= ? AND closed_ms < ? AND left_as = 'handed' AND worked_ms IS NOT NULL`,
  ),
  here: db
    .prepare<[number, number], number>(
      'SELECT count(*) FROM journeys WHERE opened_ms >= ? AND opened_ms < ? AND closed_ms IS NULL',
    )
    .pluck(),
  firstMs: db.prepare<[], number | null>('SELECT min(opened_ms) FROM journeys').pluck(),
});

export class Numbers {
  readonly #sql: ReturnType<typeof statements>;
  readonly #outside: NumbersOutside;

  constructor(db: Db, outside: NumbersOutside) {
    this.#sql = statements(db);
    this.#outside = outside;
  }

  async told({ from, to, by }: Asked): Promise<NumbersTold> {
    const { lessons, timeZone, now } = this.#outside;
    const atMs = now();
    // Asked first: what is counted from here on may be missing in the pieces that were added up before.
    const uncounted = lessons.unread();
    const pieces = this.#pieces({ from, to, by });
    const seen = noneSeen();
    const buckets: Bucket[] = [];
    const before = this.#handsBefore(pieces[0]!.fromMs);
    for (const piece of pieces) {
      const own = noneSeen();
      await this.#see(piece, before, own);
      for (const stage of STAGES)
        for (const kind of ['waited', 'worked', 'whole'] as const)
          for (const minutes of own[stage][kind]) seen[stage][kind].push(minutes);
      buckets.push({ ...piece, ...this.#counted(piece), times: timesOf(own) });
      await breathe();
    }
    const firstMs = this.#sql.firstMs.get() ?? null;
    return {
      from: dayText(from),
      to: dayText(to - 1),
      by,
      atMs,
      today: shopTime(atMs, timeZone).day,
      first: firstMs === null ? null : shopTime(firstMs, timeZone).day,
      uncounted,
      buckets,
      times: timesOf(seen),
      ...this.#here(pieces[0]!.fromMs, pieces.at(-1)!.toMs),
    };
  }

  #pieces({ from, to, by }: Asked): Piece[] {
    const { timeZone } = this.#outside;
    if (by !== 'hour')
      return cut({ from, to }, by).map((piece) => ({
        from: dayText(piece.from),
        to: dayText(piece.to - 1),
        hour: null,
        fromMs: beginOf(piece.from, 0, timeZone),
        toMs: beginOf(piece.to, 0, timeZone),
      }));
    return cut({ from, to }, 'day').flatMap(({ from: day }) =>
      Array.from({ length: 24 }, (_, hour) => ({
        from: dayText(day),
        to: dayText(day),
        hour,
        fromMs: beginOf(day, hour * 60, timeZone),
        toMs: beginOf(hour === 23 ? day + 1 : day, hour === 23 ? 0 : hour * 60 + 60, timeZone),
      })),
    );
  }

  #counted({ fromMs, toMs }: Piece): Counted {
    const left = this.#sql.left.all(fromMs, toMs);
    const services = (rows: readonly { readonly service: Service; readonly n: number }[]): ByService => ({
      ...NOTHING_COUNTED.opened,
      ...Object.fromEntries(rows.map(({ service, n }) => [service, n])),
    });
    return {
      opened: services(this.#sql.opened.all(fromMs, toMs)),
      handed: services(left.filter(({ leftAs }) => leftAs === 'handed')),
      unfit: services(left.filter(({ leftAs }) => leftAs === 'unfit')),
      ...cuffsOf(this.#sql.cuffs.all(fromMs, toMs)),
    };
  }

  /** The last turns of each station before, as many as there are hands: by them it is known when one was free. */
  #handsBefore(fromMs: number): Record<FloorRole, StoredTurn[]> {
    const { turns, openings } = this.#outside;
    const { hands } = openings.value;
    return Object.fromEntries(
      FLOOR_ROLES.map((role) => [role, turns.last(role, hands[role], fromMs)]),
    ) as Record<FloorRole, StoredTurn[]>;
  }

  async #see({ fromMs, toMs }: Piece, before: Record<FloorRole, StoredTurn[]>, seen: SeenAt): Promise<void> {
    for (let at = fromMs; at < toMs; at += AT_ONCE_MS) {
      if (at > fromMs) await breathe();
      const until = Math.min(toMs, at + AT_ONCE_MS);
      this.#seeTurns(this.#outside.turns.endedIn(at, until), before, seen);
      this.#seePickups(at, until, seen.pickup);
    }
  }

  #seeTurns(ended: readonly StoredTurn[], before: Record<FloorRole, StoredTurn[]>, seen: SeenAt): void {
    if (ended.length === 0) return;
    const { openings } = this.#outside;
    const { hands } = openings.value;
    const spans = openings.spans(
      ended.reduce(
        (least, { turnMs, endedMs }) => Math.min(least, Math.max(turnMs, endedMs - OLDEST_MS)),
        ended[0]!.endedMs - DAY_MS,
      ),
      ended.at(-1)!.endedMs,
    );
    for (const role of FLOOR_ROLES) {
      const own = ended.filter(({ work }) => roleOfWork[work] === role);
      const all = [...before[role], ...own];
      for (const [i, { waitedMin, workedMin }] of workedTurns(all, hands[role], spans).entries()) {
        if (i < before[role].length) continue;
        const { work, turnMs, endedMs } = all[i]!;
        if (endedMs - turnMs > OLDEST_MS) continue;
        seen[work].waited.push(waitedMin);
        seen[work].worked.push(workedMin);
        seen[work].whole.push((endedMs - turnMs) / MIN_MS);
      }
      before[role] = all.slice(-hands[role]);
    }
  }

  #seePickups(fromMs: number, toMs: number, seen: Seen): void {
    const rows = this.#sql.pickedUp
      .all(fromMs, toMs)
      .filter(({ workedMs, closedMs }) => closedMs - workedMs <= OLDEST_MS);
    if (rows.length === 0) return;
    const spans = this.#outside.openings.spans(Math.min(...rows.map(({ workedMs }) => workedMs)), toMs);
    for (const { workedMs, closedMs } of rows) {
      seen.waited.push(workingMinutes(spans, workedMs, closedMs));
      seen.whole.push(Math.max(0, closedMs - workedMs) / MIN_MS);
    }
  }

  #here(fromMs: number, toMs: number): Pick<NumbersTold, 'here' | 'paused'> {
    const paused = [...this.#outside.rows()].filter(
      (row) => row.paused && !row.closed && row.openedMs >= fromMs && row.openedMs < toMs,
    );
    return { here: this.#sql.here.get(fromMs, toMs) ?? 0, paused: paused.length };
  }
}

function cuffsOf(
  rows: readonly { readonly decision: string; readonly moves: number; readonly n: number }[],
): Pick<Counted, 'evenAfter' | 'evenMoves' | 'otherwise' | 'moved' | 'firstEnough'> {
  const evenAfter = [...NOTHING_COUNTED.evenAfter];
  let [evenMoves, otherwise, moved, firstEnough] = [0, 0, 0, 0];
  for (const { decision, moves, n } of rows) {
    if (moves > 0) moved += n;
    if (decision !== 'even') {
      otherwise += n;
      continue;
    }
    evenAfter[Math.min(moves, MANY_MOVES)]! += n;
    evenMoves += moves * n;
    if (moves === 1) firstEnough += n;
  }
  return { evenAfter, evenMoves, otherwise, moved, firstEnough };
}
