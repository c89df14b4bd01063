/** Fore and aft on the floor and at the bench, and the height that somebody wants one boot to stand at. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact, FactOf, Kind } from '../../core/index.ts';
import { mm, plan } from '../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';
import { until } from '../helpers/until.ts';

const TOUCH_PX = 56;
const SCREENS = [
  { width: 390, height: 844 },
  { width: 1024, height: 768 },
  { width: 1280, height: 800 },
];

let at: StationShop;
let shop: TestServer;
let job: OpenJob;
let page: Page;
beforeAll(async () => {
  at = await stationShop('measuring');
  ({ shop, page } = at);
  job = await at.opener.open('Leopoldine Aschaber', wasRead());
  await page.goto(`${shop.url}/measuring#${job.session}`);
});
afterAll(() => at?.close());

const sheet = (of: Page = page) => of.getByRole('dialog');
const all = <K extends Kind>(kind: K) =>
  job.room.facts.filter((fact): fact is FactOf<K> & Fact => fact.kind === kind);
async function more(name: RegExp): Promise<void> {
  await button(page, 'More').click();
  await button(sheet(), name).click();
}
const angle = (name: string) =>
  sheet().getByRole('term').filter({ hasText: name }).locator('xpath=following-sibling::dd');

async function looks(name: string): Promise<void> {
  for (const size of SCREENS) {
    await page.setViewportSize(size);
    const at = `at ${size.width}×${size.height}`;
    await shot(page, `${name}-${size.width}`);
    expect(await sidewaysScrolls(page), at).toEqual([]);
    expect(await smallTargets(page, TOUCH_PX), at).toEqual({ small: [], inline: [] });
  }
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    await shot(page, `${name}-${colorScheme}`);
    expect(await axeViolations(page, colorScheme === 'dark' ? COLOUR_RULES : undefined)).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'light' });
}

describe('fore and aft', () => {
  it('[FOR-1] says the angles while they are typed, and what is missing for the others', async () => {
    await more(/^Fore and aft/);
    await field(sheet(), '1 Board at the heel').fill('28');
    await field(sheet(), '2 Board at the toe').fill('20');
    await field(sheet(), '3 Between the two').fill('180');
    // atan(8/180)
    await angle('Ramp, in the boot').getByText('2.5° heel higher').waitFor();
    expect(await angle('Foot on the ski').innerText()).toBe('not known');
    await sheet().getByText('Read how high the left boot stands on the ski, at heel and toe.').waitFor();
    await field(sheet(), '4 Stand at the heel').fill('26');
    await field(sheet(), '5 Stand at the toe').fill('24');
    await field(sheet(), '7 Forward lean').fill('13,5');
    // atan(2/305) = 0.376°
    await angle('Shaft on the ski').getByText('13.9° forward').waitFor();
    await angle('Foot on the ski').getByText('2.9° heel higher').waitFor();
    await shot(page, 'foreaft-typed');
    expect(await inSight(button(sheet(), /^Record the left boot/))).toHaveProperty('heightPx');
    await button(sheet(), /^Record the left boot/).click();
    await until(() => all('foreaft.read').length === 1);
    expect(all('foreaft.read')[0]).toMatchObject({ side: 'left', boardHeelMm: 28, forwardLeanDeg: 13.5 });
    expect(all('foreaft.read')[0]).not.toHaveProperty('skiStandMm');
    expect(plan(job.room.facts).sides.left.foreAft.netForwardLeanDeg).toBeCloseTo(13.876, 2);
  });

  it('keeps what was taken before, and names what cannot be entered', async () => {
    await more(/^Fore and aft/);
    expect(await field(sheet(), '7 Forward lean').inputValue()).toBe('13.5');
    expect(await button(sheet(), /^Nothing new to record/).isDisabled()).toBe(true);
    await field(sheet(), '6 Ski to sole').fill('42');
    await field(sheet(), '3 Between the two').fill('');
    await button(sheet(), /^Record the left boot/).click();
    await sheet()
      .getByRole('alert')
      .getByText(/both heights of the boot board/)
      .waitFor();
    await field(sheet(), '3 Between the two').fill('18');
    await button(sheet(), /^Record the left boot/).click();
    await sheet().getByRole('alert').getByText('Must be 50 to 400 mm.').waitFor();
    await field(sheet(), '3 Between the two').fill('180');
    await looks('foreaft');
    await button(sheet(), /^Record the left boot/).click();
    await until(() => all('foreaft.read').length === 2);
    expect(all('foreaft.read')[1]).toMatchObject({ boardSpanMm: 180, skiStandMm: 42, forwardLeanDeg: 13.5 });
  });

  it('[FOR-2] asks for the numbers again once the inside has changed, with those of before beside', async () => {
    await job.room.add('bench', 'inside.set', { side: 'left', heelLiftMm: mm(3) });
    await more(/^Fore and aft/);
    await sheet().getByText('Something in this boot has changed').waitFor();
    expect(await field(sheet(), '1 Board at the heel').inputValue()).toBe('');
    await sheet().getByText('before: 28').waitFor();
    await shot(page, 'foreaft-stale');
    await button(sheet(), 'Close').click();
  });

  it('is taken at the bench too, among the other work', async () => {
    const bench = await floor.pair(at.browser, shop.url, 'bench', shop.shownCode('bench'));
    await bench.goto(`${shop.url}/bench#${job.session}`);
    await button(bench, /^Other work/).click();
    await button(sheet(bench), /^Fore and aft/).click();
    await floor.choose(sheet(bench), 'Which boot', 'Right');
    await field(sheet(bench), '1 Board at the heel').fill('25');
    await field(sheet(bench), '2 Board at the toe').fill('21');
    await field(sheet(bench), '3 Between the two').fill('175');
    await shot(bench, 'foreaft-bench');
    await button(sheet(bench), /^Record the right boot/).click();
    await until(() => all('foreaft.read').length === 3);
    expect(all('foreaft.read')[2]).toMatchObject({ side: 'right', by: { role: 'bench' } });
    await bench.close();
  });
});

describe('the height of the boots', () => {
  it('[SOL-10] is taken on somebody’s word alone, with its caution', async () => {
    await more(/^Height of the boots/);
    await sheet().getByText('This program never advises that one boot stands higher.').waitFor();
    await floor.choose(sheet(), 'Which boot is to stand higher', 'Right');
    await field(sheet(), 'Higher by').fill('4,5');
    expect(await button(sheet(), /^Still needed/).isDisabled()).toBe(true);
    await floor.choose(sheet(), 'On whose word', /clinician/);
    await field(sheet(), 'Note').fill('letter of this spring');
    await looks('stand-wanted');
    await button(sheet(), 'Record the height that is wanted').click();
    await until(() => all('stand.wanted').length === 1);
    expect(all('stand.wanted')[0]).toMatchObject({
      side: 'right',
      higherMm: 4.5,
      onWordOf: 'clinician',
      note: 'letter of this spring',
    });
    await button(page, 'More').click();
    await sheet().getByText('Right boot to stand 4.5 mm higher, on a clinician’s word').waitFor();
    await shot(page, 'more');
    expect(await axeViolations(page)).toEqual([]);
    await button(sheet(), 'Close').click();
  });
});
