/** The page of all parts, on a job of the demo’s shop day: each stands there, in sight of axe, light and dark. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, wasRead } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';

let shop: TestServer;
let browser: Browser;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  await (await Opener.of(shop)).open('Leopoldine Aschaber', wasRead());
  page = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
  seen = watch(page, shop.url);
  await page.goto(`${shop.url}/parts`);
  await page.locator('[data-part="PairDrawing"] svg').waitFor();
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

it('draws each part with something in it', async () => {
  const empty = await page
    .locator('[data-part]')
    .evaluateAll((parts) =>
      parts
        .filter((part) => part.clientHeight < 40 && part.getAttribute('data-part') !== 'Refused')
        .map((part) => part.getAttribute('data-part')),
    );
  expect(empty).toEqual([]);
});

it.each(['light', 'dark'] as const)('gives axe nothing to say, %s', async (colorScheme) => {
  await page.emulateMedia({ colorScheme });
  expect(await axeViolations(page)).toEqual([]);
  expect(await axeViolations(page, COLOUR_RULES)).toEqual([]);
  await shot(page, `parts-${colorScheme}`);
});

it.each([1280, 1024, 390])('runs out at no side and has no small target, %i px wide', async (width) => {
  await page.setViewportSize({ width, height: 800 });
  expect(await sidewaysScrolls(page)).toEqual([]);
  expect(await smallTargets(page, 56)).toEqual({ small: [], inline: [] });
});

it('opens its sheets', async () => {
  for (const name of ['Dialog', 'BootsDialog']) {
    await button(page.locator(`[data-part="${name}"]`), 'Open it').click();
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
  }
});

it('does all that without an error, a broken policy, or a word to another host', () =>
  expect(seen.take()).toEqual([]));
