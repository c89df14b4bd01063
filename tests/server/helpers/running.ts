/** A server inside the test's process, on a real port with a real database file. */
import { randomBytes, randomInt } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import pino from 'pino';
import type { StationRole } from '../../../core/index.ts';
import { Station } from '../../../demo/station.ts';
import { STANDARD_LIMITS } from '../../../server/limit-table.ts';
import { startServer } from '../../../server/server.ts';
import { operatorPath } from '../../../server/setup/operator-path.mjs';
import type { RunningServer, ServerOptions } from '../../../server/server.ts';

/** One line of the server's log. */
export type LogLine = Readonly<Record<string, unknown>> & { readonly msg: string };

export interface Running {
  readonly server: RunningServer;
  readonly url: string;
  readonly data: string;
  readonly log: readonly LogLine[];
  /** What the server takes for now, ms since 1970; a test may move it. */
  clock: { aheadMs: number };
  /** Called for each line of the log as it is written. */
  readonly heard: { onLog(line: LogLine): void };
  station(roles: readonly StationRole[]): Promise<Station>;
  /** What `npm run authority` does: the server's own answer to the operator. */
  authority(step: 'prepare' | 'switch' | 'renew'): Promise<Record<string, unknown>>;
  /** Rows of the database file as another process would read them. */
  query(sql: string, ...values: readonly unknown[]): Record<string, unknown>[];
  /** Stops the server and keeps its data. */
  stop(): Promise<readonly string[]>;
  /** Stops it and removes its data. */
  close(): Promise<void>;
}

export async function run(options: Partial<ServerOptions> = {}): Promise<Running> {
  const data = options.data ?? mkdtempSync(join(tmpdir(), 'fibula-server-'));
  const log: LogLine[] = [];
  const clock = { aheadMs: 0 };
  const heard: Running['heard'] = { onLog: () => undefined };
  const write = (text: string) => {
    const line = JSON.parse(text) as LogLine;
    log.push(line);
    heard.onLog(line);
  };
  const server = await startServer(
    {
      port: 0,
      host: '127.0.0.1',
      data,
      plain: true,
      canonical: () => '127.0.0.1',
      names: () => ['127.0.0.1', 'localhost'],
      mdns: null,
      pages: join(data, 'no-pages'),
      shop: {},
      firstShop: { name: 'Test shop', timeZone: 'Europe/Vienna' },
      limits: STANDARD_LIMITS,
      ...options,
    },
    { now: () => Date.now() + clock.aheadMs, randomBytes: (count) => randomBytes(count), randomInt },
    pino({ level: 'debug' }, { write }),
  );
  return {
    server,
    url: server.address,
    data,
    log,
    clock,
    heard,
    station: (roles) =>
      Station.pair(server.address, server.stations.createCode(roles)!.code, roles.join(' and ')),
    authority: (step) => askOperator(data, { do: 'authority', step }),
    query: (sql, ...values) => {
      const db = new Database(join(data, 'fibula.db'), { readonly: true });
      try {
        return db.prepare(sql).all(...values) as Record<string, unknown>[];
      } finally {
        db.close();
      }
    },
    stop: () => server.stop(),
    close: async () => {
      await server.stop();
      rmSync(data, { recursive: true, force: true });
    },
  };
}

/** One line to the operator's socket, and the answer. */
function askOperator(data: string, command: object): Promise<Record<string, unknown>> {
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(operatorPath(data), () => socket.write(`${JSON.stringify(command)}\n`));
    socket.on('data', (part) => (text += String(part)));
    socket.on('error', reject);
    socket.on('close', () => resolve(JSON.parse(text) as Record<string, unknown>));
  });
}

export const newSession = (): string => randomBytes(16).toString('hex');
