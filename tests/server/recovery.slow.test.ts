/** What the person at the server's console sees, and does, when data or disk are not as they should be. */
import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { operatorCode, startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { until } from '../helpers/until.ts';
import { newSession } from './helpers/running.ts';

const PLAIN = ['--plain', '--host', '127.0.0.1', '--port', '0'];
const PAGE = 4_096;
const NOBODY = 65_534;
const NO_LOCKS = fileURLToPath(new URL('../helpers/no-locks.mjs', import.meta.url));
let data: string;
let servers: ServerProcess[] = [];

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-recovery-'));
});
afterEach(async () => {
  for (const server of servers) await server.stop();
  servers = [];
  rmSync(data, { recursive: true, force: true });
});

async function start(args: readonly string[] = PLAIN): Promise<ServerProcess> {
  const server = await startServer(data, args);
  servers.push(server);
  return server;
}

/** Starts the program, which is expected to end by itself. */
async function refused(
  as: { uid?: number; env?: NodeJS.ProcessEnv } = {},
): Promise<{ code: number | null; said: string }> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', ...PLAIN, '--data', data], {
    stdio: ['ignore', 'pipe', 'pipe'],
    ...as,
  });
  let said = '';
  child.stdout.on('data', (part) => (said += String(part)));
  child.stderr.on('data', (part) => (said += String(part)));
  await until(() => child.exitCode !== null || child.signalCode !== null, 'the server to give up', 60_000);
  return { code: child.exitCode, said };
}

it('a database that a kill and a bad disk have damaged is named, and the command that is printed mends it', async () => {
  const server = await start();
  const desk = await Station.pair(server.url, operatorCode(data, ['desk']), 'Counter');
  const session = newSession();
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  for (let i = 0; i < 10; i++) await room.add('desk', 'home.checked', { note: `${i} ${'.'.repeat(1_500)}` });
  const backup = join(data, 'backups', 'by-hand.db');
  const made = spawnSync(process.execPath, ['server/setup/backup.mjs', backup, '--data', data], {
    encoding: 'utf8',
  });
  expect(made.stderr + made.stdout).toMatch(/by-hand\.db/);
  room.close();
  server.process.kill('SIGKILL');
  await until(() => server.process.signalCode === 'SIGKILL', 'the process to end');
  const bytes = readFileSync(join(data, 'fibula.db'));
  const log = readFileSync(join(data, 'fibula.db-wal'));
  for (let at = PAGE; at < bytes.length; at += PAGE) bytes[at]! ^= 0x55;
  writeFileSync(join(data, 'fibula.db'), bytes);

  const { code, said } = await refused();
  expect([code, said]).toEqual([
    1,
    // The list of the tables fills more than the first page, so SQLite cannot even begin to name pages.
    expect.stringMatching(/fibula\.db is damaged: .*(page|malformed).*\. Nothing was changed\./),
  ]);
  expect(said).not.toMatch(/^\s+at /m); // no stack: a person reads it
  expect(readFileSync(join(data, 'fibula.db')).equals(bytes)).toBe(true);
  expect(readFileSync(join(data, 'fibula.db-wal')).equals(log)).toBe(true);

  const command = /^ {4}(npm run restore -- .*)$/m.exec(said)![1]!;
  const restored = spawnSync(command, { shell: true, encoding: 'utf8' });
  expect([restored.status, restored.stdout + restored.stderr]).toEqual([
    0,
    expect.stringMatching(/Restored .*by-hand\.db.*11 facts/s),
  ]);
  await start();
  expect(factsOnDisk(data, session)).toHaveLength(11);
});

it('a log that cannot be written for want of space is no reason to stop', async () => {
  expect(existsSync('/dev/full')).toBe(true); // a disk without space, on every Linux
  const server = await start([...PLAIN, '--log-file', '/dev/full', '--log-level', 'trace']);
  const desk = await Station.pair(server.url, operatorCode(data, ['desk']), 'Counter');
  const room = await desk.enter(newSession());
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  room.close();
  await server.stop();
  expect(server.process.exitCode).toBe(0);
  expect(server.output()).toMatch(/Everything entered is stored/);
});

it('a file system that grants every lock is told as that, and nothing is begun there', async () => {
  const { code, said } = await refused({ env: { ...process.env, NODE_OPTIONS: `--import ${NO_LOCKS}` } });
  expect([code, said]).toEqual([
    1,
    expect.stringMatching(
      /server\.lock can be locked by two programs at once\..*network shares: give --data a directory on a disk of this machine/,
    ),
  ]);
  expect(existsSync(join(data, 'fibula.db'))).toBe(false);
});

it('a directory that may not be written is told as that', async () => {
  // The owner of the machine may write anywhere, so somebody else is asked.
  const isRoot = process.getuid?.() === 0;
  if (isRoot) chownSync(data, NOBODY, NOBODY);
  chmodSync(data, 0o500);
  const { code, said } = await refused(isRoot ? { uid: NOBODY } : {});
  chmodSync(data, 0o700);
  expect([code, said]).toEqual([
    1,
    expect.stringMatching(
      /fibula-recovery-\S+ may not be written by the user who starts the server: change its rights/,
    ),
  ]);
});
