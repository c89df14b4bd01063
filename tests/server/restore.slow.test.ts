/** A backup restored while stations hold later facts, with real processes and the operator's own commands. */
import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import type { Room } from '../../demo/room.ts';
import { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { offerAgain, roomOf } from './helpers/again.ts';
import { newSession } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

let data: string;
let elsewhere: string;
let servers: ServerProcess[] = [];

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-restore-'));
  elsewhere = mkdtempSync(join(tmpdir(), 'fibula-copies-'));
});
afterEach(async () => {
  for (const server of servers) await server.stop();
  servers = [];
  for (const directory of [data, elsewhere]) rmSync(directory, { recursive: true, force: true });
});

async function start(): Promise<ServerProcess> {
  const server = await startServer(data, ['--plain', '--host', '127.0.0.1', '--port', '0']);
  servers.push(server);
  return server;
}

interface Ended {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** In a process that runs beside this one: while a command runs, the connections of this process must stay alive. */
const command = (name: 'backup' | 'restore', ...args: string[]) =>
  new Promise<Ended>((resolve) =>
    execFile(
      process.execPath,
      [`server/setup/${name}.mjs`, ...args, '--data', data],
      { encoding: 'utf8', timeout: 110_000 },
      (error, stdout, stderr) =>
        resolve({ status: error ? (error.code as unknown as number | null) : 0, stdout, stderr }),
    ),
  );

/** What one station keeps of its own: every fact that was acknowledged, by session. */
class Keeping {
  readonly kept = new Map<string, Fact[]>();
  constructor(readonly station: Station) {}

  /** Floors the session several times in one room, and keeps what was saved. */
  async work(session: string, count: number): Promise<void> {
    const room = await this.station.enter(session);
    for (let i = 0; i < count; i++)
      await room.add('measuring', 'floor.checked', { crossDeg: i / 4, alongDeg: 0 } as never);
    this.#keep(session, room);
  }

  async open(session: string, ticket: string): Promise<void> {
    const room = await this.station.enter(session);
    await room.add('desk', 'session.opened', { ticket, clientRef: 'c', service: 'cuffs' });
    this.#keep(session, room);
  }

  #keep(session: string, room: Room): void {
    const own = room.facts.filter(({ by }) => by.station === this.station.me.device);
    this.kept.set(session, own);
    room.close();
  }
}

const exported = async (desk: Station, session: string): Promise<Fact[]> =>
  (await desk.request<{ facts: Fact[] }>('GET', `/api/sessions/${session}/export`)).facts;

it('nothing acknowledged is missing once every station has been there again', async () => {
  const first = await start();
  const desk = await Station.pair(first.url, / (\d{6}) +desk +\(/.exec(first.output())![1]!, 'Counter');
  const floor = new Keeping(await Station.pair(first.url, await desk.code(['measuring']), 'Floor'));
  const counter = new Keeping(desk);
  const [before, after] = [newSession(), newSession()];
  await counter.open(before, '1-1');
  await floor.work(before, 3);

  const file = join(elsewhere, 'shop.db');
  const made = await command('backup', file);
  expect(made).toMatchObject({ status: 0, stderr: '' });
  expect(made.stdout).toMatch(/^\/.*shop\.db: \d+ KB, 1 session, 4 facts, verified\.\n$/);

  // Later than the backup: more of the session there was, a session of its own, and a station.
  await floor.work(before, 2);
  await counter.open(after, '1-2');
  await floor.work(after, 2);
  const late = new Keeping(await Station.pair(first.url, await desk.code(['measuring']), 'Late'));
  await late.work(before, 2);
  await late.work(after, 1);
  const acknowledged = {
    [before]: await exported(desk, before),
    [after]: await exported(desk, after),
  };

  first.process.kill('SIGKILL');
  await until(() => first.process.signalCode === 'SIGKILL', 'the process to end');
  const restored = await command('restore', file, '--replace');
  expect(restored).toMatchObject({ status: 0, stderr: '' });
  expect(restored.stdout).toMatch(/^Restored .*: \d+ KB, 1 session, 4 facts, until .*\.\n/);
  const aside = /is now (\S+\.db)\./.exec(restored.stdout)?.[1];
  expect(aside && existsSync(aside)).toBe(true);
  expect(readdirSync(data).filter((name) => /-wal|-shm|restoring/.test(name))).toEqual([]);

  const second = await start();
  const at = (who: Station) => ({ url: second.url, cookie: who.cookie, me: who.me });
  // Nobody can go on in a copy from before.
  const old = await new Wire(second.url, `session/${before}/1`, { cookie: desk.cookie }).open();
  expect((await old.isClosed()).code).toBe(4404);
  expect(await roomOf(at(desk), before)).toMatchObject({ known: true, erased: false });

  // The floor's tablet is there first: the session that was opened after the backup waits for the desk.
  expect(await offerAgain(at(floor.station), before, floor.kept.get(before)!)).toHaveLength(2);
  const unknown = await roomOf(at(floor.station), after);
  expect(unknown).toMatchObject({ known: false });
  const early = await new Wire(second.url, unknown.room, { cookie: floor.station.cookie }).open();
  expect((await early.isClosed()).code).toBe(4404);
  for (const [session, kept] of counter.kept) await offerAgain(at(desk), session, kept);
  expect(await roomOf(at(floor.station), after)).toEqual({ ...unknown, known: true });
  await offerAgain(at(floor.station), after, floor.kept.get(after)!);

  // The late one is not paired any more, pairs in the same browser, and is who it was.
  const refused = await fetch(`${second.url}/api/me`, { headers: { cookie: late.station.cookie } });
  expect(refused.status).toBe(401);
  const post = (path: string, body: object, cookie: string) =>
    fetch(second.url + path, {
      method: 'POST',
      headers: { origin: second.url, 'content-type': 'application/json', cookie },
      body: JSON.stringify(body),
    });
  const coded = await post('/api/codes', { roles: ['measuring'] }, desk.cookie);
  const { code } = (await coded.json()) as { code: string };
  const again = await post('/api/pair', { code, device: late.station.me.device }, '');
  const me = (await again.json()) as Station['me'];
  expect(me.device).toBe(late.station.me.device);
  const cookie = again.headers.getSetCookie()[0]!.split(';')[0]!;
  for (const [session, kept] of late.kept) await offerAgain({ url: second.url, cookie, me }, session, kept);

  const byId = (facts: Fact[]) => [...facts].sort((a, b) => a.id.localeCompare(b.id));
  for (const [session, facts] of Object.entries(acknowledged)) {
    const answer = await fetch(`${second.url}/api/sessions/${session}/export`, {
      headers: { cookie: desk.cookie },
    });
    const there = ((await answer.json()) as { facts: Fact[] }).facts;
    expect(byId(there)).toEqual(byId(facts));
    expect(there[0]!.kind).toBe('session.opened');
  }
  // And once more, by everybody: nothing is there twice.
  expect(await offerAgain(at(floor.station), before, floor.kept.get(before)!)).toEqual([]);
}, 300_000);
