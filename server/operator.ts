/** The operator's door: a local socket that only the owner of the data directory may open. One line in, one out. */
import { chmodSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import type { Server, Socket } from 'node:net';
import { operatorPath } from './setup/operator-path.mjs';

/** By the word in `do`. The answer says `ok`, and in `text` why not. */
export type Commands = Readonly<Record<string, (asked: unknown) => object | Promise<object>>>;

/** Bytes of a command: the longest names a file. */
const LINE_BYTES = 8_192;
/** Milliseconds until the command has to be there. */
const PATIENCE_MS = 5_000;

export interface Operator {
  close(): Promise<void>;
}

/** Listens in `directory`, of which this process holds the lock: a socket found there is a dead one. */
export async function listenToOperator(directory: string, commands: Commands): Promise<Operator> {
  const path = operatorPath(directory);
  const isFile = process.platform !== 'win32';
  if (isFile) rmSync(path, { force: true });
  const sockets = new Set<Socket>();
  const server = createServer((socket) => {
    sockets.add(socket.once('close', () => sockets.delete(socket)));
    converse(socket, commands);
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

function converse(socket: Socket, commands: Commands): void {
  let text = '';
  socket.setEncoding('utf8').setTimeout(PATIENCE_MS, () => socket.destroy());
  socket.on('error', () => socket.destroy());
  socket.on('data', (part) => {
    text += String(part);
    if (text.length > LINE_BYTES) return socket.destroy();
    const end = text.indexOf('\n');
    if (end < 0) return;
    socket.removeAllListeners('data').resume().setTimeout(0); // the command is here; a copy takes its time
    void answer(text.slice(0, end), commands).then((said) => socket.end(`${JSON.stringify(said)}\n`));
  });
}

async function answer(line: string, commands: Commands): Promise<object> {
  try {
    const asked = JSON.parse(line) as { do?: unknown };
    const command = Object.hasOwn(commands, String(asked.do)) ? commands[String(asked.do)] : undefined;
    return (await command?.(asked)) ?? { ok: false, text: 'This server does not know that command.' };
  } catch (error) {
    return { ok: false, text: (error as Error).message };
  }
}
