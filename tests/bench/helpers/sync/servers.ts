/** Starts each server as a process of its own on a free port of 127.0.0.1, with an empty folder, and the load beside it. */
import { fork, spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Station } from '../../../../demo/station.ts';
import { serve } from '../../../helpers/server.ts';
import { ROLES } from './facts.ts';
import type { Flow, Held, Task } from './load.ts';
import type { Badge, ServerName } from './speech.ts';

const HERE = fileURLToPath(new URL('.', import.meta.url));
const START_MS = 60_000;
/** A load that is not done by then hangs. */
const LOAD_MS = 600_000;

export interface Running {
  readonly url: string;
  readonly pid: number;
  readonly badges: readonly Badge[];
  close(): Promise<void>;
}

/** Nothing of the load is more than a shop's worth a station; all of it comes from one address. */
const RAISED = {
  connections: 5_000,
  connectionsPerAddress: 5_000,
  upgradesPer10s: 100_000,
  requestsPer10s: 100_000,
  sockets: 5_000,
  socketsPerStation: 1_000,
};

async function ours(): Promise<Running> {
  const limits = Object.entries(RAISED).flatMap(([name, value]) => ['--limit', `${name}=${value}`]);
  const shop = await serve({ args: ['--no-mdns', '--log-level', 'warn', ...limits] });
  try {
    const badges: Badge[] = [];
    for (const role of ROLES) {
      const station = await Station.pair(shop.url, shop.code(ROLES), `the ${role}`);
      const { device, number, generation } = station.me;
      badges.push({ cookie: station.cookie, device, number, generation });
    }
    return { url: shop.url, pid: shop.server.process.pid!, badges, close: () => shop.close() };
  } catch (error) {
    await shop.close();
    throw error;
  }
}

async function peer(name: Exclude<ServerName, 'ours'>): Promise<Running> {
  const data = mkdtempSync(join(tmpdir(), 'fibula-peer-'));
  const child = spawn(process.execPath, [join(HERE, 'peers', `${name}.mjs`), data], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const close = async () => {
    if (child.exitCode === null && child.signalCode === null) {
      const gone = once(child, 'exit');
      child.kill('SIGTERM');
      await gone;
    }
    rmSync(data, { recursive: true, force: true });
  };
  try {
    return { url: await readyAt(child, name), pid: child.pid!, badges: [], close };
  } catch (error) {
    await close();
    throw error;
  }
}

function readyAt(child: ChildProcess, name: string): Promise<string> {
  return new Promise((resolve, reject) => {
    let written = '';
    const timer = setTimeout(() => reject(new Error(`${name} was not ready: ${written}`)), START_MS);
    child.once('exit', () => reject(new Error(`${name} ended before it was ready: ${written}`)));
    child.stdout!.on('data', (chunk: Buffer) => {
      written = (written + chunk.toString()).slice(-10_000);
      const url = /\bready (http:\S+)/.exec(written)?.[1];
      if (url === undefined) return;
      clearTimeout(timer);
      resolve(url);
    });
  });
}

export const start = (name: ServerName): Promise<Running> => (name === 'ours' ? ours() : peer(name));

/** Plays `what` against a server, in a process of its own. */
export async function play<Measured extends Flow | Held>(
  server: ServerName,
  { url, pid, badges }: Running,
  seed: number,
  what: Task['what'],
): Promise<Measured> {
  const child = fork(join(HERE, 'load.ts'), { execArgv: ['--import', 'tsx'] });
  const timer = setTimeout(() => child.kill('SIGKILL'), LOAD_MS);
  try {
    const answer = new Promise<{ measured: Measured } | { error: string }>((resolve, reject) => {
      child.once('message', (message) => resolve(message as { measured: Measured }));
      child.once('exit', (code, signal) => reject(new Error(`the load ended: ${code ?? signal}`)));
    });
    child.send({ server, url, pid, badges, seed, what } satisfies Task);
    const said = await answer;
    if ('error' in said) throw new Error(`the load of ${server} failed: ${said.error}`);
    return said.measured;
  } finally {
    clearTimeout(timer);
    if (child.exitCode === null) child.kill('SIGKILL');
  }
}
