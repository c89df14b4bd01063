/**
 * `npm run screens`: the stations as people see them, on the demo's shop day, into docs/screens; the three of one
 * session side by side for the README; and every state that the tests walk to.
 */
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { enterCatalogue } from '../../demo/catalogue.ts';
import { enterDay } from '../../demo/day.ts';
import { openShop } from '../../demo/shop.ts';
import type { StationRole } from '../../core/index.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { readyPages } from '../helpers/ready-packages.mjs';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shootStates } from './states.ts';

const FOLDER = 'docs/screens';
const SIZES = {
  desk: { width: 1920, height: 1080 },
  measuring: { width: 1280, height: 800 },
  bench: { width: 1280, height: 800 },
} as const;
type Role = keyof typeof SIZES;

/** The session that all three show: read on the floor, waiting for the bench. */
const TICKET = '1-3';

async function open(browser: Browser, server: TestServer, role: Role): Promise<Page> {
  const context = await browser.newContext({
    viewport: SIZES[role],
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.goto(`${server.url}/${role}`);
  await page.getByLabel('Pairing code').fill(server.code([role as StationRole]));
  await page
    .getByLabel('Name of this station')
    .fill({ desk: 'Front desk', measuring: 'Floor tablet', bench: 'Press' }[role]);
  await page.getByRole('button', { name: 'Pair this station' }).click();
  await page.getByText('Connected').first().waitFor();
  return page;
}

const shoot = (page: Page, name: string) => page.screenshot({ path: join(FOLDER, `${name}.png`) });

/** The desk above, the floor and the bench below, as they would stand on one wall. */
async function together(browser: Browser): Promise<void> {
  const source = (name: string) =>
    `data:image/png;base64,${readFileSync(join(FOLDER, `${name}.png`)).toString('base64')}`;
  const page = await browser.newPage({ viewport: { width: 1320, height: 1180 } });
  await page.setContent(`<style>body{margin:0;padding:20px;background:#d9d6cd;display:grid;grid-template-columns:1fr 1fr;gap:20px}
    img{width:100%;display:block;border-radius:8px;box-shadow:0 2px 10px #0004}img:first-child{grid-column:1/-1}</style>
    <img src="${source('desk-job')}"><img src="${source('measuring-result')}"><img src="${source('bench-pivots')}">`);
  await page.locator('img').last().waitFor();
  await page.screenshot({ path: join(FOLDER, 'three-stations.png'), fullPage: true });
}

mkdirSync(FOLDER, { recursive: true });
const server = await serve();
await readyPages();
const browser = await launchBrowser();
try {
  const shop = await openShop(server.url, server.code(['desk']));
  await enterCatalogue(shop);
  await enterDay(shop, 1);
  const measuring = await open(browser, server, 'measuring');
  const job = (ticket: string) => measuring.getByRole('button', { name: new RegExp(`^${ticket} `) });
  await job(TICKET).waitFor();
  await shoot(measuring, 'measuring-list');
  for (const [ticket, name] of [
    ['1-2', 'measuring-ready'],
    ['1-8', 'measuring-end-of-travel'],
    ['1-4', 'measuring-expected'],
    [TICKET, 'measuring-result'],
  ] as const) {
    await job(ticket).click();
    await measuring.getByText('All saved').waitFor();
    await shoot(measuring, name);
    await measuring.getByText('All jobs').click();
    await job(ticket).waitFor();
  }
  const bench = await open(browser, server, 'bench');
  await bench.getByRole('button', { name: new RegExp(`left.*${TICKET} `) }).click();
  await bench.getByRole('button', { name: /^This is the left boot/ }).click();
  await bench.getByRole('button', { name: /Done as told/ }).waitFor();
  await shoot(bench, 'bench-pivots');
  const desk = await open(browser, server, 'desk');
  await desk.getByText(TICKET, { exact: true }).waitFor();
  await shoot(desk, 'desk-board');
  await desk.getByText(TICKET, { exact: true }).click();
  await desk.getByText('All saved').waitFor();
  await shoot(desk, 'desk-job');
  await together(browser);
} finally {
  await browser.close();
  await server.close();
}
await shootStates(FOLDER);
