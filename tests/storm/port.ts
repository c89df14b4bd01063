/** A port for a server that comes back on it. */
import { createServer } from 'node:net';
import type { Random } from '../../demo/random.ts';

const isFree = (port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(false));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)));
  });

/**
 * Below those that the system gives to outgoing connections: a station that knocks at a dead server's port could
 * else be given that very port, and stand in the server's place.
 */
export async function freePort(random: Random): Promise<number> {
  for (;;) {
    const port = Math.floor(random.between(21_000, 32_000));
    if (await isFree(port)) return port;
  }
}
