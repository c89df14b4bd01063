/** Numbers by glove, by keyboard and by instrument: one field takes all three, and nothing covers it. */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';

const SCREENS = [
  { width: 1024, height: 768 },
  { width: 1280, height: 800 },
] as const;

let shop: TestServer;
let browser: Browser;
let opener: Opener;
let measuring: Page;
let bench: Page;
let watches: Watch[];

async function touchStation(role: 'measuring' | 'bench'): Promise<Page> {
  const context = await browser.newContext({ viewport: SCREENS[1], hasTouch: true });
  context.setDefaultTimeout(15_000);
  const page = await context.newPage();
  await floor.pairHere(page, shop.url, role, shop.code([role]));
  return page;
}
async function show(page: Page, role: 'measuring' | 'bench', job: OpenJob): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${shop.url}/${role}#${job.session}`);
}

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  opener = await Opener.of(shop);
  measuring = await touchStation('measuring');
  bench = await touchStation('bench');
  watches = [measuring, bench].map((page) => watch(page, shop.url));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const pad = (page: Page) => page.getByRole('region', { name: /^Keypad: / });
async function press(page: Page, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) await button(pad(page), key).tap();
}
const caret = (input: Locator) => input.evaluate((element) => (element as HTMLInputElement).selectionStart);
const focused = (input: Locator) => input.evaluate((element) => element === document.activeElement);

describe('a number field', () => {
  let width: Locator;
  beforeEach(async () => {
    await measuring.setViewportSize(SCREENS[1]);
    await show(measuring, 'measuring', await opener.open('Aurelia Gstrein', readied()));
    width = field(measuring, 'Stance width');
    await width.waitFor();
  });

  it('keeps the tablet’s own keyboard away, and opens its keypad to a touch, not to the keyboard', async () => {
    expect(await width.getAttribute('inputmode')).toBe('none');
    await width.focus();
    await measuring.keyboard.type('200');
    expect(await pad(measuring).count()).toBe(0);
    await width.tap();
    await pad(measuring).waitFor();
    // The first touch takes the whole number.
    await press(measuring, '2', '3', '0', '.', '5');
    expect(await width.inputValue()).toBe('230.5');
    expect(await focused(width)).toBe(true);
    await press(measuring, 'Erase', 'Erase', 'Erase', '5', 'And a half');
    expect(await width.inputValue()).toBe('235.5');
    await press(measuring, 'And a half');
    expect(await width.inputValue()).toBe('235');
    // A keyboard types on where the glove has stopped.
    await measuring.keyboard.type('1');
    expect(await width.inputValue()).toBe('2351');
    expect(await caret(width)).toBe(4);
    await press(measuring, 'Erase', 'Put away');
    await pad(measuring).waitFor({ state: 'detached' });
    expect(await width.inputValue()).toBe('235');
  });

  it('leaves its keypad where it is while a finger is on the glass, so that nothing moves away under it', async () => {
    await width.tap();
    await pad(measuring).waitFor();
    const glass = await measuring.context().newCDPSession(measuring);
    const touch = (type: 'touchStart' | 'touchEnd', at: readonly { x: number; y: number }[]) =>
      glass.send('Input.dispatchTouchEvent', { type, touchPoints: [...at] });
    await touch('touchStart', [{ x: 20, y: 300 }]);
    await width.blur();
    await measuring.waitForTimeout(1_000);
    expect(await pad(measuring).count()).toBe(1);
    await touch('touchEnd', []);
    await pad(measuring).waitFor({ state: 'detached' });
    await glass.detach();
  });

  it('goes up and down by its steps, within its bounds', async () => {
    await width.fill('232,5');
    await button(measuring, 'Stance width: 5 mm more').tap();
    expect(await width.inputValue()).toBe('237.5');
    await width.fill('42');
    await button(measuring, 'Stance width: 5 mm less').tap();
    expect(await width.inputValue()).toBe('40');
  });

  it('takes a calliper that types fast, with its unit or without, and goes on', async () => {
    for (const [typed, kept] of [
      ['231.50', '231.50'],
      ['231.5mm', '231.5'],
      ['231,5 mm', '231,5'],
    ] as const) {
      await width.focus();
      await width.selectText();
      await measuring.keyboard.type(`${typed}\r`, { delay: 0 });
      expect(await width.inputValue()).toBe(kept);
      expect(await focused(width)).toBe(false);
    }
    await width.fill('9.1 in');
    await measuring.getByText('That is in inches').waitFor();
    expect(await width.inputValue()).toBe('9.1 in');
  });

  it.each(SCREENS)('is in sight over the keypad with the act beside it at $width×$height', async (size) => {
    await measuring.setViewportSize(size);
    for (const side of ['Left', 'Right']) await floor.choose(measuring, `${side} leg widest at`, 'middle');
    await width.tap();
    await pad(measuring).waitFor();
    await press(measuring, '2', '3', '0');
    const act = button(measuring, 'All four are so: read the gaps');
    await expect.poll(() => inSight(width)).toHaveProperty('heightPx');
    await expect.poll(() => inSight(act)).toHaveProperty('heightPx');
    expect(await sidewaysScrolls(measuring)).toEqual([]);
    expect((await smallTargets(measuring, 56)).small).toEqual([]);
    await shot(measuring, `keypad-stand-${size.width}`);
    // What the page has scrolled half under its act is a small target there, until it is scrolled to.
    const said = await axeViolations(measuring);
    expect(said.filter((line) => !line.startsWith('target-size'))).toEqual([]);
    await measuring.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
    await shot(measuring, `keypad-stand-${size.width}-dark`);
    expect(await axeViolations(measuring, COLOUR_RULES)).toEqual([]);
    await measuring.emulateMedia({ colorScheme: 'light' });
    // The last field of its group: what comes next is the act, and it is not done by itself.
    await press(measuring, 'Done');
    await pad(measuring).waitFor({ state: 'detached' });
    expect(await focused(act)).toBe(true);
  });
});

describe('the gaps', () => {
  it('take digits in the place of the row, for what the row does not hold', async () => {
    await measuring.setViewportSize(SCREENS[1]);
    const job = await opener.open('Aurelia Gstrein', readied());
    await show(measuring, 'measuring', job);
    await floor.stand(measuring, 230, ['left', 'right']);
    await button(measuring, '0–9').tap();
    const digits = measuring.getByRole('group', { name: 'Gap in millimetres: Left medial gap' });
    for (const key of ['2', '3', '.', '5', 'Next'])
      await button(key === 'Next' ? measuring : digits, key).tap();
    expect(await floor.gapField(measuring, 'left', 'medial').inputValue()).toBe('23.5');
    expect(await focused(floor.gapField(measuring, 'left', 'lateral'))).toBe(true);
    await measuring.keyboard.type('4.5mm\r8,0\r9 mm\r');
    await measuring.getByRole('region', { name: 'Left leg' }).waitFor();
    await floor.allSaved(measuring);
    expect(factsOnDisk(shop.data, job.session).slice(-2)).toMatchObject([
      { kind: 'cuff.read', side: 'left', medialMm: 23.5, lateralMm: 4.5 },
      { kind: 'cuff.read', side: 'right', medialMm: 8, lateralMm: 9 },
    ]);
    await shot(measuring, 'keypad-result');
  });
});

describe('a dialog', () => {
  it.each(SCREENS)('has the keypad in reach, with its act in sight at $width×$height', async (size) => {
    await bench.setViewportSize(size);
    const job = await opener.open('Aurelia Gstrein', wasRead());
    await show(bench, 'bench', job);
    await floor.bootInHand(bench, 'left');
    await button(bench, 'Did something else').tap();
    const dialog = bench.getByRole('dialog');
    const lateral = field(dialog, 'Lateral adjuster');
    await lateral.tap();
    await press(bench, '3', 'Plus or minus');
    expect(await lateral.inputValue()).toBe('-3');
    await expect.poll(() => inSight(lateral)).toHaveProperty('heightPx');
    await press(bench, 'Next', '0', 'And a half');
    const medial = field(dialog, 'Medial adjuster');
    expect(await medial.inputValue()).toBe('0.5');
    await expect.poll(() => inSight(medial)).toHaveProperty('heightPx');
    const act = button(dialog, 'Enter these positions');
    await expect.poll(() => inSight(act)).toHaveProperty('heightPx');
    expect(await sidewaysScrolls(bench)).toEqual([]);
    await shot(bench, `keypad-pivots-${size.width}`);
    await press(bench, 'Done');
    await act.tap();
    await floor.allSaved(bench);
    expect(factsOnDisk(shop.data, job.session).at(-1)).toMatchObject({
      kind: 'cuff.set',
      lateralMm: -3,
      medialMm: 0.5,
    });
    expect(await pad(bench).count()).toBe(0);
  });
});

it('does all that without an error', () => {
  for (const each of watches) expect(each.take()).toEqual([]);
});
