/** The real server process on a disk that a test fills and frees. */
import { fileURLToPath } from 'node:url';
import { serve } from './server.ts';
import type { TestServer } from './server.ts';

const PRELOAD = fileURLToPath(new URL('./small-disk.mjs', import.meta.url));

export interface SmallDisk extends TestServer {
  /** From now on nothing fits that needs a page of its own. */
  fill(): void;
  free(): void;
}

export async function serveOnSmallDisk(): Promise<SmallDisk> {
  const before = process.env['NODE_OPTIONS'];
  process.env['NODE_OPTIONS'] = `${before ?? ''} --import ${PRELOAD}`;
  try {
    const shop = await serve();
    return {
      ...shop,
      fill: () => void shop.server.process.kill('SIGUSR2'),
      free: () => void shop.server.process.kill('SIGHUP'),
    };
  } finally {
    if (before === undefined) delete process.env['NODE_OPTIONS'];
    else process.env['NODE_OPTIONS'] = before;
  }
}
