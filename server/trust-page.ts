/** The trust page itself: no script, so that it works in whatever a new device has. */
import { html } from 'hono/html';
import type { Offered, Trust } from './trust.ts';
import { GERMAN_STEPS } from './trust-steps-de.ts';
import { platformsFor } from './trust-steps.ts';
import type { Platform } from './trust-steps.ts';
import { OTHER, TRUST_WORDS } from './trust-words.ts';
import type { PageLanguage } from './trust-words.ts';

/** @param agent the browser's User-Agent header, to show its own steps first */
export function trustPage({ certificates, address }: Trust, agent: string, language: PageLanguage) {
  const { now, next } = certificates;
  const words = TRUST_WORDS[language];
  const other = OTHER[language];
  const [own, ...others] = platformsFor(agent).map((each) =>
    language === 'de' ? { ...each, ...GERMAN_STEPS[each.id] } : each,
  );
  const follower = next
    ? html`<h2>5 · ${words.later}</h2>
        <p>${words.laterHow}</p>
        <p><a class="button" href="/trust/next-ca.crt">${words.laterButton}</a></p>
        ${fingerprint(next)}`
    : '';
  return html`<!doctype html>
    <html lang="${language}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title>${words.title}</title>
        <link rel="stylesheet" href="/trust/style.css" />
      </head>
      <body>
        <main>
          <p>
            <a class="language" href="/trust?lang=${other.to}" lang="${other.to}" hreflang="${other.to}"
              >${other.name}</a
            >
          </p>
          <h1>${words.title}</h1>
          <p>${words.lead}</p>
          <h2>1 · ${words.load}</h2>
          <p><a class="button" href="/trust/ca.crt">${words.loadButton}</a></p>
          <h2>2 · ${words.compare}</h2>
          <p>${words.compareHow}</p>
          ${fingerprint(now)}
          <p class="aside">${picture('compare', words.comparePicture)}</p>
          <h2>3 · ${words.trust}</h2>
          ${platform(own!, words.platformPicture, true)}
          ${others.map((each) => platform(each, words.platformPicture, false))}
          <p class="aside">${words.menusMove}</p>
          <h2>4 · ${words.open}</h2>
          <p><a class="button" href="${address}">${address}</a></p>
          <p>${words.openHow}</p>
          ${follower}
        </main>
      </body>
    </html>`;
}

const fingerprint = ({ fingerprint: value }: Offered) => html`<p><code>${value}</code></p>`;

const picture = (name: string, says: string) =>
  html`<img src="/trust/pictures/trust-${name}.svg" alt="${says}" width="360" loading="lazy" />`;

const platform = ({ id, title, steps, note }: Platform, says: string, isOpen: boolean) =>
  html`<details ${isOpen ? 'open' : ''}>
    <summary>${title}</summary>
    ${picture(id, says)}
    <ol>
      ${steps.map((step) => html`<li>${step}</li>`)}
    </ol>
    <p class="aside">${note}</p>
  </details>`;
