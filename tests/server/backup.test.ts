/** Copies of the database: whole, verified, private, never over another; and what is refused as one. */
import { randomInt } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Station } from '../../demo/station.ts';
import { command } from '../../server/ask.ts';
import { BadBackup, examine } from '../../server/examine.ts';
import type { Examined } from '../../server/examine.ts';
import { daysToDrop, shopTime } from '../../server/days.ts';
import { DEFAULT_KEEPING } from '../../server/keeper.ts';
import { readKeeping } from '../../server/keeping-options.ts';
import { restore } from '../../server/restore.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

const DAY_MS = 24 * 3_600_000;
const OUTSIDE = { now: () => Date.now(), randomBytes: () => new Uint8Array(), randomInt };

describe('a copy', () => {
  let running: Running;
  let desk: Station;
  let place: string;
  beforeEach(async () => {
    place = mkdtempSync(join(tmpdir(), 'fibula-backup-'));
    running = await run();
    desk = await running.station(['desk', 'measuring']);
  });
  afterEach(async () => {
    await running.close();
    rmSync(place, { recursive: true });
  });

  async function takeIn(entries: number): Promise<string> {
    const session = newSession();
    const room = await desk.enter(session);
    await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
    for (let i = 1; i < entries; i++)
      await room.add('measuring', 'floor.checked', { crossDeg: 0, alongDeg: 0 } as never);
    room.close();
    return session;
  }

  it('made while a station writes holds what was saved before, is private, and overwrites nothing', async () => {
    await takeIn(20);
    const file = join(place, 'deep', 'shop.db');
    const writing = takeIn(30);
    const examined = await running.server.keeper.backup(file);
    await writing;
    expect(examined.facts).toBeGreaterThanOrEqual(20);
    expect(examined.sessions).toBeGreaterThanOrEqual(1);
    expect(examine(file)).toEqual(examined);
    expect(readdirSync(join(place, 'deep'))).toEqual(['shop.db']);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    await expect(running.server.keeper.backup(file)).rejects.toThrow(
      /is there already; nothing is overwritten/,
    );
    expect(examine(file)).toEqual(examined);
  });

  it('is made through the running server, or alone when none runs; a restore waits until none does', async () => {
    await takeIn(3);
    const ask = (name: string) =>
      command<{ examined: Examined }>(running.data, { do: 'backup', file: join(place, name) });
    expect((await ask('serving.db')).examined).toMatchObject({ sessions: 1, facts: 3 });
    await expect(ask('serving.db')).rejects.toThrow(/nothing is overwritten/);
    expect(running.log.filter(({ msg }) => msg === 'request failed')).toEqual([]);
    expect(() => restore(join(place, 'serving.db'), running.data, true, OUTSIDE)).toThrow(
      /Another server is running/,
    );
    await running.stop();
    expect((await ask('quiet.db')).examined).toMatchObject({ sessions: 1, facts: 3 });
    expect(readdirSync(place).sort()).toEqual(['quiet.db', 'serving.db']);
    await expect(command(join(place, 'nowhere'), { do: 'backup', file: 'x' })).rejects.toThrow(
      /There is no database/,
    );
  });

  it('that cannot be written, or is of a damaged database, leaves nothing behind and says why', async () => {
    const session = await takeIn(3);
    writeFileSync(join(place, 'no-directory'), '');
    await expect(running.server.keeper.backup(join(place, 'no-directory', 'x.db'))).rejects.toThrow(
      /could not be written/,
    );
    running.server.db.prepare('DELETE FROM updates WHERE n = 2').run();
    await expect(running.server.keeper.backup(join(place, 'x.db'))).rejects.toThrow(
      new RegExp(`is damaged: session ${session}`),
    );
    expect(readdirSync(place)).toEqual(['no-directory']);
  });

  it('is made by itself once a day, when it is due by the shop’s clock; old ones go', async () => {
    await running.close();
    const keeping = { ...DEFAULT_KEEPING, backups: place, keepBackups: { days: 2, weeks: 0, months: 0 } };
    running = await run({ keeping: { ...keeping, backupAt: '00:00' } });
    const days = () => readdirSync(place).map((name) => name.slice(7, 17));
    const { keeper } = running.server;
    await keeper.check();
    expect(days()).toEqual([]); // an empty shop has nothing to lose
    desk = await running.station(['desk', 'measuring']);
    await takeIn(1);
    await keeper.check();
    await keeper.check();
    const today = shopTime(Date.now(), 'Europe/Vienna').day;
    expect(days()).toEqual([today]);
    expect(await desk.request('GET', '/api/me')).toMatchObject({ backup: { ok: true, reason: null } });
    writeFileSync(join(place, 'fibula-2020-01-01.db'), '');
    writeFileSync(join(place, 'fibula-2020-01-02.db'), '');
    writeFileSync(join(place, 'mine.db'), '');
    running.clock.aheadMs = DAY_MS;
    await keeper.check();
    expect(days().length).toBe(3);
    expect(readdirSync(place)).toEqual(expect.arrayContaining(['mine.db', `fibula-${today}.db`]));
    expect(readdirSync(place).filter((name) => name.includes('2020'))).toEqual([]);
  });

  it('that fails by itself is told to the stations, tried again, and forgotten once one was good', async () => {
    await running.close();
    const backups = join(place, 'backups');
    writeFileSync(backups, 'in the way');
    running = await run({ keeping: { ...DEFAULT_KEEPING, backups, backupAt: '00:00' } });
    desk = await running.station(['desk', 'measuring']);
    await takeIn(1);
    const state = async () => (await desk.request<{ backup: object }>('GET', '/api/me')).backup;
    await running.server.keeper.check();
    expect(await state()).toMatchObject({
      ok: false,
      atMs: null,
      reason: expect.stringMatching(/^The daily backup failed: .*backups/) as string,
    });
    expect(running.log.some(({ msg }) => msg === 'daily backup failed')).toBe(true);
    rmSync(backups);
    await running.server.keeper.check();
    expect(await state()).toMatchObject({ ok: false }); // not every minute
    running.clock.aheadMs = 16 * 60_000;
    await running.server.keeper.check();
    expect(await state()).toMatchObject({ ok: true, reason: null, atMs: expect.any(Number) as number });
    running.clock.aheadMs = 3 * DAY_MS;
    expect(await state()).toMatchObject({ ok: false, reason: expect.stringMatching(/two days/) as string });
  });
});

describe('a file that is no good backup', () => {
  let place: string;
  let good: string;
  let bytes: Buffer;
  beforeAll(async () => {
    const running = await run();
    const desk = await running.station(['desk', 'measuring']);
    const room = await desk.enter(newSession());
    await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
    for (let i = 0; i < 40; i++)
      await room.add('measuring', 'ready.checked', {
        side: 'left',
        item: 'footbed',
        outcome: 'done',
        note: 'x'.repeat(300),
      });
    room.close();
    await running.stop();
    const db = new Database(join(running.data, 'fibula.db'));
    db.pragma('journal_mode = DELETE');
    db.close();
    bytes = readFileSync(join(running.data, 'fibula.db'));
    rmSync(running.data, { recursive: true });
  });
  beforeEach(() => {
    place = mkdtempSync(join(tmpdir(), 'fibula-bad-'));
    good = join(place, 'good.db');
    writeFileSync(good, bytes);
  });
  afterEach(() => rmSync(place, { recursive: true }));

  const spoil = (how: (db: Database.Database) => void) => {
    const db = new Database(good);
    db.pragma('foreign_keys = OFF');
    how(db);
    db.close();
  };
  const flip = () => {
    const bytes = readFileSync(good);
    bytes.fill(0xaa, bytes.length - 3_000, bytes.length - 1_000);
    writeFileSync(good, bytes);
  };

  it.each<[string, () => void, RegExp]>([
    ['missing', () => rmSync(good), /There is no file/],
    ['a directory', () => (rmSync(good), mkdirSync(good)), /is no file/],
    ['empty', () => writeFileSync(good, ''), /no backup: it is no database/],
    ['a letter', () => writeFileSync(good, 'Dear shop, '.repeat(1_000)), /no backup: it is no database/],
    ['cut short', () => writeFileSync(good, readFileSync(good).subarray(0, 9_000)), /is damaged/],
    ['flipped', flip, /is damaged/],
    ['of another program', () => spoil((db) => db.pragma('application_id = 7')), /another program/],
    ['of a newer one', () => spoil((db) => db.pragma('user_version = 99')), /format 99, .* install a newer/],
    [
      'without a row',
      () => spoil((db) => db.exec('DELETE FROM updates WHERE n = 3')),
      /session .* do not make a whole document/,
    ],
    ['with a row too many', () => spoil((db) => db.exec("INSERT INTO facts VALUES (1, 'x', 1)")), /lists 42/],
    ['without its session', () => spoil((db) => db.exec('DELETE FROM documents')), /is damaged/],
  ])('%s: is refused with the reason, and the present database stays', (_name, how, why) => {
    how();
    expect(() => examine(good)).toThrow(why);
    expect(() => examine(good)).toThrow(BadBackup);
    const data = join(place, 'data');
    mkdirSync(data);
    writeFileSync(join(data, 'fibula.db'), 'the present one');
    expect(() => restore(good, data, true, OUTSIDE)).toThrow(why);
    expect(readFileSync(join(data, 'fibula.db'), 'utf8')).toBe('the present one');
    expect(existsSync(join(data, 'fibula.db.restoring'))).toBe(false);
  });

  it('a good one takes the place of a database that cannot be read, which is kept', () => {
    const data = join(place, 'data');
    mkdirSync(data);
    writeFileSync(join(data, 'fibula.db'), 'scribble');
    writeFileSync(join(data, 'fibula.db-wal'), 'more scribble');
    expect(() => restore(good, data, false, OUTSIDE)).toThrow(/Add --replace/);
    const { aside, wasReadable, examined, generation } = restore(good, data, true, OUTSIDE);
    expect(wasReadable).toBe(false);
    expect(readFileSync(aside!, 'utf8')).toBe('scribble');
    expect(readFileSync(`${aside!}-wal`, 'utf8')).toBe('more scribble');
    expect(existsSync(join(data, 'fibula.db-wal'))).toBe(false);
    expect(examine(join(data, 'fibula.db'))).toMatchObject({ facts: examined.facts, sessions: 1 });
    // Once more, with the ledger as the only one that knows of the first time.
    rmSync(join(data, 'fibula.db'));
    expect(restore(good, data, false, { ...OUTSIDE, randomInt: () => 0 }).generation).toBe(generation + 1);
  });
});

describe('which copies stay', () => {
  const days = (count: number, from = Date.UTC(2026, 0, 1)): string[] =>
    Array.from({ length: count }, (_, i) => new Date(from + i * DAY_MS).toISOString().slice(0, 10));
  const kept = (all: string[], keep: { days: number; weeks: number; months: number }): string[] => {
    const dropped = new Set(daysToDrop(all, keep));
    return all.filter((day) => !dropped.has(day));
  };

  it('the newest days, then one a week, then one a month', () => {
    const all = days(365);
    const stay = kept(all, { days: 14, weeks: 8, months: 12 });
    expect(stay.slice(-14)).toEqual(all.slice(-14));
    expect(stay.slice(0, 10)).toEqual([
      '2026-01-31',
      '2026-02-28',
      '2026-03-31',
      '2026-04-30',
      '2026-05-31',
      '2026-06-30',
      '2026-07-31',
      '2026-08-31',
      '2026-09-30',
      '2026-10-31',
    ]);
    // Sundays, and the last days of the months they came to.
    expect(stay.slice(10, -14)).toEqual([
      '2026-11-15',
      '2026-11-22',
      '2026-11-29',
      '2026-11-30',
      '2026-12-06',
      '2026-12-13',
    ]);
  });

  it('day by day, as it happens, the same ones are left', () => {
    const keep = { days: 14, weeks: 8, months: 12 };
    let there: string[] = [];
    for (const day of days(365)) there = kept([...there, day], keep);
    expect(there).toEqual(kept(days(365), keep));
  });

  it('however long the shop was closed, and whatever the clock said in between', () => {
    const old = days(10, Date.UTC(2020, 0, 1));
    expect(kept([...old, '2031-05-05'], { days: 14, weeks: 8, months: 12 })).toEqual([...old, '2031-05-05']);
  });

  it('a day is the shop’s day', () => {
    const ms = Date.UTC(2026, 5, 30, 22, 30);
    expect(shopTime(ms, 'Europe/Vienna')).toEqual({ day: '2026-07-01', time: '00:30' });
    expect(shopTime(ms, 'America/Denver')).toEqual({ day: '2026-06-30', time: '16:30' });
  });
});

describe('options', () => {
  it('say when, where and how many', () => {
    expect(readKeeping({})).toEqual(DEFAULT_KEEPING);
    expect(readKeeping({ 'backup-at': '12:30', 'keep-backups': '7,4,0', 'keep-days': '90' })).toMatchObject({
      backupAt: '12:30',
      keepBackups: { days: 7, weeks: 4, months: 0 },
      keepDays: 90,
    });
    expect(readKeeping({ 'backup-at': 'never', 'keep-days': 'forever' })).toMatchObject({
      backupAt: null,
      keepDays: null,
    });
  });

  it.each([
    [{ 'backup-at': '24:00' }, /--backup-at must be a time like 03:00/],
    [{ 'keep-backups': '0,1,1' }, /--keep-backups must be/],
    [{ 'keep-backups': '14' }, /--keep-backups must be/],
    [{ 'keep-days': '-1' }, /--keep-days must be/],
  ])('%j is refused', (values, why) => {
    expect(() => readKeeping(values)).toThrow(why);
  });
});
