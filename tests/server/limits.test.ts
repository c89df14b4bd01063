/** Every limit that a shop may set, met over a real socket: who goes past it is stopped, and others are served. */
import { connect } from 'node:net';
import type { Socket } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { WebSocket } from 'ws';
import { CLOSE } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { step1Frame } from '../../server/frames.ts';
import { LIMIT_NAMES, SETTABLE, STANDARD_LIMITS } from '../../server/limit-table.ts';
import type { LimitName } from '../../server/limit-table.ts';
import type { ServerOptions } from '../../server/server.ts';
import { until } from '../helpers/until.ts';
import { any, craft, item } from './helpers/craft.ts';
import { clientOf, floor, opened } from './helpers/entries.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

/** Each limit as low as it goes, but for those that would be met on the way to another. */
const LOW = Object.fromEntries(LIMIT_NAMES.map((name) => [name, SETTABLE[name].least])) as Record<
  LimitName,
  number
>;
/** The address that goes too far; everybody else is on 127.0.0.1. */
const GREEDY = '127.0.0.9';

const met = new Set<LimitName>();
let running: Running;
let desk: Station;
let ends: (() => void)[] = [];

async function start(...asked: (LimitName | Partial<ServerOptions>)[]): Promise<void> {
  const names = asked.filter((one) => typeof one === 'string');
  for (const name of names) met.add(name);
  const options = asked.find((one) => typeof one === 'object');
  running = await run({
    host: undefined,
    ...options,
    limits: { ...STANDARD_LIMITS, ...Object.fromEntries(names.map((name) => [name, LOW[name]])) },
  });
  if (!options) desk = await running.station(['desk']);
}
beforeEach(() => {
  ends = [];
});
afterEach(async () => {
  for (const end of ends) end();
  await running.close();
});

/** A bare connection, and what came back on it. */
async function tcp(localAddress = GREEDY) {
  const socket: Socket = connect({ port: running.server.port, host: '127.0.0.1', localAddress });
  ends.push(() => socket.destroy());
  const said = { text: '', closed: false };
  socket.on('data', (part) => (said.text += part.toString('latin1')));
  socket.on('error', () => undefined);
  socket.on('close', () => (said.closed = true));
  await until(() => socket.readyState === 'open' || said.closed, 'the connection');
  return { socket, said, write: (text: string) => socket.write(text) };
}

const get = (path: string, ...headers: string[]) =>
  `${[`GET ${path} HTTP/1.1`, 'Host: 127.0.0.1', ...headers].join('\r\n')}\r\n\r\n`;
const UPGRADE = ['Connection: Upgrade', 'Upgrade: websocket', 'Sec-WebSocket-Version: 13'];
const upgrade = () => get('/sync/x?protocol=1', ...UPGRADE, 'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==');

const othersAreServed = async () =>
  expect((await desk.request<{ number: number }>('GET', '/api/me')).number).toBe(desk.me.number);

const wire = (room: string, station = desk) => {
  const one = new Wire(running.url, room, { cookie: station.cookie });
  ends.push(() => one.close());
  return one.open();
};
const board = () => `board/desk/${desk.me.boot}`;

describe('connections', () => {
  it('connectionsPerAddress: one device does not hold all of them', async () => {
    await start('connectionsPerAddress');
    const held = [];
    for (let i = 0; i < LOW.connectionsPerAddress; i++) held.push(await tcp());
    const more = await tcp();
    await until(() => more.said.closed, 'the one too many to be closed');
    await othersAreServed();
    expect(held.every(({ said }) => !said.closed)).toBe(true);
    held[0]!.socket.destroy();
    await until(async () => {
      const again = await tcp();
      again.write(get('/healthz', 'Connection: close'));
      await until(() => again.said.closed, 'an answer');
      return again.said.text.includes('200 OK');
    }, 'a place that has become free');
  });

  it('connections: all together hold no more', async () => {
    await start('connections');
    const held: Awaited<ReturnType<typeof tcp>>[] = [];
    for (let i = 0; i <= LOW.connections; i++) held.push(await tcp(`127.0.0.${10 + i}`));
    await until(() => held.some(({ said }) => said.closed), 'one too many to be closed');
    for (const { socket } of held) socket.destroy();
    await until(othersAreServed, 'the server to serve again');
  });

  it('upgradesPer10s: whoever tries without end is put off before it is asked who they are', async () => {
    await start('upgradesPer10s');
    const answers = [];
    for (let i = 0; i <= LOW.upgradesPer10s; i++) {
      const one = await tcp();
      one.write(upgrade());
      answers.push(await until(() => /^HTTP\/1.1 (\d+)/.exec(one.said.text)?.[1], 'an answer'));
      if (i === LOW.upgradesPer10s) await until(() => one.said.closed, 'the connection to be ended');
    }
    expect(new Set(answers.slice(0, -1))).toEqual(new Set(['101']));
    expect(answers.at(-1)).toBe('429');
    await (await wire(board())).document();
  });

  it('an upgrade that is turned away leaves no half-open connection', async () => {
    await start();
    const one = await tcp();
    one.write(get('/elsewhere', ...UPGRADE));
    await until(() => one.said.closed, 'the connection to be ended');
    expect(one.said.text).toMatch(/^HTTP\/1.1 404 /);
  });

  it('sockets: all stations together hold no more; one that comes back later gets in', async () => {
    await start('sockets');
    const wires = [];
    for (let i = 0; i < LOW.sockets; i++) wires.push(await wire(board()));
    for (const one of wires) await one.document();
    const more = await wire(board());
    expect(await more.isClosed()).toMatchObject({ code: CLOSE.again });
    wires[0]!.close();
    await until(async () => {
      const again = await wire(board());
      return again.document();
    }, 'a place that has become free');
  });

  it('socketsPerStation: one station does not hold all of them', async () => {
    await start('socketsPerStation');
    for (let i = 0; i < LOW.socketsPerStation; i++) await (await wire(board())).document();
    expect(await (await wire(board())).isClosed()).toMatchObject({
      code: CLOSE.again,
      reason: `A station holds at most ${LOW.socketsPerStation} connections.`,
    });
    await (await wire(board(), await running.station(['bench']))).document();
  });
});

describe('requests', () => {
  it('requestsPer10s: answered with 429 past that, others are served', async () => {
    await start('requestsPer10s');
    const one = await tcp();
    for (let i = 0; i <= LOW.requestsPer10s; i++) one.write(get('/healthz'));
    await until(() => one.said.closed, 'the connection to be ended');
    expect(one.said.text.match(/HTTP\/1.1 200/g)).toHaveLength(LOW.requestsPer10s);
    expect(one.said.text).toMatch(/HTTP\/1.1 429 .*Retry-After: 10.*"code":"too-many"/s);
    await othersAreServed();
    running.clock.aheadMs += 10_000;
    const later = await tcp();
    later.write(get('/healthz'));
    await until(() => later.said.text.includes('HTTP/1.1 200'), 'an answer in the next ten seconds');
    expect(running.log.filter(({ msg }) => msg === 'too many requests')).toHaveLength(1);
  });

  it.each<[LimitName[], string, string | RegExp]>([
    [['headerSeconds'], 'GET /healthz HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: ', /^HTTP\/1.1 408 /],
    [
      ['headerSeconds', 'requestSeconds'],
      'POST /api/pair HTTP/1.1\r\nHost: 127.0.0.1\r\nOrigin: http://127.0.0.1\r\nContent-Length: 40\r\n\r\n{"code"',
      /^HTTP\/1.1 408 /,
    ],
  ])('%j: a request that does not get on is ended', async (names, text, answer) => {
    await start(...names);
    const one = await tcp();
    one.write(text);
    await until(() => one.said.closed, 'the connection to be ended');
    expect(one.said.text).toMatch(answer);
    await othersAreServed();
  });

  it.each([
    ['says nothing', ''],
    ['begins a TLS handshake', '\u0016\u0003\u0001'],
  ])('handshakeSeconds: a connection that %s and no more is ended', async (_title, text) => {
    await start({ plain: false }, 'handshakeSeconds');
    const one = await tcp();
    one.socket.write(text, 'latin1');
    await until(() => one.said.closed, 'the connection to be ended');
  });

  it('stalledSeconds: an answer that nobody reads is given up', async () => {
    await start('stalledSeconds');
    const one = await tcp();
    one.socket.pause();
    // More answers than any buffer between the two holds.
    const wanted = get('/healthz').repeat(100);
    const timer = setInterval(() => !one.socket.destroyed && one.write(wanted), 1);
    ends.push(() => clearInterval(timer));
    await until(() => one.said.closed || one.socket.destroyed, 'the connection to be ended', 60_000);
    await othersAreServed();
  });

  it('headerBytes: 431 past that', async () => {
    await start('headerBytes');
    const one = await tcp();
    one.write(get('/healthz', `X-Long: ${'x'.repeat(LOW.headerBytes)}`));
    await until(() => one.said.closed, 'the connection to be ended');
    expect(one.said.text).toMatch(/^HTTP\/1.1 431 /);
  });

  it.each(['whole', 'in chunks'])('bodyBytes: 413 past that, sent %s', async (how) => {
    await start('bodyBytes');
    const body = JSON.stringify({ name: 'x'.repeat(LOW.bodyBytes) });
    const response = await fetch(`${running.url}/api/people/c1`, {
      method: 'PUT',
      headers: { cookie: desk.cookie, origin: running.url },
      ...(how === 'whole' ? { body } : { body: new Blob([body]).stream(), duplex: 'half' as const }),
    });
    expect(response.status).toBe(413);
    expect(await response.json()).toMatchObject({
      error: { code: 'too-large', text: `A request has at most ${LOW.bodyBytes} bytes.` },
    });
  });
});

describe('a sync connection', () => {
  it.each<[LimitName, RegExp, (one: Wire) => unknown]>([
    ['framesPer10s', /^Too many frames: at most 100 /, (one) => one.send(new Uint8Array([55]))],
    ['framesPer10s', /^Too many frames: at most 100 /, (one) => one.ping()],
    ['bytesPer10s', /^Too many bytes: at most 2097152 /, (one) => one.send(new Uint8Array(500_000).fill(55))],
    [
      'questionsPer10s',
      /^Too many questions for the whole document: at most 5 /,
      (one) => one.send(step1Frame(new Uint8Array([0]))),
    ],
  ])('%s: is closed past that: %s', async (name, reason, send) => {
    await start(name);
    const one = await wire(`session/${newSession()}/1`);
    await one.hears('durable');
    for (let i = 0; i <= LOW[name] && !one.closed && one.sent < LOW.bytesPer10s; i++) await send(one);
    const closed = await one.isClosed();
    expect(closed.code).toBe(CLOSE.tooMuch);
    expect(closed.reason).toMatch(reason);
    await othersAreServed();
  });

  it('gapsPer10s: is closed past that', async () => {
    await start('gapsPer10s');
    const one = await wire(`session/${newSession()}/1`);
    const client = clientOf(desk.me.number);
    const gap = craft({
      sections: [{ client, clock: 5, structs: [item(any(floor('late')), { origin: { client, clock: 4 } })] }],
    });
    for (let i = 0; i <= LOW.gapsPer10s; i++) one.sendUpdate(gap);
    expect((await one.isClosed()).reason).toMatch(
      /^Too many updates that build on what is not here: at most 5 /,
    );
  });

  it('backlogBytes: a station that does not read is closed, and the others hear each other', async () => {
    await start('backlogBytes');
    const session = newSession();
    const room = await desk.enter(session);
    await room.add('desk', 'session.opened', { ticket: '1', clientRef: 'c', service: 'cuffs' });
    for (let i = 0; i < 40; i++) await room.add('desk', 'home.checked', { note: 'x'.repeat(1_900) });
    const deaf = new WebSocket(`${running.url.replace('http', 'ws')}/sync/session/${session}/1?protocol=1`, {
      headers: { cookie: desk.cookie },
    });
    ends.push(() => deaf.terminate());
    await until(() => deaf.readyState === WebSocket.OPEN, 'the socket to open');
    deaf.pause();
    const left = () =>
      running.log.some(({ msg, station }) => msg === 'socket left' && station === desk.me.number);
    // More answers of 80 KB than the buffers of the system hold, and so the server's own.
    for (let i = 0; i < STANDARD_LIMITS.questionsPer10s * 10 && !left(); i++) {
      if (i % (STANDARD_LIMITS.questionsPer10s - 1) === 0) running.clock.aheadMs += 10_000;
      deaf.send(step1Frame(new Uint8Array([0])));
      await new Promise((resolve) => setImmediate(resolve));
    }
    await until(left, 'the deaf station’s socket to be ended');
    const other = await (await running.station(['bench'])).enter(session);
    const id = await room.add('desk', 'home.checked', { note: 'still here' });
    await other.knows([id]);
    room.close();
    other.close();
  });
});

it('the log does not grow with what one connection is refused', async () => {
  await start();
  const one = await wire(`session/${newSession()}/1`);
  const client = clientOf(desk.me.number);
  for (let i = 0; i < 200; i++)
    one.sendUpdate(craft({ sections: [{ client: clientOf(99), clock: 0, structs: [item(any(opened()))] }] }));
  one.sendUpdate(
    craft({ sections: [{ client, clock: 0, structs: [item(any(opened('opened', desk.me.device)))] }] }),
  );
  await one.hears('durable', ({ clocks }) => clocks.get(client) === 1);
  expect(one.heard.filter(({ is }) => is === 'refused')).toHaveLength(200);
  expect(running.log.filter(({ msg }) => msg === 'fact refused').length).toBeLessThanOrEqual(20);
});

it('each limit that may be set was met above, but for the one that waits for a heartbeat', () => {
  expect([...met, 'sessionIdleSeconds'].sort()).toEqual([...LIMIT_NAMES].sort()); // tests/server/idle.slow.test.ts
});
