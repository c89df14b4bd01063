/** A shop under attack: a real server process, two honest stations, and attackers who are paired as well. */
import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type * as Y from 'yjs';
import { CLIENT_SPAN } from '../../core/index.ts';
import type { StationRole } from '../../core/index.ts';
import { operatorCode, startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import { LIMIT_NAMES, SETTABLE } from '../../server/limit-table.ts';
import { Wire } from '../server/helpers/wire.ts';
import { Honest } from './honest.ts';
import type { Target } from './target.ts';

export interface Shop {
  readonly server: ServerProcess;
  readonly log: string;
  readonly honest: Honest;
  /** Of the honest session, and of one of the attackers' own. */
  readonly rooms: { readonly honest: string; readonly own: string };
  readonly measuring: Station;
  /** Paired as desk, measuring and bench at once. */
  readonly all: Station;
  readonly wall: Station;
  close(): Promise<void>;
}

/** `raised`: how often and how much is not limited, or nothing but the limits would be attacked. */
export type LimitsOf = 'raised' | 'standard';

const raised = (): string[] =>
  LIMIT_NAMES.filter((name) => /Per10s$|^(connections|sockets)/.test(name)).flatMap((name) => [
    '--limit',
    `${name}=${SETTABLE[name].most}`,
  ]);

/** Two honest stations, and three that attack. */
const PAIRED: readonly (readonly StationRole[])[] = [
  ['desk'],
  ['measuring'],
  ['measuring'],
  ['desk', 'measuring', 'bench'],
  ['wall'],
];

export async function openShop(limits: LimitsOf): Promise<Shop> {
  const data = mkdtempSync(join(tmpdir(), 'fibula-fuzz-'));
  const log = join(data, 'fuzz.log');
  const args = ['--plain', '--host', '127.0.0.1', '--port', '0', '--log-file', log];
  const server = await startServer(data, [...args, ...(limits === 'raised' ? raised() : [])], 120_000, {
    file: 'tests/fuzz/server.ts',
  });
  // All codes first: asking for one holds up this process, in which an idle connection grows too old to be used again.
  const codes = PAIRED.map((roles) => operatorCode(data, roles));
  const stations: Station[] = [];
  for (const [index, code] of codes.entries())
    stations.push(await Station.pair(server.url, code, PAIRED[index]!.join(' and ')));
  const [desk, floor, measuring, all, wall] = stations as [Station, Station, Station, Station, Station];
  const id = () => randomBytes(16).toString('hex');
  const honest = await Honest.open(id(), desk, floor);
  const own = id();
  const room = await all.enter(own);
  await room.add('desk', 'session.opened', { ticket: '2-1', clientRef: 'c2', service: 'cuffs' });
  room.close();
  const nameOf = async (session: string) =>
    (await desk.request<{ room: string }>('GET', `/api/sessions/${session}/room`)).room;
  return {
    server,
    log,
    honest,
    rooms: { honest: await nameOf(honest.session), own: await nameOf(own) },
    measuring,
    all,
    wall,
    close: async () => {
      honest.close();
      await server.stop();
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** What this station finds out about a room by asking for the whole of it. */
export async function scout(station: Station, room: string, page: number): Promise<Target> {
  const wire = await new Wire(station.url, room, { cookie: station.cookie }).open();
  try {
    const doc: Y.Doc = await wire.document();
    const first = doc.getArray('facts')._start?.id ?? { client: 1, clock: 0 };
    return {
      number: station.me.number,
      device: station.me.device,
      first: { client: first.client, clock: first.clock },
      others: [...doc.store.clients.keys()],
      own: { client: station.me.number * CLIENT_SPAN + page, clock: 0 },
      overheard: [],
    };
  } finally {
    wire.close();
  }
}
