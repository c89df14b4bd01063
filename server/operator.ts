/** The operator's door: a local socket that only the owner of the data directory may open. One line in, one out. */
import { chmodSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import type { Server, Socket } from 'node:net';
import type { Logger } from 'pino';
import { z } from 'zod';
import { STATION_ROLES } from '../core/index.ts';
import type { Corner } from './corner.ts';
import type { Health } from './health.ts';
import type { Stations } from './pair.ts';
import { operatorPath } from './setup/operator-path.mjs';
import { TROUBLE_TEXT } from './trouble.ts';

const Command = z.discriminatedUnion('do', [
  z.strictObject({ do: z.literal('code'), roles: z.array(z.enum(STATION_ROLES)).min(1) }),
  z.strictObject({ do: z.literal('pin') }),
]);
const LINE_BYTES = 1_024;
const PATIENCE_MS = 5_000;

/** What the operator may do without being a station. */
export interface OperatorDeps {
  readonly stations: Stations;
  readonly corner: Corner;
  readonly health: Health;
  readonly log: Logger;
}

export interface Operator {
  close(): Promise<void>;
}

/** Listens in `directory`, of which this process holds the lock: a socket found there is a dead one. */
export async function listenToOperator(directory: string, deps: OperatorDeps): Promise<Operator> {
  const path = operatorPath(directory);
  const isFile = process.platform !== 'win32';
  if (isFile) rmSync(path, { force: true });
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket.once('close', () => sockets.delete(socket)));
    converse(socket, (line) => answer(line, deps));
  });
  await listening(server, path);
  if (isFile) chmodSync(path, 0o600);
  return {
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        for (const socket of sockets) socket.destroy();
      }),
  };
}

const listening = (server: Server, path: string) =>
  new Promise<void>((resolve, reject) => {
    server.once('error', reject).listen(path, () => resolve());
  });

function converse(socket: Socket, answerTo: (line: string) => object): void {
  let text = '';
  socket.setEncoding('utf8').setTimeout(PATIENCE_MS, () => socket.destroy());
  socket.on('error', () => socket.destroy());
  socket.on('data', (part) => {
    text += String(part);
    if (text.length > LINE_BYTES) return socket.destroy();
    const end = text.indexOf('\n');
    if (end >= 0) socket.end(`${JSON.stringify(answerTo(text.slice(0, end)))}\n`);
  });
}

function answer(line: string, deps: OperatorDeps): object {
  let command;
  try {
    command = Command.parse(JSON.parse(line));
  } catch {
    return { ok: false, text: `Roles are ${STATION_ROLES.join(', ')}.` };
  }
  return deps.health.attempt<object>(
    () => obey(command, deps),
    () => ({ ok: false, text: TROUBLE_TEXT[deps.health.readOnly ?? 'failing'] }),
  );
}

function obey(command: z.infer<typeof Command>, { stations, corner, log }: OperatorDeps): object {
  switch (command.do) {
    case 'code': {
      const code = stations.createCode([...new Set(command.roles)]);
      return code
        ? { ok: true, ...code }
        : { ok: false, text: 'Too many codes are waiting to be used; wait until some expire.' };
    }
    case 'pin': {
      const was = corner.pinSet;
      corner.reset();
      log.warn('corner PIN forgotten by the operator');
      return { ok: true, was };
    }
    default:
      return command satisfies never;
  }
}
