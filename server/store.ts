/** Sessions on disk: rows of Yjs updates, committed in groups, joined in idle time. */
import * as Y from 'yjs';
import { baseGeneration } from './generation.ts';
import { rowReader, rowWriter } from './rows.ts';
import type { RowReader, RowWriter } from './rows.ts';
import type { Db } from './schema.ts';
import { wordWriter } from './session-words.ts';
import type { Shown, WordWriter } from './session-words.ts';

/** One admitted update on its way to the disk. */
export interface NewRow {
  readonly session: string;
  readonly generation: number;
  /** The document's own update event, never a client's bytes. */
  readonly bytes: Uint8Array;
  /** Ids of the facts it adds. */
  readonly facts: readonly string[];
  /** The client's reference, in the row that opens the session. */
  readonly client?: string | undefined;
}

export interface StoredDocument {
  readonly id: number;
  readonly session: string;
  readonly generation: number;
  readonly lastN: number;
  /** Server's commit time of the first and the last row, ms since 1970. */
  readonly openedMs: number;
  readonly lastMs: number;
}

/** A board row as it was last computed; null before. */
export interface OpenJob extends StoredDocument {
  readonly job: string | null;
}

export interface JobToKeep {
  readonly session: string;
  readonly generation: number;
  readonly job: string;
  readonly closed: boolean;
  /** What it is found by in the archive. */
  readonly shown: Shown | null;
}

const COLUMNS = 'id, session, generation, last_n AS lastN, opened_ms AS openedMs, last_ms AS lastMs';
/** Only the newest generation of a session is a document anyone may open. */
const NEWEST =
  'generation = (SELECT max(generation) FROM documents AS other WHERE other.session = documents.session)';

const statements = (db: Db) => ({
  find: db.prepare<[string], StoredDocument>(
    `SELECT ${COLUMNS} FROM documents WHERE session = ? AND ${NEWEST}`,
  ),
  open: db.prepare<[], OpenJob>(
    `SELECT ${COLUMNS}, job FROM documents WHERE closed = 0 AND ${NEWEST} ORDER BY id`,
  ),
  create: db.prepare<[string, number, number, number, string | null]>(
    'INSERT INTO documents (session, generation, last_n, opened_ms, last_ms, client) VALUES (?, ?, 0, ?, ?, ?)',
  ),
  own: db.prepare<[string, number], StoredDocument & { closed: number }>(
    `SELECT ${COLUMNS}, closed FROM documents WHERE session = ? AND generation = ?`,
  ),
  fact: db.prepare<[number, string, number]>(
    'INSERT INTO facts (document, id, committed_ms) VALUES (?, ?, ?)',
  ),
  touch: db.prepare<[number, number, number]>('UPDATE documents SET last_n = ?, last_ms = ? WHERE id = ?'),
  reopen: db.prepare<[number]>('UPDATE documents SET closed = 0 WHERE id = ?'),
  room: db.prepare<[number], { session: string; generation: number }>(
    'SELECT session, generation FROM documents WHERE id = ?',
  ),
  count: db.prepare<[number], number>('SELECT count(*) FROM updates WHERE document = ?').pluck(),
  upTo: db.prepare<[number, number]>('DELETE FROM updates WHERE document = ? AND n <= ?'),
  keepJob: db.prepare<[string, number, string, number]>(
    'UPDATE documents SET job = ?, closed = ? WHERE session = ? AND generation = ?',
  ),
  erased: db.prepare<[string], 1>('SELECT 1 FROM erased WHERE session = ?').pluck(),
  factTimes: db.prepare<[number], { id: string; ms: number }>(
    'SELECT id, committed_ms AS ms FROM facts WHERE document = ?',
  ),
});

export class Store {
  readonly #db: Db;
  readonly #now: () => number;
  readonly #sql: ReturnType<typeof statements>;
  readonly #read: RowReader;
  readonly #write: RowWriter;
  readonly #words: WordWriter;
  readonly #appendAll;
  /** The generation of sessions that are not there yet. */
  readonly base: number;

  /** @param timeZone the shop's, by which its days are found. */
  constructor(db: Db, now: () => number, timeZone = 'UTC') {
    this.#db = db;
    this.#now = now;
    this.#words = wordWriter(db, timeZone);
    this.#sql = statements(db);
    this.#read = rowReader(db);
    this.#write = rowWriter(db);
    this.#appendAll = db.transaction((rows: readonly NewRow[], ms: number) => {
      for (const row of rows) this.#append(row, ms);
    });
    this.base = baseGeneration(db);
  }

  /** Whether personal texts of this session were erased; also of one that is not there. */
  isErased(session: string): boolean {
    return this.#sql.erased.get(session) !== undefined;
  }

  /** The newest generation of a session, or undefined when there is none. */
  find(session: string): StoredDocument | undefined {
    return this.#sql.find.get(session);
  }

  /** The updates of a document, oldest first. Throws `SpoiltSession` when one is not as it was written. */
  updates(document: number, upTo?: number): Uint8Array[] {
    return this.#read(document, upTo);
  }

  rowCount(document: number): number {
    return this.#sql.count.get(document) ?? 0;
  }

  /** When each fact was committed, ms since 1970 by the server's clock. */
  factTimes(document: number): Map<string, number> {
    return new Map(this.#sql.factTimes.all(document).map(({ id, ms }) => [id, ms]));
  }

  /**
   * All rows or none, on disk when it returns; the first row of a session creates its document. Throws when
   * the disk will not take them.
   * @returns the time of the commit, ms since 1970.
   */
  commit(rows: readonly NewRow[]): number {
    const ms = this.#now();
    this.#appendAll.immediate(rows, ms);
    return ms;
  }

  #append({ session, generation, bytes, facts, client }: NewRow, ms: number): void {
    let document = this.#sql.own.get(session, generation);
    if (!document) {
      this.#sql.create.run(session, generation, ms, ms, client ?? null);
      document = this.#sql.own.get(session, generation)!;
    }
    const n = document.lastN + 1;
    this.#write(document.id, { session, generation, n, committedMs: ms }, bytes);
    for (const id of facts) this.#sql.fact.run(document.id, id, ms);
    // By a clock that was set back, the last would have come before the first.
    this.#sql.touch.run(n, Math.max(ms, document.lastMs), document.id);
    // Open until its row is computed again: a server that is killed before that would not look at it any more.
    if (document.closed !== 0) this.#sql.reopen.run(document.id);
  }

  /**
   * Puts `bytes`, the whole document as of row `upTo`, in the place of exactly the rows up to it. Throws,
   * changing nothing, when the rows hold more than `bytes` does, or are not as they were written.
   */
  compact(document: number, upTo: number, bytes: Uint8Array): void {
    const ms = this.#now();
    this.#db
      .transaction(() => {
        const before = stateOf(this.updates(document, upTo));
        const after = stateOf([bytes]);
        for (const [client, clock] of before)
          if ((after.get(client) ?? 0) < clock)
            throw new Error(`Compaction of document ${document} would lose entries of client ${client}`);
        this.#sql.upTo.run(document, upTo);
        this.#write(document, { ...this.#sql.room.get(document)!, n: upTo, committedMs: ms }, bytes);
      })
      .immediate();
  }

  /** Documents whose job is not closed, in the order they were opened. */
  openJobs(): OpenJob[] {
    return this.#sql.open.all();
  }

  keepJobs(jobs: readonly JobToKeep[]): void {
    this.#db
      .transaction(() => {
        for (const { session, generation, job, closed, shown } of jobs) {
          const { changes } = this.#sql.keepJob.run(job, closed ? 1 : 0, session, generation);
          if (changes > 0 && shown) this.#words(this.#sql.own.get(session, generation)!, shown);
        }
      })
      .immediate();
  }
}

/** Client id → number of its entries held by these updates together. */
const stateOf = (updates: readonly Uint8Array[]): Map<number, number> =>
  Y.decodeStateVector(Y.encodeStateVectorFromUpdate(Y.mergeUpdates([...updates])));
