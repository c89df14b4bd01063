/** Who may write what, asked of a running server over real sockets: every role with every kind of fact. */
import { randomInt } from 'node:crypto';
import { readFileSync } from 'node:fs';
import * as encoding from 'lib0/encoding';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { CLIENT_SPAN, CLOSE, KIND_NAMES, MESSAGE } from '../../core/index.ts';
import type { Kind, Role } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { EXAMPLES } from '../properties/examples.ts';
import { until } from '../helpers/until.ts';
import { roomOf } from './helpers/again.ts';
import { asker } from './helpers/asks.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const WRITING = ['desk', 'measuring', 'bench'] as const;
type Writing = (typeof WRITING)[number];

/** Kind → the roles that the page of all facts names for it. */
const TOLD = new Map(
  [
    ...readFileSync(new URL('../../docs/fields.md', import.meta.url), 'utf8').matchAll(
      /^## `([a-z.-]+)`\n\nWritten by ([a-z, ]+)\.$/gm,
    ),
  ].map(([, kind, roles]) => [kind as Kind, roles!.split(', ') as Role[]]),
);
const may = (role: Role, kind: Kind) => TOLD.get(kind)!.includes(role);

let running: Running;
let all: Station;
let stations: Record<Writing, Station>;
let wall: Station;

beforeAll(async () => {
  running = await run({ limits: { ...STANDARD_LIMITS, framesPer10s: 10_000 } });
  all = await running.station([...WRITING]);
  const ask = asker(() => running.url);
  await ask('POST', '/api/corner/pin', all.cookie, { pin: '271828', again: '271828' });
  await ask('PUT', '/api/corner/settings', all.cookie, { evenToleranceMm: 2 });
  const [desk, measuring, bench] = await Promise.all(WRITING.map((role) => running.station([role])));
  stations = { desk: desk!, measuring: measuring!, bench: bench! };
  wall = await running.station(['wall']);
});
afterAll(() => running.close());

let count = 0;
const payloadOf = (kind: Kind) => EXAMPLES[kind].payload;
const fact = (station: Station, role: Role, kind: Kind, payload: object = payloadOf(kind)) => ({
  id: `f${String((count += 1))}`,
  kind,
  at: '2026-01-09T09:12:00+01:00',
  by: { role, station: station.me.device },
  ...payload,
});
type Sent = ReturnType<typeof fact>;

/** One station in one session: what it sends stays in its copy only when the server has kept it. */
class Sender {
  readonly #station: Station;
  readonly #wire: Wire;
  #doc: Y.Doc;

  private constructor(station: Station, wire: Wire, doc: Y.Doc) {
    this.#station = station;
    this.#wire = wire;
    this.#doc = doc;
  }

  static async in(station: Station, session: string): Promise<Sender> {
    const { room } = await roomOf(station, session);
    const wire = await new Wire(running.url, room, { cookie: station.cookie }).open();
    return new Sender(station, wire, await wire.document());
  }

  get facts(): Sent[] {
    return this.#doc.getArray<Sent>('facts').toArray();
  }

  /** `kept`, or the code of the refusal. */
  async send(sent: Sent): Promise<string> {
    const doc = new Y.Doc();
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(this.#doc));
    // Each under a client id of its own: a refusal blocks the id.
    doc.clientID = this.#station.me.number * CLIENT_SPAN + randomInt(2 ** 32);
    const before = Y.encodeStateVector(doc);
    doc.getArray('facts').push([sent]);
    const from = this.#wire.heard.length;
    this.#wire.sendUpdate(Y.encodeStateAsUpdate(doc, before));
    const answer = await Promise.race([
      this.#wire.hears('durable', ({ clocks }) => clocks.get(doc.clientID) === 1, from),
      this.#wire.hears('refused', ({ refused }) => refused.client === doc.clientID, from),
    ]);
    if (answer.is === 'refused') return answer.refused.code;
    this.#doc = doc;
    return 'kept';
  }

  close(): void {
    this.#wire.close();
  }
}

async function opened(): Promise<string> {
  const session = newSession();
  const sender = await Sender.in(all, session);
  expect(await sender.send(fact(all, 'desk', 'session.opened'))).toBe('kept');
  sender.close();
  return session;
}
const idsOnDisk = async (session: string) =>
  (await all.request<{ facts: Sent[] }>('GET', `/api/sessions/${session}/export`)).facts.map(({ id }) => id);

it('the page of all facts names who writes each kind', () => {
  expect([...TOLD.keys()].sort()).toEqual([...KIND_NAMES].sort());
});

describe.each(WRITING)('a %s station', (role) => {
  it('[ADM-1] gets in what its role may write, and nothing else of any kind, under its own role or another', async () => {
    const session = await opened();
    const station = stations[role];
    const sender = await Sender.in(station, session);
    const [first] = sender.facts;
    const answers: Record<string, string> = {};
    const wanted: Record<string, string> = {};
    const kept = await idsOnDisk(session);
    // What may be struck is struck below; here it is the last fact of its own.
    for (const kind of KIND_NAMES) {
      const own = sender.facts.at(-1)!.id;
      const sent = fact(
        station,
        role,
        kind,
        kind === 'struck' ? { fact: own, reason: 'typing error' } : payloadOf(kind),
      );
      wanted[kind] = !may(role, kind) ? 'permission' : kind === 'session.opened' ? 'opening' : 'kept';
      answers[kind] = await sender.send(sent);
      if (answers[kind] === 'kept') kept.push(sent.id);
      for (const other of TOLD.get(kind)!.filter((one) => one !== role)) {
        wanted[`${kind} as ${other}`] = 'identity';
        answers[`${kind} as ${other}`] = await sender.send(fact(station, other, kind));
      }
    }
    expect(answers).toEqual(wanted);
    expect(kept.length).toBeGreaterThan(5);
    expect(await idsOnDisk(session)).toEqual(kept);
    expect(first!.kind).toBe('session.opened');
    sender.close();
  });

  it('[ADM-4] strikes what its role may write, or anything at the desk; never the opening, never the server’s', async () => {
    const session = await opened();
    const writer = await Sender.in(all, session);
    for (const kind of KIND_NAMES) {
      const by = WRITING.find((one) => may(one, kind));
      if (by === undefined || kind === 'session.opened' || kind === 'struck') continue;
      expect(await writer.send(fact(all, by, kind)), kind).toBe('kept');
    }
    writer.close();
    const station = stations[role];
    const sender = await Sender.in(station, session);
    const targets = sender.facts;
    const open = KIND_NAMES.filter((kind) => kind !== 'struck' && !may('server', kind));
    expect(targets.map(({ kind }) => kind).sort()).toEqual([...open, 'settings.used'].sort());
    const answers: Record<string, string> = {};
    const wanted: Record<string, string> = {};
    for (const { id, kind, by } of targets) {
      const allowed =
        kind !== 'session.opened' && by.role !== 'server' && (role === 'desk' || may(role, kind));
      wanted[kind] = allowed ? 'kept' : 'permission';
      answers[kind] = await sender.send(fact(station, role, 'struck', { fact: id, reason: 'typing error' }));
    }
    expect(answers).toEqual(wanted);
    expect(new Set(Object.values(answers))).toEqual(new Set(['kept', 'permission']));
    sender.close();
  });
});

describe('a wall screen', () => {
  const syncFrame = (step: 1 | 2, update: Uint8Array) => {
    const encoder = encoding.createEncoder();
    encoding.writeVarUint(encoder, MESSAGE.sync);
    encoding.writeVarUint(encoder, step);
    encoding.writeVarUint8Array(encoder, update);
    return encoding.toUint8Array(encoder);
  };
  const board = async () => {
    const wire = await new Wire(running.url, `board/wall/${wall.me.boot}`, { cookie: wall.cookie }).open();
    return { wire, doc: await wire.document() };
  };
  const changes: [string, (doc: Y.Doc) => unknown][] = [
    ['a ticket of its own', (doc) => doc.getMap('tickets').set('x', { ticket: 'x' })],
    [
      'a ticket taken away',
      (doc) => [...doc.getMap('tickets').keys()].map((key) => doc.getMap('tickets').delete(key)),
    ],
    [
      'an entry of every kind',
      (doc) => doc.getArray('facts').push(KIND_NAMES.map((kind) => fact(wall, 'desk', kind))),
    ],
  ];

  it('changes nothing by any frame, on its own board or in any other room', async () => {
    const session = await opened();
    const before = await idsOnDisk(session);
    const tickets = await until(async () => {
      const { wire, doc } = await board();
      wire.close();
      const shown = doc.getMap('tickets').toJSON();
      return Object.keys(shown).length > 0 && shown;
    }, 'a ticket on the wall');
    for (const [name, change] of changes)
      for (const step of [1, 2] as const) {
        const { wire, doc } = await board();
        doc.clientID = wall.me.number * CLIENT_SPAN + randomInt(2 ** 32);
        const vector = Y.encodeStateVector(doc);
        change(doc);
        wire.send(syncFrame(step, Y.encodeStateAsUpdate(doc, vector)));
        await wire.ping();
        // A deletion alone, of what others wrote, is passed over.
        if (wire.closed || !name.includes('taken away'))
          expect((await wire.isClosed()).code, name).toBe(CLOSE.forbidden);
        wire.close();
      }
    const after = await board();
    expect(after.doc.getMap('tickets').toJSON()).toEqual(tickets);
    expect(after.doc.getArray('facts').length).toBe(0);
    after.wire.close();
    for (const room of [(await roomOf(all, session)).room, `board/desk/${wall.me.boot}`]) {
      const wire = await new Wire(running.url, room, { cookie: wall.cookie }).open();
      expect((await wire.isClosed()).code).toBe(CLOSE.forbidden);
    }
    expect(await idsOnDisk(session)).toEqual(before);
  });
});
