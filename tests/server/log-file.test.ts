/** The log file: bounded in bytes and number, whole lines, and never a reason to stop. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pino from 'pino';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { LogFile } from '../../server/log-file.ts';

const BOUNDS = { bytes: 2_000, kept: 3 };
let directory: string;
let path: string;
beforeEach(() => {
  directory = mkdtempSync(join(tmpdir(), 'fibula-log-'));
  path = join(directory, 'logs', 'server.log');
});
afterEach(() => rmSync(directory, { recursive: true, force: true }));

const numbers = (file: string) =>
  readFileSync(file, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => (JSON.parse(line) as { i: number }).i);

it('is put aside when it is full, while it is written, and the oldest goes', () => {
  const log = pino({}, new LogFile(path, BOUNDS));
  for (let i = 0; i < 500; i++) log.info({ i }, 'something happened');
  const names = ['server.log.3', 'server.log.2', 'server.log.1', 'server.log'];
  expect(readdirSync(join(directory, 'logs')).sort()).toEqual([...names].sort());
  for (const name of names)
    expect(statSync(join(directory, 'logs', name)).size).toBeLessThan(BOUNDS.bytes + 200);
  // Whole lines, none twice, none missing up to the last.
  const kept = names.flatMap((name) => numbers(join(directory, 'logs', name)));
  expect(kept).toEqual(kept.map((_, k) => 500 - kept.length + k));
  expect(statSync(path).mode & 0o777).toBe(0o600);
});

it('goes on in the file that is there', () => {
  const first = new LogFile(path, BOUNDS);
  first.write('{"i":0}\n');
  first.close();
  const second = new LogFile(path, BOUNDS);
  second.write('{"i":1}\n');
  expect(numbers(path)).toEqual([0, 1]);
});

it('that cannot be written stops nobody, and is taken up again when it can', () => {
  writeFileSync(join(directory, 'logs'), 'in the way');
  const file = new LogFile(path, BOUNDS);
  const log = pino({}, file);
  log.info({ i: 0 }, 'lost');
  rmSync(join(directory, 'logs'));
  log.info({ i: 1 }, 'kept');
  expect(numbers(path)).toEqual([1]);
});
