/**
 * A backup in the place of the database. Every session gets a new generation, greater than any that a tablet can
 * hold: whatever is later than the backup is missing here, and the stations offer it again.
 */
import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
} from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { discard } from './backup.ts';
import { catchUp, scrub } from './erase.ts';
import { BadBackup, Damaged, databaseSize, examine } from './examine.ts';
import type { Examined } from './examine.ts';
import { greatestGeneration, LAST_GENERATION, nameClients, regenerate } from './generation.ts';
import { Ledger } from './ledger.ts';
import { lockDirectory } from './lock.ts';
import type { Outside } from './outside.ts';
import { Said } from './said.ts';
import { openDatabaseFile, syncDirectory } from './schema.ts';
import type { Db } from './schema.ts';
import { lostInLog } from './wal.ts';

export class NoRestore extends Said {}

export interface Restored {
  readonly examined: Examined;
  /** Where the replaced database is now; null when there was none. */
  readonly aside: string | null;
  /** Whether what was replaced could still be read. */
  readonly wasReadable: boolean;
  readonly generation: number;
}

/** What of the replaced database must not be forgotten. Zero and empty where it cannot be read. */
interface Replaced {
  readonly readable: boolean;
  readonly generation: number;
  readonly boot: number;
  readonly stationNumber: number;
  readonly stations: readonly Known[];
}

interface Known {
  readonly number: number;
  readonly device: string;
  readonly name: string;
  readonly roles: string;
  readonly token: Buffer | null;
  readonly pairedMs: number;
}

const NOTHING: Replaced = { readable: false, generation: 0, boot: 0, stationNumber: 0, stations: [] };

interface StationRow extends Omit<Known, 'token' | 'pairedMs'> {
  readonly token_hash: Buffer | null;
  readonly paired_ms: number;
  readonly revoked_ms?: number | null;
}

/** The random part of a generation and of the boards' number, in case all that knew the old ones is lost. */
const CHANCE = 1_000_000;
/** Station numbers left out for the same reason. A number below 2²¹ makes client ids that are exact. */
const STATION_GAP = 1_000;

/**
 * Puts the backup `file` in the place of the database in `data`, of which no server may run. Throws `NoRestore`,
 * `BadBackup` or `UnusableData`; then all is as it was.
 * @param replace whether a database that is there may be moved aside
 */
export function restore(file: string, data: string, replace: boolean, outside: Outside): Restored {
  const lock = lockDirectory(data);
  const coming = join(data, 'fibula.db.restoring');
  const present = join(data, 'fibula.db');
  let ledger: Ledger | undefined;
  try {
    discard(coming);
    databaseSize(file);
    const isReplaced = existsSync(present);
    if (isReplaced && !replace)
      throw new NoRestore(
        `There is a database in ${data} already. Add --replace to put the backup in its place; the present one is kept under another name.`,
      );
    copyFileSync(file, coming);
    const examined = examineCopy(coming, file);
    // Asked first: reading puts SQLite's index right, by which a log that is damaged is known.
    const isLogWhole = !isReplaced || lostInLog(present) === null;
    const replaced = isReplaced ? readReplaced(present) : NOTHING;
    ledger = new Ledger(data, () => outside.now());
    const generation = renewAll(coming, replaced, ledger, outside);
    const aside = isReplaced
      ? moveAside(data, present, replaced.readable && isLogWhole, outside.now())
      : null;
    removeLogs(present, aside);
    renameSync(coming, present);
    syncDirectory(data);
    return { examined, aside, wasReadable: replaced.readable, generation };
  } catch (error) {
    discard(coming);
    throw error;
  } finally {
    ledger?.close();
    lock.release();
  }
}

/** The copy is examined and not the file, which stays untouched; the reason names the file. */
function examineCopy(copy: string, file: string): Examined {
  try {
    return examine(copy);
  } catch (error) {
    if (error instanceof Damaged) throw new Damaged(error.message.replaceAll(copy, file), { cause: error });
    if (error instanceof BadBackup)
      throw new BadBackup(error.message.replaceAll(copy, file), { cause: error });
    throw error;
  } finally {
    for (const end of ['-wal', '-shm']) rmSync(copy + end, { force: true });
  }
}

function readReplaced(path: string): Replaced {
  let db: Db | undefined;
  try {
    // Read only: else a log that does not fit a damaged file would be gone once it is closed.
    db = new Database(path, { readonly: true });
    const get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
    // All columns: an older database does not have the later ones.
    const stations = db
      .prepare<[], StationRow>('SELECT * FROM stations WHERE device IS NOT NULL')
      .all()
      .map((row) => ({ ...row, token: row.revoked_ms ? null : row.token_hash, pairedMs: row.paired_ms }));
    return {
      readable: db.pragma('quick_check(1)', { simple: true }) === 'ok',
      generation: greatestGeneration(db),
      boot: Number(get.get('boot') ?? 0),
      stationNumber: Math.max(0, ...stations.map(({ number }) => number)),
      stations,
    };
  } catch {
    return NOTHING;
  } finally {
    db?.close();
  }
}

/** @returns the generation that every session has now. */
function renewAll(path: string, replaced: Replaced, ledger: Ledger, outside: Outside): number {
  const db = openDatabaseFile(path);
  try {
    nameClients(db);
    catchUp(db, ledger);
    const greatest = Math.max(greatestGeneration(db), replaced.generation, ledger.generation);
    const generation = greatest + 1 + outside.randomInt(CHANCE);
    if (generation > LAST_GENERATION) throw new NoRestore('There have been too many restores to count.');
    // Written down first: the next restore must come after this one, whatever becomes of both databases.
    ledger.append({ do: 'restore', generation });
    db.transaction(() => {
      const sessions = db.prepare<[], string>('SELECT DISTINCT session FROM documents').pluck().all();
      for (const session of sessions) regenerate(db, session, generation);
      renewMeta(db, generation, replaced.boot, outside);
      renewStations(db, replaced, outside);
    }).immediate();
    catchUp(db, ledger);
    scrub(db);
    db.pragma('journal_mode = DELETE'); // one file, without a log beside it, until a server opens it
    return generation;
  } finally {
    db.close();
  }
}

function renewMeta(db: Db, generation: number, boot: number, outside: Outside): void {
  const get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
  const set = db.prepare<[string, string]>(
    'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  );
  set.run('generation', String(generation));
  // Boards are named by it: a tablet must not merge an old board with a new one.
  set.run('boot', String(Math.max(Number(get.get('boot') ?? 0), boot) + 1 + outside.randomInt(CHANCE)));
  set.run('restored', String(outside.now()));
}

/**
 * Nobody comes in who could not before: tokens that have ended since the backup stay ended, and so do codes.
 * Stations paired since are known by their device ids, without a token: they pair again and their entries are
 * theirs still.
 */
function renewStations(db: Db, replaced: Replaced, outside: Outside): void {
  db.exec('DELETE FROM codes');
  if (replaced.readable) {
    const alive = new Set(replaced.stations.flatMap(({ token }) => (token ? [token.toString('hex')] : [])));
    for (const { number, token } of db
      .prepare<[], { number: number; token: Buffer }>(
        'SELECT number, token_hash AS token FROM stations WHERE token_hash IS NOT NULL AND revoked_ms IS NULL',
      )
      .all())
      if (!alive.has(token.toString('hex')))
        db.prepare('UPDATE stations SET token_hash = NULL WHERE number = ?').run(number);
    const today = db.prepare('UPDATE stations SET name = ?, roles = ? WHERE number = ? AND device = ?');
    for (const { name, roles, number, device } of replaced.stations) today.run(name, roles, number, device);
    const add = db.prepare(
      'INSERT INTO stations (number, device, name, roles, token_hash, paired_ms) VALUES (?, ?, ?, ?, NULL, ?) ON CONFLICT DO NOTHING',
    );
    for (const { number, device, name, roles, pairedMs } of replaced.stations)
      add.run(number, device, name, roles, pairedMs);
  }
  const last = db
    .prepare<[], number>("SELECT seq FROM sqlite_sequence WHERE name = 'stations'")
    .pluck()
    .get();
  const next = Math.max(last ?? 0, replaced.stationNumber) + STATION_GAP + outside.randomInt(STATION_GAP);
  db.prepare("DELETE FROM sqlite_sequence WHERE name = 'stations'").run();
  db.prepare("INSERT INTO sqlite_sequence (name, seq) VALUES ('stations', ?)").run(next);
}

/**
 * Gives the present database another name beside its own, with its log when it could not be put into it. The
 * backup then takes its place in one step: at no moment is there no database.
 */
function moveAside(data: string, present: string, isWhole: boolean, nowMs: number): string {
  const stamp = new Date(nowMs).toISOString().slice(0, 19).replaceAll(':', '');
  let aside = join(data, `replaced-${stamp}.db`);
  for (let i = 2; existsSync(aside); i++) aside = join(data, `replaced-${stamp}-${i}.db`);
  if (isWhole) checkpoint(present);
  for (const end of ['', '-wal']) if (existsSync(present + end)) keepAs(present + end, aside + end);
  syncDirectory(data);
  return aside;
}

/** Puts what stands in the log into the file; opening and closing it does that too, unless it was killed. */
function checkpoint(path: string): void {
  const db = new Database(path);
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.close();
}

/** A second name where the file system has that, else a copy. */
function keepAs(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    copyFileSync(from, to);
    const handle = openSync(to, 'r+');
    try {
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
  }
}

/** A log that stayed behind would be read into the restored database. */
function removeLogs(present: string, aside: string | null): void {
  for (const end of ['-wal', '-shm']) {
    if (aside === null && end === '-wal' && existsSync(present + end))
      throw new NoRestore(`${present}${end} is there without its database; move it away first.`);
    rmSync(present + end, { force: true });
  }
}
