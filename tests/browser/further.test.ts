/** Beside the two gaps: a lower height and the room at shin and calf, on request, and what two heights say. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact, FactOf } from '../../core/index.ts';
import { plan } from '../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button, field, gapField } from '../helpers/floor.ts';
import { readied } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';
import { until } from '../helpers/until.ts';

const TOUCH_PX = 56;

let at: StationShop;
let shop: TestServer;
let job: OpenJob;
let page: Page;
beforeAll(async () => {
  at = await stationShop('measuring');
  ({ shop, page } = at);
  job = await at.opener.open('Leopoldine Aschaber', readied());
  await page.goto(`${shop.url}/measuring#${job.session}`);
});
afterAll(() => at?.close());

const sheet = () => page.getByRole('dialog');
const leg = (side: 'Left' | 'Right') => sheet().getByRole('region', { name: `${side} leg` });
const reads = () =>
  job.room.facts.filter((fact): fact is FactOf<'cuff.read'> & Fact => fact.kind === 'cuff.read');
const opens = () => button(page, /^Lower height, shin, calf/).click();

describe('beside the two gaps', () => {
  it('is asked for, costs the usual reading nothing, and is kept over a reload', async () => {
    await floor.stand(page, 230, ['left', 'right']);
    await floor.typeGaps(page, {
      left: { medialMm: 13, lateralMm: 7 },
      right: { medialMm: 9, lateralMm: 9 },
    });
    for (const size of [
      { width: 1024, height: 768 },
      { width: 1280, height: 800 },
    ]) {
      await page.setViewportSize(size);
      await shot(page, `further-before-${size.width}`);
      expect(await inSight(button(page, 'Record both legs'))).toHaveProperty('heightPx');
      expect(await sidewaysScrolls(page)).toEqual([]);
    }
    await opens();
    await field(leg('Left'), 'Room at the shin').fill('12');
    await field(leg('Left'), 'Room at the calf').fill('8,5');
    await field(leg('Left'), 'Lower height').fill('140');
    // The gaps are read at 160 mm: tilt and offset want 30 mm between.
    await leg('Left').getByText('Less than 30 mm under the usual height').waitFor();
    await field(leg('Left'), 'Lower height').fill('90');
    await field(leg('Left'), 'Lower medial gap').fill('6');
    for (const size of [
      { width: 390, height: 844 },
      { width: 1024, height: 768 },
      { width: 1280, height: 800 },
    ]) {
      await page.setViewportSize(size);
      const at = `at ${size.width}×${size.height}`;
      await shot(page, `further-${size.width}`);
      expect(await smallTargets(page, TOUCH_PX), at).toEqual({ small: [], inline: [] });
    }
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      expect(await axeViolations(page, colorScheme === 'dark' ? COLOUR_RULES : undefined)).toEqual([]);
    }
    await page.emulateMedia({ colorScheme: 'light' });
    await page.keyboard.press('Escape');
    await sheet().waitFor({ state: 'detached' });
    await button(page, 'Record both legs').click();
    await page.getByRole('alert').getByText('Left: a lower height needs both of its gaps').waitFor();
    expect(reads()).toEqual([]);
    await page.reload();
    await gapField(page, 'left', 'medial').waitFor();
    await opens();
    expect(await field(leg('Left'), 'Room at the calf').inputValue()).toBe('8,5');
    await field(leg('Left'), 'Lower lateral gap').fill('15');
    await button(sheet(), /^Back to the gaps/).click();
    await button(page, /Left: medial 6, lateral 15 at 90 mm, shin 12, calf 8.5/).waitFor();
    await shot(page, 'further-after');
    await button(page, 'Record both legs').click();
    await until(() => reads().length === 2);
    expect(reads()[0]).toMatchObject({
      side: 'left',
      lower: { medialMm: 6, lateralMm: 15, heightMm: 90, contact: 'none' },
      shinMm: 12,
      calfMm: 8.5,
    });
    expect(reads()[1]).not.toHaveProperty('lower');
    expect(reads()[1]).not.toHaveProperty('shinMm');
  });

  it('[CUF-13] two heights that disagree give both answers on the result', async () => {
    const { twoHeights } = plan(job.room.facts).sides.left.cuff;
    expect(twoHeights!.agree).toBe(false);
    await page
      .getByRole('region', { name: 'Left leg' })
      .getByText(/^Parallel cuff: .*° outward$/)
      .waitFor();
    await page.getByText('two different settings here: look at seat, padding and footbed').waitFor();
    await page.setViewportSize({ width: 1024, height: 768 });
    await shot(page, 'further-result-1024');
    await page.setViewportSize({ width: 1280, height: 800 });
    await shot(page, 'further-result');
  });

  it('[FAC-3] a lower side that touches reads 0, and it is said how hard', async () => {
    await button(page, /^Read again/)
      .first()
      .click();
    await floor.confirmPosture(page);
    await floor.typeGaps(page, { left: { medialMm: 13, lateralMm: 7 } });
    await opens();
    // The height is held from the last reading of this leg.
    expect(await field(leg('Left'), 'Lower height').inputValue()).toBe('90');
    await field(leg('Left'), 'Lower lateral gap').fill('11');
    await floor.choose(leg('Left'), 'Touches at the lower height', 'medial');
    await floor.choose(leg('Left'), 'How hard', 'presses');
    await button(sheet(), /^Back to the gaps/).click();
    await button(page, 'Record the left leg').click();
    await until(() => reads().length === 3);
    expect(reads()[2]).toMatchObject({
      contact: 'none',
      pressure: 'press',
      lower: { medialMm: 0, lateralMm: 11, contact: 'medial' },
    });
  });

  it('comes back into its fields with the gaps when the act is undone', async () => {
    await button(page, 'Undo last entry').click();
    await gapField(page, 'left', 'medial').waitFor();
    await opens();
    expect(await field(leg('Left'), 'Lower lateral gap').inputValue()).toBe('11');
    await leg('Left').getByRole('radio', { name: 'presses', checked: true }).waitFor({ state: 'attached' });
    await page.keyboard.press('Escape');
  });
});
