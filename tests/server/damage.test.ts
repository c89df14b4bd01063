/** A database that is not whole: seen before anything is written, named, and the newest good backup offered. */
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Station } from '../../demo/station.ts';
import { restore } from '../../server/restore.ts';
import { UnusableData } from '../../server/schema.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const PAGE = 4_096;
const SESSIONS = [newSession(), newSession()];
const NOTES = 40;
/** A shop that stopped in good order, and one whose server was killed; copied for each test. */
let good: string;
let killed: string;
let data: string;

const note = (i: number) => ({ note: `note-${i} ${'.'.repeat(400)}` });

async function addNotes(desk: Station, session: string): Promise<void> {
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  await Promise.all(Array.from({ length: NOTES }, (_, i) => room.add('desk', 'home.checked', note(i))));
  room.close();
}

beforeAll(async () => {
  const running = await run();
  good = running.data;
  killed = mkdtempSync(join(tmpdir(), 'fibula-killed-'));
  const desk = await running.station(['desk']);
  await addNotes(desk, SESSIONS[0]!);
  const copies = ['2026-01-08', '2026-01-09'].map((day) => join(good, 'backups', `fibula-${day}.db`));
  await running.server.keeper.backup(copies[0]!);
  cpSync(copies[0]!, copies[1]!);
  copies.forEach((file, day) => utimesSync(file, 1_767_900_000 + day * 86_400, 1_767_900_000 + day * 86_400));
  await addNotes(desk, SESSIONS[1]!);
  // What a kill leaves: the files as they are now, the log not put into the database.
  for (const name of readdirSync(good).filter((name) => /^fibula\.|backups/.test(name)))
    cpSync(join(good, name), join(killed, name), { recursive: true, preserveTimestamps: true });
  await running.stop();
});
afterAll(() => {
  for (const directory of [good, killed]) rmSync(directory, { recursive: true });
});

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-damage-'));
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

const path = () => join(data, 'fibula.db');
const log = () => `${path()}-wal`;
const copyOf = (shop: string) => cpSync(shop, data, { recursive: true, preserveTimestamps: true });

function spoil(file: string, change: (bytes: Buffer) => void): void {
  const bytes = readFileSync(file);
  change(bytes);
  writeFileSync(file, bytes);
}
/** Pages of a table's tree lose the byte that says what they are: all of them, or those that hold `text`. */
const flipPages = (file: string, text = '') =>
  spoil(file, (bytes) => {
    for (let at = 2 * PAGE; at < bytes.length; at += PAGE)
      if (bytes.subarray(at, at + PAGE).includes(text)) bytes[at]! ^= 0x55;
  });

const hashes = () =>
  Object.fromEntries(
    readdirSync(data)
      .filter((name) => /^fibula\.db(-wal)?$/.test(name))
      .map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(data, name)))
          .digest('hex'),
      ]),
  );

/** What the start says; and that it changed nothing. */
async function refusal(): Promise<string> {
  const before = hashes();
  const error = await run({ data }).then(
    () => null,
    (error: unknown) => error,
  );
  expect(error).toBeInstanceOf(UnusableData);
  expect(hashes()).toEqual(before);
  return (error as Error).message;
}

const OFFER = (day: string) =>
  new RegExp(
    `The newest good backup is \\S+/backups/fibula-${day}\\.db of \\d.*\\n\\n +npm run restore -- \\S+/backups/fibula-${day}\\.db --replace --data \\S+fibula-damage-`,
  );

describe('a database that is not whole', () => {
  it.each<[string, () => void, RegExp]>([
    ['cut short', () => truncateSync(path(), 5 * PAGE), /fibula\.db is damaged: /],
    [
      'cut to nothing',
      () => truncateSync(path(), 0),
      /fibula\.db is damaged: it is empty\. Nothing was changed/,
    ],
    [
      'of zeros',
      () => writeFileSync(path(), Buffer.alloc(20 * PAGE)),
      /fibula\.db is damaged: it begins with nothing but zeros/,
    ],
    [
      'with a letter in its place',
      () => writeFileSync(path(), 'Dear shop,'),
      /it does not begin as a database/,
    ],
    ['with flipped pages', () => flipPages(path()), /fibula\.db is damaged: /],
    ['that is gone', () => rmSync(path()), /fibula\.db is missing, and there are backups of it/],
  ])('%s is named, and the newest good backup with the command', async (_what, change, said) => {
    copyOf(good);
    change();
    const message = await refusal();
    expect(message).toMatch(said);
    expect(message).toMatch(OFFER('2026-01-09'));
  });

  it('whose newest backup is damaged too is offered the one before', async () => {
    copyOf(good);
    flipPages(path());
    flipPages(join(data, 'backups/fibula-2026-01-09.db'));
    expect(await refusal()).toMatch(OFFER('2026-01-08'));
  });

  it('without a good backup says so, and where it looked', async () => {
    copyOf(good);
    flipPages(path());
    rmSync(join(data, 'backups'), { recursive: true });
    const message = await refusal();
    expect(message).toMatch(
      /No good backup was found in \S+\/backups\. If you have one elsewhere: npm run restore -- FILE/,
    );
    expect(message).toMatch(/Keep the damaged file/);
  });

  it('by what a killed server left in its log is not put into the file', async () => {
    copyOf(killed);
    flipPages(path());
    expect(existsSync(`${path()}-wal`)).toBe(true);
    expect(await refusal()).toMatch(/fibula\.db is damaged: /);
  });
});

describe('a database that is not for this program', () => {
  it('is another program’s: it stays as it is, its kind of journal too', async () => {
    const other = new Database(path());
    other.exec('CREATE TABLE songs (title TEXT)');
    other.close();
    expect(await refusal()).toMatch(/fibula\.db is a database of another program\. Nothing was changed/);
    const named = new Database(path());
    named.pragma('application_id = 7');
    named.close();
    expect(await refusal()).toMatch(/is a database of another program/);
  });

  it('is of a newer format: both are named', async () => {
    copyOf(good);
    const db = new Database(path());
    db.pragma('user_version = 99');
    db.close();
    expect(await refusal()).toMatch(
      /fibula\.db is of format 99, and this Fibula reads up to \d+: install a newer one/,
    );
  });
});

describe('the log of a server that was killed', () => {
  it('is read, and all that was saved is there', async () => {
    copyOf(killed);
    writeFileSync(join(data, 'fibula.open'), readFileSync(join(killed, 'fibula.open')));
    const running = await run({ data });
    try {
      expect(running.query('SELECT count(*) AS n FROM facts')[0]).toEqual({ n: 2 * (NOTES + 1) });
    } finally {
      await running.stop();
    }
    expect(existsSync(join(data, 'fibula.open'))).toBe(false);
  });

  it('that is missing is missed, until it is back', async () => {
    const running = await run({ data });
    const desk = await running.station(['desk']);
    await addNotes(desk, SESSIONS[0]!);
    // The very files, under their own names: a copy would be another file.
    const aside = `${data}-aside`;
    for (const end of ['', '-wal']) cpSync(path() + end, `${aside}${end}`);
    const mark = readFileSync(join(data, 'fibula.open'));
    await running.stop();
    writeFileSync(path(), readFileSync(aside)); // into the same file
    writeFileSync(join(data, 'fibula.open'), mark);
    const message = await refusal();
    expect(message).toMatch(/fibula\.db-wal is missing: the server did not stop by itself last time/);
    expect(message).toMatch(/Put it back beside fibula\.db\. Nothing was changed/);
    renameSync(`${aside}-wal`, `${path()}-wal`);
    rmSync(aside);
    const again = await run({ data });
    try {
      expect(again.query('SELECT count(*) AS n FROM facts')[0]).toEqual({ n: NOTES + 1 });
    } finally {
      await again.stop();
    }
  });

  describe('that is damaged, so that SQLite alone would drop acknowledged entries without a word', () => {
    const FRAME = 24 + PAGE;
    const frames = () => Math.floor((statSync(log()).size - 32) / FRAME);
    const index = () => `${path()}-shm`;
    const flip = (at: number) => spoil(log(), (bytes) => void (bytes[at]! ^= 0x10));
    beforeEach(() => copyOf(killed));

    it.each<[string, () => void, RegExp]>([
      [
        'in its middle',
        () => flip(32 + Math.floor(frames() / 2) * FRAME + 100),
        /frame \d+ is not what was written/,
      ],
      [
        'in its middle, without the index beside it',
        () => {
          rmSync(index());
          flip(32 + Math.floor(frames() / 2) * FRAME + 100);
        },
        /frame \d+ is not what was written/,
      ],
      [
        'in its last commit',
        () => flip(32 + (frames() - 1) * FRAME + 100),
        /it should have \d+ frames, and \d+ can be read/,
      ],
      ['at its beginning', () => flip(17), /its beginning is not what was written/],
      [
        'by a page that is missing at its end',
        () => truncateSync(log(), statSync(log()).size - FRAME),
        /it should have \d+ frames, and \d+ can be read/,
      ],
      ['by being emptied', () => truncateSync(log(), 0), /it was cut short/],
    ])('%s is named, with the newest good backup, again and again', async (_where, change, said) => {
      change();
      for (let times = 0; times < 2; times++) {
        const message = await refusal();
        expect(message).toMatch(/fibula\.db-wal is damaged: .*some are lost\. Nothing was changed/);
        expect(message).toMatch(said);
        expect(message).toMatch(OFFER('2026-01-09'));
      }
    });

    it('is kept as it is beside the database that a restore replaces', () => {
      flip(32 + 3 * FRAME + 100);
      const [file, kept] = [readFileSync(path()), readFileSync(log())];
      const outside = { now: () => 0, randomBytes: () => Buffer.alloc(8), randomInt: () => 1 };
      const { aside } = restore(join(data, 'backups', 'fibula-2026-01-09.db'), data, true, outside);
      expect(readFileSync(aside!).equals(file)).toBe(true);
      expect(readFileSync(`${aside!}-wal`).equals(kept)).toBe(true);
    });

    it('is told from one that a loss of power cut off in the middle of a commit nobody was promised', async () => {
      // The index is written after the sync: it knows nothing of a commit that was under way.
      rmSync(index());
      flip(32 + (frames() - 1) * FRAME + 100);
      const running = await run({ data });
      expect(running.query('SELECT count(*) AS n FROM facts')[0]).not.toEqual({ n: 0 });
      await running.stop();
    });
  });

  it('that lies there without its database is kept', async () => {
    copyOf(killed);
    rmSync(path());
    expect(await refusal()).toMatch(
      /fibula\.db is missing, and \S+fibula\.db-wal is there: it holds the last entries/,
    );
  });
});

describe('damage met while serving', () => {
  let running: Running;
  let desk: Station;
  beforeEach(async () => {
    copyOf(good);
    running = await run({ data });
    desk = await running.station(['desk']);
  });
  afterEach(() => running.stop());

  it('stops all writing, is told to every station, and leaves what is read already readable', async () => {
    const [first, second] = SESSIONS as [string, string];
    const board = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
    const room = await desk.enter(first);
    const { db } = running.server;
    db.pragma('wal_checkpoint(TRUNCATE)');
    flipPages(path(), 'note-');
    db.pragma('shrink_memory'); // nothing but the disk is left to read from
    const unread = await new Wire(running.url, `session/${second}/1`, { cookie: desk.cookie }).open();
    await board.hears('status', ({ status }) => status.readOnly === 'damaged');
    await unread.hears('status', ({ status }) => status.readOnly === 'damaged');
    await unread.hears('durable', ({ clocks }) => clocks.size === 0); // held, and not told that it is gone
    expect(unread.closed).toBeNull();
    expect(room.facts).toHaveLength(NOTES + 1);
    await expect(desk.request('GET', `/api/sessions/${second}/export`)).rejects.toThrow(
      /503 read-only The database is damaged: no entries are taken/,
    );
    expect(await desk.request('GET', `/api/sessions/${first}/export`)).toHaveProperty('facts');
    expect(() => db.exec("DELETE FROM meta WHERE key = 'nothing'")).toThrow(/readonly/);
    for (const one of [board, unread, room]) one.close();
    await running.stop();
    expect(await refusal()).toMatch(OFFER('2026-01-09'));
  });
});
