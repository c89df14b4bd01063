/** Start a server of one's own, as a process, and ask it for a pairing code. */
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { StationRole } from '../core/index.ts';

/** As `server/setup/ready.mjs` builds it, which whoever runs this program has done before. */
const BUILT_SERVER = 'build/server.js';
const TOP = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Characters of a server's output that are kept, for an error that quotes it. */
const KEPT = 200_000;

export interface ServerProcess {
  readonly url: string;
  readonly data: string;
  readonly process: ChildProcess;
  /** What it has written last, both streams. */
  readonly output: () => string;
  /** Ask it to stop, and wait until it has; after `limitMs` it is ended. */
  readonly stop: (limitMs?: number) => Promise<void>;
}

function stopper(child: ChildProcess): ServerProcess['stop'] {
  return (limitMs = 10_000) =>
    new Promise((resolve) => {
      if (child.exitCode !== null || child.signalCode !== null) return resolve();
      const timer = setTimeout(() => child.kill('SIGKILL'), limitMs);
      child.once('exit', () => {
        clearTimeout(timer);
        resolve();
      });
      child.kill('SIGTERM');
    });
}

/** What is started: a program of the build, or one in TypeScript, as of a test that loads `server/main.ts` itself. */
export interface Program {
  /** Below the project's top. */
  readonly file: string;
  readonly env?: NodeJS.ProcessEnv;
}

/**
 * Resolves when the server says that it is ready. Throws with what it wrote when it ends before, or says nothing
 * for `limitMs`.
 */
export function startServer(
  data: string,
  args: readonly string[],
  limitMs = 60_000,
  { file, env }: Program = { file: BUILT_SERVER },
): Promise<ServerProcess> {
  const loader = file.endsWith('.ts') ? ['--import', 'tsx'] : [];
  const child = spawn(process.execPath, [...loader, file, '--data', data, ...args], {
    cwd: TOP,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, ...env },
  });
  let written = '';
  let settled = false;
  const stop = stopper(child);
  return new Promise((resolve, reject) => {
    const fail = (why: string) => {
      if (settled) return;
      settled = true;
      clearTimeout(timer);
      void stop().then(() => reject(new Error(`the server ${why}; it wrote:\n${written}`)));
    };
    const timer = setTimeout(() => fail(`was not ready after ${limitMs} ms`), limitMs);
    const early = () => fail('ended before it was ready');
    child.once('exit', early);
    const listen = (chunk: Buffer) => {
      written = (written + chunk.toString()).slice(-KEPT);
      if (settled) return;
      const url = /\bready (https?:\/\/[^\s"]+)/.exec(written)?.[1];
      if (!url) return;
      settled = true;
      clearTimeout(timer);
      child.off('exit', early);
      resolve({ url: new URL(url).origin, data, process: child, output: () => written, stop });
    };
    child.stdout.on('data', listen);
    child.stderr.on('data', listen);
  });
}

/** A pairing code by the operator's own command, which speaks to the running server. */
export function operatorCode(data: string, roles: readonly StationRole[]): string {
  const asked = roles.flatMap((role) => ['--role', role]);
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['server/setup/code.mjs', '--data', data, ...asked],
    { cwd: TOP, encoding: 'utf8', timeout: 60_000 },
  );
  const code = /\b\d{6}\b/.exec(stdout)?.[0];
  if (status !== 0 || !code) throw new Error(`no pairing code: ${stderr || stdout}`);
  return code;
}
