/** The operator's door: a local socket that only the owner of the data directory may open. One line in, one out. */
import { chmodSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import type { Server, Socket } from 'node:net';
import { z } from 'zod';
import { STATION_ROLES } from '../core/index.ts';
import type { Health } from './health.ts';
import type { Stations } from './pair.ts';
import { operatorPath } from './setup/operator-path.mjs';
import { TROUBLE_TEXT } from './trouble.ts';

const Command = z.strictObject({ do: z.literal('code'), roles: z.array(z.enum(STATION_ROLES)).min(1) });
const LINE_BYTES = 1_024;
const PATIENCE_MS = 5_000;

export interface Operator {
  close(): Promise<void>;
}

/** Listens in `directory`, of which this process holds the lock: a socket found there is a dead one. */
export async function listenToOperator(
  directory: string,
  stations: Stations,
  health: Health,
): Promise<Operator> {
  const path = operatorPath(directory);
  const isFile = process.platform !== 'win32';
  if (isFile) rmSync(path, { force: true });
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket.once('close', () => sockets.delete(socket)));
    converse(socket, (line) => answer(line, stations, health));
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

function answer(line: string, stations: Stations, health: Health): object {
  let command;
  try {
    command = Command.parse(JSON.parse(line));
  } catch {
    return { ok: false, text: `Roles are ${STATION_ROLES.join(', ')}.` };
  }
  const { roles } = command;
  return health.attempt<object>(
    () => {
      const code = stations.createCode([...new Set(roles)]);
      return code
        ? { ok: true, ...code }
        : { ok: false, text: 'Too many codes are waiting to be used; wait until some expire.' };
    },
    () => ({ ok: false, text: TROUBLE_TEXT[health.readOnly ?? 'failing'] }),
  );
}
