/** Gate, commit, then relay and acknowledge: nobody sees a fact that is not on disk. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import Database from 'better-sqlite3';
import { join } from 'node:path';
import * as Y from 'yjs';
import type { Station } from '../../demo/station.ts';
import { step1Frame } from '../../server/frames.ts';
import { until } from '../helpers/until.ts';
import { any, craft, item } from './helpers/craft.ts';
import { clientOf, floor, opened } from './helpers/entries.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';

let running: Running;
let desk: Station;
let measuring: Station;
let session: string;
let wires: Wire[];

beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  measuring = await running.station(['measuring']);
  session = newSession();
  wires = [];
});
afterEach(async () => {
  for (const wire of wires) wire.close();
  await running.close();
});

const connect = (station: Station): Promise<Wire> => {
  const wire = new Wire(running.url, `session/${session}/1`, { cookie: station.cookie });
  wires.push(wire);
  return wire.open();
};
const deskClient = () => clientOf(desk.me.number);
const client = () => clientOf(measuring.me.number);
const first = () =>
  craft({
    sections: [{ client: deskClient(), clock: 0, structs: [item(any(opened('opened', desk.me.device)))] }],
  });
const fact = (clock: number, id = `f${clock}`) =>
  craft({
    sections: [
      {
        client: client(),
        clock,
        structs: [
          item(any(floor(id, measuring.me.device)), {
            origin: clock === 0 ? { client: deskClient(), clock: 0 } : { client: client(), clock: clock - 1 },
          }),
        ],
      },
    ],
  });
const stored = () => running.query('SELECT id FROM facts').map(({ id }) => id);

async function open(): Promise<{ at: Wire; watching: Wire }> {
  const watching = await connect(desk);
  watching.sendUpdate(first());
  await watching.hears('durable', ({ clocks }) => clocks.get(deskClient()) === 1);
  return { at: await connect(measuring), watching };
}

describe('the order', () => {
  it('a fact is in the file, as another process reads it, when the first other station hears of it', async () => {
    const { at, watching } = await open();
    for (let i = 0; i < 20; i++) {
      const before = watching.heard.length;
      at.sendUpdate(fact(i));
      await watching.hears('update', () => true, before);
      expect(stored()).toContain(`f${i}`);
    }
  });

  it('what is relayed is what the document said, not what the station sent', async () => {
    const { at, watching } = await open();
    at.sendUpdate(fact(0));
    await watching.hears('update');
    const sent = craft({
      sections: [
        {
          client: client(),
          clock: 0,
          structs: [
            item(any(floor('f0', measuring.me.device)), { origin: { client: deskClient(), clock: 0 } }),
            item(any(floor('f1', measuring.me.device)), { origin: { client: client(), clock: 0 } }),
          ],
        },
      ],
    });
    const before = watching.heard.length;
    at.sendUpdate(sent);
    const { update } = await watching.hears('update', () => true, before);
    expect(Y.decodeUpdate(update).structs.map(({ id }) => id.clock)).toEqual([1]);
    const [last] = running.query('SELECT bytes FROM updates ORDER BY document DESC, n DESC LIMIT 1');
    expect(Buffer.compare(last!['bytes'] as Buffer, Buffer.from(update))).toBe(0);
  });

  it('updates of one tick share one commit, and each is acknowledged', async () => {
    const { at } = await open();
    for (let i = 0; i < 50; i++) at.sendUpdate(fact(i));
    await at.hears('durable', ({ clocks }) => clocks.get(client()) === 50);
    expect(running.query('SELECT id FROM facts')).toHaveLength(51);
    // What came together is one row, told to others in one frame.
    expect(running.query('SELECT n FROM updates').length).toBeLessThan(51);
  });

  it('an update that holds nothing new is acknowledged too', async () => {
    const { at } = await open();
    at.sendUpdate(fact(0));
    await at.hears('durable', ({ clocks }) => clocks.get(client()) === 1);
    const before = at.heard.length;
    at.sendUpdate(fact(0));
    const { clocks } = await at.hears('durable', () => true, before);
    expect([...clocks]).toEqual([[client(), 1]]);
    expect(stored()).toEqual(['f0', 'opened']);
  });

  it('a fact that is there already is said to be, and its update is not taken', async () => {
    const { at } = await open();
    at.sendUpdate(fact(0));
    const page = clientOf(measuring.me.number, 2);
    at.sendUpdate(
      craft({
        sections: [
          {
            client: page,
            clock: 0,
            structs: [
              item(any(floor('f0', measuring.me.device)), { origin: { client: client(), clock: 0 } }),
            ],
          },
        ],
      }),
    );
    expect((await at.hears('already')).ids).toEqual(['f0']);
    expect(idsOf(await at.document())).toEqual(['opened', 'f0']);
  });

  it('what is on disk is told on connecting, in full', async () => {
    const { at } = await open();
    at.sendUpdate(fact(0));
    await at.hears('durable', ({ clocks }) => clocks.get(client()) === 1);
    const { clocks } = await (await connect(desk)).hears('durable');
    expect(clocks).toEqual(
      new Map([
        [deskClient(), 1],
        [client(), 1],
      ]),
    );
  });

  it('everything is there after a restart from the same directory', async () => {
    const { at } = await open();
    for (let i = 0; i < 10; i++) at.sendUpdate(fact(i));
    await at.hears('durable', ({ clocks }) => clocks.get(client()) === 10);
    const before = idsOf(await at.document());
    expect(await running.stop()).toEqual([]);
    const again = await run({ data: running.data });
    try {
      const wire = await new Wire(again.url, `session/${session}/1`, { cookie: measuring.cookie }).open();
      wires.push(wire);
      expect(idsOf(await wire.document())).toEqual(before);
      wire.sendUpdate(fact(10));
      await wire.hears('durable', ({ clocks }) => clocks.get(client()) === 11);
      const me = await fetch(`${again.url}/api/me`, { headers: { cookie: measuring.cookie } });
      expect(await me.json()).toMatchObject({ ...measuring.me, boot: 2 });
    } finally {
      await again.stop();
    }
  });
});

describe('a commit that fails', () => {
  it('is seen by nobody; the sockets stay, and once the disk takes entries the stations are asked for it', async () => {
    const { at, watching } = await open();
    await at.document();
    const foreign = new Database(join(running.data, 'fibula.db'));
    foreign.exec('BEGIN IMMEDIATE'); // a foreign program holds the file
    const heardBefore = [at, watching].map((wire) => wire.heard.length);
    at.sendUpdate(fact(0));
    at.send(step1Frame(new Uint8Array([0]))); // whoever asks now waits for the commit as well
    const { update } = await at.hears('step2', () => true, heardBefore[0]);
    const shown = new Y.Doc();
    Y.applyUpdate(shown, update);
    expect(idsOf(shown)).toEqual(['opened']);
    await watching.hears('status', ({ status }) => status.readOnly === 'locked', heardBefore[1]);
    const heard = (wire: Wire, from: number) => wire.heard.slice(from).map(({ is }) => is);
    expect(heard(at, heardBefore[0]!)).toEqual(['status', 'step2']);
    expect(heard(watching, heardBefore[1]!)).toEqual(['status']);
    foreign.exec('ROLLBACK');
    foreign.close();

    await watching.hears('status', ({ status }) => status.readOnly === null, heardBefore[1]);
    await at.hears('step1', () => true, heardBefore[0]);
    at.sendUpdate(fact(0));
    await at.hears('durable', ({ clocks }) => clocks.get(client()) === 1, heardBefore[0]);
    expect([at.closed, watching.closed]).toEqual([null, null]);
    expect(stored()).toEqual(['f0', 'opened']);
    expect(running.log.some(({ msg }) => msg === 'commit failed')).toBe(true);
  });

  it('at the stop is said', async () => {
    const { at } = await open();
    await at.document();
    const foreign = new Database(join(running.data, 'fibula.db'));
    foreign.exec('BEGIN IMMEDIATE');
    let stopping: Promise<readonly string[]> | undefined;
    // The refusal comes right behind the good fact, before the commit of either.
    running.heard.onLog = ({ msg }) => {
      if (msg === 'fact refused') stopping ??= running.stop();
    };
    at.sendUpdate(fact(0));
    at.sendUpdate(fact(1, 'not an id'));
    await until(() => stopping, 'the server to stop');
    expect(await stopping).toEqual([session]);
    foreign.exec('ROLLBACK');
    foreign.close();
    expect(stored()).toEqual(['opened']);
  });
});
