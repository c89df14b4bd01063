/**
 * A small file that lies beside the database while a server has it open. SQLite keeps the latest commits in a log
 * of its own, `fibula.db-wal`, and takes the log away when the database is closed. If the server was killed and
 * the log is gone all the same, somebody has removed it, and SQLite alone would not notice what is missing.
 */
import { existsSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { UnusableData } from './schema.ts';

const markOf = (path: string): string => join(dirname(path), `${basename(path, '.db')}.open`);

/** Tells this file from one that was put in its place later. */
function identityOf(path: string): string {
  const { ino, birthtimeMs } = statSync(path);
  return `${ino} ${Math.floor(birthtimeMs)}\n`;
}

export const logOf = (path: string): string => `${path}-wal`;

/** The database `path` is open from now on. What the disk will not take is not marked. */
export function markOpen(path: string): void {
  try {
    writeFileSync(markOf(path), identityOf(path), { mode: 0o600 });
  } catch {
    // A full disk: without the mark a missing log would go unnoticed, and all else holds.
  }
}

/** It was closed. A log that could not be put into the file keeps its mark. */
export function markClosed(path: string): void {
  try {
    if (!existsSync(logOf(path))) rmSync(markOf(path), { force: true });
  } catch {
    // Nothing was removed: the next start finds the mark and the log, or says that one is missing.
  }
}

/** Throws `UnusableData` when the log of the last server is missing. */
export function checkLog(path: string): void {
  const mark = markOf(path);
  if (existsSync(logOf(path)) || !existsSync(mark)) return;
  if (readFileSync(mark, 'utf8') !== identityOf(path)) return; // of a file that was here before
  throw new UnusableData(
    `${logOf(path)} is missing: the server did not stop by itself last time, and the last entries are in that file. ` +
      `Put it back beside ${basename(path)}. Nothing was changed.\n` +
      `If another program has read the database and closed it, the entries are in ${basename(path)}: remove ${mark}, and start again.`,
  );
}
