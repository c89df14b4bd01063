/** A station without its server, over HTTPS: reload, other pages, a closed browser, and all of it saved once. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { caches, keptEntries, pagesKept } from '../helpers/device.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, entry } from '../helpers/floor.ts';
import { trustingDevice } from '../helpers/trust.ts';
import type { TrustingDevice } from '../helpers/trust.ts';
import { until } from '../helpers/until.ts';

let data: string;
let server: ServerProcess;
let url: string;
let tablet: TrustingDevice;
let context: BrowserContext;
let page: Page;
let session: string;

const serve = (port: string) => startServer(data, ['--host', '127.0.0.1', '--port', port]);

async function kill(): Promise<void> {
  const gone = new Promise((resolve) => server.process.once('exit', resolve));
  server.process.kill('SIGKILL');
  await gone;
}

async function openBrowser(): Promise<void> {
  context = await tablet.open();
  context.setDefaultTimeout(30_000);
  page = context.pages()[0] ?? (await context.newPage());
}

beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-offline-'));
  server = await serve('0');
  url = `https://127.0.0.1:${new URL(server.url).port}`;
  tablet = trustingDevice(join(data, 'tls'));
  await openBrowser();
});
afterAll(async () => {
  await context?.close();
  await server?.stop();
  tablet?.remove();
  rmSync(data, { recursive: true, force: true });
});

const onDisk = () => factsOnDisk(data, session);
const waiting = (count: number) =>
  floor
    .savedState(page)
    .filter({ hasText: `${count} waiting to be saved` })
    .waitFor();

it('takes a job in while the server is there, and keeps the pages of its build', async () => {
  const [, all] = /^ *(\d{6}) +desk, measuring, bench/m.exec(server.output())!;
  await floor.pairHere(page, url, 'desk', all!);
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
  await floor.allSaved(page);
  await page.goto(`${url}/measuring#${session}`);
  await button(page, /^Left boot: all as expected/).waitFor();
  await floor.allSaved(page);
  await pagesKept(page);
  const [cache, ...others] = await caches(page);
  expect(others).toEqual([]);
  for (const path of ['/', '/measuring', '/bench', '/desk', '/wall', '/paper'])
    expect(cache!.paths).toContain(path);
  expect(cache!.paths.filter((path) => /^\/(api|sync|healthz|trust)/.test(path))).toEqual([]);
});

it('goes on over a reload without the server: who I am, the job as it stood, what waits', async () => {
  await kill();
  await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
  await floor.readyBoot(page, 'left');
  await waiting(10);
  await page.reload();
  await waiting(10);
  await floor.readyBoot(page, 'right');
  await waiting(20);
  await button(page, 'Both boots ready: stand the skier').click();
  await floor.stand(page, 230, ['left', 'right']);
  await floor.typeGaps(page, {
    left: { medialMm: 12.5, lateralMm: 7.5 },
    right: { medialMm: 9, lateralMm: 10 },
  });
  await floor.record(page);
  await waiting(22);
  // A wrong reading is corrected: both legs are struck, as they were recorded, and readable.
  await button(page, 'Undo last entry').click();
  await waiting(24);
});

it('has all its pages without the server, and the list of jobs as last seen', async () => {
  await page.goto(`${url}/bench`);
  await page.getByRole('heading', { name: 'Boots to do now' }).waitFor();
  await page.goto(`${url}/desk`);
  await button(page, /^\d+-1/).click();
  // Papers too: they are made of what is here.
  await button(page, /^Print/).click();
  const papers = page.getByRole('dialog', { name: 'Print' });
  await floor.choose(papers, 'Which paper', /^Shop record/);
  await papers.frameLocator('iframe').getByText('All entries').waitFor();
  await page.goto(`${url}/`);
  await page.getByRole('link', { name: /^Measuring/ }).waitFor();
  await page.goto(`${url}/measuring`);
  await button(page, /^\d+-1/).click();
  await waiting(24);
});

it('finds it all again after the browser was closed, and saves it once when the server is back', async () => {
  const before = onDisk().length;
  await context.close();
  await openBrowser();
  await page.goto(`${url}/measuring#${session}`);
  await waiting(24);
  const made = await keptEntries(page);
  expect(made.filter(({ state }) => state === 'waiting')).toHaveLength(24);
  expect(onDisk()).toHaveLength(before);

  server = await serve(new URL(url).port);
  await floor.allSaved(page);
  await button(page, 'Entries').click();
  await entry(page.getByRole('dialog'), 'Left footbed: done', '· saved').waitFor();
  const facts = onDisk();
  expect(new Set(facts.map(({ id }) => id)).size).toBe(facts.length);
  const ids = made.filter(({ state }) => state === 'waiting').map(({ id }) => id);
  expect(facts.slice(before).map(({ id }) => id)).toEqual(ids);
  // It stays on the device for a week, for the case that the server is restored from a backup.
  await until(
    async () => (await keptEntries(page)).every(({ state }) => state === 'saved'),
    'all marked saved',
  );
  expect((await keptEntries(page)).every(({ savedMs }) => typeof savedMs === 'number')).toBe(true);
});
