/**
 * Each session's way through the shop, kept beside it: its turns, its cuffs, when and how it was done. It follows from the facts and
 * from when they were committed, so that a start, a restore or an older archive loses nothing of it.
 */
import { FLOOR_ROLES, journeyOf, roleOfWork, tallyOf, WORKS } from '../core/index.ts';
import type { ClosedCuff, Fact, FactOf, FloorRole, LeftAs, Turn, Work } from '../core/index.ts';
import type { Db } from './schema.ts';
import type { StoredDocument } from './store.ts';

export interface StoredTurn extends Turn {
  readonly session: string;
}

const COLUMNS = 'session, work, turn_ms AS turnMs, begun_ms AS begunMs, ended_ms AS endedMs, done';
const worksOf = (role: FloorRole): string =>
  WORKS.filter((work) => roleOfWork[work] === role)
    .map((work) => `'${work}'`)
    .join(', ');

const statements = (db: Db) => ({
  turns: db.prepare<[string], object>('SELECT * FROM turns WHERE session = ? ORDER BY n'),
  journey: db.prepare<[string], object>('SELECT * FROM journeys WHERE session = ?'),
  drop: db.prepare<[string]>('DELETE FROM turns WHERE session = ?'),
  addTurn: db.prepare<[TurnRow]>(
    'INSERT INTO turns VALUES (@session, @n, @work, @turn_ms, @begun_ms, @ended_ms, @done)',
  ),
  putJourney: db.prepare<[JourneyRow]>(
    `INSERT OR REPLACE INTO journeys
       VALUES (@session, @service, @opened_ms, @promised_ms, @worked_ms, @closed_ms, @left_as)`,
  ),
  cuffs: db.prepare<[string], object>('SELECT * FROM closed_cuffs WHERE session = ? ORDER BY side'),
  dropCuffs: db.prepare<[string]>('DELETE FROM closed_cuffs WHERE session = ?'),
  addCuff: db.prepare<[CuffRow]>(
    'INSERT INTO closed_cuffs VALUES (@session, @side, @decision, @moves, @closed_ms)',
  ),
  ofSession: db.prepare<[string], Stored>(`SELECT ${COLUMNS} FROM turns WHERE session = ? ORDER BY n`),
  /** What came of turns: how many of the last ones were followed by which work. */
  after: db.prepare<[Work, number], { work: Work | null; n: number }>(
    `SELECT next.work AS work, count(*) AS n FROM
       (SELECT session, n FROM turns WHERE work = ? AND done = 1 ORDER BY ended_ms DESC LIMIT ?) AS last
       LEFT JOIN turns AS next ON next.session = last.session AND next.n = last.n + 1
     GROUP BY next.work`,
  ),
  endedIn: db.prepare<[number, number], Stored>(
    `SELECT ${COLUMNS} FROM turns WHERE done = 1 AND ended_ms >= ? AND ended_ms < ? ORDER BY ended_ms`,
  ),
  opened: db.prepare<[number], { service: string; n: number }>(
    'SELECT service, count(*) AS n FROM journeys WHERE opened_ms >= ? GROUP BY service',
  ),
});

type Stored = Omit<StoredTurn, 'done'> & { readonly done: 0 | 1 };

interface TurnRow {
  readonly session: string;
  readonly n: number;
  readonly work: Work;
  readonly turn_ms: number;
  readonly begun_ms: number;
  readonly ended_ms: number;
  readonly done: 0 | 1;
}

interface JourneyRow {
  readonly session: string;
  readonly service: string;
  readonly opened_ms: number;
  readonly promised_ms: number | null;
  readonly worked_ms: number | null;
  readonly closed_ms: number | null;
  readonly left_as: LeftAs | null;
}

interface CuffRow extends Pick<ClosedCuff, 'side' | 'decision' | 'moves'> {
  readonly session: string;
  readonly closed_ms: number;
}

const fromRow = (row: Stored): StoredTurn => ({ ...row, done: row.done === 1 });

export class Turns {
  readonly #db: Db;
  readonly #sql: ReturnType<typeof statements>;
  readonly #timesOf: (document: number) => ReadonlyMap<string, number>;
  readonly #last;

  /** @param timesOf when each entry of a document was committed */
  constructor(db: Db, timesOf: (document: number) => ReadonlyMap<string, number>) {
    this.#db = db;
    this.#sql = statements(db);
    this.#timesOf = timesOf;
    this.#last = Object.fromEntries(
      FLOOR_ROLES.map((role) => [
        role,
        db.prepare<[number, number], Stored>(
          `SELECT ${COLUMNS} FROM turns WHERE done = 1 AND work IN (${worksOf(role)}) AND ended_ms < ?
           ORDER BY ended_ms DESC LIMIT ?`,
        ),
      ]),
    ) as Record<FloorRole, ReturnType<typeof db.prepare<[number, number], Stored>>>;
  }

  /** Keeps the way of these facts, in the place of what was kept of the session before. */
  keep({ id, session, openedMs, lastMs }: StoredDocument, facts: readonly Fact[]): void {
    const opened = facts.find((fact) => fact.kind === 'session.opened') as
      FactOf<'session.opened'> | undefined;
    if (!opened) return;
    const changed = facts.findLast((fact) => fact.kind === 'service.changed') as
      FactOf<'service.changed'> | undefined;
    const times = this.#timesOf(id);
    const { left, cuffs } = tallyOf(facts);
    // A hand-over that was struck ended nothing: what was done after it is work like all else.
    const counted = facts.filter(
      ({ kind, id: fact }) => (kind !== 'handed.over' && kind !== 'released.unfit') || fact === left?.fact,
    );
    const { turns, workedMs } = journeyOf(counted, (fact) => times.get(fact));
    // An entry whose time was lost was made no later than the last one.
    const timeOf = (fact: string): number => times.get(fact) ?? lastMs;
    const promised = Date.parse(changed?.promisedAt ?? opened.promisedAt ?? '');
    const journey: JourneyRow = {
      session,
      service: (changed ?? opened).service,
      opened_ms: openedMs,
      promised_ms: Number.isFinite(promised) ? promised : null,
      worked_ms: workedMs,
      closed_ms: left && timeOf(left.fact),
      left_as: left?.as ?? null,
    };
    const closed = cuffs.map(({ side, decision, moves, fact }): CuffRow => {
      return { session, side, decision, moves, closed_ms: timeOf(fact) };
    });
    const rows = turns.map((turn, n): TurnRow => ({
      session,
      n,
      work: turn.work,
      turn_ms: turn.turnMs,
      begun_ms: turn.begunMs,
      ended_ms: turn.endedMs,
      done: turn.done ? 1 : 0,
    }));
    const before = [
      this.#sql.journey.get(session),
      this.#sql.turns.all(session),
      this.#sql.cuffs.all(session),
    ];
    if (JSON.stringify(before) === JSON.stringify([journey, rows, closed])) return;
    this.#db
      .transaction(() => {
        this.#sql.drop.run(session);
        for (const row of rows) this.#sql.addTurn.run(row);
        this.#sql.putJourney.run(journey);
        this.#sql.dropCuffs.run(session);
        for (const cuff of closed) this.#sql.addCuff.run(cuff);
      })
      .immediate();
  }

  of(session: string): StoredTurn[] {
    return this.#sql.ofSession.all(session).map(fromRow);
  }

  /** The last turns of a station that are done, or of those that ended before, oldest first. */
  last(role: FloorRole, count: number, beforeMs = Number.MAX_SAFE_INTEGER): StoredTurn[] {
    return this.#last[role].all(beforeMs, count).map(fromRow).reverse();
  }

  /** Turns of all stations that are done and ended in this time, by their end. */
  endedIn(fromMs: number, toMs: number): StoredTurn[] {
    return this.#sql.endedIn.all(fromMs, toMs).map(fromRow);
  }

  /** Of the last turns with this work: how many there were, and how many were followed by that. */
  followed(work: Work, by: Work, count: number): { readonly n: number; readonly followed: number } {
    const rows = this.#sql.after.all(work, count);
    return {
      n: rows.reduce((sum, { n }) => sum + n, 0),
      followed: rows.find((row) => row.work === by)?.n ?? 0,
    };
  }

  /** Jobs taken in since then, and how many of them with stance and soles. */
  takenIn(sinceMs: number): { readonly n: number; readonly full: number } {
    const rows = this.#sql.opened.all(sinceMs);
    return {
      n: rows.reduce((sum, { n }) => sum + n, 0),
      full: rows.find(({ service }) => service === 'full')?.n ?? 0,
    };
  }
}
