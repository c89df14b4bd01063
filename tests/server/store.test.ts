/** The database file: what it promises, and when it refuses. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { keepsOthersOut, lockDirectory } from '../../server/lock.ts';
import { FORMAT, openDatabase, UnusableData } from '../../server/schema.ts';
import type { Db } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { floor, opened } from './helpers/entries.ts';
import { WITHOUT_WORDS } from './helpers/older.ts';

let data: string;
let db: Db;
let store: Store;
const SESSION = 'a'.repeat(32);
const NOW = 1_700_000_000_000;

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-store-'));
  db = openDatabase(data);
  store = new Store(db, () => NOW);
});
afterEach(() => {
  db.close();
  rmSync(data, { recursive: true });
});

/** A document and the row of each of its changes. */
function written(count: number): { doc: Y.Doc; rows: Uint8Array[] } {
  const doc = new Y.Doc();
  const rows: Uint8Array[] = [];
  doc.on('update', (bytes: Uint8Array) => rows.push(bytes));
  doc.getArray('facts').push([opened()]);
  for (let i = 1; i < count; i++) doc.getArray('facts').push([floor(`f${i}`)]);
  return { doc, rows };
}

const row = (bytes: Uint8Array, n: number) => ({
  session: SESSION,
  generation: 1,
  bytes,
  facts: [n === 0 ? 'opened' : `f${n}`],
});

const reload = (updates: readonly Uint8Array[]): unknown[] => {
  const doc = new Y.Doc();
  for (const update of updates) Y.applyUpdate(doc, update);
  return doc.getArray('facts').toArray();
};

describe('opening', () => {
  it.each([1, 2])('sets and reads back WAL and FULL, the first time and again (%i)', (time) => {
    if (time === 2) {
      db.close();
      db = openDatabase(data);
    }
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('secure_delete', { simple: true })).toBe(1);
  });

  it('brings a file of format 1 up, with all that is in it', () => {
    db.exec(`DROP TABLE quarantine; ALTER TABLE stations DROP COLUMN revoked_ms;
      ALTER TABLE stations DROP COLUMN seen_ms; DROP INDEX documents_client;
      ALTER TABLE documents DROP COLUMN client; DROP TABLE erased; DROP TABLE photos; DROP TABLE models; DROP TABLE studies;
      ${WITHOUT_WORDS}
      DROP TABLE turns; DROP TABLE journeys; DROP TABLE closed_cuffs; DROP TABLE lessons; DROP TABLE lesson_boots; DROP TABLE lesson_pairs; DROP TABLE lesson_choices;
      DROP INDEX updates_without_sum; ALTER TABLE updates DROP COLUMN sum; PRAGMA user_version = 1;
      INSERT INTO stations (device, name, roles, paired_ms) VALUES ('bench-1', 'the press', '["bench"]', ${NOW})`);
    db.close();
    db = openDatabase(data);
    expect(db.pragma('user_version', { simple: true })).toBe(FORMAT);
    expect(db.prepare('SELECT * FROM stations').all()).toEqual([
      expect.objectContaining({
        number: 1,
        device: 'bench-1',
        name: 'the press',
        revoked_ms: null,
        seen_ms: null,
      }),
    ]);
    expect(db.prepare('SELECT count(*) FROM quarantine').pluck().get()).toBe(0);
  });

  it('refuses a file of a newer format, naming both', () => {
    db.pragma('user_version = 99');
    db.close();
    expect(() => openDatabase(data)).toThrow(new RegExp(`newer Fibula \\(format 99\\).*format ${FORMAT}\\.`));
    const other = new Database(join(data, 'fibula.db'));
    other.pragma(`user_version = ${FORMAT}`);
    other.close();
    db = openDatabase(data);
  });

  it('refuses the database of another program, and a file that is none', () => {
    const elsewhere = mkdtempSync(join(tmpdir(), 'fibula-other-'));
    const other = new Database(join(elsewhere, 'fibula.db'));
    other.exec('CREATE TABLE songs (title TEXT)');
    other.close();
    expect(() => openDatabase(elsewhere)).toThrow(/database of another program/);
    rmSync(join(elsewhere, 'fibula.db'));
    writeFileSync(
      join(elsewhere, 'fibula.db'),
      'This is a letter, not a database, and quite long at that.'.repeat(50),
    );
    expect(() => openDatabase(elsewhere)).toThrow(UnusableData);
    rmSync(elsewhere, { recursive: true });
  });

  it('lets one server into a directory', () => {
    const lock = lockDirectory(data);
    expect(() => lockDirectory(data)).toThrow(/Another server is running/);
    lock.release();
    lockDirectory(data).release();
  });

  it('knows a lock that keeps other processes out from one that does not', () => {
    const lock = lockDirectory(data, keepsOthersOut);
    const file = join(data, 'server.lock');
    expect(keepsOthersOut(file)).toBe(true);
    lock.release();
    expect(keepsOthersOut(file)).toBe(false);
    expect(() => lockDirectory(data, () => false)).toThrow(/can be locked by two programs at once/);
    lockDirectory(data).release();
  });
});

describe('rows', () => {
  it('of a group are all there or none', () => {
    const { rows } = written(3);
    const twice = [row(rows[0]!, 0), row(rows[1]!, 1), row(rows[2]!, 1)]; // f1 twice
    expect(() => store.commit(twice)).toThrow(/UNIQUE/);
    expect(store.find(SESSION)).toBeUndefined();
    expect(store.commit(rows.map(row))).toBe(NOW);
    expect(store.find(SESSION)).toMatchObject({ lastN: 3, openedMs: NOW, lastMs: NOW });
    expect(reload(store.updates(store.find(SESSION)!.id))).toEqual([opened(), floor('f1'), floor('f2')]);
  });

  it('are joined up to exactly the row that is named, and commit times stay', () => {
    const { rows } = written(5);
    store.commit(rows.slice(0, 3).map(row));
    const three = new Y.Doc();
    for (const bytes of rows.slice(0, 3)) Y.applyUpdate(three, bytes);
    const { id } = store.find(SESSION)!;
    store.commit(rows.slice(3).map((bytes, i) => row(bytes, i + 3)));
    store.compact(id, 3, Y.encodeStateAsUpdate(three));
    expect(store.rowCount(id)).toBe(3);
    expect(reload(store.updates(id))).toEqual([opened(), ...[1, 2, 3, 4].map((n) => floor(`f${n}`))]);
    expect([...store.factTimes(id).keys()].sort()).toEqual(['f1', 'f2', 'f3', 'f4', 'opened']);
  });

  it('are not replaced by less than they hold', () => {
    const { rows } = written(3);
    store.commit(rows.map(row));
    const { id } = store.find(SESSION)!;
    expect(() => store.compact(id, 3, rows[0]!)).toThrow(/would lose/);
    expect(store.rowCount(id)).toBe(3);
    expect(reload(store.updates(id))).toHaveLength(3);
  });

  it('of the newest generation are the session', () => {
    const { rows } = written(1);
    store.commit([row(rows[0]!, 0)]);
    store.commit([{ ...row(rows[0]!, 0), generation: 2 }]);
    expect(store.find(SESSION)).toMatchObject({ generation: 2 });
    expect(store.openJobs().map(({ generation }) => generation)).toEqual([2]);
  });
});
