/** A port for a server that comes back on it. */
import { randomInt } from 'node:crypto';
import { createServer } from 'node:net';

const isFree = (port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(false));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)));
  });

/**
 * Below those that the system gives to outgoing connections: a station that knocks at a dead server's port could
 * else be given that very port, and stand in the server's place. By chance and not by the storm's seed: two storms of
 * one seed may run beside each other.
 */
export async function freePort(): Promise<number> {
  for (;;) {
    const port = randomInt(21_000, 32_000);
    if (await isFree(port)) return port;
  }
}
