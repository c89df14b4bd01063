/** The page that hands out the shop's certificate authority, open only while a station is being enrolled. */
import { readFileSync } from 'node:fs';
import type { Hono } from 'hono';
import type { Env } from './env.ts';
import { trustPage } from './trust-page.ts';
import { PLATFORMS } from './trust-steps.ts';
import { TRUST_STYLE } from './trust-style.ts';
import { pageLanguage, TRUST_WORDS } from './trust-words.ts';

export interface Offered {
  /** The authority's certificate, DER. */
  readonly authority: Uint8Array;
  /** SHA-256 of it, upper-case hexadecimal pairs with colons. */
  readonly fingerprint: string;
}

export interface Trust {
  readonly certificates: {
    readonly now: Offered;
    /** One that is going to follow. */
    readonly next: Offered | null;
  };
  /** Where the stations go afterwards. */
  readonly address: string;
  /** Whether a pairing code is alive. */
  isOpen(): boolean;
}

/** Whoever is sent away reads it in both languages: no page is there to choose one on. */
const both = (what: 'closed' | 'noNext'): string => `${TRUST_WORDS.en[what]}\n${TRUST_WORDS.de[what]}\n`;
const CLOSED = both('closed');
const NO_NEXT = both('noNext');
const PICTURES = new URL('../docs/pictures/', import.meta.url);
const NAMES = ['trust-compare', ...PLATFORMS.map(({ id }) => `trust-${id}`)];

export function trustRoutes<E extends Env>(app: Hono<E>, trust: Trust): void {
  const pictures = new Map(
    NAMES.map((name) => [`${name}.svg`, readFileSync(new URL(`${name}.svg`, PICTURES), 'utf8')]),
  );
  const certificate = (der: Uint8Array, name: string) =>
    new Response(new Uint8Array(der), {
      headers: {
        'Content-Type': 'application/x-x509-ca-cert',
        'Content-Disposition': `attachment; filename="${name}"`,
      },
    });
  app.use('/trust/*', async (c, next) => {
    await next();
    c.header('Cache-Control', 'no-store');
  });
  app.get('/trust', (c) => {
    if (!trust.isOpen()) return c.text(CLOSED, 403);
    const language = pageLanguage(c.req.query('lang'), c.req.header('accept-language'));
    return c.html(trustPage(trust, c.req.header('user-agent') ?? '', language));
  });
  app.get('/trust/ca.crt', (c) =>
    trust.isOpen() ? certificate(trust.certificates.now.authority, 'fibula-ca.crt') : c.text(CLOSED, 403),
  );
  app.get('/trust/next-ca.crt', (c) => {
    if (!trust.isOpen()) return c.text(CLOSED, 403);
    const { next } = trust.certificates;
    return next ? certificate(next.authority, 'fibula-next-ca.crt') : c.text(NO_NEXT, 404);
  });
  app.get('/trust/style.css', (c) => c.body(TRUST_STYLE, 200, { 'Content-Type': 'text/css; charset=utf-8' }));
  app.get('/trust/pictures/:name', (c) => {
    const picture = pictures.get(c.req.param('name'));
    return picture === undefined ? c.notFound() : c.body(picture, 200, { 'Content-Type': 'image/svg+xml' });
  });
}
