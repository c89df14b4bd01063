/**
 * A full job from closed cuffs to hand-over: knees, cants, plates, the measured sole, the binding, in three real
 * browsers at their sizes. What came before is entered by a program.
 */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan, SIDES } from '../../../core/index.ts';
import type { Plan, Side } from '../../../core/index.ts';
import { axeViolations } from '../../helpers/axe.ts';
import { launchBrowser } from '../../helpers/browser.ts';
import { factsOnDisk } from '../../helpers/disk.ts';
import { Story, WHOLE_BOOT } from '../../helpers/facts.ts';
import * as floor from '../../helpers/floor.ts';
import { button, choose, field } from '../../helpers/floor.ts';
import { Opener } from '../../helpers/jobs.ts';
import { serve } from '../../helpers/server.ts';
import type { TestServer } from '../../helpers/server.ts';
import { shot } from '../../helpers/shots.ts';
import { kneePanel, readKnee as typeKnee, SOLE, typeSole } from '../../helpers/under-the-boot.ts';
import type { Knee } from '../../helpers/under-the-boot.ts';
import { until } from '../../helpers/until.ts';
import { watch } from '../../helpers/watch.ts';
import type { Watch } from '../../helpers/watch.ts';

const NAME = 'Walburga Tschurtschen';
let shop: TestServer;
let browser: Browser;
let desk: Page;
let measuring: Page;
let bench: Page;
let watches: Watch[];
let session: string;
let ticket: string;

/** Both cuffs read even and closed; the least lug that must be left is nobody's to type yet. */
function closedCuffs(): Story {
  const told = new Story().open('full');
  for (const side of SIDES) {
    told.add('boot.described', {
      side,
      ...WHOLE_BOOT,
    });
    told.ready(side);
    told.read(side, 9, 9);
    told.add('cuff.closed', { side, decision: 'even' });
  }
  return told;
}

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  ({ session, ticket } = await (await Opener.of(shop)).open(NAME, closedCuffs()));
  desk = await floor.pair(browser, shop.url, 'desk', shop.code(['desk']));
  measuring = await floor.pair(browser, shop.url, 'measuring', shop.code(['measuring']));
  bench = await floor.pair(browser, shop.url, 'bench', shop.code(['bench']));
  watches = [desk, measuring, bench].map((page) => watch(page, shop.url));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const planned = (): Plan => plan(factsOnDisk(shop.data, session));
const newest = (kind: string, side: Side) =>
  factsOnDisk(shop.data, session).findLast(
    (fact) => fact.kind === kind && (fact as { side?: Side }).side === side,
  );
const stepOf = (name: string, side?: Side) =>
  planned().steps.find((step) => step.step === name && step.side === side)!;
const panel = (side: Side) => kneePanel(measuring, side);

/** Nothing that axe finds, no scroll for the main act, no sideways scroll, and every target large enough. */
async function sound(page: Page, name: string): Promise<void> {
  await shot(page, name);
  expect(await axeViolations(page), name).toEqual([]);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('button:not(.unseen), input:not([type=radio]):not([type=checkbox])')]
      .map((each) => [each.textContent?.trim() ?? '', each.getBoundingClientRect()] as const)
      .filter(([, { width, height }]) => width > 0 && (height < 55.5 || width < 55.5))
      .map(([text, { width, height }]) => `${text}: ${Math.round(width)} × ${Math.round(height)}`),
  );
  expect(small, name).toEqual([]);
  const sideways = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(sideways, name).toBeLessThanOrEqual(0);
}

/** On the glass as the page stands: nobody scrolls for the main act, and a mitten meets it. */
async function reachable(page: Page, act: Locator): Promise<void> {
  const box = (await act.boundingBox())!;
  expect(box.height).toBeGreaterThanOrEqual(112);
  expect(box.y).toBeGreaterThanOrEqual(0);
  expect(box.y + box.height).toBeLessThanOrEqual(page.viewportSize()!.height);
}

async function readKnee(side: Side, knee: Knee): Promise<void> {
  const count = () =>
    factsOnDisk(shop.data, session).filter((fact) => fact.kind === 'stance.read' && fact.side === side)
      .length;
  const before = count();
  await typeKnee(measuring, side, knee);
  await until(() => count() === before + 1, `the ${side} knee on disk`);
}

describe('the knees', () => {
  it('begin with how the skier stands and the floor, asked once', async () => {
    await button(measuring, new RegExp(NAME)).click();
    await measuring.getByText('Not checked in this session').waitFor();
    const go = button(measuring, 'All three are so: read the knees');
    expect(await go.isDisabled()).toBe(true);
    // Held from the cuffs' readings, not from nowhere.
    expect(await field(measuring, 'Stance width').inputValue()).toBe('240');
    await choose(measuring, 'Knee taken at', /condyles/);
    await field(measuring, 'Slope across').fill('0,2');
    await field(measuring, 'Slope along').fill('0.5');
    await button(measuring, 'Enter the slope').click();
    await measuring.getByText('Checked: 0.2° across, 0.5° along').waitFor();
    await sound(measuring, 'knees-stand');
    await reachable(measuring, go);
    await go.click();
    await panel('left').waitFor();
  });

  it('are read each by itself: nothing typed on one side shows on the other', async () => {
    await sound(measuring, 'knees-unread');
    await readKnee('left', { offset: '9', toward: 'lateral', height: '468' });
    expect(newest('stance.read', 'left')).toMatchObject({
      kneeOffsetMm: 9,
      kneeHeightMm: 468,
      stanceWidthMm: 240,
      kneeMark: 'condyles',
      restood: true,
      posture: { parallel: true, straightRunStance: true, bucklesLight: false, midFlex: true },
    });
    expect(await field(panel('left'), 'Knee from the line').inputValue()).toBe('');
    expect(await field(panel('left'), 'Knee height').inputValue()).toBe('468');
    for (const label of ['Knee from the line', 'Knee height'])
      expect(await field(panel('right'), label).inputValue()).toBe('');
    await panel('left')
      .getByText(/1 more reading after standing afresh/)
      .waitFor();
    await panel('left')
      .getByText(/a reading on a test wedge/)
      .waitFor();
    await panel('right').getByText('not read').waitFor();
  });

  it('ask for the wedge that tells most, in words, and warn while one is in', async () => {
    const { nextWedgeDeg } = planned().sides.left.stance;
    expect(nextWedgeDeg).toBeLessThan(0);
    await button(panel('left'), `Put under: ${Math.abs(nextWedgeDeg!)}°, thick edge lateral`).click();
    await panel('left')
      .getByText(/can fall/)
      .waitFor();
    await floor.allSaved(measuring);
    expect(newest('sole.set', 'left')).toMatchObject({ cantDeg: nextWedgeDeg, state: 'test-wedge' });
    await sound(measuring, 'knees-wedge');
    await reachable(measuring, button(panel('left'), /^Record the left knee/));
    await panel('left')
      .getByRole('button', { name: /^Other wedge/ })
      .click();
    const dialog = measuring.getByRole('dialog');
    await field(dialog, 'Wedge').fill('2,0');
    await choose(dialog, 'Thick edge', 'lateral');
    await button(dialog, 'This wedge is under the boot').click();
    await floor.allSaved(measuring);
    expect(newest('sole.set', 'left')).toMatchObject({ cantDeg: -2, state: 'test-wedge' });
    // Medial of the line is a word here and a minus on record.
    await readKnee('left', { offset: '4', toward: 'medial' });
    expect(newest('stance.read', 'left')).toMatchObject({ kneeOffsetMm: -4, kneeHeightMm: 468 });
    await readKnee('left', { offset: '4', toward: 'medial' });
  });

  it('carry a cant that is chosen by one tap, with its interval and how sure it is', async () => {
    expect(planned().sides.left.stance).toMatchObject({ verdict: 'cant', roundedDeg: -2 });
    await panel('left')
      .getByText(/° to .*° lateral\)/)
      .waitFor();
    await panel('left')
      .getByText(/thick edge lateral: (almost certain|very likely)/)
      .waitFor();
    const act = button(panel('left'), /^Choose 2°, thick edge lateral 9 times of 10 within/);
    await sound(measuring, 'knees-choose');
    await reachable(measuring, act);
    await act.click();
    await panel('left').getByText('Chosen: 2°, thick edge lateral, plates').waitFor();
    await floor.allSaved(measuring);
    expect(stepOf('cant', 'left').status).toBe('done');
    expect(newest('cant.chosen', 'left')).toMatchObject({ cantDeg: -2, method: 'plate' });
    expect(newest('cant.chosen', 'right')).toBeUndefined();
  });

  it('let another cant be chosen only with its reason', async () => {
    await readKnee('right', { offset: '4', toward: 'medial', height: '468' });
    await panel('right')
      .getByRole('button', { name: /^Another cant/ })
      .click();
    const dialog = measuring.getByRole('dialog');
    await dialog.getByText('The readings do not carry this yet.').waitFor();
    await field(dialog, 'Cant').fill('0');
    const enter = button(dialog, 'Choose this cant');
    expect(await enter.isDisabled()).toBe(true);
    await dialog.getByLabel('Why').fill('skied well flat for years');
    await sound(measuring, 'knees-other-cant');
    await enter.click();
    await panel('right').getByText('Chosen: flat').waitFor();
    await floor.allSaved(measuring);
    await expect
      .poll(() => newest('cant.chosen', 'right'), { timeout: 30_000 })
      .toMatchObject({
        cantDeg: 0,
        override: 'skied well flat for years',
      });
    expect(SIDES.map((side) => stepOf('cant', side).status)).toEqual(['done', 'done']);
    await sound(measuring, 'knees-chosen');
    await reachable(measuring, button(measuring, /^Next skier/));
  });
});

describe('the sole', () => {
  it('is measured first, by keyboard alone from field to field', async () => {
    await floor.pickAtBench(bench, 'left', ticket);
    await bench.getByText('Left boot: measure the sole before any work.').waitFor();
    await bench
      .getByText(/can keep a binding from releasing/)
      .first()
      .waitFor();
    await field(bench, 'Toe, medial height').focus();
    for (const value of Object.values(SOLE).slice(0, -1)) {
      await bench.keyboard.type(value);
      await bench.keyboard.press('Enter');
    }
    await bench.keyboard.type('69');
    await sound(bench, 'bench-sole-before');
    await bench.keyboard.press('Enter');
    await floor.allSaved(bench);
    expect(newest('sole.measured', 'left')).toMatchObject({
      when: 'before',
      toe: { heightMedialMm: 19.2, heightLateralMm: 19.2, widthMm: 69 },
      heel: { heightMedialMm: 30.1, heightLateralMm: 30.1, widthMm: 69 },
    });
  });

  it('says what is withheld and why, and shows the plate at its four corners', async () => {
    for (const text of stepOf('sole', 'left').because) await bench.getByText(text).waitFor();
    await bench.getByText(/least lug/).waitFor();
    const { plate } = planned().sides.left.sole;
    const picture = bench.getByRole('img', { name: /^Plate, thickness in mm/ });
    const said = await picture.locator('desc').textContent();
    expect(said).toContain(`toe lateral ${plate!.toe.lateralMm.toFixed(2)} mm`);
    expect(said).toContain(`heel medial ${plate!.heel.medialMm} mm`);
    // From above, toe up: the lateral edge of a left boot is on the left.
    const at = async (text: string) =>
      (await picture.locator('text', { hasText: text }).first().boundingBox())!.x;
    expect(await at('lateral')).toBeLessThan(await at('medial'));
    await sound(bench, 'bench-sole-withheld');
  });

  it('is not fitted before the owner has agreed, and then only by a held button', async () => {
    await button(bench, 'Did something else').click();
    const dialog = bench.getByRole('dialog');
    await field(dialog, 'Thin edge').fill('3,0');
    const fitted = dialog.getByRole('button', { name: /^This is fitted/ });
    expect(await fitted.isDisabled()).toBe(true);
    await dialog.getByText(/not before the owner has agreed/).waitFor();

    await desk.getByText(NAME).click();
    await button(desk, 'Work agreed').click();
    const agree = desk.getByRole('dialog');
    await agree.getByRole('checkbox', { name: 'lugs routed' }).check();
    await agree.getByRole('checkbox', { name: /warranty/ }).check();
    await sound(desk, 'desk-agree');
    await button(agree, 'Enter the agreement').click();
    await floor.allSaved(desk);

    await until(() => fitted.isEnabled(), 'the agreement at the bench');
    await sound(bench, 'bench-fitted');
    // A tap is not enough: the hold is let go at once, and nothing is entered.
    await fitted.click();
    await dialog.getByText('hold for one second').waitFor();
    expect(newest('plate.fitted', 'left')).toBeUndefined();
    await fitted.focus();
    await bench.keyboard.down('Enter');
    await dialog.waitFor({ state: 'detached' });
    await bench.keyboard.up('Enter');
    await floor.allSaved(bench);
    expect(newest('plate.fitted', 'left')).toMatchObject({ cantDeg: -2, method: 'plate', thinEdgeMm: 3 });
  });

  it('is judged field by field, and out of its limits it is not handed over', async () => {
    await bench.getByText(/Measure the finished left sole/).waitFor();
    await typeSole(bench, { ...SOLE, 'Toe, medial height': '21' });
    await button(bench, 'Enter the finished sole').click();
    await floor.allSaved(bench);
    const row = (name: string) => bench.getByRole('row', { name: new RegExp(`^${name}`) });
    await row('Toe, medial height').getByText('out of limits').waitFor();
    await row('Toe, medial height').getByText('18 to 20 mm').waitFor();
    await row('Toe, lateral height').getByText('pass').waitFor();
    await row('Heel, width').getByText('nobody entered one').waitFor();
    await row('Heel, width').getByText('not checked').waitFor();
    await sound(bench, 'bench-sole-out');
    expect(stepOf('sole', 'left').status).toBe('blocked');

    await button(desk, 'Hand over').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByText(/Sole left is not finished/).waitFor();
    await dialog.getByText('The finished left sole is out of its limits: no pickup.').waitFor();
    await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
    expect(await button(dialog, 'Hand over').isDisabled()).toBe(true);
    await sound(desk, 'desk-handover-blocked');
    await button(dialog, 'Close').click();

    await button(bench, 'Measure again').click();
    await typeSole(bench, { ...SOLE, 'Toe, lateral height': '19' });
    await button(bench, 'Enter the finished sole').click();
    await floor.allSaved(bench);
    expect(stepOf('sole', 'left').status).toBe('done');
    await row('Toe, medial height').getByText('pass').waitFor();
    await sound(bench, 'bench-sole-done');
  });

  it('asks nothing of the boot that stays flat', () => {
    expect(stepOf('sole', 'right')).toMatchObject({
      status: 'done',
      because: ['Nothing was done under the right boot.'],
    });
  });
});

describe('the desk', () => {
  it('has the binding checked before the hand-over', async () => {
    expect(planned().next).toMatchObject([{ role: 'desk', do: 'binding.checked' }]);
    await button(desk, 'Binding check').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByText(/can keep a binding from releasing/).waitFor();
    await dialog.getByLabel('Reference of the test').fill('B-77');
    await sound(desk, 'desk-binding');
    await button(dialog, 'Tested and passed').click();
    await floor.allSaved(desk);
    expect(stepOf('binding').status).toBe('done');
  });

  it('hands the boots over, and every step is done', async () => {
    await button(desk, 'Hand over').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
    await button(dialog, 'Hand over').click();
    await floor.allSaved(desk);
    const { steps, next } = planned();
    expect(steps.filter(({ status }) => status !== 'done')).toEqual([]);
    expect(next).toEqual([]);
  });

  it('and no page did what it may not', () => {
    for (const each of watches) expect(each.take()).toEqual([]);
  });
});
