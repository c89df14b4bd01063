/** What is on a server's disk, read beside the running server: its database file, opened read-only. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import * as Y from 'yjs';
import type { Fact } from '../../core/index.ts';

function reading<T>(data: string, look: (db: Database.Database) => T): T {
  const db = new Database(join(data, 'fibula.db'), { readonly: true, fileMustExist: true });
  try {
    return look(db);
  } finally {
    db.close();
  }
}

/** The facts of a session that are committed, in the order of its list; none for a session that is not there. */
export const factsOnDisk = (data: string, session: string): Fact[] =>
  reading(data, (db) => {
    const rows = db
      .prepare(
        `SELECT bytes FROM updates WHERE document =
           (SELECT id FROM documents WHERE session = ? ORDER BY generation DESC LIMIT 1) ORDER BY n`,
      )
      .pluck()
      .all(session) as Buffer[];
    const doc = new Y.Doc();
    for (const row of rows) Y.applyUpdate(doc, row);
    return doc.getArray<Fact>('facts').toArray();
  });

/** All sessions of the shop, the oldest first. */
export const sessionsOnDisk = (data: string): string[] =>
  reading(data, (db) => db.prepare('SELECT session FROM documents ORDER BY id').pluck().all() as string[]);
