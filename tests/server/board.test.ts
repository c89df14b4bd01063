/** The boards: what the desk and the wall see of the sessions on disk. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { JobRow, WallRow } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

let running: Running;
let desk: Station;
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
});
afterEach(() => running.close());

async function jobs(url = running.url, boot = desk.me.boot): Promise<Record<string, JobRow>> {
  const wire = await new Wire(url, `board/desk/${boot}`, { cookie: desk.cookie }).open();
  const doc = await wire.document();
  wire.close();
  return doc.getMap('jobs').toJSON() as Record<string, JobRow>;
}

async function tickets(): Promise<Record<string, WallRow>> {
  const wire = await new Wire(running.url, `board/wall/${desk.me.boot}`, { cookie: desk.cookie }).open();
  const doc = await wire.document();
  wire.close();
  return doc.getMap('tickets').toJSON() as Record<string, WallRow>;
}

async function openJob(ticket: string): Promise<string> {
  const session = newSession();
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket, clientRef: `ref-${ticket}`, service: 'cuffs' });
  room.close();
  return session;
}

async function handOver(session: string): Promise<void> {
  const room = await desk.enter(session);
  await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
  room.close();
}

it('a new job is on the desk’s board with the server’s times, and on the wall by its ticket alone', async () => {
  const session = await openJob('1-1');
  const row = await until(async () => (await jobs())[session], 'the job on the board');
  const [stored] = running.query('SELECT opened_ms, last_ms FROM documents WHERE session = ?', session);
  expect(row).toMatchObject({
    session,
    generation: 1,
    ticket: '1-1',
    clientRef: 'ref-1-1',
    service: 'cuffs',
    closed: false,
    openedMs: stored!['opened_ms'],
    lastMs: stored!['last_ms'],
    sinceMs: stored!['opened_ms'],
  });
  expect(row.stage).not.toBeNull();
  expect(row.steps.length).toBeGreaterThan(0);
  expect(await tickets()).toEqual({ '1-1': { ticket: '1-1', stage: row.stage, pickup: false } });
});

it('a board that is open hears of each change', async () => {
  const wire = await new Wire(running.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
  await wire.document();
  const before = wire.heard.length;
  await openJob('1-1');
  await wire.hears('update', () => true, before);
  wire.close();
});

it('a job that is handed over leaves the wall at once, and the desk’s board with the next start', async () => {
  const [done, open] = [await openJob('1-1'), await openJob('1-2')];
  await handOver(done);
  await until(async () => (await jobs())[done]?.closed, 'the job to be closed');
  expect(Object.keys(await tickets())).toEqual(['1-2']);
  await running.stop();
  const again = await run({ data: running.data });
  const rows = await jobs(again.url, 2);
  expect(Object.keys(rows)).toEqual([open]);
  await again.stop();
});

it('a second pair under the same ticket keeps it on the wall until both are handed over', async () => {
  const [one, two] = [await openJob('1-1'), await openJob('1-1')];
  await until(async () => Object.keys(await jobs()).length === 2, 'both jobs');
  await handOver(one);
  await until(async () => (await jobs())[one]?.closed, 'the first to be closed');
  expect(Object.keys(await tickets())).toEqual(['1-1']);
  await handOver(two);
  await until(async () => Object.keys(await tickets()).length === 0, 'the ticket to leave the wall');
});

it('rows are there at once after a restart, times included, and are computed afresh', async () => {
  const session = await openJob('1-1');
  const before = await until(async () => (await jobs())[session], 'the job on the board');
  await running.stop();
  const again = await run({ data: running.data });
  expect((await jobs(again.url, 2))[session]).toEqual(before);
  await again.stop();
});
