/**
 * What a server makes sure of before it opens its database for writing: that it is there, ours, and whole. When it
 * is not, the reason, the file, and the newest good backup are named, and nothing is changed.
 */
import { existsSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { BadBackup, Damaged, DamagedSessions, examine } from './examine.ts';
import { headerOf } from './header.ts';
import { BOUND } from './limits.ts';
import { checkLog, logOf } from './open-mark.ts';
import { newestGood, offer } from './rescue.ts';
import { UnusableData } from './schema.ts';
import type { SpoiltSession } from './spoilt.ts';
import { troubleOf } from './trouble.ts';
import { lostInLog } from './wal.ts';

export interface Looked {
  /** `read`: all of it was read. `large`: its structure only, within bounds; the rest is to be read later. */
  readonly was: 'new' | 'read' | 'large';
  /** Sessions that are not as they were written, in a database that is whole otherwise. */
  readonly spoilt: readonly SpoiltSession[];
}

/**
 * Bounded in time by the size of what is read. @param backups the directory of the daily copies.
 * Throws `UnusableData`.
 */
export function lookOver(directory: string, backups: string): Looked {
  const path = join(directory, 'fibula.db');
  const damaged = (what: string): UnusableData =>
    new UnusableData(
      `${path} is damaged: ${inOneLine(what)}. Nothing was changed.\n${offer(directory, backups)}`,
    );
  if (!existsSync(path)) return missing(directory, path, backups);
  try {
    const header = headerOf(path);
    if (header.is === 'none') throw damaged(header.words);
    // A database that was begun by an older program has its number in the log at first.
    const nameless = header.is === 'unnamed' && !existsSync(logOf(path));
    if (header.is === 'foreign' || nameless)
      throw new UnusableData(`${path} is a database of another program. Nothing was changed.`);
    checkLog(path);
    const lost = lostInLog(path);
    if (lost !== null)
      throw new UnusableData(
        `${logOf(path)} is damaged: ${lost}. The latest entries are in that file, and some are lost. Nothing was changed.\n${offer(directory, backups)}`,
      );
    return leavingNoLog(path, () => readThrough(path));
  } catch (error) {
    if (error instanceof UnusableData) throw error;
    if (error instanceof BadBackup && !(error instanceof Damaged))
      throw new UnusableData(error.message.replace(' is no backup: it is ', ' is '), { cause: error });
    const what = whatIsDamaged(error, path);
    if (what !== null) throw damaged(what);
    throw new UnusableData(unreadable(error, path), { cause: error });
  }
}

/** A directory without its database is a new one, unless something tells that it is not. */
function missing(directory: string, path: string, backups: string): Looked {
  const log = logOf(path);
  if (existsSync(log) && statSync(log).size > 0)
    throw new UnusableData(
      `${path} is missing, and ${log} is there: it holds the last entries of that database. Put the database back beside it. Nothing was changed.`,
    );
  if (newestGood(backups) === null) return { was: 'new', spoilt: [] };
  throw new UnusableData(
    `${path} is missing, and there are backups of it. Put it back, or:\n${offer(directory, backups)}\nTo begin with nothing, give another directory with --data.`,
  );
}

/** Reading makes an empty log and its index where there were none. */
function leavingNoLog<T>(path: string, read: () => T): T {
  const hadLog = existsSync(logOf(path));
  try {
    return read();
  } finally {
    if (!hadLog && existsSync(logOf(path)) && statSync(logOf(path)).size === 0)
      for (const end of ['-wal', '-shm']) rmSync(path + end, { force: true });
  }
}

function readThrough(path: string): Looked {
  const bytes = statSync(path).size;
  if (bytes <= BOUND.examinedAtStartBytes) return { was: 'read', spoilt: spoiltIn(path) };
  if (bytes <= BOUND.checkedAtStartBytes) quickCheck(path);
  return { was: 'large', spoilt: [] };
}

function spoiltIn(path: string): readonly SpoiltSession[] {
  try {
    examine(path);
    return [];
  } catch (error) {
    if (error instanceof DamagedSessions) return error.spoilt;
    throw error;
  }
}

/** Read only: closing it then leaves the log beside it as it is. */
function quickCheck(path: string): void {
  const db = new Database(path, { readonly: true, fileMustExist: true, timeout: BOUND.busyMs });
  try {
    const problem = String(db.pragma('quick_check(1)', { simple: true }));
    if (problem !== 'ok') throw new Damaged(`${path} is damaged: ${problem}.`);
  } finally {
    db.close();
  }
}

/** Without the heading that SQLite sets over what it finds. */
const inOneLine = (what: string): string =>
  what
    .replace(/\*\*\*.*?\*\*\*/g, '')
    .replace(/\s+/g, ' ')
    .trim();

/** Null when it is not damage that kept it from being read. */
function whatIsDamaged(error: unknown, path: string): string | null {
  if (error instanceof Damaged) return error.message.replace(`${path} is damaged: `, '').replace(/\.$/, '');
  return troubleOf(error) === 'damaged' ? (error as Error).message : null;
}

function unreadable(error: unknown, path: string): string {
  const message = error instanceof Error ? error.message : String(error);
  switch (troubleOf(error)) {
    case 'full':
      return `The disk of ${path} is full: free some space, then start again.`;
    case 'locked':
      return `Another program holds ${path}: close it, then start again.`;
    default:
      return `${path} cannot be read: ${message}.`;
  }
}
