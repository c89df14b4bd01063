/**
 * Doing what the ledger says to a database: erasing a client's personal data, ending tokens. The same for one
 * that serves, one that has just been restored, and a copy among the backups.
 */
import { parseLenient, withoutPersonal } from '../core/index.ts';
import type { Fact } from '../core/index.ts';
import { baseGeneration, regenerate } from './generation.ts';
import { hashOf } from './ledger.ts';
import type { Ledger, LedgerEntry } from './ledger.ts';
import { erasePhotos } from './photos.ts';
import type { Db } from './schema.ts';

const getMeta = (db: Db, key: string): number =>
  Number(db.prepare('SELECT value FROM meta WHERE key = ?').pluck().get(key) ?? 0);
const setMeta = (db: Db, key: string, value: number): void => {
  db.prepare(
    'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  ).run(key, String(value));
};

/** Number of the last ledger entry that this database has done. */
export const doneOf = (db: Db): number => getMeta(db, 'ledger');

/**
 * Does every entry of the ledger that this database has not done yet, together or not at all. `scrub` belongs
 * behind it: what was erased is still in free pages and in the log.
 * @returns the sessions that have another generation now.
 */
export function catchUp(db: Db, ledger: Ledger): string[] {
  ledger.startAfter(doneOf(db));
  const due = ledger.after(doneOf(db));
  const sessions = new Set<string>();
  if (due.length > 0)
    db.transaction(() => {
      for (const entry of due) for (const session of apply(db, entry)) sessions.add(session);
      setMeta(db, 'ledger', ledger.last);
      if (due.some((entry) => entry.do === 'erase')) setMeta(db, 'scrub', 1);
    }).immediate();
  return [...sessions];
}

/** @returns the sessions that were given another generation. */
function apply(db: Db, entry: LedgerEntry): readonly string[] {
  switch (entry.do) {
    case 'erase':
      return erase(db, entry);
    case 'end-token':
      endToken(db, entry);
      return [];
    case 'restore':
      return [];
    default:
      return entry satisfies never;
  }
}

/** A revoked station is still known by its token, so that it can be told so. */
function endToken(db: Db, { token, revoked, atMs }: LedgerEntry & { do: 'end-token' }): void {
  const hash = Buffer.from(token, 'hex');
  if (revoked)
    db.prepare('UPDATE stations SET revoked_ms = coalesce(revoked_ms, ?) WHERE token_hash = ?').run(
      atMs,
      hash,
    );
  else db.prepare('UPDATE stations SET token_hash = NULL WHERE token_hash = ?').run(hash);
}

function erase(db: Db, { client, sessions, atMs }: LedgerEntry & { do: 'erase' }): string[] {
  for (const ref of db.prepare<[], string>('SELECT ref FROM people').pluck().all())
    if (hashOf(ref) === client) db.prepare('DELETE FROM people WHERE ref = ?').run(ref);
  const theirs = new Set(sessions);
  for (const { session, ref } of db
    .prepare<[], { session: string; ref: string | null }>('SELECT session, client AS ref FROM documents')
    .iterate())
    if (ref !== null && hashOf(ref) === client) theirs.add(session);
  for (const session of theirs) {
    db.prepare('INSERT INTO erased (session, erased_ms) VALUES (?, ?) ON CONFLICT DO NOTHING').run(
      session,
      atMs,
    );
    eraseQuarantine(db, session);
    erasePhotos(db, session);
    // Where their legs stood is carried nowhere any more.
    db.prepare('UPDATE lesson_boots SET leg = NULL WHERE session = ?').run(session);
    const newest = db
      .prepare<[string], number | null>('SELECT max(generation) FROM documents WHERE session = ?')
      .pluck()
      .get(session);
    if (newest) regenerate(db, session, Math.max(newest, baseGeneration(db)) + 1, withoutPersonal);
  }
  return [...theirs];
}

/** Entries of a revoked station that wait for the desk. */
function eraseQuarantine(db: Db, session: string): void {
  const rows = db
    .prepare<[string], { id: number; json: string }>(
      'SELECT id, json FROM quarantine WHERE session = ? AND json IS NOT NULL',
    )
    .all(session);
  for (const { id, json } of rows) {
    const parsed = parseLenient(JSON.parse(json));
    const erased = parsed.ok ? JSON.stringify(withoutPersonal([parsed.fact as Fact])[0]) : null;
    db.prepare('UPDATE quarantine SET json = ? WHERE id = ?').run(erased, id);
  }
}

/**
 * Writes the file anew without free pages, and empties its log, when something was erased since the last time.
 * Kept in mind until it is done, so that a kill before it leaves it to the next start. Throws when it cannot be.
 */
export function scrub(db: Db): void {
  if (getMeta(db, 'scrub') !== 1) return;
  db.exec('VACUUM');
  const [result] = db.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
  if (result?.busy !== 0)
    throw new Error(
      'Somebody else reads the database: what was erased is still in its log; the server tries again.',
    );
  setMeta(db, 'scrub', 0);
}

/**
 * Writes down every token that ends, whoever ends it: a station paired anew, revoked or removed. The line is on
 * disk before the change is; should the change then fail, the station pairs anew after the next restore.
 */
export function watchTokens(db: Db, ledger: Ledger): void {
  db.function('token_ended', (hash: unknown, revoked: unknown) => {
    const token = Buffer.from(hash as Uint8Array).toString('hex');
    ledger.append({ do: 'end-token', token, revoked: revoked === 1 });
    return null;
  });
  db.exec(`
    CREATE TEMP TRIGGER token_replaced AFTER UPDATE OF token_hash ON main.stations
      WHEN OLD.token_hash IS NOT NULL AND NEW.token_hash IS NOT OLD.token_hash
      BEGIN SELECT token_ended(OLD.token_hash, 0); END;
    CREATE TEMP TRIGGER token_revoked AFTER UPDATE OF revoked_ms ON main.stations
      WHEN NEW.token_hash IS NOT NULL AND OLD.revoked_ms IS NULL AND NEW.revoked_ms IS NOT NULL
      BEGIN SELECT token_ended(NEW.token_hash, 1); END;
    CREATE TEMP TRIGGER station_removed AFTER DELETE ON main.stations WHEN OLD.token_hash IS NOT NULL
      BEGIN SELECT token_ended(OLD.token_hash, 0); END;
  `);
}
