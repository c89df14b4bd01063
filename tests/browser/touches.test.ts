/** How often a hand must touch the glass for a pair of first readings, numbers aside, and that a foot records once. */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, readied } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

/** The most that a person would put up with; the numbers themselves are not counted. */
const MOST = 5;

let shop: TestServer;
let browser: Browser;
let page: Page;
let opener: Opener;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  opener = await Opener.of(shop);
  const context = await browser.newContext({ viewport: floor.SIZE.measuring, hasTouch: true });
  context.setDefaultTimeout(15_000);
  page = await context.newPage();
  await floor.pairHere(page, shop.url, 'measuring', shop.code(['measuring']));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

async function stand(): Promise<OpenJob> {
  const job = await opener.open('Notburga Lechthaler', readied());
  await page.goto('about:blank');
  await page.goto(`${shop.url}/measuring#${job.session}`);
  return job;
}
const reads = (job: OpenJob) =>
  factsOnDisk(shop.data, job.session).filter(({ kind }) => kind === 'cuff.read');

it('needs no more touches than a hand has patience for, with the posture seen first', async () => {
  const job = await stand();
  // All four points of the posture are on the glass before anything is touched.
  const points = page.getByRole('region', { name: 'Does the skier stand like this?' }).getByRole('button');
  await points.first().waitFor();
  expect(await points.count()).toBe(4);
  for (const point of await points.all()) expect(await inSight(point)).toHaveProperty('heightPx');

  let touches = 0;
  const touch = async (what: Locator) => {
    await what.tap();
    touches += 1;
  };
  for (const side of ['Right', 'Left'])
    await touch(
      page.getByRole('group', { name: `${side} leg widest at` }).getByRole('radio', { name: 'middle' }),
    );
  // The width is all that is missing: its field and the keypad have come to the hand.
  const keypad = page.getByRole('region', { name: 'Keypad: Stance width' });
  for (const digit of '230') await button(keypad, digit).tap();
  await touch(button(page, 'All four are so: read the gaps'));
  for (const [i, gap] of ['14', '6', '5', '13'].entries()) {
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.id))
      .toBe(['gap-left-medial', 'gap-left-lateral', 'gap-right-medial', 'gap-right-lateral'][i]);
    await button(page, gap).tap();
  }
  await touch(button(page, 'Record both legs'));
  // The verdict is there before anything is sent.
  for (const side of ['Left', 'Right'])
    await page
      .getByRole('region', { name: `${side} leg` })
      .getByText(/uneven/)
      .waitFor();
  await touch(button(page, /^Send to the bench/));
  await page.getByText('With the bench. This screen shows when the pivots are set.').waitFor();
  await floor.allSaved(page);
  expect(reads(job)).toMatchObject([
    { side: 'left', medialMm: 14, lateralMm: 6, stanceWidthMm: 230 },
    { side: 'right', medialMm: 5, lateralMm: 13, stanceWidthMm: 230 },
  ]);
  console.log(`A pair of first readings: ${touches} touches besides the numbers`);
  expect(touches).toBeLessThanOrEqual(MOST);
});

it('records once for a foot switch, however it bounces or is held', async () => {
  const job = await stand();
  await floor.stand(page, 230, ['left', 'right']);
  const first = floor.gapField(page, 'left', 'medial');
  await expect.poll(() => first.evaluate((element) => element === document.activeElement)).toBe(true);
  for (const gap of ['12', '8', '9', '11']) await button(page, gap).tap();
  // The last gap is typed: down it goes, and it stays down, and it bounces.
  await page.keyboard.down('Enter');
  for (let i = 0; i < 10; i++) await page.keyboard.down('Enter');
  await page.keyboard.up('Enter');
  for (let i = 0; i < 5; i++) await page.keyboard.press('Enter');
  await page.getByRole('region', { name: 'Left leg' }).waitFor();
  await page.keyboard.press('Enter');
  await floor.allSaved(page);
  expect(reads(job)).toMatchObject([{ side: 'left' }, { side: 'right' }]);
  expect(factsOnDisk(shop.data, job.session).filter(({ kind }) => kind === 'cuff.closed')).toEqual([]);
});

it('goes through the gaps by a foot switch alone, and one that is held goes one step', async () => {
  await stand();
  await floor.stand(page, 230, ['left', 'right']);
  const here = () => page.evaluate(() => document.activeElement?.id);
  await expect.poll(here).toBe('gap-left-medial');
  await page.keyboard.down('Enter');
  for (let i = 0; i < 5; i++) await page.keyboard.down('Enter');
  await page.keyboard.up('Enter');
  expect(await here()).toBe('gap-left-lateral');
});
