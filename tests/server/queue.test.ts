/** When jobs will be ready: learned from the server's own commit times, told to the desk, and not lost at a stop. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Fact, Payload, Role } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { enter, teaching } from '../helpers/lessons.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

const MIN = 60_000;
const ALWAYS = {
  hands: { measuring: 1, bench: 1, desk: 1 },
  days: Array.from({ length: 7 }, () => ({ from: '00:00', to: '24:00' })),
};

let running: Running;
let all: Station;
let rooms: Room[];
beforeEach(async () => {
  running = await run();
  all = await running.station(['desk', 'measuring', 'bench']);
  rooms = [];
});
afterEach(async () => {
  for (const room of rooms) room.close();
  await running.close();
});

const turnsOf = (session: string) =>
  running.query('SELECT * FROM turns WHERE session = ? ORDER BY n', session);

/** Read at once, and again after a move: an hour to the move, and half an hour to the second reading. */
async function worked() {
  const told = teaching({ settings: [0, 1], close: true });
  const moveAt = told.facts.findIndex(({ kind }) => kind === 'cuff.set');
  const later = told.facts.splice(moveAt);
  const { session, room } = await enter(all, told);
  rooms.push(room);
  for (const fact of later) {
    const { id: _id, kind, at: _at, by, basis: _basis, ...payload } = fact as Fact & { basis?: unknown };
    if (kind === 'cuff.set') running.clock.aheadMs += 60 * MIN;
    if (kind === 'cuff.read') running.clock.aheadMs += 30 * MIN;
    if (kind === 'cuff.closed') running.clock.aheadMs += MIN;
    await room.add(by.role as Exclude<Role, 'server'>, kind, payload as Payload<typeof kind>);
  }
  await until(() => {
    const [, , again] = turnsOf(session) as Record<string, number>[];
    return again !== undefined && again['ended_ms']! - again['begun_ms']! >= MIN;
  });
  return { session, room };
}

describe('the turns of a session', () => {
  it('[QUE-1] are told by the server’s clock: who worked when, and since when it was their turn', async () => {
    const { session } = await worked();
    const [first, pivots, again] = turnsOf(session) as Record<string, number>[];
    expect([first, pivots, again].map((turn) => [turn!['work'], turn!['done']])).toEqual([
      ['first', 1],
      ['pivots', 1],
      ['again', 0],
    ]);
    expect(pivots!['turn_ms']).toBe(first!['ended_ms']);
    expect(pivots!['ended_ms']! - pivots!['turn_ms']!).toBeGreaterThanOrEqual(60 * MIN);
    expect(again!['begun_ms']! - pivots!['ended_ms']!).toBeGreaterThanOrEqual(30 * MIN);
  });

  it('[QUE-2] are there after a stop, and come back from the archive where they are missing', async () => {
    const { session } = await worked();
    const before = turnsOf(session);
    await running.stop();
    const { default: Database } = await import('better-sqlite3');
    const db = new Database(`${running.data}/fibula.db`);
    db.exec('DELETE FROM turns; DELETE FROM journeys; DELETE FROM lessons');
    db.close();
    running = await run({ data: running.data });
    await until(() => turnsOf(session).length === 3);
    expect(turnsOf(session)).toEqual(before);
  });
});

describe('the queue', () => {
  it('[QUE-3] tells the desk of every open job when it will be ready, and of one more', async () => {
    await all.request('PUT', '/api/opening', ALWAYS);
    const { session } = await worked();
    const told = (await all.request('GET', '/api/queue')) as {
      atMs: number;
      seen: number;
      jobs: Record<string, { medianMs: number; promiseMs: number }>;
    };
    expect(told.seen).toBe(2); // two turns are done, the third goes on
    const { medianMs, promiseMs } = told.jobs[session]!;
    expect(medianMs).toBeGreaterThanOrEqual(told.atMs);
    expect(promiseMs).toBeGreaterThanOrEqual(medianMs);
    const { offer } = (await all.request('GET', '/api/queue/full')) as {
      offer: { promiseMs: number; ahead: number; narrow: string; seen: number };
    };
    expect(offer).toMatchObject({ seen: 2 });
    expect(offer.promiseMs).toBeGreaterThan(told.atMs);
  });

  it('[QUE-4] counts time in open doors only: what is ready after closing is ready the day after', async () => {
    const days = Array.from({ length: 7 }, () => ({ from: '09:00', to: '09:01' }));
    await all.request('PUT', '/api/opening', { ...ALWAYS, days });
    const { offer } = (await all.request('GET', '/api/queue/cuffs')) as { offer: { medianMs: number } };
    // Twenty minutes of work at one minute a day, on the shop's clock.
    expect(offer.medianMs - Date.now()).toBeGreaterThan(10 * 24 * 60 * MIN);
    const shown = new Intl.DateTimeFormat('en-GB', {
      timeZone: 'Europe/Vienna',
      hour: '2-digit',
      minute: '2-digit',
    }).format(offer.medianMs);
    expect(['09:00', '09:01']).toContain(shown);
  });

  it('says which field of the opening hours does not fit', async () => {
    const wrong = { ...ALWAYS, days: ALWAYS.days.map((day) => ({ ...day, to: '00:00' })) };
    await expect(all.request('PUT', '/api/opening', wrong)).rejects.toThrow(/later than from/);
  });
});
