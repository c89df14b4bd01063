/** `npm run demo` as it is typed: a program, its console and its end. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { Station } from '../../demo/station.ts';
import { ROOT } from '../helpers/run.mjs';
import { serve } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';

const PROGRAM = ['--import', 'tsx', 'demo/main.ts'];
const running: ChildProcess[] = [];
afterEach(() => {
  for (const child of running.splice(0)) child.kill('SIGKILL');
});

function start(args: readonly string[]) {
  const child = spawn(process.execPath, [...PROGRAM, ...args], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.push(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += String(part)));
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  return { child, ended, said: () => said };
}

const misuse = (...args: string[]) => {
  const { status, stderr } = spawnSync(process.execPath, [...PROGRAM, ...args], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  return { status, line: stderr.split('\n')[0] };
};

it('fills a shop, says where it is and who may come in, keeps running, and ends when asked', async () => {
  const { child, ended, said } = start(['--port', '0']);
  await until(() => said().includes('keeps running'), `the demo to be ready; it said: ${said()}`, 60_000);
  const url = /Open (http:\S+)/.exec(said())![1]!;
  const code = /\/bench +(\d{6})/.exec(said())![1]!;
  const bench = await Station.pair(url, code, 'A visitor');
  expect(bench.me.roles).toEqual(['bench']);
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
  await expect(fetch(`${url}/healthz`)).rejects.toThrow();
});

it('fills a server that runs already, and leaves it running', async () => {
  const server = await serve();
  try {
    const { child, ended, said } = start(['--url', server.url, '--code', server.code(['desk'])]);
    expect(await ended, said()).toBe(0);
    expect(child.exitCode).toBe(0);
    expect(said()).toContain('handed over this morning');
    expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
  } finally {
    await server.close();
  }
});

it('says in one line what is wrong with what was typed', () => {
  const folder = mkdtempSync(join(tmpdir(), 'fibula-demo-test-'));
  try {
    writeFileSync(join(folder, 'mine.txt'), 'not to be touched');
    expect(misuse('--data', folder)).toEqual({ status: 2, line: expect.stringContaining('not empty') });
    expect(misuse('--speed', 'fast')).toEqual({ status: 2, line: expect.stringContaining('--speed') });
    expect(misuse('--url', 'http://127.0.0.1:1')).toEqual({
      status: 2,
      line: expect.stringContaining('--code'),
    });
    expect(misuse('--nonsense')).toEqual({ status: 2, line: expect.stringContaining('--nonsense') });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
