/** A season's archive at the desk: found by typing, by the keys alone, read, and opened again; and known people taken in. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { looksRight } from '../helpers/looks.ts';
import { writeSeason } from '../helpers/season.ts';
import type { Season } from '../helpers/season.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

const SCREENS = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

let data: string;
let season: Season;
let shop: TestServer;
let browser: Browser;
let desk: Page;
beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-season-'));
  season = writeSeason(data, 120);
  [shop, browser] = await Promise.all([serve({ data }), launchBrowser()]);
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
  rmSync(data, { recursive: true, force: true });
});

const board = () => desk.getByLabel('Find by ticket, name or step');
const field = () => desk.getByLabel('Ticket, name, boot, tag or day');
const list = () => desk.getByRole('list', { name: 'Sessions found' });
const says = (text: string | RegExp) => desk.getByRole('status').getByText(text).waitFor();

/** The desk as it is opened in the morning. */
async function toBoard(): Promise<void> {
  await desk.goto('about:blank');
  await desk.goto(`${shop.url}/desk`);
  await board().waitFor();
}

it('what is not on the board is looked for in all seasons, by the keys alone', async () => {
  const { ticket, name, tag } = season[4]!;
  await toBoard();
  await board().fill(ticket);
  await desk.getByText('No job fits.').waitFor();
  await board().press('Enter');
  await says(/^\d+ sessions?$/);
  expect(await field().inputValue()).toBe(ticket);
  expect(await field().evaluate((input) => input === document.activeElement)).toBe(true);
  await field().fill(`${tag} ${name.split(' ')[0]}`);
  await says(/^1 session$/);
  await desk.keyboard.press('ArrowDown');
  await button(list(), new RegExp(`^${ticket} ${name}`))
    .and(desk.locator(':focus'))
    .waitFor();
  await desk.keyboard.press('Escape');
  expect(await field().evaluate((input) => input === document.activeElement)).toBe(true);
  await desk.keyboard.press('Enter');
  await desk.getByRole('heading', { name: `${ticket} ${name}` }).waitFor();
});

it('says how many more there are, and finds by umlaut, boot, tag and day', async () => {
  await toBoard();
  await button(desk, 'All seasons').click();
  await says(/^The latest 30, and 90 more/);
  await looksRight(desk, 'archive', SCREENS);
  const umlaut = season.filter(({ name }) => name.startsWith('Jürgen'));
  expect(umlaut.length).toBeGreaterThan(0);
  await field().fill('juergen');
  await says(new RegExp(`^${umlaut.length} session`));
  const one = season[30]!;
  await field().fill(`${one.tag}-R`);
  await says(/^1 session$/);
  await list().getByText(one.model).waitFor();
  await field().fill('nobody at all');
  await says(/^No session has all of that/);
  await field().fill('');
  await desk.getByRole('group', { name: 'Which sessions' }).getByRole('radio', { name: 'Open' }).check();
  const open = season.filter(({ closed }) => !closed).length;
  await says(`The latest 30, and ${open - 30} more: type another word`);
  expect(await list().getByText('open', { exact: true }).count()).toBe(30);
});

it('a finished job is read, and changed only when it is opened again', async () => {
  const { session, ticket, name } = season[10]!;
  await toBoard();
  await button(desk, 'All seasons').click();
  await field().fill(`${ticket} ${name}`);
  await says(/^1 session$/);
  await button(list(), new RegExp(`^${ticket} `)).click();
  await desk.getByText('This job is finished: it is read').waitFor();
  for (const act of ['Pause the job', 'Hand over', 'Change the service', 'Strike'])
    expect(await button(desk, act).count(), act).toBe(0);
  await looksRight(desk, 'archive-read', SCREENS);
  await desk.setViewportSize(floor.SIZE.desk);
  await button(desk, 'Open it again').click();
  const dialog = desk.getByRole('dialog');
  await dialog.getByRole('textbox').fill('the owner came back for the left one');
  await button(dialog, 'Strike through').click();
  await floor.allSaved(desk);
  expect(factsOnDisk(shop.data, session).at(-1)).toMatchObject({ kind: 'struck' });
  await button(desk, 'Pause the job').waitFor();
  // The way back leads to what was typed.
  await button(desk, '‹ All seasons').click();
  await says(/^1 session$/);
  expect(await field().inputValue()).toBe(`${ticket} ${name}`);
});

it('whoever was here before is known while the name is typed, with what was done', async () => {
  const one = season.findLast(({ ref }, i) => season.findIndex((each) => each.ref === ref) < i)!;
  const theirs = season.filter(({ ref }) => ref === one.ref).toReversed();
  await toBoard();
  await button(desk, 'Take someone in').click();
  const [first, last] = one.name.split(' ') as [string, string];
  await desk.getByLabel('Name', { exact: true }).fill(`${last.slice(0, 4)} ${first.slice(0, 3)}`);
  const known = desk.getByRole('list', { name: 'Known here' });
  await button(known, new RegExp(`^${one.name}.*${one.ref}@`)).click();
  const before = desk.getByRole('region', { name: 'Here before' });
  for (const { ticket, model } of theirs.slice(0, 4))
    await before
      .getByRole('listitem')
      .filter({ has: desk.getByText(ticket, { exact: true }) })
      .filter({ hasText: model })
      .waitFor();
  await shot(desk, 'archive-intake');
  await looksRight(desk, 'archive-intake', SCREENS);
});

it('speaks German', async () => {
  await toBoard();
  await desk.evaluate(() => localStorage.setItem('fibula.language', 'de'));
  try {
    await desk.reload();
    await button(desk, 'Alle Saisonen').click();
    await desk
      .getByRole('status')
      .getByText(/^Die neuesten 30, und 90 weitere/)
      .waitFor();
    await looksRight(desk, 'archive-de', SCREENS);
  } finally {
    await desk.evaluate(() => localStorage.removeItem('fibula.language'));
  }
});
