/** A phone at hand where no tablet is: every page of the measuring station, and what all stations begin with, fits it. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, readied, takenIn, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

const PHONE = { width: 390, height: 844 } as const;
const TOUCH_PX = 56;

let shop: TestServer;
let browser: Browser;
let page: Page;
const jobs = {} as Record<'takenIn' | 'readied' | 'wasRead', OpenJob>;
beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'), { size: PHONE });
  const opener = await Opener.of(shop);
  jobs.takenIn = await opener.open('Kilian Obermoser', takenIn());
  jobs.readied = await opener.open('Walburga Steinlechner-Hinterholzer', readied());
  jobs.wasRead = await opener.open('Leopoldine Aschaber', wasRead());
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

async function load(job?: OpenJob): Promise<void> {
  await page.evaluate(() => sessionStorage.clear());
  await page.goto('about:blank');
  await page.goto(`${shop.url}/measuring${job ? `#${job.session}` : ''}`);
}

const PAGES: readonly (readonly [name: string, show: () => Promise<void>])[] = [
  [
    'the list',
    async () => {
      await load();
      await button(page, /Kilian Obermoser/).waitFor();
    },
  ],
  [
    'readiness',
    async () => {
      await load(jobs.takenIn);
      await button(page, /^Left boot: all as expected/).waitFor();
    },
  ],
  [
    'the stand',
    async () => {
      await load(jobs.readied);
      await floor.field(page, 'Stance width').fill('230');
    },
  ],
  [
    'a reading',
    async () => {
      await load(jobs.readied);
      await floor.stand(page, 230, ['left', 'right']);
    },
  ],
  [
    'a result',
    async () => {
      await load(jobs.wasRead);
      await button(page, /^Send to the bench/).waitFor();
    },
  ],
  [
    'photos',
    async () => {
      await load(jobs.wasRead);
      await button(page, 'Photos').click();
      await page.getByText('No photos of this session yet.').waitFor();
    },
  ],
  [
    'entries',
    async () => {
      await load(jobs.wasRead);
      await button(page, 'Entries').click();
      await page.getByRole('dialog').waitFor();
    },
  ],
  [
    'the first page',
    async () => {
      await page.goto(shop.url);
      await page.getByRole('link', { name: /Measuring/ }).waitFor();
    },
  ],
];

describe('a phone', () => {
  it.each(PAGES)('fits %s', async (name, show) => {
    await show();
    expect(await sidewaysScrolls(page)).toEqual([]);
    expect((await smallTargets(page, TOUCH_PX)).small).toEqual([]);
    expect(await axeViolations(page)).toEqual([]);
    await shot(page, `phone-${name.replaceAll(' ', '-')}`);
  });
});
