/** What a station keeps on its device when something is in the way: a full device, another tab, a refusal, a clock. */
import type { Browser, BrowserContext, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { cableTo } from '../helpers/cable.ts';
import type { Cable } from '../helpers/cable.ts';
import { fillDevice, keptEntries, plant } from '../helpers/device.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { HELD } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, readied, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';

/** A name that this browser finds on this machine, and that is no secure origin over plain http. */
const NAME = 'werkstatt.test';

let shop: TestServer;
let browser: Browser;
let opener: Opener;
let cable: Cable;
let context: BrowserContext;

beforeAll(async () => {
  [shop, browser] = await Promise.all([
    serve({ args: ['--name', '127.0.0.1', '--name', NAME] }),
    launchBrowser({ args: [`--host-resolver-rules=MAP ${NAME} 127.0.0.1`] }),
  ]);
  cable = await cableTo(shop.url);
  opener = await Opener.of(shop);
});
afterEach(async () => {
  cable.plugIn();
  await context?.close();
});
afterAll(async () => {
  await browser?.close();
  await cable?.close();
  await shop?.close();
});

async function openAt(url: string, job: OpenJob): Promise<Page> {
  const paired = await floor.pair(browser, url, 'measuring', shop.code(['measuring']));
  context = paired.context();
  await paired.goto(`${url}/measuring#${job.session}`);
  await floor.allSaved(paired);
  return paired;
}

const onDisk = ({ session }: OpenJob) => factsOnDisk(shop.data, session);
const waiting = (page: Page, count: number) =>
  floor
    .savedState(page)
    .filter({ hasText: `${count} waiting to be saved` })
    .waitFor();
/** A full device is tried again every five seconds, and a busy browser is late with it. */
const PATIENT = { timeout: 60_000 };
const cut = async (page: Page) => {
  cable.pull();
  await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
};

it('says at once that a device is full, and keeps the entries when there is room again', async () => {
  const job = await opener.open('Ludmilla Windegger', takenIn());
  context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  const quota = (size: object) =>
    devtools.send('Storage.overrideQuotaForOrigin', { origin: cable.url, ...size });
  // Small before the first write: a browser remembers for a while how much room it found.
  await quota({ quotaSize: 2_000_000 });
  await floor.pairHere(page, cable.url, 'measuring', shop.code(['measuring']));
  await page.goto(`${cable.url}/measuring#${job.session}`);
  await floor.allSaved(page);
  const before = onDisk(job).length;
  await cut(page);
  await fillDevice(page);
  await floor.readyBoot(page, 'left');
  await page.getByRole('alert').filter({ hasText: 'This device is full' }).waitFor(PATIENT);
  await waiting(page, 10);
  expect((await keptEntries(page)).filter(({ state }) => state === 'waiting')).toEqual([]);

  await quota({});
  await page
    .getByRole('alert')
    .filter({ hasText: 'This device is full' })
    .waitFor({ state: 'detached', ...PATIENT });
  await page.goto('about:blank');
  cable.plugIn();
  await page.goto(`${cable.url}/measuring#${job.session}`);
  await floor.allSaved(page);
  expect(onDisk(job)).toHaveLength(before + 10);
});

it.each([
  ['by a lock', () => shop.url],
  ['by a lease where a browser has no locks', () => shop.url.replace('127.0.0.1', NAME)],
])('lets one tab write, and the next one when that is closed: %s', async (_how, address) => {
  const job = await opener.open('Crispin Achleitner', takenIn());
  const first = await openAt(address(), job);
  const locks = await first.evaluate(() => 'locks' in navigator);
  expect(locks).toBe(!address().includes(NAME));
  const second = await context.newPage();
  await second.goto(`${address()}/measuring#${job.session}`);
  const says = second.getByRole('alert').filter({ hasText: 'open in another tab' });
  await says.waitFor();
  const before = onDisk(job).length;
  await floor.readyBoot(second, 'left');
  await second.getByText(/this page only shows/i).waitFor();
  await floor.readyBoot(first, 'right');
  await floor.allSaved(first);
  expect(onDisk(job)).toHaveLength(before + 10);
  await button(second, /^Right boot: all as expected/).waitFor({ state: 'detached' });

  await first.close();
  await says.waitFor({ state: 'detached' });
  await floor.readyBoot(second, 'left');
  await floor.allSaved(second);
  expect(onDisk(job)).toHaveLength(before + 20);
});

it('keeps what is entered in the very moment in which the page is left', async () => {
  const job = await opener.open('Adelgund Moosbrugger', takenIn());
  const page = await openAt(cable.url, job);
  const before = onDisk(job).length;
  await cut(page);
  const ready = await button(page, /^Left boot: all as expected/).elementHandle();
  await ready!.evaluate((it) => {
    (it as HTMLElement).click();
    location.replace('about:blank');
  });
  await page.waitForURL('about:blank');
  cable.plugIn();
  await page.goto(`${cable.url}/measuring#${job.session}`);
  await until(() => onDisk(job).length === before + 10, 'what was entered on the server’s disk');
  await floor.allSaved(page);
});

it('keeps a refused entry with its reason until a person has dealt with it', async () => {
  const job = await opener.open('Notburga Ferchl', readied());
  const page = await openAt(shop.url, job);
  const { device } = (await (await page.request.get(`${shop.url}/api/me`)).json()) as { device: string };
  // As a version of this page would have left them that knew other bounds.
  const left = (id: string, medialMm: number) => ({
    kind: 'cuff.read',
    id,
    at: '2026-01-09T09:12:00+01:00',
    by: { role: 'measuring', station: device },
    side: 'left',
    stanceWidthMm: 230,
    widestAt: 'middle',
    posture: HELD,
    to: 'shell',
    liner: 'in',
    contact: 'none',
    medialMm,
    lateralMm: 7,
  });
  await plant(page, job.session, [left('one00000000000000000', 900), left('two00000000000000000', 800)]);
  await page.reload();
  const section = page.getByRole('alert', { name: 'Not taken by the shop' });
  const rows = section.getByRole('listitem');
  await until(async () => (await rows.count()) === 2, 'both refused');
  await rows.filter({ hasText: /Left medial gap must be at most \d+ \(is 900\)/ }).waitFor();
  await floor.allSaved(page);

  await page.goto(`${shop.url}/measuring`);
  const notice = page.getByRole('alert').filter({ hasText: 'did not take 2 entries' });
  await notice.getByRole('link', { name: job.ticket }).click();
  const row = rows.filter({ hasText: '900' });
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await button(row, 'Copy as text').click();
  await button(row, 'Copied').waitFor();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toMatch(
    /Left cuff read: medial 900.*\n\{/,
  );
  await button(row, 'Try again').click();
  await row.filter({ hasText: 'Still not taken' }).waitFor();
  await button(row, 'Let go').click();
  await until(async () => (await rows.count()) === 1, 'one left');
  await page.reload();
  await rows.filter({ hasText: '800' }).waitFor();
  expect(await rows.count()).toBe(1);
  expect((await keptEntries(page)).map(({ id, state }) => [id, state])).toEqual([
    ['two00000000000000000', 'refused'],
  ]);
});

it('keeps order and plan when the clock of the tablet jumps back and ahead; only the times differ', async () => {
  const job = await opener.open('Walburga Steinlechner', readied());
  const page = await openAt(cable.url, job);
  const before = onDisk(job).length;
  await cut(page);
  const noon = Date.parse('2026-02-03T12:00:00Z');
  await page.clock.setFixedTime(noon);
  await floor.stand(page, 230, ['left', 'right']);
  await floor.typeGaps(page, { left: { medialMm: 14, lateralMm: 6 }, right: { medialMm: 9, lateralMm: 9 } });
  await floor.record(page);
  await page.clock.setFixedTime(noon - 3_600_000);
  await button(page, /^Close the right cuff: even/).click();
  await waiting(page, 3);
  // A year ahead: what is saved by then is kept for its week all the same.
  await page.clock.setFixedTime(noon + 365 * 24 * 3_600_000);
  cable.plugIn();
  await floor.allSaved(page);
  const made = onDisk(job).slice(before);
  expect(made.map(({ kind }) => kind)).toEqual(['cuff.read', 'cuff.read', 'cuff.closed']);
  const times = made.map(({ at }) => Date.parse(at) - noon);
  expect(times).toEqual([0, 0, -3_600_000]);
  const steady = onDisk(job).map((fact) => ({ ...fact, at: '2026-02-03T12:00:00Z' }));
  expect(plan(onDisk(job))).toEqual(plan(steady));
  await page.reload();
  await floor.allSaved(page);
  const kept = await keptEntries(page);
  expect(kept.map(({ id }) => id)).toEqual(made.map(({ id }) => id));
  expect(kept.every(({ state }) => state === 'saved')).toBe(true);
});
