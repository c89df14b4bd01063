/** What a server's database file holds, read without the server's code. */
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import * as Y from 'yjs';
import type { Fact } from '../../core/index.ts';

export interface SessionOnDisk {
  /** In the list's order, as the rows of updates give them. */
  readonly facts: readonly Fact[];
  /** Ids in the table that keeps each fact's commit time. */
  readonly timed: readonly string[];
  /** The whole document in one form that is the same for the same content. */
  state(): Uint8Array;
  /** Yjs client id → how many of its entries are here. */
  readonly clocks: ReadonlyMap<number, number>;
}

export interface Disk {
  /** What SQLite's own check of the whole file says: `ok`. */
  readonly integrity: string;
  readonly sessions: ReadonlyMap<string, SessionOnDisk>;
}

/** However an update was cut, the same content comes out as the same bytes. */
export function canonical(...updates: readonly Uint8Array[]): Uint8Array {
  const doc = docOf(updates);
  return Y.encodeStateAsUpdate(docOf([Y.encodeStateAsUpdate(doc)]));
}

function docOf(updates: readonly Uint8Array[]): Y.Doc {
  const doc = new Y.Doc();
  for (const update of updates) Y.applyUpdate(doc, update);
  if (doc.store.pendingStructs) throw new Error('these updates do not make a whole document');
  return doc;
}

function sessionIn(db: Database.Database, document: number): SessionOnDisk {
  const rows = db.prepare('SELECT bytes FROM updates WHERE document = ? ORDER BY n').pluck().all(document);
  const doc = docOf(rows as Buffer[]);
  return {
    facts: doc.getArray<Fact>('facts').toArray(),
    timed: db.prepare('SELECT id FROM facts WHERE document = ?').pluck().all(document) as string[],
    state: () => canonical(Y.encodeStateAsUpdate(doc)),
    clocks: Y.decodeStateVector(Y.encodeStateVector(doc)),
  };
}

/** The newest generation of each session; of those asked for, when `wanted` is given. */
function read(db: Database.Database, wanted?: ReadonlySet<string>): Disk {
  const integrity = String(db.pragma('integrity_check', { simple: true }));
  const documents = db
    .prepare('SELECT session, id, max(generation) FROM documents GROUP BY session ORDER BY session')
    .all() as { session: string; id: number }[];
  const asked = documents.filter(({ session }) => wanted?.has(session) ?? true);
  return {
    integrity,
    sessions: new Map(asked.map(({ session, id }) => [session, sessionIn(db, id)])),
  };
}

/**
 * The file as a dead server has left it. A copy is read, so that its recovery by SQLite changes nothing for the
 * server that comes next; `tamper` may spoil the copy first.
 */
export function diskAfterDeath(
  data: string,
  wanted?: ReadonlySet<string>,
  tamper?: (db: Database.Database) => void,
): Disk {
  const copy = mkdtempSync(join(tmpdir(), 'fibula-copy-'));
  try {
    for (const part of ['fibula.db', 'fibula.db-wal'])
      if (existsSync(join(data, part))) copyFileSync(join(data, part), join(copy, part));
    return reading(copy, false, (db) => {
      tamper?.(db);
      return read(db, wanted);
    });
  } finally {
    rmSync(copy, { recursive: true, force: true });
  }
}

/** The file beside the running server. */
export const diskOf = (data: string, wanted?: ReadonlySet<string>): Disk =>
  reading(data, true, (db) => read(db, wanted));

/** The facts of one session in the file beside the running server; none for one that is not there. */
export const listOnDisk = (data: string, session: string): readonly Fact[] =>
  reading(data, true, (db) => {
    const document = db
      .prepare('SELECT id FROM documents WHERE session = ? ORDER BY generation DESC')
      .pluck()
      .get(session) as number | undefined;
    return document === undefined ? [] : sessionIn(db, document).facts;
  });

function reading<T>(data: string, readonly: boolean, look: (db: Database.Database) => T): T {
  const db = new Database(join(data, 'fibula.db'), { readonly, fileMustExist: true });
  try {
    return look(db);
  } finally {
    db.close();
  }
}
