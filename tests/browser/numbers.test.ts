/** The numbers of the shop at the desk: chosen by touch and by keys, said in words, empty, few and to come; and as a table. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { allServices, evenOf, sumOf } from '../../core/index.ts';
import type { NumbersTold } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button, choose } from '../helpers/floor.ts';
import { enter, teaching } from '../helpers/lessons.ts';
import { looksRight } from '../helpers/looks.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { writeShop } from '../helpers/shop-record.ts';
import { shot } from '../helpers/shots.ts';
import { until } from '../helpers/until.ts';

const SCREENS = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];
const PAUSED = { bootsAre: 'on the shelf', wedgesOut: true, pivotsTight: true } as const;
/** Long over, so that nothing of it is of today; the clock is put forward on 30 March. */
const FIRST = Date.parse('2025-02-20T00:00:00Z');

let data: string;
let shop: TestServer;
let browser: Browser;
let desk: Page;
let program: Station;
beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-numbers-'));
  writeShop(data, { count: 70, firstMs: FIRST, everyMin: 700, here: 4, timeZone: 'Europe/Vienna' });
  const args = ['--time-zone', 'Europe/Vienna'];
  [shop, browser] = await Promise.all([serve({ data, args }), launchBrowser()]);
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'), {
    size: { width: 1920, height: 1080 },
  });
  program = await shop.station(['desk', 'measuring', 'bench'], 'a program');
  await until(
    async () => (await told('2025-03-01', '2025-03-01')).uncounted === 0,
    'all to be counted',
    90_000,
  );
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
  rmSync(data, { recursive: true, force: true });
});

const told = (from: string, to: string) =>
  program.request<NumbersTold>('GET', `/api/numbers?from=${from}&to=${to}`);
const part = (name: string, on = desk) => on.getByRole('region', { name });

/** The page as it is opened from the board. */
async function opened(): Promise<void> {
  await desk.goto('about:blank');
  await desk.goto(`${shop.url}/desk`);
  await button(desk, 'Numbers of the shop').click();
  await desk.getByRole('heading', { name: 'Numbers of the shop' }).waitFor();
}
/** Opened at a month of which the shop has a record, whatever day it is. */
async function march(): Promise<void> {
  await opened();
  await days('2025-03-01', '2025-03-31');
  await choose(desk, 'Which time', 'Month');
  await desk.getByRole('heading', { name: 'March 2025' }).waitFor();
}
async function days(from: string, to: string): Promise<void> {
  await choose(desk, 'Which time', 'From – to');
  await desk.getByLabel('First day').fill(from);
  await desk.getByLabel('Last day').fill(to);
}
async function says(of: NumbersTold): Promise<void> {
  const sum = sumOf(of.buckets);
  const [came, handed, unfit] = [sum.opened, sum.handed, sum.unfit].map(allServices);
  await desk
    .getByText(`${came} taken in, ${handed} handed over${unfit ? `, ${unfit} released unfit` : ''}.`, {
      exact: true,
    })
    .waitFor();
}

it('[NUM-8] tells a month: jobs, moves until even, first moves, waiting; each in a picture, in words and in numbers', async () => {
  await march();
  const of = await told('2025-03-01', '2025-03-31');
  const sum = sumOf(of.buckets);
  await says(of);
  const jobs = part('Jobs');
  const picture = await jobs.getByRole('img', { name: 'Jobs' }).locator('desc').textContent();
  expect(picture!.split('. ')).toHaveLength(31);
  const cells = await jobs.getByRole('row', { name: /^All/ }).getByRole('cell').allInnerTexts();
  expect(cells.map(Number)).toEqual([sum.opened, sum.handed, sum.unfit].map(allServices));
  const moves = part('Moves until even');
  await moves.getByText(new RegExp(`^${evenOf(sum)} cuffs closed as even, \\d\\.?\\d? moves each`)).waitFor();
  await moves.locator('svg text', { hasText: `1 move: ${sum.evenAfter[1]} of ${evenOf(sum)}` }).waitFor();
  await moves
    .getByText(
      new RegExp(
        `^\\d+\\s% \\(${sum.firstEnough} of ${sum.moved}\\); 9 of 10 times the true share lies within`,
      ),
    )
    .waitFor();
  const waits = part('Waiting by stage');
  const first = waits.getByRole('row', { name: /^First readings/ });
  await first.getByText(`${of.times.first.n} times`).waitFor();
  expect(await waits.getByRole('row').count()).toBe(
    1 + Object.values(of.times).filter(({ n }) => n > 0).length,
  );
  expect(await part('Piece by piece').getByRole('row').count()).toBe(32);
  await looksRight(desk, 'numbers', SCREENS);
  await desk.emulateMedia({ colorScheme: 'dark' });
  await shot(desk, 'numbers-dark');
  await desk.emulateMedia({ colorScheme: 'light' });
});

it('[NUM-8] turns to other times by touch: a piece of it, a season, days from one to another', async () => {
  await march();
  await button(part('Piece by piece'), 'Show Wed 5 Mar').click();
  await desk.getByRole('heading', { name: 'Wed, 5 March 2025' }).and(desk.locator(':focus')).waitFor();
  await says(await told('2025-03-05', '2025-03-05'));
  await shot(desk, 'numbers-day');
  await choose(desk, 'Which time', 'Week');
  await desk.getByRole('heading', { name: '3 – 9 March 2025' }).waitFor();
  await says(await told('2025-03-03', '2025-03-09'));
  await choose(desk, 'Which time', 'Season');
  await desk.getByRole('heading', { name: /^Season 2024\/25/ }).waitFor();
  await says(await told('2024-09-01', '2025-08-31'));
  await looksRight(desk, 'numbers-season');
  await choose(desk, 'Which time', 'From – to');
  await desk.getByLabel('First day').fill('2025-03-20');
  await desk.getByLabel('Last day').fill('2025-03-10');
  await desk.getByRole('alert').getByText('The last day lies before the first one.').waitFor();
  await desk.getByLabel('Last day').fill('2025-04-02');
  await desk.getByRole('heading', { name: '20 March – 2 April 2025' }).waitFor();
  await says(await told('2025-03-20', '2025-04-02'));
  await looksRight(desk, 'numbers-days', [{ width: 390, height: 844 }]);
});

it('[NUM-8] turns to other times by the keys alone', async () => {
  await march();
  await button(desk, 'The time after').focus();
  await desk.keyboard.press('ArrowRight');
  await desk.getByRole('heading', { name: 'April 2025' }).waitFor();
  await desk.keyboard.press('ArrowLeft');
  await desk.keyboard.press('ArrowLeft');
  await desk.getByRole('heading', { name: 'February 2025' }).waitFor();
  await says(await told('2025-02-01', '2025-02-28'));
  await desk.getByRole('radio', { name: 'Month' }).focus();
  await desk.keyboard.press('ArrowLeft');
  await desk.getByRole('heading', { name: '27 January – 2 February 2025' }).waitFor();
});

it('[NUM-8] says plainly that nothing happened, that too little did, and that a time is to come', async () => {
  await opened();
  await days('2024-02-01', '2024-02-29');
  await desk.getByText('Nothing was taken in, closed or handed over in this time.').waitFor();
  await desk.getByText('The first job was taken in on Thu, 20 February 2025.').waitFor();
  await looksRight(desk, 'numbers-nothing');
  await button(desk, 'Go to the first job').click();
  await desk.getByRole('heading', { name: 'February 2025' }).waitFor();
  // A day on which few cuffs were moved: no share is told of them alone.
  const { buckets } = await told('2025-03-01', '2025-03-31');
  const few = buckets.find(({ moved }) => moved > 1 && moved < 5)!;
  await days(few.from, few.from);
  await desk
    .getByText(
      new RegExp(
        `^${few.firstEnough} of ${few.moved}: too few to say, the true share may be \\d+\\s% to \\d+\\s%\\.$`,
      ),
    )
    .waitFor();
  await shot(desk, 'numbers-few');
  await days('2199-01-01', '2199-01-31');
  await desk.getByText('This time has not begun yet.').waitFor();
});

it('[NUM-8] counts what is done today, and says that today still runs', async () => {
  const { session, room } = await enter(program, teaching({ settings: [0, 1], biasMm: 7.6, close: true }));
  await room.add('desk', 'paused', PAUSED);
  room.close();
  const now = async () => {
    const day = (await told('2025-03-01', '2025-03-01')).today;
    return told(day, day);
  };
  // The board looks at what changed last, once it has looked at all the jobs that it found.
  const of = await until(
    async () => {
      const each = await now();
      return each.paused > 0 && evenOf(sumOf(each.buckets)) > 0 && each;
    },
    `session ${session} to be counted`,
    90_000,
  );
  await opened();
  await choose(desk, 'Which time', 'Day');
  await says(of);
  await desk.getByText(/Of those taken in, \d+ (is|are) still here, \d+ of them paused\.$/).waitFor();
  await desk.getByText('Still running: counted until now.').waitFor();
});

it('[NUM-8] shows no numbers under the name of another time where the server does not answer', async () => {
  await march();
  await part('Jobs').waitFor();
  await desk.context().setOffline(true);
  await button(desk, 'The time after').click();
  await desk
    .getByRole('alert')
    .getByText('The shop’s server does not answer, and it alone has the numbers.')
    .waitFor();
  await desk.getByRole('heading', { name: 'April 2025' }).waitFor();
  expect(await part('Jobs').count()).toBe(0);
  await desk.context().setOffline(false);
  await button(desk, 'The time before').click();
  await part('Jobs').waitFor();
  await says(await told('2025-03-01', '2025-03-31'));
  expect(await desk.getByRole('alert').count()).toBe(0);
});

it('[NUM-7] gives the table as a file that any program reads', async () => {
  await march();
  const [download] = await Promise.all([
    desk.waitForEvent('download'),
    desk.getByRole('link', { name: 'As a table for other programs (CSV)' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('numbers-2025-03-01-2025-03-31.csv');
  const rows: Record<string, string>[] = parse(readFileSync(await download.path()), {
    columns: true,
    bom: true,
  });
  const of = await told('2025-03-01', '2025-03-31');
  expect(rows.map((row) => row['first_day'])).toEqual(of.buckets.map(({ from }) => from));
  for (const service of ['cuffs', 'full', 'recheck'] as const)
    expect(rows.reduce((sum, row) => sum + Number(row[`jobs_taken_in_${service}`]), 0)).toBe(
      sumOf(of.buckets).opened[service],
    );
});

it('[NUM-8] speaks German at a German desk', async () => {
  const german = await floor.pair(browser, shop.url, 'desk', shop.code(['desk']), {
    size: { width: 1920, height: 1080 },
  });
  await german.evaluate(() => localStorage.setItem('fibula.language', 'de'));
  await german.reload();
  await button(german, 'Zahlen der Werkstatt').click();
  await german.getByRole('heading', { name: 'Zahlen der Werkstatt' }).waitFor();
  await choose(german, 'Welche Zeit', 'Von – bis');
  await german.getByLabel('Erster Tag').fill('2025-03-01');
  await german.getByLabel('Letzter Tag').fill('2025-03-31');
  await german.getByRole('heading', { name: '1.–31. März 2025' }).waitFor();
  await part('Schritte bis gleich', german)
    .getByText(/als gleich abgeschlossen, im Mittel mit \d,?\d? Schritten/)
    .waitFor();
  await looksRight(german, 'numbers-german', SCREENS);
  await german.context().close();
});
