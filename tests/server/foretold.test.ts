/** The last rule of the gate: a document that did not become what was foretold is dropped and read again. */
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pino from 'pino';
import { expect, it, onTestFinished } from 'vitest';
import { WebSocketServer } from 'ws';
import { CLOSE } from '../../core/index.ts';
import { freeBytes, writeProbe } from '../../server/disk.ts';
import { makeGate, RULES } from '../../server/gate.ts';
import { Health } from '../../server/health.ts';
import { Hub } from '../../server/hub.ts';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { openDatabase } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
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
  const log = pino({ level: 'silent' });
  const probe = (bytes: number) => writeProbe(db, bytes);
  const health = new Health({ log, probe, freeBytes: () => freeBytes(data), lowSpaceBytes: 0 });
  const limits = STANDARD_LIMITS;
  const isCurrent = () => true;
  const hub = new Hub({
    store,
    log,
    gate,
    isCurrent,
    health,
    pinned: () => [],
    boot: 1,
    limits,
    now: () => Date.now(),
  });
  const http = createServer();
  const sockets = new WebSocketServer({ server: http });
  sockets.on('connection', (socket, request) =>
    hub.connect(socket, DESK, new URL(request.url!, 'http://here').pathname.replace('/sync/', '')),
  );
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    hub.stop();
    health.stop();
    hub.terminate();
    sockets.close();
    http.close();
    db.close();
    rmSync(data, { recursive: true });
  });
  const session = newSession();
  const connect = () =>
    new Wire(`http://127.0.0.1:${(http.address() as AddressInfo).port}`, `session/${session}/1`).open();

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
