/**
 * What a revoked station still held when its token ended. It hands its entries in; nothing of them is in a session
 * until a person at the desk has looked and takes them in, or throws them away.
 *
 * What was thrown away stays for some days, to be exported; what was taken in is in its session, and only its id
 * stays, so that the station can be told.
 */
import { z } from 'zod';
import { LIMIT, parseStrict } from '../core/index.ts';
import type { Fact, Refusal } from '../core/index.ts';
import { notJson } from './gate-entries.ts';
import { BOUND } from './limits.ts';
import type { Station } from './pair.ts';
import type { Db } from './schema.ts';
import type { TakenIn } from './take-in.ts';

/** `refused`: the desk took it in, and the session did not; it waits for the desk again, with the reason. */
export type EntryState = 'waiting' | 'refused' | 'taken' | 'thrown';

export interface Told {
  readonly session: string;
  readonly fact: string;
  readonly state: EntryState;
  readonly reason: string | null;
}

export interface Entry extends Told {
  /** Null once it is in its session. */
  readonly value: Fact | null;
  readonly handedMs: number;
  readonly decidedMs: number | null;
}

/** Entries of one station in one session. */
export interface Backlog {
  readonly station: number;
  readonly session: string;
  /** That the desk has to decide on. */
  readonly waiting: number;
  readonly taken: number;
  readonly thrown: number;
  readonly firstMs: number;
  readonly lastMs: number;
}

export interface HandedIn {
  /** Ids that wait for the desk now, or were there before. */
  readonly kept: readonly string[];
  readonly refused: readonly { readonly fact: string | null; readonly reason: string }[];
  /** There is no room for the rest: it stays on the station. */
  readonly full: boolean;
}

interface Row {
  session: string;
  fact: string;
  state: EntryState;
  reason: string | null;
  json: string | null;
  handedMs: number;
  decidedMs: number | null;
}

const COLUMNS = 'session, fact, state, reason, json, handed_ms AS handedMs, decided_ms AS decidedMs';
const UNDECIDED = `state IN ('waiting', 'refused')`;
const HasId = z.object({ id: z.string().min(1).max(LIMIT.id) });

const statements = (db: Db) => ({
  known: db.prepare<[number, string, string], { state: EntryState }>(
    'SELECT state FROM quarantine WHERE station = ? AND session = ? AND fact = ?',
  ),
  add: db.prepare<[number, string, string, string, number, number]>(
    `INSERT INTO quarantine (station, session, fact, state, json, bytes, handed_ms)
     VALUES (?, ?, ?, 'waiting', ?, ?, ?)`,
  ),
  size: db.prepare<[], { entries: number; bytes: number }>(
    'SELECT count(*) AS entries, coalesce(sum(bytes), 0) AS bytes FROM quarantine',
  ),
  ofStation: db.prepare<[number], number>('SELECT count(*) FROM quarantine WHERE station = ?').pluck(),
  told: db.prepare<[number], Told>(
    'SELECT session, fact, state, reason FROM quarantine WHERE station = ? ORDER BY id',
  ),
  entries: db.prepare<[number, string], Row>(
    `SELECT ${COLUMNS} FROM quarantine WHERE station = ? AND session = ? ORDER BY id`,
  ),
  backlogs: db.prepare<[], Backlog>(
    `SELECT station, session, sum(${UNDECIDED}) AS waiting, sum(state = 'taken') AS taken,
       sum(state = 'thrown') AS thrown, min(handed_ms) AS firstMs, max(handed_ms) AS lastMs
     FROM quarantine GROUP BY station, session ORDER BY min(id)`,
  ),
  waiting: db.prepare<[], number>(`SELECT count(*) FROM quarantine WHERE ${UNDECIDED}`).pluck(),
  taken: db.prepare<[number, number, string, string]>(
    `UPDATE quarantine SET state = 'taken', reason = NULL, json = NULL, bytes = 0, decided_ms = ?
     WHERE station = ? AND session = ? AND fact = ?`,
  ),
  refused: db.prepare<[string, number, string, string]>(
    `UPDATE quarantine SET state = 'refused', reason = ? WHERE station = ? AND session = ? AND fact = ?`,
  ),
  thrown: db.prepare<[number, number, string]>(
    `UPDATE quarantine SET state = 'thrown', decided_ms = ? WHERE station = ? AND session = ? AND ${UNDECIDED}`,
  ),
  sweep: db.prepare<[number]>('DELETE FROM quarantine WHERE decided_ms < ?'),
});

const DAY_MS = 86_400_000;

export class Quarantine {
  readonly #db: Db;
  readonly #now: () => number;
  readonly #sql: ReturnType<typeof statements>;

  constructor(db: Db, now: () => number) {
    this.#db = db;
    this.#now = now;
    this.#sql = statements(db);
  }

  /** Keeps entries that `station` made, all that fit or none where the disk fails; what was kept before is kept once. */
  handIn(station: Station, session: string, values: readonly unknown[]): HandedIn {
    this.#sweep();
    const kept: string[] = [];
    const refused: { fact: string | null; reason: string }[] = [];
    let full = false;
    this.#db
      .transaction(() => {
        const size = this.#sql.size.get()!;
        let own = this.#sql.ofStation.get(station.number) ?? 0;
        for (const value of values) {
          const checked = factOf(value, station.device);
          if (!checked.ok) {
            refused.push(checked);
            continue;
          }
          const { fact } = checked;
          if (this.#sql.known.get(station.number, session, fact.id)) {
            kept.push(fact.id);
            continue;
          }
          const json = JSON.stringify(fact);
          const bytes = Buffer.byteLength(json);
          if (bytes > BOUND.quarantineEntryBytes) {
            refused.push({
              fact: fact.id,
              reason: `an entry has at most ${BOUND.quarantineEntryBytes} bytes; this one has ${bytes}`,
            });
            continue;
          }
          full ||=
            own >= BOUND.quarantinePerStation ||
            size.entries >= BOUND.quarantine ||
            size.bytes + bytes > BOUND.quarantineBytes;
          if (full) continue;
          this.#sql.add.run(station.number, session, fact.id, json, bytes, this.#now());
          own += 1;
          size.entries += 1;
          size.bytes += bytes;
          kept.push(fact.id);
        }
      })
      .immediate();
    return { kept, refused, full };
  }

  /** What became of each entry of a station. */
  told(station: number): Told[] {
    return this.#sql.told.all(station);
  }

  backlogs(): Backlog[] {
    return this.#sql.backlogs.all();
  }

  /** Entries that wait for the desk. */
  waiting(): number {
    return this.#sql.waiting.get() ?? 0;
  }

  entries(station: number, session: string): Entry[] {
    return this.#sql.entries.all(station, session).map(({ json, ...row }) => ({
      ...row,
      value: json === null ? null : (JSON.parse(json) as Fact),
    }));
  }

  /** The facts that the desk has to decide on, in the order in which they were handed in. */
  undecided(station: number, session: string): Fact[] {
    return this.entries(station, session).flatMap(({ state, value }) =>
      value && (state === 'waiting' || state === 'refused') ? [value] : [],
    );
  }

  /** Writes down what the session took, and why it did not take the rest. */
  decided(station: number, session: string, { taken, already, refused }: TakenIn): void {
    const now = this.#now();
    this.#db
      .transaction(() => {
        for (const fact of [...taken.map(({ id }) => id), ...already])
          this.#sql.taken.run(now, station, session, fact);
        for (const { fact, refusal } of refused)
          this.#sql.refused.run(words(refusal), station, session, fact);
      })
      .immediate();
  }

  /** @returns how many were thrown away. */
  throwAway(station: number, session: string): number {
    return this.#sql.thrown.run(this.#now(), station, session).changes;
  }

  #sweep(): void {
    this.#sql.sweep.run(this.#now() - BOUND.quarantineDays * DAY_MS);
  }
}

const words = ({ field, wants }: Refusal): string => [field, wants].filter(Boolean).join(' ');

type Checked =
  | { readonly ok: true; readonly fact: Fact }
  | { readonly ok: false; readonly fact: string | null; readonly reason: string };

/** An entry of this device, whole; whether its session takes it is asked when the desk takes it in. */
function factOf(value: unknown, device: string): Checked {
  const named = HasId.safeParse(value);
  const no = (reason: string): Checked => ({
    ok: false,
    fact: named.success ? named.data.id : null,
    reason,
  });
  const strange = notJson(value, LIMIT.depth);
  if (strange !== undefined) return no(strange);
  const parsed = parseStrict(value);
  if (!parsed.ok) return no([parsed.misfit.field, parsed.misfit.wants].join(' ').trim());
  const { fact } = parsed;
  return fact.by.station === device ? { ok: true, fact } : no(`by.station must be ${device}`);
}
