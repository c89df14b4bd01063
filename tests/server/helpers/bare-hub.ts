/** A hub on a real port and a real database, without the rest of the server: a test puts in a gate of its own. */
import { createServer } from 'node:http';
import type { IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import pino from 'pino';
import { onTestFinished } from 'vitest';
import { WebSocketServer } from 'ws';
import { CLOSE } from '../../../core/index.ts';
import { freeBytes, writeProbe } from '../../../server/disk.ts';
import type { Gate } from '../../../server/gate.ts';
import { Health } from '../../../server/health.ts';
import { Hub } from '../../../server/hub.ts';
import { STANDARD_LIMITS } from '../../../server/limit-table.ts';
import type { Station } from '../../../server/pair.ts';
import type { Db } from '../../../server/schema.ts';
import { Spoilt } from '../../../server/spoilt.ts';
import type { Store } from '../../../server/store.ts';

export interface BareHubOptions {
  readonly data: string;
  readonly db: Db;
  readonly store: Store;
  readonly gate: Gate;
  isCurrent(station: Station): boolean;
  /** Whose socket it is; null for nobody's. */
  stationOf(request: IncomingMessage): Station | null;
}

/** Ended, and the database closed, when the test has finished. */
export async function bareHub(options: BareHubOptions): Promise<{ readonly hub: Hub; readonly url: string }> {
  const { data, db, store, gate, isCurrent, stationOf } = options;
  const log = pino({ level: 'silent' });
  const probe = (bytes: number) => writeProbe(db, bytes);
  const health = new Health({ log, probe, freeBytes: () => freeBytes(data), lowSpaceBytes: 0 });
  const spoilt = new Spoilt();
  const limits = STANDARD_LIMITS;
  const now = () => Date.now();
  const hub = new Hub({
    store,
    log,
    gate,
    isCurrent,
    health,
    spoilt,
    own: () => [],
    learn: () => undefined,
    boot: 1,
    limits,
    now,
  });
  const http = createServer();
  const sockets = new WebSocketServer({ server: http });
  sockets.on('connection', (socket, request) => {
    const station = stationOf(request);
    if (!station) return socket.close(CLOSE.unpaired, 'no');
    hub.connect(socket, station, new URL(request.url!, 'http://here').pathname.replace('/sync/', ''));
  });
  await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => {
    hub.stop();
    health.stop();
    hub.terminate();
    sockets.close();
    http.close();
    db.close();
  });
  return { hub, url: `http://127.0.0.1:${(http.address() as AddressInfo).port}` };
}
