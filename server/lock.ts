/** One server per data directory. The lock is the operating system's, so that no crash leaves one behind. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { UnusableData } from './schema.ts';

const ELSEWHERE =
  'The database would not be safe there, as on some network shares: give --data a directory on a disk of this machine.';

export interface Lock {
  release(): void;
}

/** Exit code of a process that the lock did not keep out. */
const GOT_IN = 0;
const TRY_LOCK = fileURLToPath(new URL('../server/try-lock.mjs', import.meta.url));

/**
 * Whether the lock that this process holds on the file `lock` keeps others out: another process tries. Some network
 * shares grant every lock. True where it could not be tried.
 */
export const keepsOthersOut = (lock: string): boolean =>
  spawnSync(process.execPath, [TRY_LOCK, lock], { timeout: 30_000 }).status !== GOT_IN;

/**
 * Throws `UnusableData` when another server holds `directory`, or its file system has no locks that hold.
 * @param keepsOut asked about the lock once it is held
 */
export function lockDirectory(directory: string, keepsOut: (lock: string) => boolean = () => true): Lock {
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
    throw new UnusableData(`${path} cannot be locked (${(error as Error).message}). ${ELSEWHERE}`, {
      cause: error,
    });
  }
  if (!keepsOut(path)) {
    db.close();
    throw new UnusableData(`${path} can be locked by two programs at once. ${ELSEWHERE}`);
  }
  return {
    release() {
      db.exec('ROLLBACK');
      db.close();
    },
  };
}
