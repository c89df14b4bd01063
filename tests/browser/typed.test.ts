/** What is typed and not entered yet: it outlives another station's entries, a cut connection and a turned tablet. */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Room } from '../../demo/room.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { cableTo } from '../helpers/cable.ts';
import type { Cable } from '../helpers/cable.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { HELD, KNEE } from '../helpers/facts.ts';
import type { Story } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

let shop: TestServer;
let browser: Browser;
let opener: Opener;
let cable: Cable;
let measuring: Page;
let bench: Page;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  cable = await cableTo(shop.url);
  opener = await Opener.of(shop);
  measuring = await floor.pair(browser, cable.url, 'measuring', shop.shownCode('measuring'));
  bench = await floor.pair(browser, cable.url, 'bench', shop.shownCode('bench'));
});
afterAll(async () => {
  await browser?.close();
  await cable?.close();
  await shop?.close();
});

async function open(page: Page, role: 'measuring' | 'bench', told: Story): Promise<OpenJob> {
  const job = await opener.open('Vroni Hirschbichler', told);
  await page.goto('about:blank');
  await page.goto(`${cable.url}/${role}#${job.session}`);
  if (role === 'bench') await floor.bootInHand(page, 'left');
  return job;
}

/** Both cuffs closed; the knees are next. */
function closed(): Story {
  const told = readied();
  told.add('service.changed', { service: 'full', reason: 'wants all of it' });
  for (const side of ['left', 'right'] as const) {
    told.read(side, 10, 10);
    told.add('cuff.closed', { side, decision: 'even' });
  }
  return told;
}
/** A cant is chosen: the sole is measured next. */
function chosen(): Story {
  const told = closed();
  told.add('stance.read', { side: 'left', kneeOffsetMm: -9, ...KNEE });
  const cant = { side: 'left', cantDeg: -2, method: 'plate', override: 'known for years' } as const;
  told.add('cant.chosen', cant, { role: 'measuring' });
  return told;
}

const at = (input: Locator) =>
  input.evaluate((element) => {
    const { value, selectionStart, selectionEnd } = element as HTMLInputElement;
    return { value, caret: [selectionStart, selectionEnd], focus: element === document.activeElement };
  });
const held = (value: string, caret = value.length) => ({ value, caret: [caret, caret], focus: true });

let entries = 0;
/** Types a number key by key, with something happening after each, and looks each time that nothing has moved. */
async function typeThrough(
  page: Page,
  input: Locator,
  number: string,
  between: () => Promise<void>,
): Promise<void> {
  await input.focus();
  await input.selectText();
  for (let i = 0; i < number.length; i++) {
    await page.keyboard.press(number[i]!);
    await between();
    expect(await at(input), `after ${number.slice(0, i + 1)}`).toEqual(held(number.slice(0, i + 1)));
  }
  // And in the middle of it, where a caret that is set anew would jump to the end.
  await page.keyboard.press('ArrowLeft');
  await between();
  expect(await at(input)).toEqual(held(number, number.length - 1));
}

describe('another station’s entries', () => {
  it('take no key, no focus and no caret from a gap', async () => {
    const job = await open(measuring, 'measuring', readied());
    await floor.stand(measuring, 230, ['left', 'right']);
    const read = {
      contact: 'none',
      to: 'shell',
      liner: 'in',
      stanceWidthMm: 230,
      widestAt: 'middle',
      posture: HELD,
    };
    let gap = 9;
    for (const [side, place, number] of [
      ['left', 'medial', '12.25'],
      ['left', 'lateral', '7,5'],
      ['right', 'medial', '10'],
      ['right', 'lateral', '9.75'],
    ] as const)
      await typeThrough(measuring, floor.gapField(measuring, side, place), number, async () => {
        gap += 0.25;
        await job.room.add('measuring', 'cuff.read', { ...read, side, medialMm: gap, lateralMm: 9 } as never);
        await measuring.waitForTimeout(60);
      });
    const all = () =>
      measuring
        .getByRole('textbox')
        .evaluateAll((each) => each.map((one) => (one as HTMLInputElement).value));
    expect((await all()).toSorted()).toEqual(['10', '12.25', '7,5', '9.75']);
  });

  it('that come in a storm, between keys as fast as an instrument’s, lose none of them', async () => {
    const job = await open(measuring, 'measuring', readied());
    await floor.stand(measuring, 230, ['left', 'right']);
    let stop = false;
    const storm = (async () => {
      for (let i = 0; !stop; i++)
        await job.room.add('bench', 'ready.checked', {
          side: 'left',
          item: 'liner',
          outcome: i % 2 ? 'done' : 'open',
        } as never);
    })();
    await floor.gapField(measuring, 'left', 'medial').focus();
    await measuring.keyboard.type('11.25mm\r8.75\r9,5 mm\r10.5', { delay: 15 });
    stop = true;
    await storm;
    const typed = await measuring
      .getByRole('textbox')
      .evaluateAll((each) => each.map((one) => (one as HTMLInputElement).value));
    expect(typed.toSorted()).toEqual(['10.5', '11.25', '8.75', '9,5']);
    await measuring.keyboard.press('Enter');
    await floor.allSaved(measuring);
    const kept = factsOnDisk(shop.data, job.session).filter(({ kind }) => kind === 'cuff.read');
    expect(kept).toMatchObject([
      { medialMm: 11.25, lateralMm: 8.75 },
      { medialMm: 9.5, lateralMm: 10.5 },
    ]);
  });

  it('take nothing from the stance, from a knee, or from a sole at the bench', async () => {
    const job = await open(measuring, 'measuring', closed());
    const say = (room: Room) => async () => {
      entries += 1;
      await room.add('bench', 'ready.checked', {
        side: 'right',
        item: 'footbed',
        outcome: 'done',
        note: `pair ${entries}`,
      } as never);
    };
    await typeThrough(measuring, field(measuring, 'Stance width'), '243.5', say(job.room));
    await floor.choose(measuring, 'Knee taken at', /condyles/);
    await button(measuring, /read the knees/).click();
    const knee = measuring.getByRole('region', { name: 'Right knee' });
    await typeThrough(measuring, field(knee, 'Knee from the line'), '6,25', say(job.room));
    await typeThrough(measuring, field(knee, 'Knee height'), '471', say(job.room));
    expect(await field(knee, 'Knee from the line').inputValue()).toBe('6,25');

    const soles = await open(bench, 'bench', chosen());
    await typeThrough(bench, field(bench, 'Toe, medial height'), '19.25', say(soles.room));
    await typeThrough(bench, field(bench, 'Heel, width'), '69,5', say(soles.room));
    expect(await field(bench, 'Toe, medial height').inputValue()).toBe('19.25');
  });
});

it('a cut connection, and its return, take nothing from what is being typed', async () => {
  const job = await open(measuring, 'measuring', wasRead());
  await button(measuring, /^Read again/)
    .first()
    .click();
  await floor.confirmPosture(measuring);
  let cut = false;
  await typeThrough(measuring, floor.gapField(measuring, 'left', 'medial'), '13.75', async () => {
    if (cut) cable.plugIn();
    else cable.pull();
    cut = !cut;
    const shows = cut ? 'No connection' : 'All saved';
    await floor.savedState(measuring).filter({ hasText: shows }).waitFor({ timeout: 30_000 });
  });
  cable.plugIn();
  await floor.allSaved(measuring);
  await measuring.keyboard.press('End');
  await measuring.keyboard.type('\r6\r5\r12.5\r');
  await floor.allSaved(measuring);
  expect(factsOnDisk(shop.data, job.session).slice(-2)).toMatchObject([
    { kind: 'cuff.read', side: 'left', medialMm: 13.75, lateralMm: 6 },
    { kind: 'cuff.read', side: 'right', medialMm: 5, lateralMm: 12.5 },
  ]);
});

describe('a tablet that is turned', () => {
  const UPRIGHT = { width: 800, height: 1280 };
  const LYING = { width: 1280, height: 800 };
  async function turn(page: Page, input: Locator, name: string): Promise<void> {
    const before = await at(input);
    if (name !== 'knee-stand' && name !== 'pivots') expect(before.focus, name).toBe(true);
    for (const size of [UPRIGHT, LYING, UPRIGHT]) {
      await page.setViewportSize(size);
      expect(await at(input)).toEqual(before);
      expect(await sidewaysScrolls(page), `${name} at ${size.width}`).toEqual([]);
    }
    await shot(page, `turned-${name}`);
    await page.setViewportSize(LYING);
    expect(await at(input)).toEqual(before);
  }

  it('keeps the gaps, the stance and the posture', async () => {
    await open(measuring, 'measuring', readied());
    const width = field(measuring, 'Stance width');
    await width.focus();
    await measuring.keyboard.type('232,5');
    await turn(measuring, width, 'stand');
    for (const side of ['Left', 'Right']) await floor.choose(measuring, `${side} leg widest at`, 'middle');
    await button(measuring, /read the gaps/).click();
    const first = floor.gapField(measuring, 'left', 'medial');
    await expect.poll(async () => (await at(first)).focus, { timeout: 15_000 }).toBe(true);
    await measuring.keyboard.type('12.5\r8\r9');
    await turn(measuring, floor.gapField(measuring, 'right', 'medial'), 'read');
    expect(await first.inputValue()).toBe('12.5');
    await button(measuring, '0–9').click();
    await turn(measuring, floor.gapField(measuring, 'right', 'medial'), 'read-digits');
    await measuring.keyboard.type('\r10\r');
    await measuring.getByRole('region', { name: 'Left leg' }).waitFor();
    await measuring.setViewportSize(UPRIGHT);
    expect(await sidewaysScrolls(measuring)).toEqual([]);
    await shot(measuring, 'turned-result');
    await measuring.setViewportSize(LYING);
  });

  it('keeps the knees', async () => {
    await open(measuring, 'measuring', closed());
    await floor.choose(measuring, 'Knee taken at', /condyles/);
    await field(measuring, 'Stance width').fill('240');
    await turn(measuring, measuring.getByRole('main'), 'knee-stand');
    await button(measuring, /read the knees/).click();
    const knee = measuring.getByRole('region', { name: 'Left knee' });
    await field(knee, 'Knee height').fill('468');
    await field(knee, 'Knee from the line').focus();
    await measuring.keyboard.type('7.5');
    await turn(measuring, field(knee, 'Knee from the line'), 'knees');
    expect(await field(knee, 'Knee height').inputValue()).toBe('468');
  });

  it('keeps the bench’s fields, and its pages fit', async () => {
    await open(bench, 'bench', chosen());
    await field(bench, 'Toe, medial height').focus();
    await bench.keyboard.type('19.2\r19\r69');
    await turn(bench, field(bench, 'Toe, width'), 'sole');
    await open(bench, 'bench', wasRead());
    await button(bench, 'Did something else').click();
    const lateral = field(bench.getByRole('dialog'), 'Lateral adjuster');
    await lateral.fill('-2.5');
    await turn(bench, lateral, 'pivots');
    await button(bench.getByRole('dialog'), 'Close').click();
    await bench.setViewportSize(UPRIGHT);
    await shot(bench, 'turned-task');
    expect(await sidewaysScrolls(bench)).toEqual([]);
    await bench.setViewportSize(LYING);
  });
});
