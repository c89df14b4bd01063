/** Bad input at the door and in the room: refused with a reason, nothing stored, the server still serving. */
import { connect as connectTcp } from 'node:net';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { CLOSE, LIMIT } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { presenceFrame } from '../../server/frames.ts';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { BOUND } from '../../server/limits.ts';
import { until } from '../helpers/until.ts';
import { any, craft, item } from './helpers/craft.ts';
import { clientOf, entry, floor, opened, reading } from './helpers/entries.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';
import type { WireOptions } from './helpers/wire.ts';

let running: Running;
let desk: Station;
let measuring: Station;
let wall: Station;
let session: string;
let wires: Wire[] = [];

beforeAll(async () => {
  running = await run();
  desk = await running.station(['desk']);
  measuring = await running.station(['measuring']);
  wall = await running.station(['wall']);
});
afterAll(() => running.close());
afterEach(() => {
  for (const wire of wires) wire.close();
  wires = [];
});

const connect = (room: string, options: WireOptions = {}): Promise<Wire> => {
  const wire = new Wire(running.url, room, options);
  wires.push(wire);
  return wire.open();
};

/** A new session with its first fact, and the measuring station's socket in it. */
async function inSession(): Promise<Wire> {
  session = newSession();
  const at = await connect(`session/${session}/1`, { cookie: desk.cookie });
  at.sendUpdate(
    craft({
      sections: [
        {
          client: clientOf(desk.me.number),
          clock: 0,
          structs: [item(any(opened('opened', desk.me.device)))],
        },
      ],
    }),
  );
  await at.hears('durable', ({ clocks }) => clocks.get(clientOf(desk.me.number)) === 1);
  return connect(`session/${session}/1`, { cookie: measuring.cookie });
}

const first = () => ({ client: clientOf(desk.me.number), clock: 0 });
const by = (...values: readonly unknown[]) =>
  craft({
    sections: [
      {
        client: clientOf(measuring.me.number),
        clock: 0,
        structs: [item(any(...values), { origin: first() })],
      },
    ],
  });
const good = () => by(floor('good', measuring.me.device));

/** Only the first fact is on disk, and another station can still add one. */
async function stillServing(): Promise<void> {
  const stored = running.query(
    'SELECT facts.id FROM facts JOIN documents ON documents.id = document WHERE session = ?',
    session,
  );
  expect(stored).toEqual([{ id: 'opened' }]);
  const wire = await connect(`session/${session}/1`, { cookie: measuring.cookie });
  wire.sendUpdate(good());
  await wire.hears('durable', ({ clocks }) => clocks.get(clientOf(measuring.me.number)) === 1);
  expect(idsOf(await wire.document())).toEqual(['opened', 'good']);
}

describe('at the door', () => {
  it.each([
    ['without a cookie', {}],
    ['with a made-up cookie', { cookie: 'fibula=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA' }],
  ])('an unpaired socket is told so: %s', async (_title, options) => {
    const { code, reason } = await (await connect(`session/${newSession()}/1`, options)).isClosed();
    expect(code).toBe(CLOSE.unpaired);
    expect(reason).toMatch(/not paired/);
  });

  it('a wall screen sees the wall board and no session, no desk board', async () => {
    await inSession();
    const { boot } = wall.me;
    for (const room of [`session/${session}/1`, `session/${newSession()}/1`, `board/desk/${boot}`]) {
      const { code, reason } = await (await connect(room, { cookie: wall.cookie })).isClosed();
      expect(code).toBe(CLOSE.forbidden);
      expect(reason).toMatch(/wall board and nothing else/);
    }
    const board = await connect(`board/wall/${boot}`, { cookie: wall.cookie });
    await until(async () => (await board.document()).getMap('tickets').size > 0, 'a ticket on the wall');
    const text = JSON.stringify((await board.document()).getMap('tickets').toJSON());
    expect(text).not.toMatch(/c1|clientRef/);
    await stillServing();
  });

  it.each([
    ['a foreign page', { origin: 'http://elsewhere.example' }],
    ['a page of another port', { origin: 'http://127.0.0.1:1' }],
    ['a foreign name that points here', { host: 'elsewhere.example', origin: 'http://elsewhere.example' }],
  ])('%s may not connect, even with a cookie', async (_title, options) => {
    const wire = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie, ...options });
    expect((await wire.isClosed()).code).toBe(CLOSE.forbidden);
  });

  it('our own page may', async () => {
    const wire = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie, origin: running.url });
    await wire.document();
  });

  it.each([
    ['an old run’s board', 'board/desk/0'],
    ['an unknown room', 'cupboard'],
    ['an undecodable name', 'session/%E0%A4%A'],
    ['a session id that is none', 'session/abc/1'],
    ['a generation that is none', `session/${'a'.repeat(32)}/0`],
    ['a generation that never was', `session/${'a'.repeat(32)}/2`],
  ])('%s is gone', async (_title, room) => {
    expect((await (await connect(room, { cookie: desk.cookie })).isClosed()).code).toBe(CLOSE.gone);
  });

  it('only the desk comes into a session that is not there yet', async () => {
    const { code, reason } = await (
      await connect(`session/${newSession()}/1`, { cookie: measuring.cookie })
    ).isClosed();
    expect(code).toBe(CLOSE.gone);
    expect(reason).toMatch(/the desk opens/);
  });

  it('another protocol version is told to load the page again', async () => {
    const wire = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie, protocol: 999 });
    expect((await wire.isClosed()).code).toBe(CLOSE.version);
  });

  it.each([
    ['a path that is none', '//'],
    ['no sync path', '/elsewhere'],
    ['a whole address', 'http://elsewhere.example/sync/x'],
    ['a broken one', '/sync/%zz?protocol=%'],
  ])('an upgrade for %s, broken off at once, does no harm', async (_title, target) => {
    const { hostname, port } = new URL(running.url);
    const head = [
      `GET ${target} HTTP/1.1`,
      `Host: ${hostname}:${port}`,
      'Connection: Upgrade',
      'Upgrade: websocket',
    ];
    const key = ['Sec-WebSocket-Version: 13', 'Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA=='];
    const socket = connectTcp(Number(port), hostname, () => {
      socket.write(`${[...head, ...key].join('\r\n')}\r\n\r\n`);
      socket.resetAndDestroy();
    });
    await until(() => socket.destroyed, 'the socket to be reset');
    const polite = connectTcp(Number(port), hostname, () =>
      polite.write(`${[...head, ...key].join('\r\n')}\r\n\r\n`),
    );
    await new Promise((resolve) => polite.once('data', resolve));
    polite.destroy();
    expect((await fetch(`${running.url}/healthz`)).status).toBe(200);
  });

  it('one station does not get all sockets', async () => {
    const bench = await running.station(['bench']);
    const room = `board/desk/${bench.me.boot}`;
    for (let i = 0; i < STANDARD_LIMITS.socketsPerStation; i++)
      await (await connect(room, { cookie: bench.cookie })).document();
    expect((await (await connect(room, { cookie: bench.cookie })).isClosed()).code).toBe(CLOSE.again);
    await (await connect(room, { cookie: measuring.cookie })).document();
  });
});

describe('in the room', () => {
  it.each([
    ['a gap of 900 mm', () => by(reading('r', 900, measuring.me.device)), 'shape', 'medialMm'],
    [
      'a wrong role',
      () =>
        by(
          entry('x', 'bench', measuring.me.device, {
            kind: 'shell.worked',
            side: 'left',
            spot: 'navicular',
            method: 'punch',
          }),
        ),
      'identity',
      'by.role',
    ],
    [
      'a kind of another role',
      () => by(entry('x', 'measuring', measuring.me.device, { kind: 'home.checked', note: '' })),
      'permission',
      'kind',
    ],
    ['another device’s name', () => by(floor('x', desk.me.device)), 'identity', 'by.station'],
    [
      'a second session.opened',
      () =>
        by(
          entry('x', 'desk', measuring.me.device, {
            kind: 'session.opened',
            ticket: '1',
            clientRef: 'c',
            service: 'cuffs',
          }),
        ),
      'identity',
      'by.role',
    ],
  ])('%s is refused with the field', async (_title, update, code, field) => {
    const wire = await inSession();
    wire.sendUpdate(update());
    const { refused } = await wire.hears('refused');
    expect(refused).toMatchObject({ code, field, client: clientOf(measuring.me.number) });
    expect(wire.closed).toBeNull();
    await stillServing();
  });

  it('a second owner of a client id is refused', async () => {
    const wire = await inSession();
    wire.sendUpdate(
      craft({
        sections: [
          {
            ...first(),
            clock: 1,
            structs: [item(any(floor('x', measuring.me.device)), { origin: first() })],
          },
        ],
      }),
    );
    const { refused } = await wire.hears('refused');
    expect(refused).toMatchObject({ code: 'identity', field: 'client', client: first().client });
    await stillServing();
  });

  it.each<[string, () => Uint8Array | string, number]>([
    ['an empty frame', () => new Uint8Array(), CLOSE.malformed],
    ['a text frame', () => 'hello', CLOSE.malformed],
    ['a frame that ends early', () => new Uint8Array([0, 2, 90, 1, 2, 3]), CLOSE.malformed],
    ['an unknown sync step', () => new Uint8Array([0, 9, 0]), CLOSE.malformed],
    ['a state vector that is none', () => new Uint8Array([0, 0, 1, 200]), CLOSE.malformed],
    ['presence that is no JSON', () => new Uint8Array([1, 5, 1, 1, 1, 1, 123]), CLOSE.malformed],
    ['an update that cannot be read', () => new Uint8Array([0, 2, 3, 255, 255, 255]), CLOSE.malformed],
    ['a frame over the limit', () => new Uint8Array(LIMIT.frameBytes + 1), CLOSE.tooMuch],
    ['a frame far over the limit', () => new Uint8Array(BOUND.frameBytesRead + 1), 1009],
  ])('%s closes the connection with a reason', async (_title, frame, code) => {
    const wire = await inSession();
    wire.send(frame());
    const closed = await wire.isClosed();
    expect(closed.code).toBe(code);
    if (code !== 1009) expect(closed.reason.length).toBeGreaterThan(10);
    await stillServing();
  });

  it('a deletion closes the connection and deletes nothing', async () => {
    const wire = await inSession();
    wire.sendUpdate(craft({ sections: [], deletes: [{ ...first(), length: 1 }] }));
    expect(await wire.isClosed()).toMatchObject({
      code: CLOSE.malformed,
      reason: expect.stringMatching(/no-deletes/) as string,
    });
    await stillServing();
  });

  it('a gap is asked about, and a station that never fills it is closed', async () => {
    const wire = await inSession();
    await wire.hears('step1');
    const late = craft({
      sections: [
        {
          client: clientOf(measuring.me.number),
          clock: 5,
          structs: [item(any(floor('late', measuring.me.device)), { origin: first() })],
        },
      ],
    });
    const before = wire.heard.length;
    wire.sendUpdate(late);
    await wire.hears('step1', () => true, before);
    for (let i = 0; i <= STANDARD_LIMITS.gapsPer10s; i++) wire.sendUpdate(late);
    expect((await wire.isClosed()).code).toBe(CLOSE.tooMuch);
    await stillServing();
  });

  it('who asks for the whole document without end is closed', async () => {
    const wire = await inSession();
    for (let i = 0; i <= STANDARD_LIMITS.questionsPer10s; i++) wire.send(new Uint8Array([0, 0, 1, 0]));
    expect((await wire.isClosed()).code).toBe(CLOSE.tooMuch);
    await stillServing();
  });

  it('who sends frames without end is closed', async () => {
    const wire = await inSession();
    for (let i = 0; i <= STANDARD_LIMITS.framesPer10s; i++) wire.send(new Uint8Array([3]));
    expect((await wire.isClosed()).code).toBe(CLOSE.tooMuch);
    await stillServing();
  });

  it('a message of an unknown number is read past', async () => {
    const wire = await inSession();
    wire.send(new Uint8Array([100, 1, 2, 3]));
    wire.send(new Uint8Array([55]));
    wire.sendUpdate(good());
    await wire.hears('durable', ({ clocks }) => clocks.get(clientOf(measuring.me.number)) === 1);
  });

  it('nobody writes on a board', async () => {
    const board = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie });
    const mine = new Y.Doc();
    mine.getMap('jobs').set('x', { ticket: 'x' });
    board.sendUpdate(Y.encodeStateAsUpdate(mine));
    expect((await board.isClosed()).code).toBe(CLOSE.forbidden);
    const again = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie });
    expect((await again.document()).getMap('jobs').has('x')).toBe(false);
  });

  it('a copy of the board that comes back with its deletions changes nothing', async () => {
    await inSession();
    const board = await connect(`board/desk/${desk.me.boot}`, { cookie: desk.cookie });
    const doc = await until(async () => {
      const copy = await board.document();
      return copy.getMap('jobs').has(session) && copy;
    }, 'the job on the board');
    doc.getMap('jobs').delete(session);
    board.sendUpdate(Y.encodeStateAsUpdate(doc, Y.encodeStateVector(doc)));
    expect((await board.document()).getMap('jobs').has(session)).toBe(true);
  });
});

describe('presence', () => {
  it('is a socket’s own, and the server says who it is', async () => {
    const wire = await inSession();
    const watching = await connect(`session/${session}/1`, { cookie: desk.cookie });
    const own = clientOf(measuring.me.number);
    const state = {
      device: 'desk-1',
      name: 'somebody else',
      role: 'measuring',
      initials: 'AB',
      doing: { side: 'left', act: 'reading' },
      more: 1,
    };
    wire.send(
      presenceFrame([
        { client: clientOf(desk.me.number), clock: 1, state },
        { client: own, clock: 1, state },
      ]),
    );
    const { states } = await watching.hears('presence');
    const { device, name } = measuring.me;
    expect([...states]).toEqual([
      [own, { device, name, role: 'measuring', initials: 'AB', doing: { side: 'left', act: 'reading' } }],
    ]);
    const before = watching.heard.length;
    wire.close();
    expect([...(await watching.hears('presence', () => true, before)).states]).toEqual([[own, null]]);
  });

  it('is told to who comes later, and not under a role that was not granted', async () => {
    const wire = await inSession();
    const own = clientOf(measuring.me.number);
    wire.send(presenceFrame([{ client: own, clock: 1, state: { role: 'bench' } }]));
    wire.send(presenceFrame([{ client: own, clock: 2, state: { role: 'measuring' } }]));
    await wire.document();
    const later = await connect(`session/${session}/1`, { cookie: desk.cookie });
    const { states } = await later.hears('presence');
    expect(states.get(own)).toMatchObject({ role: 'measuring' });
  });
});
