/** The built pages, and the headers that keep anything else from running in them. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { serveStatic } from '@hono/node-server/serve-static';
import type { Hono, MiddlewareHandler } from 'hono';
import type { Env } from './env.ts';
import { isOurHost } from './origins.ts';
import type { Origins } from './origins.ts';

/**
 * Scripts and styles come from this server only. `style` attributes are let through, since drawings set them;
 * style elements are not. Sockets are named, since older WebKit does not take `'self'` for them.
 */
const policy = (sockets: string, framedBy: string): string =>
  [
    `default-src 'none'`,
    `script-src 'self'`,
    `style-src 'self'`,
    `style-src-attr 'unsafe-inline'`,
    `img-src 'self' data: blob:`,
    `font-src 'self'`,
    `connect-src 'self'${sockets}`,
    `manifest-src 'self'`,
    `worker-src 'self'`,
    `base-uri 'none'`,
    `form-action 'self'`,
    // Papers are printed out of a frame, and nothing else may stand in one.
    `frame-src 'self'`,
    `frame-ancestors ${framedBy}`,
  ].join('; ');

/** The one page that our own pages show in a frame. It asks for nothing and knows only what it is told. */
const PAPER = /^\/paper\/?$/;

/** Adds these headers to every answer. A name that is not ours is not said again: it may hold anything. */
export const secureHeaders =
  (origins: Origins): MiddlewareHandler<Env> =>
  async (c, next) => {
    await next();
    const host = c.req.header('host');
    const sockets = isOurHost(origins, host) ? ` ${origins.scheme === 'https' ? 'wss' : 'ws'}://${host}` : '';
    c.header('Content-Security-Policy', policy(sockets, PAPER.test(c.req.path) ? `'self'` : `'none'`));
    c.header('X-Content-Type-Options', 'nosniff');
    c.header('Referrer-Policy', 'no-referrer');
    c.header('Cross-Origin-Opener-Policy', 'same-origin');
    c.header('Cross-Origin-Resource-Policy', 'same-origin');
    c.header('Permissions-Policy', 'camera=(self), geolocation=(), microphone=(), payment=()');
  };

/** Adds the pages of `directory` to `app`. */
export function servePages(app: Hono<Env>, directory: string): void {
  if (!existsSync(join(directory, 'index.html'))) {
    app.get('/', (c) => c.text('The pages are not built yet: run `npm start` or `npm run build`.\n', 503));
    return;
  }
  app.use(
    serveStatic({
      root: directory,
      precompressed: true,
      onFound: (_path, c) => {
        // Vite puts a hash of the content into the name of each asset; a page keeps its name and changes.
        const hashed = c.req.path.startsWith('/assets/');
        c.header('Cache-Control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    }),
  );
}
