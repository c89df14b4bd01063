/** Is this file a good Fibula database, all of it? Asked of every copy before it counts as a backup. */
import { closeSync, existsSync, openSync, readSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { parseLenient } from '../core/index.ts';
import { factsOf } from './document.ts';
import { rowReader } from './rows.ts';
import { Said } from './said.ts';
import { APPLICATION_ID, FORMAT, FORMAT_WITH_SUMS } from './schema.ts';
import type { Db } from './schema.ts';
import { SpoiltSession } from './spoilt.ts';
import { troubleOf } from './trouble.ts';

export interface Examined {
  readonly bytes: number;
  readonly format: number;
  readonly sessions: number;
  readonly facts: number;
  readonly people: number;
  /** When the newest entry was committed, ms since 1970; null without entries. */
  readonly lastMs: number | null;
}

/** A file that is no good backup. The message is one sentence that says why. */
export class BadBackup extends Said {}

/** It is ours, could be read, and is not whole. */
export class Damaged extends BadBackup {}

/** How many of them a sentence names. */
const NAMED = 3;

/** The file is whole, and some sessions in it are not what was written. */
export class DamagedSessions extends Damaged {
  constructor(
    path: string,
    readonly spoilt: readonly SpoiltSession[],
  ) {
    const named = spoilt.slice(0, NAMED).map(({ session, what }) => `session ${session}: ${what}`);
    const more = spoilt.length > NAMED ? `; and ${spoilt.length - NAMED} more` : '';
    super(`${path} is damaged: ${named.join('; ')}${more}.`);
  }
}

/**
 * Reads all of the file: the database's own check, its tables, the checksum of every row, every session's document
 * with Yjs, every fact.
 * Takes seconds for a large one. Leaves the file as it is, also one that a server has open.
 * Throws `BadBackup`.
 */
export function examine(path: string): Examined {
  const bytes = databaseSize(path);
  let db: Db | undefined;
  try {
    db = new Database(path, { readonly: true, fileMustExist: true });
    db.exec('BEGIN'); // all of it as it is at one moment, should it be in use
    const format = formatOf(db, path);
    const problem = db.pragma('integrity_check(1)', { simple: true });
    if (problem !== 'ok') throw new Damaged(`${path} is damaged: ${String(problem)}.`);
    if ((db.pragma('foreign_key_check') as unknown[]).length > 0)
      throw new Damaged(`${path} is damaged: rows point to sessions that are not there.`);
    return { bytes, format, ...readAll(db, path, format) };
  } catch (error) {
    if (!(error instanceof Database.SqliteError)) throw error;
    if (troubleOf(error) !== 'damaged')
      throw new BadBackup(`${path} cannot be read: ${error.message}.`, { cause: error });
    throw new Damaged(`${path} is damaged: ${error.message}.`, { cause: error });
  } finally {
    db?.close();
  }
}

/** Bytes of a file that begins as a database does; throws `BadBackup` for anything else. */
export function databaseSize(path: string): number {
  if (!existsSync(path)) throw new BadBackup(`There is no file ${path}.`);
  const stat = statSync(path);
  if (!stat.isFile()) throw new BadBackup(`${path} is no file.`);
  const start = Buffer.alloc(16);
  const handle = openSync(path, 'r');
  try {
    readSync(handle, start);
  } finally {
    closeSync(handle);
  }
  if (start.toString('latin1') !== 'SQLite format 3\0')
    throw new BadBackup(`${path} is no backup: it is no database.`);
  return stat.size;
}

function formatOf(db: Db, path: string): number {
  if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID)
    throw new BadBackup(`${path} is no backup: it is a database of another program.`);
  const format = db.pragma('user_version', { simple: true }) as number;
  if (format < 1 || format > FORMAT)
    throw new BadBackup(
      `${path} is of format ${format}, and this Fibula reads up to ${FORMAT}: install a newer one.`,
    );
  return format;
}

function readAll(db: Db, path: string, format: number): Omit<Examined, 'bytes' | 'format'> {
  const documents = db
    .prepare<[], { id: number; session: string; lastMs: number }>(
      'SELECT id, session, last_ms AS lastMs FROM documents',
    )
    .all();
  const rows = rowReader(db, format >= FORMAT_WITH_SUMS);
  const known = db.prepare<[number], string>('SELECT id FROM facts WHERE document = ?').pluck();
  let facts = 0;
  const spoilt: SpoiltSession[] = [];
  for (const { id, session } of documents) {
    try {
      facts += countFacts(() => rows(id), known.all(id), session);
    } catch (error) {
      if (!(error instanceof SpoiltSession)) throw error;
      spoilt.push(error);
    }
  }
  if (spoilt.length > 0) throw new DamagedSessions(path, spoilt);
  return {
    sessions: new Set(documents.map(({ session }) => session)).size,
    facts,
    people: db.prepare<[], number>('SELECT count(*) FROM people').pluck().get()!,
    lastMs: documents.reduce<number | null>((last, { lastMs }) => Math.max(last ?? 0, lastMs), null),
  };
}

/** Of one document; they must be the ones that are listed. */
function countFacts(rows: () => readonly Uint8Array[], listed: readonly string[], session: string): number {
  const there = factIds(rows, session);
  if (listed.length !== there.size || !listed.every((fact) => there.has(fact)))
    throw new SpoiltSession(session, `it holds ${there.size} facts and lists ${listed.length}`);
  return there.size;
}

function factIds(rows: () => readonly Uint8Array[], session: string): Set<string> {
  try {
    return new Set(
      factsOf(rows(), session).map((value) => {
        const parsed = parseLenient(value);
        if (!parsed.ok) throw new Error(`${parsed.misfit.field} ${parsed.misfit.wants}`);
        return parsed.fact.id;
      }),
    );
  } catch (error) {
    if (error instanceof SpoiltSession || error instanceof Database.SqliteError) throw error;
    throw new SpoiltSession(session, `it cannot be read (${(error as Error).message})`, { cause: error });
  }
}
