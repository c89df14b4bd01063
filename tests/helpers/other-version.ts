/** A server and pages that speak another number of the protocol than those built here. */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';

const TOP = fileURLToPath(new URL('../../', import.meta.url));
const PRELOAD = fileURLToPath(new URL('./other-version.mjs', import.meta.url));
/** The pages as they are built for everybody. */
export const THESE_PAGES = join(TOP, 'build/stations');

/** Builds the pages as a version that speaks `protocol` would. `mark` tells two such builds apart. */
export async function buildPages(protocol: number, folder: string, mark = ''): Promise<void> {
  let changed = 0;
  await build({
    configFile: join(TOP, 'vite.config.ts'),
    logLevel: 'error',
    build: { outDir: folder },
    plugins: [
      {
        name: 'another-protocol',
        enforce: 'pre',
        transform(code, id) {
          if (!id.endsWith('/core/wire.ts')) return null;
          changed += 1;
          return `${code.replace('PROTOCOL = 1;', `PROTOCOL = ${protocol};`)}\nglobalThis.fibulaBuild = '${mark}';`;
        },
      },
    ],
  });
  if (changed !== 1) throw new Error(`core/wire.ts was built ${changed} times`);
}

/** The real program, speaking `protocol` and serving `pages`. */
export const serveVersion = (
  data: string,
  args: readonly string[],
  protocol: number,
  pages: string,
): Promise<ServerProcess> =>
  startServer(data, args, 60_000, {
    file: 'server/main.ts',
    env: {
      NODE_OPTIONS: `${process.env['NODE_OPTIONS'] ?? ''} --import ${PRELOAD}`,
      FIBULA_TEST_PROTOCOL: String(protocol),
      FIBULA_TEST_PAGES: pages,
    },
  });
