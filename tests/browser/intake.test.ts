/** Taking someone in, by keys alone and by touch alone: how many acts it takes, and what is entered. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { DUAL, withMarks } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, choose, field } from '../helpers/floor.ts';
import { takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { Acts } from '../helpers/keystrokes.ts';
import { looksRight } from '../helpers/looks.ts';
import { until } from '../helpers/until.ts';
import { PrintSheet } from './helpers/print-sheet.ts';
import { keepModel, stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

const SCREENS = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];
const A_MINUTE = 60;
let at: StationShop;
let desk: Page;
let known: OpenJob;
beforeAll(async () => {
  at = await stationShop('desk');
  desk = at.page;
  known = await at.opener.open('Halmar Josefsson', takenIn());
  await at.opener.open('Josine Halmdreher', takenIn());
  await keepModel(desk, at.shop.url, {
    model: 'Zirbel 120',
    source: 'measured here',
    soleStandard: 'iso5355-a',
    hardware: withMarks(DUAL, 1),
  });
  // What a session is shown as is kept a moment after its entries.
  const [was] = known.room.facts as unknown as { clientRef: string }[];
  await until(async () => {
    const answer = await desk.request.get(`${at.shop.url}/api/people/${was!.clientRef}/sessions`);
    const { found } = (await answer.json()) as { found: { models: string[] }[] };
    return (found[0]?.models.length ?? 0) > 0;
  }, 'the boots in the archive');
});
afterAll(() => at?.close());

const fresh = async (page: Page) => {
  await page.goto('about:blank');
  await page.goto(`${at.shop.url}/desk`);
  await page.evaluate(() => sessionStorage.clear());
  await page.reload();
  await button(page, 'Take someone in').waitFor();
};
const opened = async (page: Page): Promise<readonly Fact[]> => {
  await page.waitForURL(/#[0-9a-f]{32}$/);
  await floor.allSaved(page);
  return factsOnDisk(at.shop.data, new URL(page.url()).hash.slice(1));
};
const before = (page: Page) => page.getByRole('region', { name: 'Here before' }).getByRole('listitem');
const people = (page: Page) => page.getByRole('list', { name: 'Known here' });

describe('somebody the shop knows, with the boots of last time', () => {
  /** All that is entered, whichever way it was. */
  const isWhole = (facts: readonly Fact[]) => {
    const [was] = factsOnDisk(at.shop.data, known.session) as unknown as { clientRef: string }[];
    expect(facts.map(({ kind }) => kind)).toEqual([
      'session.opened',
      'health.asked',
      'boot.described',
      'boot.described',
    ]);
    expect(facts[0]).toMatchObject({ clientRef: was!.clientRef, service: 'cuffs' });
    expect(facts[1]).toMatchObject({ outcome: 'proceed' });
    const boots = factsOnDisk(at.shop.data, known.session).filter(({ kind }) => kind === 'boot.described');
    for (const [i, boot] of boots.entries()) {
      const { side, model, hardware, mondo } = boot as unknown as Record<string, unknown>;
      expect(facts[2 + i]).toMatchObject({ side, model, hardware, mondo });
    }
  };

  it('[INT-1] is taken in by keys alone in under a minute', async () => {
    await fresh(desk);
    const acts = new Acts(desk);
    acts.mind();
    await acts.tabTo(button(desk, 'Take someone in'));
    await acts.press('Enter');
    await desk.getByLabel('Name', { exact: true }).and(desk.locator(':focus')).waitFor();
    acts.mind();
    await acts.type('halma');
    await people(desk)
      .getByRole('button', { name: /^Halmar Josefsson/ })
      .waitFor();
    acts.mind();
    await acts.press('ArrowDown');
    await acts.press('Enter');
    // What was done before stands in a line.
    await before(desk)
      .getByText(/Larkspur 110 · open$/)
      .first()
      .waitFor();
    await desk.getByRole('radio', { name: /^As last time: Larkspur 110/ }).waitFor();
    acts.mind();
    await acts.tabTo(desk.getByRole('radio', { name: 'Cuffs only' }));
    await acts.press(' ');
    acts.mind();
    await acts.tabTo(desk.getByRole('radio', { name: 'None: go on' }));
    await acts.press(' ');
    acts.mind();
    await acts.tabTo(desk.getByRole('radio', { name: 'Describe the boots now' }));
    await acts.press('ArrowUp');
    expect(await desk.getByRole('radio', { name: /^As last time: Larkspur 110/ }).isChecked()).toBe(true);
    acts.mind();
    await acts.press('Control+Enter');
    isWhole(await opened(desk));
    console.info(acts.said('known, keys alone'));
    expect(acts.counts.point).toBe(0);
    expect(acts.all).toBeLessThanOrEqual(45);
    expect(acts.seconds).toBeLessThan(A_MINUTE);
  });

  it('[INT-1] is taken in by touch alone in under a minute', async () => {
    const context = await at.browser.newContext({
      viewport: { width: 1280, height: 800 },
      hasTouch: true,
      storageState: await desk.context().storageState(),
    });
    context.setDefaultTimeout(15_000);
    const page = await context.newPage();
    try {
      await page.goto(`${at.shop.url}/desk`);
      await button(page, 'Take someone in').waitFor();
      const acts = new Acts(page);
      acts.mind();
      await acts.tap(button(page, 'Take someone in'));
      const name = page.getByLabel('Name', { exact: true });
      await name.waitFor();
      await acts.tap(name);
      await acts.typeOnGlass('halma');
      acts.mind();
      await acts.tap(people(page).getByRole('button', { name: /^Halmar Josefsson/ }));
      await before(page)
        .getByText(/Larkspur 110/)
        .first()
        .waitFor();
      acts.mind();
      await acts.tap(page.locator('label').filter({ hasText: 'Cuffs only' }));
      acts.mind();
      await acts.tap(page.locator('label').filter({ hasText: 'None: go on' }));
      acts.mind();
      await acts.tap(page.locator('label').filter({ hasText: /As last time: Larkspur 110/ }));
      acts.mind();
      await acts.tap(button(page, /^Open the session/));
      isWhole(await opened(page));
      console.info(acts.said('known, touch alone'));
      expect(acts.counts.key).toBe(0);
      expect(acts.all).toBeLessThanOrEqual(15);
      expect(acts.seconds).toBeLessThan(A_MINUTE);
    } finally {
      await context.close();
    }
  });

  it('[INT-2] is somebody else as soon as another name is typed: no boots of theirs stay', async () => {
    await fresh(desk);
    await button(desk, 'Take someone in').click();
    await desk.getByLabel('Name', { exact: true }).fill('halma');
    await people(desk)
      .getByRole('button', { name: /^Halmar Josefsson/ })
      .click();
    await desk.getByRole('radio', { name: /^As last time: Larkspur 110/ }).check();
    await looksRight(desk, 'intake-known', SCREENS);
    await desk.getByLabel('Name', { exact: true }).fill('Somebody New');
    await desk.getByRole('radio', { name: /^As last time/ }).waitFor({ state: 'detached' });
    expect(await field(desk, 'Model').inputValue()).toBe('');
    await button(desk, 'Cancel').click();
  });
});

describe('somebody new', () => {
  it('[INT-1] is taken in by keys alone in under a minute, with a boot of the catalogue', async () => {
    await fresh(desk);
    const acts = new Acts(desk);
    acts.mind();
    await acts.tabTo(button(desk, 'Take someone in'));
    await acts.press('Enter');
    await desk.getByLabel('Name', { exact: true }).and(desk.locator(':focus')).waitFor();
    acts.mind();
    await acts.type('Wendelgard Auer');
    await acts.press('Tab');
    await acts.tabTo(desk.getByLabel('Phone or mail'));
    await acts.type('0664 1234567');
    acts.mind();
    await acts.tabTo(desk.getByRole('radio', { name: 'Cuffs only' }));
    await acts.press('ArrowDown');
    acts.mind();
    await acts.tabTo(desk.getByRole('radio', { name: 'None: go on' }));
    await acts.press(' ');
    acts.mind();
    const model = desk.getByLabel('Boots used before in this form');
    await model.waitFor();
    await acts.tabTo(model);
    await acts.type('zir');
    await until(async () => (await field(desk, 'Model').inputValue()) === 'Zirbel 120', 'the model');
    acts.mind();
    await acts.tabTo(field(desk, 'Mondopoint'));
    await acts.type('26,5');
    await acts.press('Tab');
    await acts.type('315');
    acts.mind();
    await acts.press('Control+Enter');
    const facts = await opened(desk);
    expect(facts[0]).toMatchObject({ service: 'full' });
    expect(facts.filter(({ kind }) => kind === 'boot.described')).toMatchObject([
      { side: 'left', model: 'Zirbel 120', mondo: 26.5, soleLengthMm: 315 },
      { side: 'right', model: 'Zirbel 120', mondo: 26.5, soleLengthMm: 315 },
    ]);
    console.info(acts.said('new, keys alone, boot of the catalogue'));
    expect(acts.counts.point).toBe(0);
    expect(acts.seconds).toBeLessThan(A_MINUTE);
  });

  it('[INT-3] is told the caution at the question; a child’s work is agreed by a guardian; earlier work is noted', async () => {
    await fresh(desk);
    await button(desk, 'Take someone in').click();
    await desk.getByLabel('Name', { exact: true }).fill('Pia Sonnwend');
    const cautions = desk.getByRole('list', { name: 'Cautions' });
    await cautions.getByText(/refer the skier to a clinician before any work/).waitFor();
    await cautions.getByText(/no substitute for a certified technician, a clinician/).waitFor();
    await choose(desk, 'What is to be done', 'Cuffs only');
    await choose(desk, /^Health/, 'To a clinician first');
    await choose(desk, 'Describe the boots', 'Leave the boots to the floor');
    await desk.getByRole('checkbox', { name: 'shell worked' }).check();
    await desk.getByRole('checkbox', { name: 'cant plates' }).check();
    await desk.getByLabel('Note for the floor').fill('left is the tight one');
    await desk.getByRole('checkbox', { name: /^A child or youth/ }).check();
    await desk.getByText('Work that cannot be undone: agreed already').click();
    await desk.getByRole('checkbox', { name: 'shell punched' }).check();
    expect(await desk.getByRole('radio', { name: 'guardian' }).isChecked()).toBe(true);
    await desk.getByRole('radio', { name: 'owner' }).check();
    await looksRight(desk, 'intake-child', SCREENS);
    await button(desk, /^Open the session/).click();
    await desk.getByText(/^For a child or youth a guardian agrees .* Choose the guardian\.$/).waitFor();
    await desk.getByRole('radio', { name: 'guardian' }).check();
    await button(desk, /^Open the session/).click();
    const facts = await opened(desk);
    expect(facts.map(({ kind }) => kind)).toEqual(['session.opened', 'health.asked', 'work.agreed']);
    expect(facts[0]).toMatchObject({
      youth: true,
      notes: 'before: shell worked, cant plates; left is the tight one',
    });
    expect(facts[1]).toMatchObject({ outcome: 'refer' });
    expect(facts[2]).toMatchObject({ irreversible: ['punch'], agreedBy: 'guardian' });
    // At the job's own page it is the guardian too.
    await button(desk, 'Work agreed').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByRole('checkbox', { name: 'shell ground' }).check();
    expect(await dialog.getByRole('radio', { name: 'guardian' }).isChecked()).toBe(true);
    await dialog.getByRole('radio', { name: 'owner' }).check();
    expect(await button(dialog, 'Enter the agreement').isDisabled()).toBe(true);
  });

  it('has ticket and tags sent to the printer by the act that opens the session, or the ticket alone', async () => {
    await PrintSheet.noteJobs(desk);
    await fresh(desk);
    await floor.beginIntake(desk, 'Notburga Ferchl');
    await desk.getByLabel('Language', { exact: true }).selectOption('German');
    await desk.getByLabel('Boots used before in this form').selectOption('Zirbel 120');
    await field(desk, 'Mondopoint').fill('26');
    await field(desk, 'Sole length').fill('305');
    await looksRight(desk, 'intake-print', SCREENS);
    await button(desk, /^Open and print ticket and boot tags/).click();
    await opened(desk);
    await expect.poll(() => PrintSheet.toPrinter(desk), { timeout: 15_000 }).toEqual(['ticket', 'tags']);
    await desk.getByRole('dialog').waitFor({ state: 'detached' });
    await button(desk, /^Print/).waitFor();
    expect(await PrintSheet.toPrinter(desk)).toEqual(['ticket', 'tags']);

    await fresh(desk);
    await floor.beginIntake(desk, 'Burgl Feichtinger');
    await choose(desk, 'Describe the boots', 'Leave the boots to the floor');
    await button(desk, 'Open and print its ticket').waitFor();
    await desk.keyboard.press('Control+Shift+Enter');
    await opened(desk);
    await expect.poll(() => PrintSheet.toPrinter(desk), { timeout: 15_000 }).toEqual(['ticket']);
    await desk.getByRole('dialog').waitFor({ state: 'detached' });

    // The plain act opens, and prints nothing.
    await fresh(desk);
    await floor.beginIntake(desk, 'Kilian Obermoser');
    await choose(desk, 'Describe the boots', 'Leave the boots to the floor');
    await button(desk, /^Open the session/).click();
    await opened(desk);
    await button(desk, /^Print/).waitFor();
    await floor.pictured(desk);
    expect(await desk.getByRole('dialog').count()).toBe(0);
    expect(await PrintSheet.toPrinter(desk)).toEqual([]);
  });

  it('speaks German too', async () => {
    await desk.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await desk.goto('about:blank');
    await desk.goto(`${at.shop.url}/desk`);
    await button(desk, 'Jemanden annehmen').click();
    await desk.getByLabel('Name', { exact: true }).fill('halma');
    await desk.getByRole('button', { name: /^Halmar Josefsson/ }).click();
    await desk.getByRole('radio', { name: /^Wie letztes Mal: Larkspur 110/ }).waitFor();
    await looksRight(desk, 'intake-german', SCREENS);
  });
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  expect(at.seen.take()).toEqual([]);
});
