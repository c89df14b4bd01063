/** The last rule of the gate: a document that did not become what was foretold is dropped and read again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { CLOSE } from '../../core/index.ts';
import { makeGate, RULES } from '../../server/gate.ts';
import { openDatabase } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { bareHub } from './helpers/bare-hub.ts';
import { any, craft, item } from './helpers/craft.ts';
import { clientOf, floor, opened } from './helpers/entries.ts';
import { newSession } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';

const DESK = {
  number: 3,
  device: 'desk-3',
  name: 'desk',
  roles: ['desk', 'measuring'],
  pairing: 'p',
} as const;
const CLIENT = clientOf(3);

it('an update that leaves something waiting in the document is not stored, and the session is read again', async () => {
  const data = mkdtempSync(join(tmpdir(), 'fibula-hub-'));
  const db = openDatabase(data);
  const store = new Store(db, () => Date.now());
  const gate = makeGate(RULES.filter(({ name }) => name !== 'sections')); // as if the rule had a hole
  onTestFinished(() => rmSync(data, { recursive: true }));
  const { url } = await bareHub({
    data,
    db,
    store,
    gate,
    isCurrent: () => true,
    stationOf: () => DESK,
  });
  const session = newSession();
  const connect = () => new Wire(url, `session/${session}/1`).open();

  const wire = await connect();
  wire.sendUpdate(craft({ sections: [{ client: CLIENT, clock: 0, structs: [item(any(opened()))] }] }));
  await wire.hears('durable', ({ clocks }) => clocks.get(CLIENT) === 1);
  const behind = { client: CLIENT, clock: 0 };
  wire.sendUpdate(
    craft({
      sections: [
        { client: CLIENT, clock: 1, structs: [item(any(floor('f1', 'desk-3')), { origin: behind })] },
        {
          client: CLIENT,
          clock: 2,
          structs: [item(any(floor('f2', 'desk-3')), { origin: { client: CLIENT, clock: 1 } })],
        },
      ],
    }),
  );
  expect((await wire.isClosed()).code).toBe(CLOSE.again);

  const back = await connect();
  expect(idsOf(await back.document())).toEqual(['opened']);
  const good = craft({
    sections: [{ client: CLIENT, clock: 1, structs: [item(any(floor('f1', 'desk-3')), { origin: behind })] }],
  });
  back.sendUpdate(good);
  await back.hears('durable', ({ clocks }) => clocks.get(CLIENT) === 2);
  back.close();
});
