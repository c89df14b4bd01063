/** A phone at hand where no tablet is: the pages of measuring and desk, and what all stations begin with, fit it. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { DUAL, SINGLE, Story, withMarks } from '../helpers/facts.ts';
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
let desk: Page;
const jobs = {} as Record<'takenIn' | 'readied' | 'wasRead' | 'cuffsClosed', OpenJob>;

/** Both cuffs closed as even: the knees are next. */
function cuffsClosed(): Story {
  const told = new Story().open('full');
  told.boot('left', withMarks(DUAL, 1)).boot('right', withMarks(SINGLE, 1)).ready('left').ready('right');
  for (const side of ['left', 'right'] as const) {
    told.read(side, 10, 10);
    told.add('cuff.closed', { side, decision: 'even' });
  }
  return told;
}

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'), { size: PHONE });
  const opener = await Opener.of(shop);
  jobs.takenIn = await opener.open('Kilian Obermoser', takenIn());
  jobs.readied = await opener.open('Walburga Steinlechner-Hinterholzer', readied());
  jobs.wasRead = await opener.open('Leopoldine Aschaber', wasRead());
  jobs.cuffsClosed = await opener.open('Pankraz Moosbrugger', cuffsClosed());
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'), { size: PHONE });
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
    'how the knees are read',
    async () => {
      await load(jobs.cuffsClosed);
      await floor.field(page, 'Stance width').waitFor();
    },
  ],
  [
    'the knees',
    async () => {
      await load(jobs.cuffsClosed);
      await page.getByRole('radio', { name: /kneecap/ }).check();
      await button(page, /read the knees/).click();
      await floor.field(page, 'Knee from the line').first().waitFor();
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

const DESK: readonly (readonly [name: string, show: () => Promise<void>])[] = [
  ['the board', () => desk.getByText('Kilian Obermoser').waitFor()],
  [
    'a job',
    async () => {
      await desk.goto(`${shop.url}/desk#${jobs.wasRead.session}`);
      await button(desk, 'Pause the job').waitFor();
    },
  ],
  [
    'the boots of the shop',
    async () => {
      await button(desk, /Open jobs/).click();
      await button(desk, 'Boots of the shop').click();
      await button(desk, /^Import a table/).waitFor();
    },
  ],
  [
    'an intake',
    async () => {
      await button(desk, /Open jobs/).click();
      await button(desk, 'Take someone in').click();
      await desk.getByLabel('Name', { exact: true }).waitFor();
    },
  ],
];

async function fits(on: Page, name: string): Promise<void> {
  expect(await sidewaysScrolls(on)).toEqual([]);
  expect((await smallTargets(on, TOUCH_PX)).small).toEqual([]);
  expect(await axeViolations(on)).toEqual([]);
  await shot(on, `phone-${name.replaceAll(' ', '-')}`);
}

describe('a phone', () => {
  it.each(PAGES)('fits %s', async (name, show) => {
    await show();
    await fits(page, name);
  });

  it.each(DESK)('fits at the desk %s', async (name, show) => {
    await show();
    await fits(desk, name);
  });
});
