/** A command's way to the data: through the server that runs on it, or alone when none does. */
import { existsSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import type { Logger } from 'pino';
import pino from 'pino';
import { DEFAULT_KEEPING, Keeper } from './keeper.ts';
import { Ledger } from './ledger.ts';
import { lockDirectory } from './lock.ts';
import { lookOver } from './look.ts';
import { keepingCommands } from './operator-commands.ts';
import { Said } from './said.ts';
import { markClosed } from './open-mark.ts';
import { openDatabase } from './schema.ts';
import { operatorPath } from './setup/operator-path.mjs';

/** Milliseconds a server may take: a large copy is read all over again. */
const PATIENCE_MS = 3_600_000;

/** A command that cannot be done. The message is one sentence. */
export class CannotDo extends Said {}

/** A command by the word in `do`, with what it needs. */
export interface Asked {
  readonly do: string;
  readonly [field: string]: unknown;
}

/** The running server's answer to a command; null when no server runs on this directory. */
export function askServer(data: string, command: object): Promise<unknown> {
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(operatorPath(data), () => socket.write(`${JSON.stringify(command)}\n`));
    socket.setEncoding('utf8').on('data', (part) => (text += String(part)));
    socket.setTimeout(PATIENCE_MS, () => socket.destroy(new CannotDo('The server does not answer.')));
    socket.once('error', (error: NodeJS.ErrnoException) =>
      ['ENOENT', 'ECONNREFUSED'].includes(error.code ?? '') ? resolve(null) : reject(error),
    );
    socket.once('close', () => {
      if (text.endsWith('\n')) resolve(JSON.parse(text));
      else reject(new CannotDo('The server ended before it had answered.'));
    });
  });
}

/**
 * Does one of the keeper's commands. Throws `Said` when a person can mend what is wrong.
 * @param backups where daily copies are, when no server runs; undefined for the usual place
 */
export async function command<T>(data: string, asked: Asked, backups?: string): Promise<T> {
  const answer = ((await askServer(data, asked)) ?? (await alone(data, asked, backups))) as
    { ok: true } | { ok: false; text: string };
  if (!answer.ok) throw new CannotDo(answer.text);
  return answer as T;
}

async function alone(data: string, asked: Asked, backups?: string): Promise<object> {
  if (!existsSync(join(data, 'fibula.db'))) throw new CannotDo(`There is no database in ${data}.`);
  const lock = lockDirectory(data);
  const closers = [() => lock.release()];
  try {
    const ledger = new Ledger(data, () => Date.now());
    closers.unshift(() => ledger.close());
    lookOver(data, backups ?? join(data, 'backups'));
    const db = openDatabase(data);
    closers.unshift(() => {
      db.close();
      markClosed(join(data, 'fibula.db'));
    });
    const keeper = new Keeper(
      {
        db,
        ledger,
        data,
        timeZone: 'UTC',
        log: pino({ level: 'silent' }) as Logger,
        now: () => Date.now(),
        regenerate: (change) => void change(),
        attempt: (write) => write(),
      },
      { ...DEFAULT_KEEPING, backups },
    );
    return await keepingCommands(keeper)[asked.do]!(asked);
  } finally {
    for (const close of closers) close();
  }
}

/** Runs a command's program: one line on standard error and exit code 1 for what a person can mend. */
export async function program(work: () => Promise<void>): Promise<void> {
  process.umask(0o077);
  try {
    await work();
  } catch (error) {
    const { code, message, stack } = error as Error & { code?: unknown };
    const isUsage = String(code).startsWith('ERR_PARSE_ARGS');
    const isKnown = error instanceof Said || isUsage || 'syscall' in (error as object);
    process.stderr.write(`${isKnown ? message : (stack ?? message)}\n`);
    process.exitCode = isUsage ? 2 : 1;
  }
}

export const plural = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** As a person says it: 12 KB, 3.4 MB. */
export function sizeWords(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.ceil(bytes / 1_000)} KB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}
