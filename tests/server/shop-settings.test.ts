/** What the shop works by: set behind the lock, and taken by each session that is opened from then on. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { asker } from './helpers/asks.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

const PIN = '271828';
let running: Running;
let desk: Station;
let rooms: Room[];
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  rooms = [];
});
afterEach(async () => {
  for (const room of rooms) room.close();
  await running.close();
});

const ask = asker(() => running.url);
const put = (values: unknown) => ask('PUT', '/api/corner/settings', desk.cookie, values);
const unlock = () => ask('POST', '/api/corner/pin', desk.cookie, { pin: PIN, again: PIN });

async function open(): Promise<{ session: string; room: Room }> {
  const session = newSession();
  const room = await desk.enter(session);
  rooms.push(room);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'p1', service: 'cuffs' });
  return { session, room };
}
const pinnedIn = (facts: readonly Fact[]) => facts.filter(({ kind }) => kind === 'settings.used');

describe('settings of the shop', () => {
  it('are changed in the open corner only, and seen by desks only', async () => {
    const bench = await running.station(['bench']);
    expect((await put({ minLugLeftMm: 12 })).body.error.code).toBe('locked');
    await unlock();
    expect((await put({ minLugLeftMm: 12 })).body).toEqual({ values: { minLugLeftMm: 12 } });
    expect((await ask('GET', '/api/settings', desk.cookie)).body).toEqual({ values: { minLugLeftMm: 12 } });
    expect((await ask('GET', '/api/settings', bench.cookie)).body.error.code).toBe('forbidden');
  });

  it('out of bounds or of an unknown name are refused by name, and nothing is changed', async () => {
    await unlock();
    await put({ evenToleranceMm: 2 });
    expect((await put({ evenToleranceMm: 40 })).body.error.text).toBe(
      'evenToleranceMm: must be 0.5 to 10 mm.',
    );
    expect((await put({ evenToleranceMm: '2' })).body.error.text).toBe(
      'evenToleranceMm: must be 0.5 to 10 mm.',
    );
    expect((await put({ torque: 3 })).status).toBe(400);
    expect((await ask('GET', '/api/settings', desk.cookie)).body).toEqual({ values: { evenToleranceMm: 2 } });
  });

  it('that make a band end before it begins are refused by name, beside values and defaults alike', async () => {
    await unlock();
    expect((await put({ shellRaceMm: 5 })).body.error.text).toBe(
      'shellRaceMm: must be more than shellShortMm, 5 mm.',
    );
    expect((await put({ gapSumAskMinMm: 35 })).body.error.text).toBe(
      'gapSumAskMinMm: must be less than gapSumAskMaxMm, 30 mm.',
    );
    const both = { gapSumAskMinMm: 35, gapSumAskMaxMm: 36 };
    expect((await put(both)).body).toEqual({ values: both });
  });

  it('are pinned by the server in every session opened from then on, before anybody sees it open', async () => {
    const before = await open();
    await unlock();
    await put({ minLugLeftMm: 12, gapErrorMm: 1 });
    const { session, room } = await open();
    await until(() => pinnedIn(room.facts).length === 1);
    expect(pinnedIn(room.facts)[0]).toMatchObject({
      by: { station: 'server', role: 'server' },
      minLugLeftMm: 12,
      gapErrorMm: 1,
    });
    // One commit holds both.
    const rows = running.query(
      'SELECT n FROM updates JOIN documents ON documents.id = document WHERE session = ?',
      session,
    );
    expect(rows).toEqual([{ n: 1 }]);
    // A later change leaves both sessions as they were.
    await put({ minLugLeftMm: 14 });
    const third = await open();
    await until(() => pinnedIn(third.room.facts).length === 1);
    expect(pinnedIn(room.facts)).toHaveLength(1);
    expect(pinnedIn(before.room.facts)).toEqual([]);
    expect(plan(room.facts).problems.filter(({ code }) => code === 'conflict')).toEqual([]);
  });

  it('of the defaults leave a session as it is, and go back to them when they are taken away', async () => {
    await unlock();
    await put({ gapErrorMm: 1 });
    await put({});
    const { room } = await open();
    await room.add('desk', 'health.asked', { outcome: 'proceed' });
    expect(pinnedIn(room.facts)).toEqual([]);
  });

  it('cannot be written into a session by a station', async () => {
    const { room } = await open();
    await expect(
      room.add('server' as 'desk', 'settings.used' as 'health.asked', { gapErrorMm: 1 } as never),
    ).rejects.toThrow(/refused/);
  });
});
