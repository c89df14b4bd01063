/** Entries that the shop does not have yet: they wait, outlive the page and the server, and are saved once. */
import type { Browser, Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, entry } from '../helpers/floor.ts';
import { Opener, readied, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import type { Story } from '../helpers/facts.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';

let shop: TestServer;
/** The process that runs now: the first one, or one started after it was killed. */
let server: ServerProcess;
let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());
beforeEach(async () => {
  shop = await serve();
  server = shop.server;
});
afterEach(async () => {
  await server?.stop();
  await shop?.close();
});

/** As a loss of power: no warning, no last words. */
async function kill(): Promise<void> {
  const { process } = server;
  const gone = new Promise((resolve) => process.once('exit', resolve));
  process.kill('SIGKILL');
  await gone;
}

/** Another process on the same port and the same data. */
async function startAgain(): Promise<void> {
  const { port } = new URL(shop.url);
  server = await startServer(shop.data, ['--plain', '--host', '127.0.0.1', '--port', port]);
}

async function openAt(told: Story): Promise<{ page: Page; job: OpenJob }> {
  const job = await (await Opener.of(shop)).open('Ludmilla Windegger', told);
  job.room.close();
  const page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'));
  await button(page, /Ludmilla Windegger/).click();
  await floor.allSaved(page);
  return { page, job };
}

const onDisk = ({ session }: OpenJob) => factsOnDisk(shop.data, session);
const waiting = (page: Page, count: number) =>
  floor
    .savedState(page)
    .filter({ hasText: `${count} waiting to be saved` })
    .waitFor();

/** What was entered, as often as the disk has it: apart from its id there are no two of anything. */
const tally = (facts: readonly Fact[]) => {
  const counts = new Map<string, number>();
  for (const fact of facts) {
    const { kind, side, item } = fact as Fact & { side?: string; item?: string };
    const what = [kind, side, item].filter(Boolean).join(' ');
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return Object.fromEntries(counts);
};

it('keeps what is entered while the server is down, over a new page, and saves it once', async () => {
  const { page, job } = await openAt(takenIn());
  const before = onDisk(job).length;
  await kill();
  await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
  await floor.readyBoot(page, 'left');
  await waiting(page, 10);
  await button(page, 'Entries').click();
  await entry(page.getByRole('dialog'), 'Left footbed: done', '· waiting to be saved').waitFor();
  expect(onDisk(job)).toHaveLength(before);

  const address = page.url();
  await page.goto('about:blank');
  await startAgain();
  await page.goto(address);
  await floor.allSaved(page);
  await button(page, 'Entries').click();
  const list = page.getByRole('dialog');
  await entry(list, 'Left footbed: done', '· saved').waitFor();
  expect(await entry(list, 'Left footbed: done').count()).toBe(1);
  expect(await entry(list, 'waiting to be saved').count()).toBe(0);
  expect(onDisk(job)).toHaveLength(before + 10);
  expect(Object.values(tally(onDisk(job).slice(before)))).toEqual(Array(10).fill(1));
});

it('sends it from a page that stays open, once, and finds the list of jobs again', async () => {
  const { page, job } = await openAt(takenIn());
  const before = onDisk(job).length;
  for (const side of ['right', 'left'] as const) {
    await kill();
    await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
    await floor.readyBoot(page, side);
    await waiting(page, 10);
    await startAgain();
    await floor.allSaved(page);
  }
  expect(Object.values(tally(onDisk(job).slice(before)))).toEqual(Array(20).fill(1));
  expect(new Set(onDisk(job).map(({ id }) => id)).size).toBe(before + 20);
  await button(page, /^‹/).click();
  await button(page, /Ludmilla Windegger.*read both gaps/).waitFor();
});

/** The tap and the reload in one breath: the page has no time for anything between them. */
const tapAndReload = (page: Page) =>
  button(page, /^Record /).evaluate((tapped: HTMLButtonElement) => {
    tapped.click();
    location.reload();
  });

it('loses nothing to a reload: typed, just entered, or entered without a server', async () => {
  const { page, job } = await openAt(readied());
  const before = onDisk(job).length;
  const address = page.url();
  await floor.stand(page, 230, ['left', 'right']);
  await floor.typeGaps(page, { left: { medialMm: 12.5, lateralMm: 7.5 } });
  await page.reload();
  await floor.gapField(page, 'left', 'medial').waitFor();
  expect(await floor.gapField(page, 'left', 'medial').inputValue()).toBe('12.5');
  expect(await floor.gapField(page, 'left', 'lateral').inputValue()).toBe('7.5');
  expect(onDisk(job)).toHaveLength(before);

  await tapAndReload(page);
  await page.getByRole('region', { name: 'Left leg' }).waitFor();
  await floor.allSaved(page);
  await until(() => onDisk(job).length === before + 1, 'the reading on disk');
  expect(onDisk(job).at(-1)).toMatchObject({
    kind: 'cuff.read',
    side: 'left',
    medialMm: 12.5,
    lateralMm: 7.5,
  });

  await button(page, /^Read again/)
    .first()
    .click();
  await floor.confirmPosture(page);
  await floor.typeGaps(page, { right: { medialMm: 9, lateralMm: 10 } });
  await kill();
  await floor.savedState(page).filter({ hasText: 'No connection' }).waitFor();
  await tapAndReload(page);
  // Not waitForURL: it throws when it sees the navigation fail, which is what is waited for.
  await until(() => page.url().startsWith('chrome-error:'), 'the page that says there is no server');
  await startAgain();
  await page.goto(address);
  await page.getByText(/Lateral gap wider by 1 mm/).waitFor();
  await floor.allSaved(page);
  expect(tally(onDisk(job).slice(before))).toEqual({ 'cuff.read left': 1, 'cuff.read right': 1 });
});
