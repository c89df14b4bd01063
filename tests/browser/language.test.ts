/** A station in German and back: the words, the comma, and the sentence to the skier in the skier's own language. */
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, wasRead } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

let shop: TestServer;
let browser: Browser;
beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

it('switches to German and back, and says the same of a reading', async () => {
  const size = { width: 1024, height: 768 };
  const page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'), { size });
  const job = await (await Opener.of(shop)).open('Leopoldine Aschaber', wasRead());
  const desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
  const opened = job.room.facts.find((fact) => fact.kind === 'session.opened') as { clientRef: string };
  const known = await desk.request.put(`${shop.url}/api/people/${opened.clientRef}`, {
    data: { name: 'Leopoldine Aschaber', language: 'de' },
    headers: { origin: shop.url },
  });
  expect(known.ok()).toBe(true);
  await desk.close();
  await page.goto(`${shop.url}/measuring#${job.session}`);
  await page.getByText('Say to the skier').waitFor();
  await page.reload();
  // The station speaks English, this skier German.
  await page.getByText('Bitte setzen Sie sich').waitFor();
  expect(await page.getByText('Bitte setzen Sie sich').getAttribute('lang')).toBe('de');
  expect(await page.locator('html').getAttribute('lang')).toBe('en');

  await button(page, /the measuring station/).click();
  await button(page, 'Deutsch').click();
  await page.getByText('Dem Skifahrer sagen').waitFor();
  expect(await page.locator('html').getAttribute('lang')).toBe('de');
  const left = page.getByRole('region', { name: 'Linkes Bein' });
  expect(await left.innerText()).toMatch(/Braucht\s+\d+,\d°/);
  expect(await left.innerText()).toContain('Linker Schuh: Drehpunkt außen');
  await shot(page, 'language-result');
  expect(await sidewaysScrolls(page)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);

  await button(page, /the measuring station/).click();
  const menu = page.getByRole('dialog');
  await menu.waitFor();
  await shot(page, 'language-menu');
  expect(await axeViolations(page)).toEqual([]);
  expect((await smallTargets(page, 56)).small).toEqual([]);
  await button(page, 'English').click();
  await page.getByText('Say to the skier').waitFor();
  expect(await page.getByRole('region', { name: 'Left leg' }).innerText()).toMatch(/\d\.\d°/);
  await page.close();
});
