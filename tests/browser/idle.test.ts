/** A page that nobody touches goes back to its list, and never over a draft, a dialog or a person. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

let shop: TestServer;
let browser: Browser;
let opener: Opener;
let measuring: Page;
let bench: Page;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  opener = await Opener.of(shop);
  measuring = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'));
  bench = await floor.pair(browser, shop.url, 'bench', shop.shownCode('bench'));
  for (const page of [measuring, bench]) await page.clock.install();
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

/** The clocks of this page go on, and its timers with them. */
const wait = (page: Page, minutes: number) => page.clock.runFor(minutes * 60_000);
const isAt = (page: Page) => page.evaluate(() => location.hash !== '');

describe('the measuring station', () => {
  beforeEach(async () => {
    const job = await opener.open('Genoveva Plattner', readied());
    await measuring.goto('about:blank');
    await measuring.goto(`${shop.url}/measuring#${job.session}`);
    await field(measuring, 'Stance width').waitFor();
  });
  const list = () => measuring.getByRole('heading', { name: 'Who is standing here?' });

  it('goes back to its list once nobody has touched it for five minutes', async () => {
    await wait(measuring, 4.5);
    expect(await isAt(measuring)).toBe(true);
    // A person is there.
    await measuring.mouse.move(300, 300);
    await wait(measuring, 4.5);
    expect(await isAt(measuring)).toBe(true);
    await wait(measuring, 1);
    await list().waitFor();
  });

  it('stays with a number that is typed, with a posture and with gaps, however long', async () => {
    await field(measuring, 'Stance width').fill('2');
    await wait(measuring, 30);
    expect(await field(measuring, 'Stance width').inputValue()).toBe('2');
    await floor.stand(measuring, 230, ['left', 'right']);
    await floor.gapField(measuring, 'left', 'medial').fill('12');
    await wait(measuring, 30);
    expect(await floor.gapField(measuring, 'left', 'medial').inputValue()).toBe('12');
  });

  it('stays under an open dialog, and goes once it is closed and nobody is there', async () => {
    await button(measuring, 'Entries').click();
    await wait(measuring, 30);
    const dialog = measuring.getByRole('dialog');
    await button(dialog, 'Close').click();
    await dialog.waitFor({ state: 'detached' });
    await wait(measuring, 6);
    await list().waitFor();
  });
});

describe('the bench', () => {
  it('goes back to its queue, and never over a dialog that is being typed in', async () => {
    const job = await opener.open('Genoveva Plattner', wasRead());
    await bench.goto('about:blank');
    await bench.goto(`${shop.url}/bench#${job.session}`);
    await floor.bootInHand(bench, 'left');
    await button(bench, 'Did something else').click();
    await field(bench.getByRole('dialog'), 'Lateral adjuster').fill('-2');
    await wait(bench, 30);
    expect(await field(bench.getByRole('dialog'), 'Lateral adjuster').inputValue()).toBe('-2');
    await button(bench.getByRole('dialog'), 'Close').click();
    await wait(bench, 4);
    expect(await isAt(bench)).toBe(true);
    await wait(bench, 2);
    await bench.getByText('or pick a boot on the left').waitFor();
  });
});
