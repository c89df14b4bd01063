/** A session that is not what was written, in a database that SQLite finds whole: named, left alone, all else goes on. */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { CLOSE } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { rowReader, rowWriter } from '../../server/rows.ts';
import { openDatabase } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { until } from '../helpers/until.ts';
import { WITHOUT_WORDS } from './helpers/older.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const [SPOILT, SOUND] = [newSession(), newSession()] as const;
const NOTES = 5;
/** A shop that stopped in good order; copied for each test. */
let good: string;
let data: string;
let cookie: string;
let running: Running | undefined;
let said: string[];

async function fill(desk: Station, session: string, clientRef: string): Promise<void> {
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef, service: 'cuffs' });
  for (let i = 0; i < NOTES; i++)
    await room.add('desk', 'home.checked', { note: `${clientRef} reads 4${i}7` });
  await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
  room.close();
}

beforeAll(async () => {
  const shop = await run();
  good = shop.data;
  const desk = await shop.station(['desk']);
  cookie = desk.cookie;
  await fill(desk, SPOILT, 'spoilt');
  await fill(desk, SOUND, 'sound');
  const backup = join(good, 'backups', 'fibula-2026-01-09.db');
  await shop.server.keeper.backup(backup);
  utimesSync(backup, 1_767_950_000, 1_767_950_000);
  await shop.stop();
});
afterAll(() => rmSync(good, { recursive: true }));
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-spoilt-'));
  cpSync(good, data, { recursive: true, preserveTimestamps: true });
  said = [];
});
afterEach(async () => {
  await running?.stop();
  running = undefined;
  rmSync(data, { recursive: true, force: true });
});

const path = () => join(data, 'fibula.db');
const start = async () => (running = await run({ data, say: (text) => said.push(text) }));

/** Reads the file as SQLite does, as another program would. */
function inFile<T>(read: (db: Database.Database) => T): T {
  const db = new Database(path());
  try {
    return read(db);
  } finally {
    db.close();
  }
}
/** One bit flips on the disk, and SQLite notices nothing of it. */
function flipOnDisk(text: string, is: () => boolean): void {
  const bytes = readFileSync(path());
  for (let at = bytes.indexOf(text); at >= 0 && !is(); at = bytes.indexOf(text, at + 1)) {
    bytes[at + text.length - 1]! ^= 0x01;
    writeFileSync(path(), bytes);
    if (!is()) bytes[at + text.length - 1]! ^= 0x01; // where a page once held it
  }
  expect(is()).toBe(true);
  expect(inFile((db) => db.pragma('integrity_check', { simple: true }))).toBe('ok');
}
const rowsIn = (session: string) =>
  inFile(
    (db) =>
      db
        .prepare(
          'SELECT bytes FROM updates JOIN documents ON documents.id = document WHERE session = ? ORDER BY n',
        )
        .pluck()
        .all(session) as Buffer[],
  );
const holds = (text: string) => Buffer.concat(rowsIn(SPOILT)).includes(text);
/** The reading 427 of a note becomes 426: still an entry that can be read. */
const flipDigit = () => flipOnDisk('spoilt reads 427', () => holds('spoilt reads 426'));

async function refusalOf(session: string): Promise<{ code: number; reason: string }> {
  const wire = await new Wire(running!.url, `session/${session}/1`, { cookie }).open();
  return wire.isClosed();
}
const NAMED = new RegExp(
  `WARNING: Session ${SPOILT} is damaged: .*\\. It is not opened; entries for it wait on their stations\\. All else goes on, and nothing was changed\\.`,
);
const OFFER =
  /The newest good backup is \S+\/fibula-2026-01-09\.db .*\n\n +npm run restore -- \S+ --replace --data \S+/;

describe('one flipped digit in a stored entry', () => {
  it('is seen at the start: the session is named and not opened, a backup is offered, all else goes on', async () => {
    flipDigit();
    const before = rowsIn(SPOILT);
    const { server, url } = await start();
    expect(said[0]).toMatch(NAMED);
    await until(() => said.some((text) => OFFER.test(text)), 'the backup to be offered', 60_000);
    expect(await refusalOf(SPOILT)).toEqual({
      code: CLOSE.damaged,
      reason: expect.stringMatching(/This session is damaged on the server’s disk/) as string,
    });
    const exported = await fetch(`${url}/api/sessions/${SPOILT}/export`, { headers: { cookie } });
    expect([exported.status, await exported.text()]).toEqual([
      503,
      expect.stringMatching(new RegExp(`Session ${SPOILT} is damaged: its row 4 is not what was written`)),
    ]);
    const sound = await new Wire(url, `session/${SOUND}/1`, { cookie }).open();
    await sound.hears('durable', ({ clocks }) => clocks.size > 0);
    sound.close();
    expect(server.health.readOnly).toBeNull();
    const desk = await running!.station(['desk']);
    await fill(desk, newSession(), 'new');
    expect(rowsIn(SPOILT)).toEqual(before);
  });

  it('is seen when the session is opened, without a start between', async () => {
    await start();
    flipDigit();
    running!.server.db.pragma('shrink_memory');
    expect(await refusalOf(SPOILT)).toMatchObject({ code: CLOSE.damaged });
    expect(said[0]).toMatch(NAMED);
    expect(running!.server.health.readOnly).toBeNull();
  });

  it('is found by the reading of the whole, and whoever has the session open is told', async () => {
    await start();
    await running!.server.thorough.read();
    expect(said).toEqual([]);
    const wire = await new Wire(running!.url, `session/${SPOILT}/1`, { cookie }).open();
    await wire.hears('durable', ({ clocks }) => clocks.size > 0);
    flipDigit();
    await running!.server.thorough.read();
    expect(await wire.isClosed()).toMatchObject({ code: CLOSE.damaged });
    expect(said[0]).toMatch(NAMED);
  });

  it('is never joined with other rows, nor erased, and no backup is made of it', async () => {
    await start();
    const { server, log } = running!;
    flipDigit();
    server.db.pragma('shrink_memory');
    const before = rowsIn(SPOILT);
    await expect(server.keeper.erase('spoilt', false)).rejects.toThrow(`Session ${SPOILT} is damaged`);
    expect(existsSync(join(data, 'ledger.jsonl'))).toBe(false);
    const [row] = running!.query('SELECT id, last_n FROM documents WHERE session = ?', SPOILT);
    const store = new Store(server.db, () => 0);
    const whole = Y.mergeUpdates(before);
    expect(() => store.compact(Number(row!['id']), Number(row!['last_n']), whole)).toThrow(/is damaged/);
    await expect(server.keeper.backup(join(data, 'by-hand.db'))).rejects.toThrow(/is damaged: session/);
    expect(existsSync(join(data, 'by-hand.db'))).toBe(false);
    running!.clock.aheadMs = 2_000 * 86_400_000; // past the time that personal data are kept
    await server.keeper.check();
    expect(log.map(({ msg }) => msg)).toContain('not erased in its time: the session is damaged');
    expect(rowsIn(SPOILT)).toEqual(before);
    expect(Buffer.concat(rowsIn(SOUND)).includes('sound reads')).toBe(false); // erased in its time
  });
});

it('one flipped bit in the list of entries is seen at the start too', async () => {
  const ids = () =>
    inFile((db) => db.prepare("SELECT id FROM facts WHERE id != 'opened'").pluck().all() as string[]);
  const id = ids()[0]!;
  flipOnDisk(id, () => !ids().includes(id));
  await start();
  expect(said[0]).toMatch(/Session [0-9a-f]{32} is damaged: it holds 7 facts and lists 7/);
});

it('rows of an older program are taken as they are, and get their checksum', async () => {
  inFile((db) =>
    db.exec(
      `${WITHOUT_WORDS} DROP TABLE turns; DROP TABLE journeys; DROP TABLE closed_cuffs; DROP TABLE lessons; DROP TABLE lesson_boots; DROP TABLE lesson_pairs;
       DROP TABLE lesson_choices; DROP TABLE models; DROP TABLE studies; DROP TABLE photos; DROP INDEX updates_without_sum;
       ALTER TABLE updates DROP COLUMN sum; PRAGMA user_version = 3`,
    ),
  );
  await start();
  const without = () => running!.query('SELECT count(*) AS n FROM updates WHERE sum IS NULL')[0]!['n'];
  await until(() => without() === 0, 'the checksums to be there');
  await running!.stop();
  flipDigit();
  await start();
  expect(said[0]).toMatch(NAMED);
});

it('no byte of a row, and nothing of where it belongs, can change unseen', () => {
  const db = openDatabase(mkdtempSync(join(data, 'rows-')));
  const place = { session: SPOILT, generation: 3, n: 1, committedMs: 1_767_950_000_123 };
  db.exec(
    `INSERT INTO documents (id, session, generation, last_n, opened_ms, last_ms) VALUES (1, '${SPOILT}', 3, 1, 0, 0)`,
  );
  const bytes = Buffer.from('{"kind":"cuff.read","gaps":[4.5,7]}');
  rowWriter(db)(1, place, bytes);
  const read = rowReader(db);
  expect(read(1)).toEqual([bytes]);
  const set = db.prepare('UPDATE updates SET bytes = ?');
  for (let bit = 0; bit < bytes.length * 8; bit++) {
    const flipped = Buffer.from(bytes);
    flipped[bit >> 3]! ^= 1 << (bit & 7);
    set.run(flipped);
    expect(() => read(1)).toThrow(/its row 1 is not what was written/);
  }
  set.run(bytes);
  for (const [change, back] of [
    ['updates SET committed_ms = committed_ms + 1', 'updates SET committed_ms = committed_ms - 1'],
    ['documents SET generation = 2', 'documents SET generation = 3'],
    [`documents SET session = '${SOUND}'`, `documents SET session = '${SPOILT}'`],
    ['documents SET last_n = 2', 'documents SET last_n = 1'],
  ] as const) {
    db.exec(`UPDATE ${change}`);
    expect(() => read(1)).toThrow(/is damaged/);
    db.exec(`UPDATE ${back}`);
    expect(read(1)).toEqual([bytes]);
  }
  db.close();
});
