/** The trust page itself: no script, so that it works in whatever a new device has. */
import { html } from 'hono/html';
import type { Offered, Trust } from './trust.ts';
import { platformsFor } from './trust-steps.ts';
import type { Platform } from './trust-steps.ts';

/** @param agent the browser's User-Agent header, to show its own steps first */
export function trustPage({ certificates, address }: Trust, agent: string) {
  const { now, next } = certificates;
  const [own, ...others] = platformsFor(agent);
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>Trust this workshop’s server</title>
        <link rel="stylesheet" href="/trust/style.css" />
      </head>
      <body>
        <main>
          <h1>Trust this workshop’s server</h1>
          <p>
            Stations speak to the server over an encrypted connection. So that this device knows the server,
            it needs the workshop’s own certificate authority, once. The authority can vouch for this
            workshop’s server only.
          </p>
          <h2>1 · Load</h2>
          <p><a class="button" href="/trust/ca.crt">Load the certificate</a></p>
          <h2>2 · Compare</h2>
          <p>
            This is the certificate’s SHA-256 fingerprint. Compare it with the one on the server’s console or
            on paper. If they differ, stop, and tell whoever runs the server.
          </p>
          ${fingerprint(now)}
          <p class="aside">
            ${picture('compare', 'The same letters on the server’s console and on this page')}
          </p>
          <h2>3 · Trust</h2>
          ${platform(own!, true)} ${others.map((other) => platform(other, false))}
          <p class="aside">
            Menus move and are renamed. Searching the settings for “certificate” finds most of them.
          </p>
          <h2>4 · Open</h2>
          <p><a class="button" href="${address}">${address}</a></p>
          <p>
            Enter the pairing code there. A warning about the connection means that step 3 is not finished;
            one about the date means that this device’s clock is wrong.
          </p>
          ${next ? follower(next) : ''}
        </main>
      </body>
    </html>`;
}

const fingerprint = ({ fingerprint: value }: Offered) => html`<p><code>${value}</code></p>`;

const picture = (name: string, says: string) =>
  html`<img src="/trust/pictures/trust-${name}.svg" alt="${says}" width="360" loading="lazy" />`;

const platform = ({ id, title, steps, note }: Platform, isOpen: boolean) =>
  html`<details ${isOpen ? 'open' : ''}>
    <summary>${title}</summary>
    ${picture(id, `Four fields, one for each of the steps below`)}
    <ol>
      ${steps.map((step) => html`<li>${step}</li>`)}
    </ol>
    <p class="aside">${note}</p>
  </details>`;

const follower = (next: Offered) =>
  html`<h2>5 · For later</h2>
    <p>
      Another authority is going to follow the present one. Trust it now in the same way, and this device goes
      on without a break.
    </p>
    <p><a class="button" href="/trust/next-ca.crt">Load the next certificate</a></p>
    ${fingerprint(next)}`;
