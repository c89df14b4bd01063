/** The real server, killed in the middle of a burst: what was acknowledged is there after the restart. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { operatorCode, startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { newSession } from './helpers/running.ts';

let data: string;
let servers: ServerProcess[] = [];

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-kill-'));
});
afterEach(async () => {
  for (const server of servers) await server.stop();
  servers = [];
  rmSync(data, { recursive: true, force: true });
});

async function start(): Promise<ServerProcess> {
  const server = await startServer(data, ['--plain', '--host', '127.0.0.1', '--port', '0']);
  servers.push(server);
  return server;
}

describe('a kill', () => {
  it.each([7, 40, 95])(
    'in the middle of a burst, after %i acknowledged facts, loses none of them',
    async (enough) => {
      const server = await start();
      const pair = () => Station.pair(server.url, operatorCode(data, ['desk', 'measuring']), 'x');
      const stations = [await pair(), await pair(), await pair()];
      const session = newSession();
      const rooms = [await stations[0]!.enter(session)];
      const saved = [
        await rooms[0]!.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' }),
      ];
      for (const station of stations.slice(1)) rooms.push(await station.enter(session));

      const burst = rooms.map(async (room) => {
        // Several at a time, so that some are on their way to the disk when the end comes.
        const adding = async () => {
          for (;;)
            saved.push(await room.add('measuring', 'floor.checked', { crossDeg: 0, alongDeg: 0 } as never));
        };
        await Promise.allSettled([adding(), adding(), adding(), adding()]);
      });
      await until(() => saved.length >= enough, `${enough} acknowledged facts`);
      server.process.kill('SIGKILL');
      await until(() => server.process.signalCode === 'SIGKILL', 'the process to end');
      const acknowledged = [...saved];
      for (const room of rooms) room.close();
      await Promise.all(burst);

      const again = await start();
      const desk = await Station.pair(again.url, operatorCode(data, ['desk']), 'y');
      const { facts } = await desk.request<{ facts: Fact[] }>('GET', `/api/sessions/${session}/export`);
      const there = new Set(facts.map(({ id }) => id));
      expect(acknowledged.filter((id) => !there.has(id))).toEqual([]);
      expect(facts.length).toBe(there.size);
      const room = await desk.enter(session);
      await room.add('desk', 'home.checked', { note: 'after' });
      room.close();
    },
  );
});
