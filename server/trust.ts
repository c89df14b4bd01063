/** The page that hands out the shop's certificate authority, open only while a station is being enrolled. */
import type { Hono } from 'hono';
import { html } from 'hono/html';
import type { Env } from './env.ts';

export interface Trust {
  /** The authority's certificate, DER. */
  readonly certificate: Uint8Array;
  /** SHA-256 of it, upper-case hexadecimal pairs with colons. */
  readonly fingerprint: string;
  /** Where the stations go afterwards. */
  readonly address: string;
  /** Whether a pairing code is alive. */
  isOpen(): boolean;
}

const CLOSED = 'This page is open while a pairing code is waiting to be used. Ask the desk for a code.\n';

export function trustRoutes<E extends Env>(app: Hono<E>, trust: Trust): void {
  app.get('/trust', (c) => (trust.isOpen() ? c.html(page(trust)) : c.text(CLOSED, 403)));
  app.get('/trust/ca.crt', (c) => {
    if (!trust.isOpen()) return c.text(CLOSED, 403);
    c.header('Content-Disposition', 'attachment; filename="fibula-ca.crt"');
    return c.body(new Uint8Array(trust.certificate), 200, { 'Content-Type': 'application/x-x509-ca-cert' });
  });
}

const page = ({ fingerprint, address }: Trust) =>
  html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>Trust this workshop’s server</title>
      </head>
      <body>
        <main>
          <h1>Trust this workshop’s server</h1>
          <p>
            Stations speak to the server over an encrypted connection. So that this device knows the server,
            it needs the workshop’s own certificate authority, once. The authority can vouch for this
            workshop’s server only.
          </p>
          <ol>
            <li><a href="/trust/ca.crt">Load the certificate</a>.</li>
            <li>
              Compare its SHA-256 fingerprint with the one on the server’s console or on paper. If they
              differ, stop.
              <p><code>${fingerprint}</code></p>
            </li>
            <li>
              Install it as a trusted authority. iPad and iPhone: Settings, “Profile Downloaded”, then
              General, About, Certificate Trust Settings. Android: Settings, Security, Install a certificate,
              CA certificate. Windows: open the file, install it under “Trusted Root Certification
              Authorities”. macOS: open it in Keychain Access and set it to “Always Trust”. Linux: the
              browser’s own settings, Certificates, Authorities.
            </li>
            <li>Open <a href="${address}">${address}</a> and enter the pairing code.</li>
          </ol>
        </main>
      </body>
    </html>`;
