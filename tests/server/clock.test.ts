/** The server's clock jumps between commits: nothing but the times shown changes. */
import * as encoding from 'lib0/encoding';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Fact, JobRow } from '../../core/index.ts';
import { deg, plan } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { Rate } from '../../server/limits.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const JUMPS = [-3 * HOUR_MS, 40 * DAY_MS, -400 * DAY_MS, 0];

let running: Running;
let desk: Station;
let open: { close(): void }[];
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk', 'measuring']);
  open = [];
});
afterEach(async () => {
  for (const one of open) one.close();
  await running.close();
});

async function enter(session: string, ticket: string) {
  const room = await desk.enter(session);
  open.push(room);
  await room.add('desk', 'session.opened', { ticket, clientRef: `c-${session}`, service: 'cuffs' });
  return room;
}

async function board(): Promise<Record<string, JobRow>> {
  const wire = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
  const doc = await wire.document();
  wire.close();
  return doc.getMap<JobRow>('jobs').toJSON() as Record<string, JobRow>;
}

it('order, plan and acknowledgements stay, and no duration on the board is negative or no number', async () => {
  const [first, second] = [newSession(), newSession()];
  const room = await enter(first, '1-1');
  const added: string[] = [];
  for (const aheadMs of JUMPS) {
    running.clock.aheadMs = aheadMs;
    added.push(await room.add('measuring', 'floor.checked', { crossDeg: deg(0.5), alongDeg: deg(0) }));
    added.push(await room.add('desk', 'home.checked', { note: `${aheadMs}` }));
  }
  running.clock.aheadMs = -DAY_MS;
  await enter(second, '1-2'); // by the clock a day before the first

  const rows = await until(async () => {
    const jobs = await board();
    return jobs[first] && jobs[second] ? jobs : null;
  }, 'both jobs on the board');
  for (const { openedMs, lastMs, sinceMs } of Object.values(rows)) {
    expect([openedMs, lastMs, sinceMs].every(Number.isFinite)).toBe(true);
    expect(lastMs - openedMs).toBeGreaterThanOrEqual(0);
    expect(sinceMs - openedMs).toBeGreaterThanOrEqual(0);
  }
  await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
  await until(async () => (await board())[first]?.closed, 'the first to be closed');

  const { facts } = await desk.request<{ facts: Fact[] }>('GET', `/api/sessions/${first}/export`);
  expect(facts.map(({ id }) => id).slice(1, -1)).toEqual(added);
  await running.stop();
  running = await run({ data: running.data });
  const again = await fetch(`${running.url}/api/sessions/${first}/export`, {
    headers: { cookie: desk.cookie },
  });
  const stored = ((await again.json()) as { facts: Fact[] }).facts;
  expect(plan(stored)).toEqual(plan(facts));
});

describe('a pairing code', () => {
  const pair = async (code: string) => {
    const answer = await fetch(`${running.url}/api/pair`, {
      method: 'POST',
      headers: { origin: running.url, 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    });
    return answer.ok || ((await answer.json()) as { error: { code: string } }).error.code;
  };
  const code = async () => running.server.stations.createCode(['bench'])!.code;

  it('outlives a clock set right by a moment', async () => {
    const made = await code();
    running.clock.aheadMs = -5_000;
    expect(await pair(made)).toBe(true);
  });

  it('ends when the clock is set forward past its end', async () => {
    const made = await code();
    running.clock.aheadMs = HOUR_MS;
    expect(await pair(made)).toBe('expired-code');
    expect(await pair(await code())).toBe(true);
  });

  it('does not live on for as long as the clock was set back', async () => {
    const made = await code();
    running.clock.aheadMs = -DAY_MS;
    expect(await pair(made)).toBe('expired-code');
    expect(await pair(await code())).toBe(true);
  });
});

it('rates are counted on: a clock set back does not hold a window open', async () => {
  const rate = new Rate(2, 1_000);
  expect([10_000, 10_001, 10_002, 5_000, 5_001, 5_002].map((now) => rate.take(now))).toEqual([
    true,
    true,
    false,
    true,
    true,
    false,
  ]);
  // Through the door: nearly all that a socket may say in ten seconds, on both sides of the jump.
  const wire = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
  open.push(wire);
  const unknown = encoding.createEncoder();
  encoding.writeVarUint(unknown, 999);
  const say = async () => {
    for (let i = 0; i < 1_500; i++) wire.send(encoding.toUint8Array(unknown));
    await wire.document();
  };
  await say();
  running.clock.aheadMs = -DAY_MS;
  await say();
  expect(wire.closed).toBeNull();
});

it('uptime is never less than nothing', async () => {
  running.clock.aheadMs = -DAY_MS;
  const answer = (await (await fetch(`${running.url}/healthz`)).json()) as { uptimeSeconds: number };
  expect(answer.uptimeSeconds).toBe(0);
});
