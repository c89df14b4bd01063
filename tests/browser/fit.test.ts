/** The shell fit on the floor: sizes, the room behind the heel, and hot spots on the map of the foot. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact, FactOf } from '../../core/index.ts';
import { plan } from '../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { takenIn } from '../helpers/jobs.ts';
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
  job = await at.opener.open('Kilian Obermoser', takenIn());
  await page.goto(`${shop.url}/measuring#${job.session}`);
});
afterAll(() => at?.close());

const sheet = () => page.getByRole('dialog');
const opens = (side: 'Left' | 'Right') =>
  button(page.getByRole('region', { name: `${side} leg` }), /^Foot and shell fit/);
const spot = (name: RegExp) => button(sheet().getByRole('group', { name: /where the shell presses/ }), name);
const assessed = (): FactOf<'assessed'>[] =>
  job.room.facts.filter((fact): fact is FactOf<'assessed'> & Fact => fact.kind === 'assessed');
const fitOf = (side: 'left' | 'right') => plan(job.room.facts).sides[side].fit;

describe('the shell fit', () => {
  it('[FIT-2] says the shop’s band while the room is typed, and records both feet together', async () => {
    await opens('Left').click();
    await field(sheet(), 'Foot length').fill('262');
    await field(sheet(), 'Room behind the heel').fill('12,5');
    await sheet().getByText('12.5 mm behind the heel: performance fit').waitFor();
    await sheet().getByText('Boot 26.5: 3 mm longer than this foot.').waitFor();
    await floor.choose(sheet(), 'Which foot', 'Right');
    await field(sheet(), 'Foot length').fill('266');
    await field(sheet(), 'Room behind the heel').fill('3');
    await sheet().getByText('3 mm behind the heel: too short').waitFor();
    await sheet().getByText('Size nearest to the longer foot: 26.5.').waitFor();
    await button(sheet(), /^Record both feet/).click();
    await sheet().waitFor({ state: 'detached' });
    await until(() => assessed().length === 2);
    expect(fitOf('left')).toMatchObject({ footMm: 262, shellGapMm: 12.5, band: 'performance', pairMm: 266 });
    expect(fitOf('right')).toMatchObject({ footMm: 266, shellGapMm: 3, band: 'too short' });
    await opens('Left').getByText('12.5 mm, performance fit').waitFor();
  });

  it('[FIT-3] takes hot spots by touch and by keyboard, and tells the bench of each', async () => {
    await opens('Left').click();
    await spot(/^navicular: free$/).click();
    const sixth = spot(/^sixth toe \(fifth metatarsal head\)/);
    await sixth.focus();
    await page.keyboard.press('Space');
    expect(await sixth.getAttribute('aria-pressed')).toBe('true');
    await field(sheet(), 'Another place').fill('scar above the ankle');
    await button(sheet(), 'Add').click();
    await spot(/^shin/).click();
    await spot(/^shin/).click();
    await sheet().getByText('navicular: presses').waitFor();
    await shot(page, 'fit-left');
    await button(sheet(), /^Record the left foot/).click();
    await until(() => assessed().length === 3);
    // What was recorded of the size is neither lost nor said again.
    expect(assessed().at(-1)).toMatchObject({
      side: 'left',
      hotSpots: ['navicular', 'fifth metatarsal head', 'scar above the ankle'],
    });
    expect(assessed().at(-1)).not.toHaveProperty('footLengthMm');
    expect(fitOf('left')).toMatchObject({ footMm: 262, shellGapMm: 12.5 });
    const told = plan(job.room.facts).next.filter((each) => each.do === 'shell.worked');
    expect(told.map(({ text }) => /at: ([^.]+)/.exec(text)?.[1])).toEqual([
      'navicular',
      'fifth metatarsal head',
      'scar above the ankle',
    ]);
    await opens('Left').getByText('3 hot spots open').waitFor();
    await button(page, 'Entries').click();
    await sheet()
      .getByText(/^Left foot and leg looked at, presses at navicular, sixth toe/)
      .waitFor();
    await button(sheet(), 'Close').click();
  });

  it('shows what the bench has worked apart, and a new spot does not open it again', async () => {
    await job.room.add('bench', 'shell.worked', { side: 'left', spot: 'Navicular', method: 'stretch' });
    await opens('Left').getByText('2 hot spots open, 1 worked').waitFor();
    await opens('Left').click();
    expect(await field(sheet(), 'Foot length').inputValue()).toBe('262');
    await spot(/^navicular: worked by the bench$/).waitFor();
    await shot(page, 'fit-worked');
    expect(await button(sheet(), /^Nothing new to record/).isDisabled()).toBe(true);
    await spot(/^instep/).click();
    await button(sheet(), /^Record the left foot/).click();
    await until(() => assessed().length === 4);
    expect(assessed().at(-1)!.hotSpots).toEqual(['fifth metatarsal head', 'scar above the ankle', 'instep']);
    // It presses again only when somebody says so.
    await opens('Left').click();
    await spot(/^navicular: worked by the bench$/).click();
    await spot(/^navicular: presses$/).waitFor();
    await button(sheet(), /^Record the left foot/).click();
    await until(() => assessed().length === 5);
    expect(fitOf('left').hotSpots).toContainEqual({ spot: 'navicular', worked: false });
  });

  it('names what cannot be entered, and keeps all that was typed over a reload', async () => {
    await opens('Right').click();
    await floor.choose(sheet(), 'What is looked at', 'Foot and leg');
    await field(sheet(), 'Calf girth').fill('38');
    await field(sheet(), 'Forefoot').fill('4');
    await field(sheet(), 'Arch').fill('drops when loaded');
    await button(sheet(), /^Record the right foot/).click();
    await sheet().getByRole('alert').getByText('Right foot, Calf girth: Must be 150 to 650 mm.').waitFor();
    await page.reload();
    await opens('Right').click();
    await floor.choose(sheet(), 'What is looked at', 'Foot and leg');
    expect(await field(sheet(), 'Arch').inputValue()).toBe('drops when loaded');
    await field(sheet(), 'Calf girth').fill('380');
    await shot(page, 'fit-leg');
    await button(sheet(), /^Record the right foot/).click();
    await until(() => assessed().length === 6);
    expect(assessed().at(-1)).toMatchObject({
      side: 'right',
      calfGirthMm: 380,
      forefoot: 4,
      arch: 'drops when loaded',
    });
  });

  it('fits every screen, mirrors the right foot, and gives axe nothing to say', async () => {
    const places = [];
    for (const side of ['Left', 'Right'] as const) {
      await opens(side).click();
      const box = await spot(/^big toe/).boundingBox();
      const map = await sheet()
        .getByRole('group', { name: /where the shell presses/ })
        .locator('figure')
        .first()
        .boundingBox();
      places.push((box!.x + box!.width / 2 - map!.x) / map!.width);
      if (side === 'Left') await button(sheet(), 'Close').click();
    }
    expect(places[0]! + places[1]!).toBeCloseTo(1, 2);
    expect(places[0]).toBeGreaterThan(0.5);
    for (const size of [
      { width: 1280, height: 800 },
      { width: 1024, height: 768 },
      { width: 390, height: 844 },
    ]) {
      await page.setViewportSize(size);
      const at = `at ${size.width}×${size.height}`;
      await shot(page, `fit-${size.width}`);
      expect(await sidewaysScrolls(page), at).toEqual([]);
      expect(await smallTargets(page, TOUCH_PX), at).toEqual({ small: [], inline: [] });
      if (size.width === 1280) {
        await spot(/^arch/).click();
        expect(await inSight(button(sheet(), /^Record the right foot/))).toHaveProperty('heightPx');
        await spot(/^arch/).click();
      }
    }
    await page.setViewportSize({ width: 1280, height: 800 });
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      await shot(page, `fit-${colorScheme}`);
      expect(await axeViolations(page, colorScheme === 'dark' ? COLOUR_RULES : undefined)).toEqual([]);
    }
  });

  it('says it in German', async () => {
    await page.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await page.reload();
    await page.setViewportSize({ width: 1024, height: 768 });
    const left = page.getByRole('region', { name: 'Linkes Bein' });
    await left.getByText('4 Druckstellen offen').waitFor();
    await shot(page, 'fit-ready-german');
    await left.getByRole('button', { name: /^Fuß und Schale/ }).click();
    await sheet().getByText('12,5 mm hinter der Ferse: sportliche Passform').waitFor();
    await sheet().getByText('Kahnbein: drückt').waitFor();
    await shot(page, 'fit-german');
    expect(await sidewaysScrolls(page)).toEqual([]);
    expect(await axeViolations(page)).toEqual([]);
  });
});
