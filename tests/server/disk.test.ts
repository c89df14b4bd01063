/** A disk that takes nothing: the server is read-only, says so, loses nothing, and recovers by itself. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { deg } from '../../core/index.ts';
import type { JobRow, ServerStatus } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';

let running: Running;
let desk: Station;
let measuring: Station;
let session: string;
let open: { close(): void }[];

beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  measuring = await running.station(['measuring']);
  session = newSession();
  open = [];
});
afterEach(async () => {
  for (const one of open) one.close();
  await running.close();
});

/** No page more than the database has: SQLite then says what it says on a full disk. */
const fillDisk = ({ db } = running.server) => db.pragma('max_page_count = 1');
const freeDisk = () => running.server.db.pragma('max_page_count = 1000000');

/** Long enough to need a page of its own. */
const note = (text: string) => ({ note: `${text} ${'.'.repeat(1_900)}` });
const notes = (room: Room) =>
  room.facts.flatMap((fact) => (fact.kind === 'home.checked' ? [fact.note!.split(' ')[0]] : []));
const stored = () => running.query('SELECT count(*) AS n FROM facts')[0]!['n'];

async function enter(station: Station, id = session): Promise<Room> {
  const room = await station.enter(id);
  open.push(room);
  return room;
}
async function connect(station: Station, room: string): Promise<Wire> {
  const wire = new Wire(running.url, room, { cookie: station.cookie });
  open.push(wire);
  return wire.open();
}
const status = (wire: Wire, fits: (status: ServerStatus) => boolean, from = 0) =>
  wire.hears('status', (heard) => fits(heard.status), from);

async function opened(): Promise<{ atDesk: Room; atLeg: Room }> {
  const atDesk = await enter(desk);
  await atDesk.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  return { atDesk, atLeg: await enter(measuring) };
}
const board = () => `board/desk/${desk.me.boot}`;
const sockets = () => running.log.filter(({ msg }) => msg === 'socket left').length;

describe('a full disk', () => {
  it('leaves entries at their stations, says so everywhere, keeps reads going, and saves each once when there is space', async () => {
    const { atDesk, atLeg } = await opened();
    const watching = await connect(desk, board());
    await status(watching, ({ readOnly }) => readOnly === null);
    const leftBefore = sockets();
    fillDisk();
    const before = stored();
    const saved = [
      atDesk.add('desk', 'home.checked', note('first')),
      atLeg.add('measuring', 'floor.checked', { crossDeg: deg(0.5), alongDeg: deg(0) }),
    ];
    await status(watching, ({ readOnly }) => readOnly === 'full');
    // Far more than the gaps that a server answers: none of them may cost the station its socket.
    for (let i = 0; i < 60; i++) {
      saved.push(atDesk.add('desk', 'home.checked', note(`n${i}`)));
      await new Promise((resolve) => setImmediate(resolve));
    }

    // Whoever comes now reads what is on disk, no more, and hears how the server is.
    const late = await connect(measuring, `session/${session}/1`);
    expect(idsOf(await late.document())).toHaveLength(1);
    await status(late, ({ readOnly }) => readOnly === 'full');
    expect(
      (await desk.request<{ facts: unknown[] }>('GET', `/api/sessions/${session}/export`)).facts,
    ).toHaveLength(1);
    expect(notes(atLeg)).toEqual([]);
    expect(stored()).toBe(before);

    freeDisk();
    await Promise.all(saved);
    await status(watching, ({ readOnly }) => readOnly === null, watching.heard.length - 1);
    await until(() => notes(atLeg).length === 61, 'the entries at the other station');
    expect(notes(atLeg)).toEqual(['first', ...Array.from({ length: 60 }, (_, i) => `n${i}`)]);
    expect(stored()).toBe(Number(before) + 62);
    expect([late.closed, watching.closed]).toEqual([null, null]);
    expect(sockets()).toBe(leftBefore);
  });

  it('lets the desk open a session, which is saved afterwards', async () => {
    fillDisk();
    const watching = await connect(desk, board());
    const room = await enter(desk);
    const saved = room.add('desk', 'session.opened', {
      ticket: '1-2',
      clientRef: 'c'.repeat(40),
      service: 'cuffs',
    });
    const more = room.add('desk', 'home.checked', note('more'));
    await status(watching, ({ readOnly }) => readOnly === 'full');
    freeDisk();
    await Promise.all([saved, more]);
    expect(stored()).toBe(2);
  });

  it('refuses in words what pages ask for', async () => {
    const person = { name: 'Quintilia Fabelhaft', contact: 'x'.repeat(490), language: 'de' };
    await desk.request('PUT', '/api/people/p0', person);
    fillDisk();
    const putUntilFull = async () => {
      for (let i = 1; ; i++) await desk.request('PUT', `/api/people/p${i}`, person);
    };
    await expect(putUntilFull()).rejects.toThrow(/503 read-only The disk is full: no entries are taken/);
    const { health } = running.server;
    expect(health.readOnly).toBe('full');
    expect(await desk.request('GET', '/api/people?q=Quintilia')).toMatchObject({ people: [{ ref: 'p0' }] });
    freeDisk();
    await until(() => health.readOnly === null, 'the disk to be tried');
    await desk.request('PUT', '/api/people/last', person);
  });

  it('costs the boards nothing: they go on from memory, and are kept later', async () => {
    const { atDesk } = await opened();
    const kept = () => running.query('SELECT job FROM documents')[0]!['job'] as string | null;
    const row = async () =>
      (await (await connect(desk, board())).document()).getMap<JobRow>('jobs').get(session);
    await until(row, 'the row on the board');
    fillDisk();
    const saved = atDesk.add('desk', 'home.checked', note('x'));
    await until(() => running.server.health.readOnly === 'full', 'the disk to be full');
    expect(await row()).toMatchObject({ ticket: '1-1' });
    freeDisk();
    await saved;
    await atDesk.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
    await until(() => (JSON.parse(kept() ?? '{}') as JobRow).closed, 'the closed row to be kept');
  });

  it('that lasts over the stop loses nothing: the next start is offered what waits', async () => {
    const { atDesk } = await opened();
    fillDisk();
    const saved = atDesk.add('desk', 'home.checked', note('kept'));
    await until(() => running.server.health.readOnly === 'full', 'the disk to be full');
    await running.stop();
    const again = await run({ data: running.data, port: running.server.port });
    try {
      await saved;
      expect(stored()).toBe(2);
    } finally {
      await again.stop();
    }
  });
});

it('a disk that may not be written any more is told as that, and taken up again when it may', async () => {
  const { atDesk } = await opened();
  const watching = await connect(measuring, board());
  running.server.db.pragma('query_only = ON');
  const saved = atDesk.add('desk', 'home.checked', note('kept'));
  await status(watching, ({ readOnly }) => readOnly === 'forbidden');
  running.server.db.pragma('query_only = OFF');
  await saved;
  await status(watching, ({ readOnly }) => readOnly === null, watching.heard.length - 1);
});

it('a database that another program holds at the start does not keep the server from starting', async () => {
  await opened();
  await running.stop();
  const foreign = new Database(join(running.data, 'fibula.db'));
  foreign.exec('BEGIN IMMEDIATE');
  const again = await run({ data: running.data });
  try {
    expect(again.server.health.readOnly).toBe('locked');
    const me = await fetch(`${again.url}/api/me`, { headers: { cookie: desk.cookie } });
    const { boot } = (await me.json()) as { boot: number };
    expect(boot).toBeGreaterThan(1_000_000);
    foreign.exec('ROLLBACK');
    foreign.close();
    await until(() => again.server.health.readOnly === null, 'the database to be free');
  } finally {
    await again.stop();
  }
});

it('little space is told before the disk is full', async () => {
  await running.close();
  const said: string[] = [];
  running = await run({ lowSpaceMb: 1e9, say: (text) => said.push(text) });
  desk = await running.station(['desk']);
  const wire = await connect(desk, board());
  const { status: heard } = await status(wire, ({ lowSpace }) => lowSpace !== null);
  expect(heard.readOnly).toBeNull();
  expect(heard.lowSpace!.freeMb).toBeGreaterThan(0);
  expect(said).toEqual([expect.stringMatching(/only \d+ MB are free on the disk of .*Free some space/)]);
});
