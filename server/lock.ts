/** One server per data directory. The lock is the operating system's, so that no crash leaves one behind. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { UnusableData } from './schema.ts';

export interface Lock {
  release(): void;
}

/** Throws `UnusableData` when another server holds `directory`. */
export function lockDirectory(directory: string): Lock {
  const path = join(directory, 'server.lock');
  const db = new Database(path, { timeout: 0 });
  try {
    db.pragma('journal_mode = MEMORY'); // nothing is ever written: only the lock matters
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db.close();
    if (error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY'))
      throw new UnusableData(
        `Another server is running on ${directory}; stop it first, or give --data another directory.`,
      );
    throw new UnusableData(`${path} cannot be locked: ${String(error)}`, { cause: error });
  }
  return {
    release() {
      db.exec('ROLLBACK');
      db.close();
    },
  };
}
