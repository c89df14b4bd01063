/** The server as a process: started, refused, signalled. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { Station } from '../../demo/station.ts';
import { until } from '../helpers/until.ts';
import { newSession } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const PLAIN = ['--plain', '--host', '127.0.0.1', '--port', '0'];
let data: string;
let servers: ServerProcess[] = [];

beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'fibula-process-'));
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

const main = (...args: string[]) =>
  spawnSync(process.execPath, ['--import', 'tsx', 'server/main.ts', ...args], {
    encoding: 'utf8',
    timeout: 60_000,
  });
const code = (...args: string[]) =>
  spawnSync(process.execPath, ['server/setup/code.mjs', ...args], { encoding: 'utf8', timeout: 60_000 });
const shown = (server: ServerProcess, roles: string) =>
  new RegExp(`^ *(\\d{6}) +${roles} +\\(`, 'm').exec(server.output())?.[1];

describe('the console', () => {
  it('shows a code for each role until a desk is paired; after that, whom to ask', async () => {
    const server = await start();
    const desk = await Station.pair(server.url, shown(server, 'desk')!, 'Counter');
    expect(desk.me.roles).toEqual(['desk']);
    for (const role of ['measuring', 'bench'])
      expect((await Station.pair(server.url, shown(server, role)!, role)).me.roles).toEqual([role]);
    await server.stop();
    const again = await start();
    expect(shown(again, 'desk')).toBeUndefined();
    expect(again.output()).toMatch(/make a code at the desk/);
  });

  it('says what plain http loses, and louder when others share the network', async () => {
    const quiet = await start();
    expect(quiet.output()).toMatch(/no camera/);
    expect(quiet.output()).toMatch(/do not load again while offline/);
    expect(quiet.output()).toMatch(/cannot be kept awake/);
    expect(quiet.output()).not.toMatch(/WARNING/);
    await quiet.stop();
    const loud = await start(['--plain', '--port', '0']);
    expect(loud.output()).toMatch(/WARNING: plain http on a network that others share/);
  });

  it('names no person in its logs', async () => {
    const server = await start([...PLAIN, '--log-level', 'trace']);
    const desk = await Station.pair(server.url, shown(server, 'desk')!, 'Counter');
    await desk.request('PUT', '/api/people/c1', {
      name: 'Quintilia Fabelhaft',
      contact: 'quintilia@example.org',
    });
    await desk.request('GET', '/api/people?q=Quintilia');
    await fetch(`${server.url}/api/people/Quintilia`);
    await server.stop();
    expect(server.output()).toMatch(/"msg":"paired"/);
    expect(server.output()).not.toMatch(/quintilia|fabelhaft/i);
  });
});

describe('a console that nobody reads any more', () => {
  it('stops nothing: the server serves, and ends in order when it is told to', async () => {
    const server = await start();
    server.process.stdout!.destroy();
    server.process.stderr!.destroy();
    expect((await fetch(`${server.url}/healthz`)).status).toBe(200);
    const ended = new Promise((resolve) => server.process.once('exit', resolve));
    server.process.kill('SIGTERM');
    expect(await ended).toBe(0);
  });
});

describe('the operator', () => {
  it('gets a code for one role or several, alone on standard output', async () => {
    const server = await start();
    const { stdout, stderr, status } = code('--role', 'measuring,bench', '--data', data);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^\d{6}\n$/);
    expect(stderr).toMatch(/measuring, bench/);
    const { me } = await Station.pair(server.url, stdout.trim(), 'Tablet');
    expect(me.roles).toEqual(['measuring', 'bench']);
    expect(statSync(join(data, 'operator.sock')).mode & 0o777).toBe(0o600);
  });

  it('hears in one line what is wrong', async () => {
    expect(code('--role', 'desk', '--data', data)).toMatchObject({
      status: 1,
      stdout: '',
      stderr: `No server runs on ${data}.\n`,
    });
    await start();
    expect(code('--role', 'king', '--data', data)).toMatchObject({ status: 1, stdout: '' });
    expect(code('--data', data).status).toBe(2);
  });
});

describe('a start', () => {
  it('on a directory that another server has is refused', async () => {
    await start();
    const second = main(...PLAIN, '--data', data);
    expect(second.status).toBe(1);
    expect(second.stderr).toMatch(/^Another server is running on .*\n$/);
    expect(second.stdout).toBe('');
  });

  it('on a port that is taken says so', async () => {
    const server = await start();
    const other = mkdtempSync(join(tmpdir(), 'fibula-process-'));
    const { port } = new URL(server.url);
    const { status, stderr } = main('--plain', '--host', '127.0.0.1', '--port', port, '--data', other);
    rmSync(other, { recursive: true });
    expect(status).toBe(1);
    expect(stderr).toBe(`Port ${port} is taken; give another with --port.\n`);
  });

  it.each([
    [['--port', 'x'], 2, '--port must be a number from 0 to 65535 (is x).\n'],
    [
      ['--data', '/dev/null/x', ...PLAIN],
      1,
      expect.stringMatching(/^\/dev\/null\/x cannot be made: .*\n$/) as string,
    ],
  ])('with %j says in one line what is wrong', (args, status, stderr) => {
    expect(main(...args)).toMatchObject({ status, stderr, stdout: '' });
  });
});

describe('a stop', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)(
    'by %s stores everything, says so, and leaves nothing behind',
    async (signal) => {
      const server = await start();
      const desk = await Station.pair(server.url, shown(server, 'desk')!, 'Counter');
      const room = await desk.enter(newSession());
      await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
      const wire = await new Wire(server.url, `board/desk/${desk.me.boot}`, { cookie: desk.cookie }).open();
      server.process.kill(signal);
      expect((await wire.isClosed()).code).toBe(1012);
      await until(() => server.process.exitCode !== null, 'the process to end');
      room.close();
      expect(server.process.exitCode).toBe(0);
      expect(server.output()).toMatch(/Everything entered is stored/);
      expect(() => statSync(join(data, 'operator.sock'))).toThrow(/ENOENT/);
      expect(() => statSync(join(data, 'fibula.db-wal'))).toThrow(/ENOENT/);
    },
  );

  it('is passed on by the start script, with the exit code; what is built is not built again', async () => {
    for (const time of ['first', 'second']) {
      const child = spawn(process.execPath, ['server/setup/start.mjs', ...PLAIN, '--data', data], {
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      let written = '';
      child.stdout.on('data', (part) => (written += String(part)));
      child.stderr.on('data', (part) => (written += String(part)));
      await until(() => /^ready http/m.test(written) || child.exitCode !== null, 'the server', 90_000);
      const url = /^ready (\S+)/m.exec(written)?.[1];
      expect(url, written).toBeDefined();
      for (const page of ['/', '/measuring', '/bench', '/desk', '/wall']) {
        const answer = await fetch(url + page);
        expect([page, answer.status, answer.headers.get('cache-control')]).toEqual([page, 200, 'no-cache']);
        const [, asset] = /src="(\/assets\/[^"]+)"/.exec(await answer.text())!;
        expect((await fetch(url + asset!)).headers.get('cache-control')).toMatch(/immutable/);
      }
      child.kill('SIGTERM');
      await until(() => child.exitCode !== null, 'the script to end');
      expect(child.exitCode).toBe(0);
      expect(written).toMatch(/Everything entered is stored/);
      if (time === 'second') expect(written).not.toMatch(/Building|Installing/);
    }
  });
});
