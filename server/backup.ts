/** A copy of the database while it is in use: made by the driver page by page, read again, and only then named. */
import { execFile } from 'node:child_process';
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { BadBackup, Damaged, DamagedSessions } from './examine.ts';
import type { Examined } from './examine.ts';
import { Said } from './said.ts';
import { syncDirectory } from './schema.ts';
import type { Db } from './schema.ts';
import { SpoiltSession } from './spoilt.ts';

/** Minutes that reading a copy may take. */
const EXAMINE_MINUTES = 30;
const LOADER = import.meta.resolve('tsx');
const EXAMINER = fileURLToPath(new URL('../server/examine-command.ts', import.meta.url));

/** A file that cannot be written. The message is one sentence. */
export class NoBackup extends Said {}

const PARTIAL = '.partial';

/**
 * Writes a verified copy of `db` to `file`, which must not exist; what is committed meanwhile may be in it. On
 * disk, readable by its owner only, when it settles. Rejects with `NoBackup` or `BadBackup`, leaving no file.
 * One at a time for each file.
 */
export async function backUp(db: Db, file: string): Promise<Examined> {
  const path = resolve(file);
  const partial = path + PARTIAL;
  if (existsSync(path)) throw new NoBackup(`${path} is there already; nothing is overwritten.`);
  try {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
    rmSync(partial, { force: true }); // of a backup that was broken off
    await db.backup(partial);
    return await finish(partial, path);
  } catch (error) {
    discard(partial);
    if (error instanceof BadBackup || error instanceof NoBackup) throw error;
    throw new NoBackup(`${path} could not be written: ${(error as Error).message}.`, { cause: error });
  }
}

/** Makes of `partial` one file without a log beside it, reads all of it, and gives it its name. */
export async function finish(partial: string, path: string, replace = false): Promise<Examined> {
  const copy = new Database(partial);
  copy.pragma('journal_mode = DELETE');
  copy.close();
  chmodSync(partial, 0o600);
  syncFile(partial);
  const examined = await examineApart(partial);
  if (!replace && existsSync(path)) throw new NoBackup(`${path} is there already; nothing is overwritten.`);
  renameSync(partial, path);
  syncDirectory(dirname(path));
  return examined;
}

/** Removes a copy that came to nothing. */
export function discard(partial: string): void {
  for (const end of ['', '-journal', '-wal', '-shm'])
    try {
      rmSync(partial + end, { force: true });
    } catch {
      // What cannot be reached cannot have been made.
    }
}

function syncFile(path: string): void {
  const handle = openSync(path, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

interface Bad {
  readonly ok: false;
  readonly is: 'damaged' | 'bad' | 'other';
  readonly text: string;
  readonly spoilt: readonly { readonly session: string; readonly what: string }[];
}

/** What `examine` threw there. */
function errorOf({ is, text, spoilt }: Bad, path: string): Error {
  switch (is) {
    case 'damaged':
      if (spoilt.length === 0) return new Damaged(text);
      return new DamagedSessions(
        path,
        spoilt.map(({ session, what }) => new SpoiltSession(session, what)),
      );
    case 'bad':
      return new BadBackup(text);
    case 'other':
      return new Error(text);
    default:
      return is satisfies never;
  }
}

/** `examine` in another process. Rejects with `BadBackup`, or an error when it did not come to an end. */
export function examineApart(path: string, signal?: AbortSignal): Promise<Examined> {
  return new Promise((done, fail) => {
    execFile(
      process.execPath,
      ['--import', LOADER, EXAMINER, path],
      { timeout: EXAMINE_MINUTES * 60_000, encoding: 'utf8', ...(signal ? { signal } : {}) },
      (error, stdout) => {
        if (error)
          return fail(new Error(`${path} could not be read again: ${error.message}`, { cause: error }));
        const answer = JSON.parse(stdout) as { ok: true; examined: Examined } | Bad;
        if (answer.ok) done(answer.examined);
        else fail(errorOf(answer, path));
      },
    );
  });
}
