/** A station and a server of different versions: over HTTPS, with pages of the next version that are really built. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ServerProcess } from '../../demo/serve.ts';
import { caches, pagesKept } from '../helpers/device.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { buildPages, serveVersion, THESE_PAGES } from '../helpers/other-version.ts';
import { launchTrusting } from '../helpers/trust.ts';
import type { TrustingBrowser } from '../helpers/trust.ts';
import { until } from '../helpers/until.ts';

let data: string;
let nextPages: string;
let server: ServerProcess;
let trusting: TrustingBrowser;
let url: string;
let page: Page;
let session: string;

const serve = (port: string, protocol: number, pages: string) =>
  serveVersion(data, ['--host', '127.0.0.1', '--port', port], protocol, pages);
/** The same shop, as a server of another version. */
async function become(protocol: number, pages: string): Promise<void> {
  await server.stop();
  server = await serve(new URL(url).port, protocol, pages);
}

beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-version-'));
  nextPages = join(data, 'next-pages');
  server = await serve('0', 1, THESE_PAGES);
  url = `https://127.0.0.1:${new URL(server.url).port}`;
  [trusting] = await Promise.all([launchTrusting(join(data, 'tls')), buildPages(2, nextPages)]);
});
afterAll(async () => {
  await trusting?.close();
  await server?.stop();
  rmSync(data, { recursive: true, force: true });
});

const build = async () => (await caches(page)).map(({ name }) => name);
async function soleFlat(): Promise<void> {
  await floor.button(page.getByRole('region', { name: 'Right leg' }), /^Cant on the sole/).click();
  await floor.button(page.getByRole('dialog'), 'Brought flat: 0°').click();
}

/** Page loads since the last time this was asked. */
let loads = 0;
const taken = () => {
  const were = loads;
  loads = 0;
  return were;
};

it('loads the next version by itself, once, and what waited is saved by it', async () => {
  const [, all] = /^ *(\d{6}) +desk, measuring, bench/m.exec(server.output())!;
  page = await floor.pair(trusting.browser, url, 'desk', all!);
  page.context().setDefaultTimeout(60_000);
  await floor.beginIntake(page, 'Rosina Thalhammer');
  await floor.typeBoot(page, {
    model: 'Ombrik Tarn 110',
    pivots: 'One adjuster',
    spacing: 80,
    height: 185,
    lean: 1,
    travel: 8,
  });
  session = await floor.openSession(page);
  await page.goto(`${url}/measuring#${session}`);
  await floor.allSaved(page);
  await pagesKept(page);
  const [first] = await build();
  const before = factsOnDisk(data, session).length;
  await server.stop();
  await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
  await floor.readyBoot(page, 'left');
  await floor.savedState(page).filter({ hasText: '10 waiting' }).waitFor();
  page.on('load', () => (loads += 1));
  await become(2, nextPages);
  await floor.allSaved(page);
  expect(taken()).toBe(1);
  const [second, ...others] = await build();
  expect(second).not.toBe(first);
  expect(others).toEqual([]);
  const facts = factsOnDisk(data, session);
  expect(facts).toHaveLength(before + 10);
  expect(new Set(facts.map(({ id }) => id)).size).toBe(facts.length);
});

it.each([
  [3, 'The shop’s server is newer than its pages', soleFlat],
  [1, 'This page is newer than the shop’s server', () => floor.readyBoot(page, 'right')],
])(
  'says who must update when the pages do not fit the server (protocol %i), and is not loaded over and over',
  async (protocol, says, enter) => {
    await become(protocol, nextPages);
    await page.getByRole('alert').filter({ hasText: says }).waitFor();
    expect(taken()).toBe(1);
    // It stays as it is: the entry that is made now waits, and no further load comes.
    await enter();
    await floor.savedState(page).filter({ hasText: 'waiting to be saved' }).waitFor();
    expect(taken()).toBe(0);
    await become(2, nextPages);
    await page.reload();
    await floor.allSaved(page);
    taken();
  },
);

it('says that a newer build is here, and takes it at the next load', async () => {
  const [before] = await build();
  // Of the same protocol, and other pages: what a station that nobody reloads hears when the server is started anew.
  await buildPages(2, nextPages, 'another');
  await become(2, nextPages);
  await page.getByRole('status').filter({ hasText: 'A new version is here' }).waitFor();
  expect(taken()).toBe(0);
  await floor.button(page, 'Load it now').click();
  await until(() => taken() === 1, 'one load');
  await floor.allSaved(page);
  const [now, ...others] = await build();
  expect(now).not.toBe(before);
  expect(others).toEqual([]);
});
