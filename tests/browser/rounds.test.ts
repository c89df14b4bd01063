/** The rounds of a cuff: drawn and in words, with repeats and their spread, and the leg from above. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact, FactOf } from '../../core/index.ts';
import { mm, plan } from '../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button, gapField } from '../helpers/floor.ts';
import { readied } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
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
const panel = () => page.getByRole('region', { name: 'Left leg' });
const leg = (side: 'Left' | 'Right') => sheet().getByRole('region', { name: `${side} leg` });
const reads = () =>
  job.room.facts.filter((fact): fact is FactOf<'cuff.read'> & Fact => fact.kind === 'cuff.read');

/** Reads the left leg at this station: the medial gap in mm, and how the lateral side touches, or its gap. */
async function read(medialMm: number, lateral: 'Presses' | 'Grazes' | number): Promise<void> {
  await gapField(page, 'left', 'medial').fill(String(medialMm));
  await gapField(page, 'left', 'lateral').focus();
  if (typeof lateral === 'number') await gapField(page, 'left', 'lateral').fill(String(lateral));
  else await button(page, new RegExp(`^${lateral}`)).click();
  const before = reads().length;
  await button(page, 'Record the left leg').click();
  const keep = button(page, /^It is so|^Keep/);
  await panel().or(keep.first()).first().waitFor();
  if (await keep.first().isVisible()) await keep.first().click();
  await until(() => reads().length === before + 1);
}
async function again(): Promise<void> {
  await button(page, /^Read again/)
    .first()
    .click();
  await floor.confirmPosture(page);
}
const desc = (side: 'Left' | 'Right', name: RegExp) =>
  leg(side).getByRole('img', { name }).locator('desc').textContent();

describe('the rounds of a cuff', () => {
  it('[CUF-20] a press that became a graze is shown right', async () => {
    await floor.stand(page, 230, ['left', 'right']);
    await read(14, 'Presses');
    await panel().getByText('pressed').waitFor();
    // The bench moves the pivots; the leg still touches, and no longer presses.
    await job.room.add('bench', 'cuff.set', { side: 'left', lateralMm: mm(-3), medialMm: mm(3) });
    await panel()
      .getByText(/read both gaps again/)
      .waitFor();
    await again();
    await read(8, 'Grazes');
    await panel().getByText('Left leg, lateral from press to graze: progress.').waitFor();
    expect(await panel().innerText()).toContain('uneven');
    await shot(page, 'rounds-graze');
    // Graze to gap is the next step of it.
    await job.room.add('bench', 'cuff.set', { side: 'left', lateralMm: mm(-4), medialMm: mm(4) });
    await panel()
      .getByText(/read both gaps again/)
      .waitFor();
    await again();
    await read(6, 3);
    await panel().getByText('Left leg, lateral from graze to gap: progress.').waitFor();
  });

  it('stand beside each other with what was foretold, in words and drawn', async () => {
    await again();
    await read(6.5, 3);
    await button(page, 'Rounds').click();
    await leg('Left')
      .getByRole('img', { name: /bias of each round/ })
      .waitFor();
    await shot(page, 'rounds-three');
    const rows = leg('Left').getByRole('listitem');
    expect(await rows.count()).toBe(3);
    expect(await rows.nth(0).innerText()).toMatch(
      /^Round 1: pivots at lateral 0 mm, medial 0 mm; bias at least \+14 \(presses\)/,
    );
    expect(await rows.nth(1).innerText()).toMatch(
      /bias \+8 \(grazes\)[^]*lateral from press to graze: progress\./,
    );
    const third = await rows.nth(2).innerText();
    expect(third).toMatch(/bias expected [+−]?[\d.]+, read \+3\.3/);
    // Both readings of the round, each by itself, and how far they lie apart.
    expect(third).toMatch(/\+3[^]*medial 6, lateral 3[^]*\+3\.5[^]*medial 6\.5, lateral 3/);
    expect(third).toContain('2 readings, spread 0.5 mm');
    const plot = await desc('Left', /bias of each round/);
    expect(plot).toMatch(/^Round 1: nothing foretold, read at least \+14 mm\. Round 2: /);
    // What was foretold for round 3 has its interval.
    expect(plot).toMatch(/Round 3: foretold [+−]?[\d.]+ \([+−]?[\d.]+ to [+−]?[\d.]+\), read \+3\.3 mm\.$/);
    await leg('Right').getByText('Nothing read yet.').waitFor();
  });

  it('show the leg from above as it was read last', async () => {
    expect(await desc('Left', /from above/)).toBe(
      'Left leg: widest in the middle; gaps 6.5 mm medial, 3 mm lateral; room at the shin not read, at the calf not read.',
    );
    await button(sheet(), 'Close').click();
    await job.room.add('measuring', 'cuff.read', {
      ...payloadOf(reads().at(-1)!),
      widestAt: 'rear',
      shinMm: mm(11),
      calfMm: mm(0),
    });
    await job.room.add('measuring', 'cuff.read', {
      ...payloadOf(reads().at(-1)!),
      side: 'right',
      medialMm: mm(5),
      lateralMm: mm(13),
      widestAt: 'front',
    });
    await until(() => reads().length === 6);
    await button(page, 'Rounds').click();
    await leg('Right')
      .getByRole('img', { name: /from above/ })
      .waitFor();
    expect(await desc('Left', /from above/)).toBe(
      'Left leg: widest toward the back; gaps 6.5 mm medial, 3 mm lateral; room at the shin 11 mm, at the calf 0 mm.',
    );
  });

  it('strikes through what is out of date, and fits every screen', async () => {
    await job.room.add('bench', 'inside.set', { side: 'left', heelLiftMm: mm(2) });
    const first = leg('Left').getByRole('listitem').first();
    await first.getByText('out of date').waitFor();
    expect(plan(job.room.facts).sides.left.cuff.rounds.every(({ stale }) => stale)).toBe(true);
    expect(await desc('Left', /bias of each round/)).toContain('out of date');
    expect(
      await first.locator('.said').evaluate((element) => getComputedStyle(element).textDecorationLine),
    ).toBe('line-through');
    for (const size of [
      { width: 390, height: 844 },
      { width: 1024, height: 768 },
      { width: 1280, height: 800 },
    ]) {
      await page.setViewportSize(size);
      const at = `at ${size.width}×${size.height}`;
      await shot(page, `rounds-${size.width}`);
      expect(await sidewaysScrolls(page), at).toEqual([]);
      expect(await smallTargets(page, TOUCH_PX), at).toEqual({ small: [], inline: [] });
    }
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await shot(page, `rounds-${colorScheme}`);
      expect(await axeViolations(page, colorScheme === 'dark' ? COLOUR_RULES : undefined)).toEqual([]);
    }
    await page.emulateMedia({ colorScheme: 'light' });
    await page.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await page.reload();
    await button(page, 'Durchgänge').click();
    await sheet().getByText('Linkes Bein, außen drückt → streift: Fortschritt.').waitFor();
    await shot(page, 'rounds-german');
    expect(await axeViolations(page)).toEqual([]);
  });
});

/** The payload of an entry, to be entered once more. */
function payloadOf(fact: FactOf<'cuff.read'> & Fact) {
  const {
    id: _id,
    kind: _kind,
    at: _at,
    by: _by,
    basis: _basis,
    ...payload
  } = fact as typeof fact & {
    basis?: unknown;
  };
  return payload;
}
