/** The open corner and what it lets go: backups told, one client's data erased after the name was typed. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withoutPersonal } from '../../core/index.ts';
import type { Fact, ServerStatus } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { DEFAULT_KEEPING } from '../../server/keeper.ts';
import { ledgerPath } from '../../server/ledger.ts';
import { asker } from './helpers/asks.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const PIN = '271828';
const DAY_MS = 24 * 3_600_000;
let running: Running;
let desk: Station;
beforeEach(async () => {
  running = await run({ keeping: { ...DEFAULT_KEEPING, backupAt: '00:00' } });
  desk = await running.station(['desk', 'measuring']);
});
afterEach(() => running.close());

const ask = asker(() => running.url);
const unlock = () => ask('POST', '/api/corner/pin', desk.cookie, { pin: PIN, again: PIN });
const erase = (ref: string, body: unknown, cookie = desk.cookie) =>
  ask('POST', `/api/corner/people/${ref}/erase`, cookie, body);
const exported = async (session: string): Promise<Fact[]> =>
  (await desk.request<{ facts: Fact[] }>('GET', `/api/sessions/${session}/export`)).facts;

async function takeIn(ref: string, name: string): Promise<string> {
  await desk.request('PUT', `/api/people/${ref}`, { name, contact: 'rare@example.org' });
  const session = newSession();
  const room = await desk.enter(session);
  const notes = 'walks the dog';
  await room.add('desk', 'session.opened', { ticket: '4-1', clientRef: ref, service: 'cuffs', notes });
  room.close();
  return session;
}

describe('a client’s data', () => {
  it('are told and erased in the open corner only, by a desk, with the name typed', async () => {
    const session = await takeIn('c1', 'Zdenka Überall');
    const other = await takeIn('c2', 'Somebody Else');
    const [before, others] = [await exported(session), await exported(other)];
    const bench = await running.station(['bench']);
    expect((await erase('c1', { name: 'Zdenka Überall' })).body.error.code).toBe('locked');
    expect((await ask('GET', '/api/corner/people/c1', desk.cookie)).body.error.code).toBe('locked');
    await unlock();
    expect((await erase('c1', { name: 'Zdenka Überall' }, bench.cookie)).body.error.code).toBe('forbidden');
    expect((await ask('GET', '/api/corner/people/c1', desk.cookie)).body).toMatchObject({
      person: { ref: 'c1', name: 'Zdenka Überall' },
      sessions: [{ session, ticket: '4-1', closed: false }],
    });

    for (const name of ['', 'c1', 'Zdenka', 'Somebody Else'])
      expect((await erase('c1', { name })).body.error.text).toMatch(/^name: /);
    expect((await erase('c1', { name: 'Zdenka Überall', all: true })).status).toBe(400);
    expect((await erase('c9', { name: 'Zdenka Überall' })).body.error.code).toBe('not-found');
    expect(existsSync(ledgerPath(running.data))).toBe(false);
    expect(await exported(session)).toEqual(before);

    const done = await erase('c1', { name: ' zdenka  überall' });
    expect(done.body).toEqual({ sessions: 1, rewritten: 0, failed: 0 });
    expect(await exported(session)).toEqual(withoutPersonal(before));
    expect(await exported(other)).toEqual(others);
    expect((await ask('GET', '/api/people/c1', desk.cookie)).status).toBe(404);
    expect((await erase('c1', { name: 'Zdenka Überall' })).body.error.code).toBe('not-found');
    expect(readFileSync(ledgerPath(running.data), 'utf8')).toMatch(/"do":"erase"/);
    expect(JSON.stringify(running.log)).not.toMatch(/Zdenka|Überall/i);
  });

  it('are erased from the daily copies too where that was asked for', async () => {
    await takeIn('c1', 'Zdenka Überall');
    await unlock();
    await running.server.keeper.check();
    const [copy] = (await ask('GET', '/api/corner/backups', desk.cookie)).body.copies as { day: string }[];
    const bytes = () => readFileSync(join(running.data, 'backups', `fibula-${copy!.day}.db`), 'latin1');
    expect(bytes()).toContain('rare@example.org');
    const done = await erase('c1', { name: 'Zdenka Überall', backups: true });
    expect(done.body).toEqual({ sessions: 1, rewritten: 1, failed: 0 });
    expect(bytes()).not.toContain('rare@example.org');
  });
});

describe('backups', () => {
  it('are told in the open corner, to desks as they change, and to no other station', async () => {
    await takeIn('c1', 'Somebody');
    const wire = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
    const told = async (met: (backup: ServerStatus['backup']) => boolean) =>
      (await wire.hears('status', ({ status }) => met(status.backup))).status.backup;
    await told((backup) => backup?.ok === true && backup.atMs === null);
    expect((await ask('GET', '/api/corner/backups', desk.cookie)).body.error.code).toBe('locked');
    await unlock();

    await running.server.keeper.check();
    const bench = await running.station(['bench']);
    const other = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: bench.cookie }).open();
    const made = await told((backup) => typeof backup?.atMs === 'number');
    expect(made).toMatchObject({ ok: true, reason: null });
    const { body } = await ask('GET', '/api/corner/backups', desk.cookie);
    expect(body).toMatchObject({ due: '00:00', directory: join(running.data, 'backups'), state: made });
    expect(body.copies).toEqual([{ day: expect.any(String) as string, bytes: made!.bytes }]);
    expect((await ask('GET', '/api/corner', desk.cookie)).body.waiting.notices).toBe(0);
    await other.ping();
    const heard = other.heard.flatMap((one) => (one.is === 'status' ? [one.status.backup] : []));
    expect(new Set(heard)).toEqual(new Set([null]));
    expect((await ask('GET', '/api/me', bench.cookie)).body.backup).toBeNull();
    other.close();
    wire.close();
  });

  it('that fail are told to the desk, and count as one thing that waits', async () => {
    await running.close();
    const backups = join(mkdtempSync(join(tmpdir(), 'fibula-corner-')), 'in-the-way');
    writeFileSync(backups, '');
    running = await run({ keeping: { ...DEFAULT_KEEPING, backupAt: '00:00', backups } });
    desk = await running.station(['desk', 'measuring']);
    await takeIn('c1', 'Somebody');
    const wire = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
    await running.server.keeper.check();
    const failed = (await wire.hears('status', ({ status }) => status.backup?.ok === false)).status.backup;
    expect(failed!.reason).toMatch(/^The daily backup failed: /);
    running.clock.aheadMs = 3 * DAY_MS;
    expect((await ask('GET', '/api/corner', desk.cookie)).body.waiting.notices).toBe(1);
    wire.close();
    rmSync(dirname(backups), { recursive: true });
  });
});
