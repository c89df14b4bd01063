/** “Why?” beside a computed number, on the floor and at the bench, by touch and by keyboard. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { explain, plan } from '../../core/index.ts';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

const TOUCH_PX = 56;

let shop: TestServer;
let browser: Browser;
let job: OpenJob;
let onFloor: Page;
beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

async function openAt(role: 'measuring' | 'bench'): Promise<Page> {
  const page = await floor.pair(browser, shop.url, role, shop.shownCode(role));
  job ??= await (await Opener.of(shop)).open('Leopoldine Aschaber', wasRead());
  await page.goto(`${shop.url}/${role}#${job.session}`);
  return page;
}

const correction = (): number =>
  explain(job.room.facts).find(({ path }) => path === 'sides.left.cuff.correctionDeg')!.value;

describe('“Why?”', () => {
  it('[EXP-6] on the floor shows formula, inputs with their entries, and the interval of the correction', async () => {
    const page = (onFloor = await openAt('measuring'));
    await page
      .getByRole('region', { name: 'Left leg' })
      .getByRole('button', { name: /Why\?$/ })
      .click();
    const sheet = page.getByRole('dialog');
    await sheet.getByText('asin(sin lean + D/(2·k·h)) − lean').waitFor();
    expect(await sheet.locator('.value').innerText()).toBe(`${Number(correction().toFixed(2))}°`);
    expect(await sheet.getByText(/^9 times of 10 between/).count()).toBe(1);
    // The bias comes from this reading, as whoever took it said it.
    const bias = sheet.getByRole('row', { name: /^D bias/ });
    expect(await bias.innerText()).toContain('medial 14, lateral 6 mm');
    // What has no number says why, once.
    const reasons = Object.entries(plan(job.room.facts).reasons)
      .filter(([path, { code }]) => path.startsWith('sides.left.cuff.') && code !== 'not-due')
      .map(([, { text }]) => text);
    expect(await sheet.getByRole('listitem').allInnerTexts()).toEqual([...new Set(reasons)]);
    await shot(page, 'why-measuring');
    expect(await axeViolations(page)).toEqual([]);
    expect(await sidewaysScrolls(page)).toEqual([]);
    expect((await smallTargets(page, TOUCH_PX)).small).toEqual([]);
    await sheet.getByRole('button', { name: /^Response/ }).click();
    expect(await sheet.getByRole('article').getByRole('heading').innerText()).toMatch(/^Response/);
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
  });

  it('at the bench, by keyboard alone, shows how far the pivots go and from where', async () => {
    const page = await openAt('bench');
    await floor.bootInHand(page, 'left');
    const ask = button(page, /^Why\?/);
    await ask.focus();
    await page.keyboard.press('Enter');
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('heading', { level: 3, name: /adjuster: how far/ }).waitFor();
    expect(await sheet.getByText('to − from').count()).toBe(1);
    await shot(page, 'why-bench');
    expect(await axeViolations(page)).toEqual([]);
    await page.close();
  });

  it('says all of it in German at a German station', async () => {
    const page = onFloor;
    await page.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await page.setViewportSize({ width: 1024, height: 768 });
    await page.reload();
    await page
      .getByRole('region', { name: 'Linkes Bein' })
      .getByRole('button', { name: /Warum\?$/ })
      .click();
    const sheet = page.getByRole('dialog');
    await sheet.getByText('asin(sin lean + D/(2·k·h)) − lean').waitFor();
    await shot(page, 'why-german');
    const numbers = sheet.getByRole('navigation').getByRole('button');
    const said: string[] = [];
    for (let i = 0; i < (await numbers.count()); i += 1) {
      await numbers.nth(i).click();
      said.push(await sheet.innerText());
    }
    expect(said.length).toBeGreaterThan(10);
    // Names of files and kinds of entries are names.
    const prose = said.join('\n').replace(/core\/\S+, .*$|\b[a-z]+\.[a-z]+\b/gm, '');
    expect(
      prose.match(/\b(the|of|and|is|read|mean|cuff|boot|leg|lateral|medial gap|reading)\b.*/gi) ?? [],
    ).toEqual([]);
    expect(await axeViolations(page)).toEqual([]);
    expect(await sidewaysScrolls(page)).toEqual([]);
    await page.close();
  });
});
