/** The board of a full shop: a hundred open jobs, late ones first, found and opened by keys alone. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PEOPLE } from '../../demo/people.ts';
import { axeViolations } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { looksRight } from '../helpers/looks.ts';
import { alwaysOpen, stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

const OPEN = 100;
const MIN = 60_000;
const LATE = [17, 60, 99];
/** Promised in a minute with twenty of work before them. */
const WILL_BE = [3, 42];

let at: StationShop;
let desk: Page;
const jobs: OpenJob[] = [];
beforeAll(async () => {
  at = await stationShop('desk', { width: 1920, height: 1080 });
  desk = at.page;
  await alwaysOpen(desk);
  for (let i = 0; i < OPEN; i++) {
    const told = takenIn();
    const inMin = LATE.includes(i) ? -90 + i / 10 : WILL_BE.includes(i) ? 20 + i / 10 : null;
    if (inMin !== null)
      Object.assign(told.facts[0]!, { promisedAt: new Date(Date.now() + inMin * MIN).toISOString() });
    const job = await at.opener.open(PEOPLE[i % PEOPLE.length]!.name, told);
    job.room.close();
    jobs.push(job);
  }
  await desk.reload();
  await rows()
    .nth(OPEN - 1)
    .waitFor({ timeout: 120_000 });
  // Told by the server once all are there.
  await desk
    .getByText(/^80 %: /)
    .nth(OPEN - 1)
    .waitFor({ timeout: 120_000 });
}, 600_000);
afterAll(() => at?.close());

const rows = () => desk.locator('tbody tr:visible');
/** As the page is when nobody has chosen a view. */
async function asAList(): Promise<void> {
  await desk.evaluate(() => localStorage.removeItem('fibula.board-view'));
  await desk.goto('about:blank');
  await desk.goto(`${at.shop.url}/desk`);
  await rows()
    .nth(OPEN - 1)
    .waitFor();
  await desk
    .getByText('▸ will be late', { exact: true })
    .nth(WILL_BE.length - 1)
    .waitFor();
}
const find = () => desk.getByLabel('Find by ticket, name or step');
const ticketsOf = async (place: string): Promise<string[]> =>
  desk.locator(place).evaluateAll((all) => all.map((each) => each.querySelector('b')!.textContent));
const inFocus = () => desk.evaluate(() => document.activeElement?.querySelector('b')?.textContent ?? '');
const first = () => [...LATE, ...WILL_BE].map((i) => jobs[i]!.ticket);

describe('a hundred open jobs', () => {
  it('[QUE-5] stand on the board late ones first, then those that will be, told apart in words', async () => {
    expect((await ticketsOf('tbody tr')).slice(0, 6)).toEqual([...first(), expect.any(String)]);
    expect(await ticketsOf('tbody tr')).toHaveLength(OPEN);
    expect(await desk.getByText('! late', { exact: true }).count()).toBe(LATE.length);
    expect(await desk.getByText('▸ will be late', { exact: true }).count()).toBe(WILL_BE.length);
    await looksRight(desk, 'board-full', [{ width: 1280, height: 800 }]);
  });

  it('are on one screen at a glance, every one of them', async () => {
    await asAList();
    await button(desk, 'All at a glance').click();
    const squares = desk.locator('main li button');
    await squares.nth(OPEN - 1).waitFor();
    await desk.evaluate(() => scrollTo(0, 0));
    expect((await ticketsOf('main li button')).slice(0, 5)).toEqual(first());
    const boxes = await squares.evaluateAll((all) =>
      all.map((each) => {
        const { bottom, right, height } = each.getBoundingClientRect();
        return { bottom, right, height };
      }),
    );
    expect(boxes).toHaveLength(OPEN);
    for (const { bottom, right, height } of boxes) {
      expect(bottom).toBeLessThanOrEqual(1080);
      expect(right).toBeLessThanOrEqual(1920);
      expect(height).toBeGreaterThanOrEqual(56);
    }
    await squares.first().focus();
    await desk.keyboard.press('ArrowDown');
    expect(await inFocus()).toBe(first()[1]);
    await desk.getByText(first()[1]!, { exact: true }).first().waitFor();
    await looksRight(desk, 'board-glance', [{ width: 1280, height: 800 }]);
    await button(desk, 'As a list').click();
    await rows()
      .nth(OPEN - 1)
      .waitFor();
  });

  it('are found, gone through and opened by keys alone, and Escape goes back to finding', async () => {
    await asAList();
    await desk.locator('body').click({ position: { x: 2, y: 2 } });
    await desk.keyboard.press('/');
    await desk.keyboard.press('ArrowDown');
    await expect.poll(inFocus).toBe(first()[0]);
    await desk.keyboard.press('ArrowDown');
    expect(await inFocus()).toBe(first()[1]);
    await desk.keyboard.press('Escape');
    const ticket = jobs[77]!.ticket;
    await desk.keyboard.type(ticket);
    await floor.pictured(desk);
    await expect.poll(() => rows().count()).toBe(1);
    expect(await find().inputValue()).toBe(ticket);
    await desk.keyboard.press('Escape');
    await expect.poll(() => rows().count()).toBe(OPEN);
    await desk.keyboard.type(ticket);
    await desk.keyboard.press('Enter');
    await desk.waitForURL(`**/desk#${jobs[77]!.session}`);
    await button(desk, /^‹ /).click();
    await find().fill('');
    await rows()
      .nth(OPEN - 1)
      .waitFor();
  });

  it('are opened by a scanner: by ticket or by boot, wherever the focus is, and over no open sheet', async () => {
    await asAList();
    const opens = (i: number) => desk.waitForURL(`**/desk#${jobs[i]!.session}`);
    const heading = (i: number) => desk.getByRole('heading', { name: new RegExp(`^${jobs[i]!.ticket} `) });
    await desk.locator('body').click({ position: { x: 2, y: 2 } });
    await floor.scan(desk, jobs[12]!.ticket);
    await opens(12);
    await heading(12).waitFor();
    // A row has the focus: it is not the one that opens. The job before may stay open meanwhile.
    await button(desk.getByRole('table'), new RegExp(`^${jobs[50]!.ticket} `)).focus();
    await floor.scan(desk, `${jobs[13]!.ticket}-l`);
    await opens(13);
    await heading(13).waitFor();
    await find().focus();
    await floor.scan(desk, jobs[1]!.ticket);
    await opens(1);
    expect(await find().inputValue()).toBe('');
    await button(desk, 'Pause the job').click();
    const sheet = desk.getByRole('dialog');
    await sheet.getByText('Where the boots are').waitFor();
    await floor.scan(desk, jobs[12]!.ticket);
    await floor.pictured(desk);
    expect(new URL(desk.url()).hash).toBe(`#${jobs[1]!.session}`);
    await desk.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    await desk.locator('h1').click();
    await floor.scan(desk, 'ZZ-9');
    await desk.getByText('No job fits.').waitFor();
    expect(await find().inputValue()).toBe('ZZ-9');
    await find().fill('');
  });

  it('are clean to the eye of a machine, at both sizes', async () => {
    await asAList();
    for (const size of [
      { width: 1920, height: 1080 },
      { width: 1280, height: 800 },
    ]) {
      await desk.setViewportSize(size);
      await rows()
        .nth(OPEN - 1)
        .waitFor();
      expect(await axeViolations(desk)).toEqual([]);
      expect(
        await desk.evaluate(() => document.documentElement.scrollWidth - innerWidth),
      ).toBeLessThanOrEqual(0);
    }
  });
});

it('[QUE-7] one more job is promised by one tap, by the queue, and the reason stands beside it', async () => {
  await desk.goto('about:blank');
  await desk.goto(`${at.shop.url}/desk`);
  await floor.beginIntake(desk, 'Tilda Morgenrain');
  await floor.choose(desk, 'What is to be done', 'Cuffs only');
  await desk.getByText(`${OPEN} jobs before it; measuring is the narrow place.`).waitFor({ timeout: 60_000 });
  const take = button(desk, /^(✓ )?(Today|Tomorrow|[A-Z][a-z]+day) after \d\d:\d\d$/);
  const said = /(\S+) after (\S+)$/.exec(await take.innerText())!;
  await take.click();
  if (said[1] === 'Today' || said[1] === 'Tomorrow') {
    expect(await desk.getByLabel('at', { exact: true }).inputValue()).toBe(said[2]);
    const chosen = desk.getByRole('group', { name: 'Promised for' }).getByRole('radio', { checked: true });
    expect(await chosen.count()).toBe(1);
  }
  await button(desk, /^✓ /).waitFor();
  await looksRight(desk, 'intake-promise', [
    { width: 1280, height: 800 },
    { width: 390, height: 844 },
  ]);
});
