/** Many open sessions, of which few are in memory: what rests on the disk is read again as it is needed, and nobody sees it. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { CLOSE, deg } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { BOUND } from '../../server/limits.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const { documentsAwake } = BOUND;
const SESSIONS = 4;
let running: Running;
let desk: Station;
let floor: Station;
let sessions: string[];
let rooms: { desk: Room; floor: Room }[];

const set = (awake: number) => void Object.assign(BOUND, { documentsAwake: awake });
const note = (room: Room, text: string) => room.add('desk', 'home.checked', { note: text });
const notesOf = (room: Room) =>
  room.facts.flatMap((fact) => (fact.kind === 'home.checked' ? [fact.note] : []));

beforeEach(async () => {
  set(2);
  running = await run();
  desk = await running.station(['desk']);
  floor = await running.station(['measuring']);
  sessions = Array.from({ length: SESSIONS }, newSession);
  rooms = [];
  for (const [i, session] of sessions.entries()) {
    const at = await desk.enter(session);
    await at.add('desk', 'session.opened', { ticket: `3-${i}`, clientRef: `rest-${i}`, service: 'cuffs' });
    rooms.push({ desk: at, floor: await floor.enter(session) });
  }
});
afterEach(async () => {
  set(documentsAwake);
  for (const room of rooms.flatMap((pair) => [pair.desk, pair.floor])) room.close();
  await running.close();
});

it('takes, relays and keeps entries of all of them by turns, each once', async () => {
  const rounds = ['one', 'two', 'three'];
  for (const text of rounds) {
    const ids = await Promise.all(rooms.map((room) => note(room.desk, text)));
    await Promise.all(rooms.map((room, i) => room.floor.knows([ids[i]!])));
  }
  const late = await running.station(['bench']);
  for (const [i, session] of sessions.entries()) {
    expect(notesOf(rooms[i]!.floor)).toEqual(rounds);
    const cold = await late.enter(session);
    expect(cold.facts).toEqual(rooms[i]!.desk.facts);
    cold.close();
  }
  expect(running.query('SELECT count(*) AS n FROM facts')).toEqual([{ n: SESSIONS * (1 + rounds.length) }]);
});

it('gives a station that comes back what it has missed, and takes what it made meanwhile', async () => {
  const [first, ...others] = rooms as [(typeof rooms)[0], ...typeof rooms];
  first.floor.close();
  await note(first.desk, 'while away');
  for (const room of others) await note(room.desk, 'elsewhere');
  const back = await floor.enter(sessions[0]!);
  rooms.push({ desk: back, floor: back });
  expect(notesOf(back)).toEqual(['while away']);
  for (const room of others) await note(room.desk, 'elsewhere again');
  const id = await back.add('measuring', 'floor.checked', { crossDeg: deg(0), alongDeg: deg(0) });
  await first.desk.knows([id]);
});

it('ends a session whose rows went bad while it rested, at the next entry, and no other', async () => {
  const [bad, ...others] = rooms as [(typeof rooms)[0], ...typeof rooms];
  for (const room of others) await note(room.desk, 'elsewhere');
  const db = new Database(join(running.data, 'fibula.db'));
  db.prepare(
    `UPDATE updates SET bytes = zeroblob(length(bytes))
     WHERE document = (SELECT id FROM documents WHERE session = ?)`,
  ).run(sessions[0]);
  db.close();
  const closed = await new Wire(running.url, `session/${sessions[0]}/1`, { cookie: floor.cookie }).open();
  await expect(note(bad.desk, 'into nothing')).rejects.toThrow(`closed by the server: ${CLOSE.damaged}`);
  expect(await closed.isClosed()).toMatchObject({ code: CLOSE.damaged });
  for (const room of others) await note(room.desk, 'on and on');
  await until(() => others.every((room) => notesOf(room.floor).length === 2), 'the others to go on');
});
