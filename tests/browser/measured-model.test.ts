/** A boot model measured at the desk, number by number; and where the limits of soles come from. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SOLE_PRESETS } from '../../core/index.ts';
import { button, choose, field } from '../helpers/floor.ts';
import { takenIn } from '../helpers/jobs.ts';
import { looksRight } from '../helpers/looks.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

const SCREENS = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];
let at: StationShop;
let page: Page;
beforeAll(async () => {
  at = await stationShop('desk');
  ({ page } = at);
});
afterAll(() => at?.close());

async function openCatalogue(): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${at.shop.url}/desk`);
  await button(page, 'Boots of the shop').click();
  await button(page, 'Measure a model here').waitFor();
}
const models = async () =>
  ((await (await page.request.get(`${at.shop.url}/api/models`)).json()) as { models: object[] }).models;

/** Both readings of the number that is asked for, with keys alone: the hand is at the field already. */
async function twice(name: string, first: string, second: string): Promise<void> {
  await page.getByRole('heading', { name, exact: true }).waitFor();
  await page.locator('input:focus').waitFor();
  await page.keyboard.type(first);
  await page.keyboard.press('Enter');
  await page.getByText('The first one is covered until the second is in.').waitFor();
  // Nothing on the page tells the first one.
  for (const input of await page.locator('main input').all()) expect(await input.inputValue()).toBe('');
  await page.keyboard.type(second);
  await page.keyboard.press('Enter');
}

describe('a model is measured', () => {
  it('[CAT-5] by keys, each number twice, with a difference asked about, and kept with who and when', async () => {
    await openCatalogue();
    await page.evaluate(() => sessionStorage.clear());
    await button(page, 'Measure a model here').click();
    await button(page, 'Begin to measure').click();
    await page.getByText(/^Still needed: the model/).waitFor();
    await field(page, 'Model').fill('Firn 105');
    await page.getByLabel('Measured by, initials').fill('WB');
    await choose(page, 'Pivot hardware', /^Two adjusters/);
    await looksRight(page, 'measured-start', SCREENS);
    await button(page, 'Begin to measure').click();

    await twice('Pivot spacing', '82', '84,5');
    await page.getByText(/^The two are 2\.5 mm apart; more than 1 mm is unusual here\./).waitFor();
    await looksRight(page, 'measured-asks', SCREENS);
    await button(page, 'Measure both again').click();
    await twice('Pivot spacing', '84,2', '84.6');
    await page.getByRole('img', { name: 'Reading height' }).waitFor();
    await looksRight(page, 'measured-height', SCREENS);
    await twice('Reading height', '160', '165');
    await button(page, 'It is so: keep 162.5 mm').click();
    await page.getByRole('heading', { name: 'Factory lean', exact: true }).waitFor();
    await button(page, 'Leave it unknown').click();
    await twice('Lateral adjuster, up', '4', '4');
    // A reload loses nothing.
    await page.getByRole('heading', { name: 'Lateral adjuster, down', exact: true }).waitFor();
    await page.reload();
    await button(page, 'Boots of the shop').click();
    await button(page, 'Measure a model here').click();
    await twice('Lateral adjuster, down', '4,1', '3,9');
    await twice('Medial adjuster, up', '5', '5');
    await page.getByRole('heading', { name: 'Medial adjuster, down', exact: true }).waitFor();
    await page.locator('input:focus').waitFor();
    await page.keyboard.type('900');
    await page.keyboard.press('Enter');
    await page.getByText('Must be 0 to 25 mm.').waitFor();
    await page.getByText(/^Measure it twice, or leave it unknown/).waitFor();
    await page.locator('main input').first().fill('');
    await twice('Medial adjuster, down', '5', '5');
    await twice('One mark', '1', '1');
    await twice('Hole to edge', '9', '9');
    await twice('Sole width at the toe', '69', '69,2');
    await twice('Sole width at the heel', '68,8', '69');
    await page.getByRole('heading', { name: 'Between the zones', exact: true }).waitFor();
    await button(page, 'Leave it unknown').click();
    await page.getByRole('heading', { name: 'Material of the sole', exact: true }).waitFor();
    await button(page, 'Leave it unknown').click();

    await page.getByRole('heading', { name: 'What was measured: Firn 105' }).waitFor();
    const row = (name: string) => page.getByRole('row', { name: new RegExp(`^${name} `) });
    await row('Pivot spacing').getByText('84.4 mm, two readings 0.4 mm apart').waitFor();
    await row('Factory lean').getByText('not measured').waitFor();
    await looksRight(page, 'measured-summary', SCREENS);
    // One number is looked at again, and the way back to the end is short.
    await button(page, 'Change: Sole width at the heel').click();
    expect(await field(page, 'First time').inputValue()).toBe('68,8');
    await button(page, 'On to the next').click();
    for (let step = 0; step < 2; step++) await button(page, 'Leave it unknown').click();
    await field(page, 'Lateral places').fill('A four');
    await button(page, 'Keep it in the catalogue').click();
    await page.getByText(/^Places cannot be read like this/).waitFor();
    await field(page, 'Lateral places').fill('');
    await button(page, 'Keep it in the catalogue').click();
    await page.getByText('Firn 105 stands in the catalogue.').waitFor();
    expect(await models()).toEqual([
      {
        model: 'Firn 105',
        source: expect.stringMatching(/^measured here by WB on \d+ \w+ \d{4}, each number twice$/),
        soleStandard: 'iso5355-a',
        soleWidthToeMm: 69.1,
        soleWidthHeelMm: 68.9,
        hardware: {
          pivots: 'dual',
          pivotSpacingMm: 84.4,
          readingHeightMm: 162.5,
          travel: { lateral: { upMm: 4, downMm: 4 }, medial: { upMm: 5, downMm: 5 } },
          markMm: 1,
          holeEdgeMm: 9,
        },
      },
    ]);
    await page.getByText(/^measured here by WB on/).waitFor();
  });

  it('[CAT-5] asks of fixed pivots nothing that they have not, and describes a boot from what is kept', async () => {
    await openCatalogue();
    await page.evaluate(() => sessionStorage.clear());
    await button(page, 'Measure a model here').click();
    await field(page, 'Model').fill('Schneid 80');
    await page.getByLabel('Measured by, initials').fill('KF');
    await choose(page, 'Pivot hardware', /^Fixed pivots/);
    await button(page, 'Begin to measure').click();
    await page.getByText('Number 1 of 7').waitFor();
    await twice('Pivot spacing', '80', '80');
    await twice('Reading height', '150', '150');
    await twice('Factory lean', '-1', '-1');
    for (const name of [
      'Sole width at the toe',
      'Sole width at the heel',
      'Between the zones',
      'Material of the sole',
    ]) {
      await page.getByRole('heading', { name, exact: true }).waitFor();
      await button(page, 'Leave it unknown').click();
    }
    await button(page, 'Keep it in the catalogue').click();
    await page.getByText('Schneid 80 stands in the catalogue.').waitFor();
    const job = await at.opener.open('Mechthild Aigner', takenIn());
    await page.goto('about:blank');
    await page.goto(`${at.shop.url}/desk#${job.session}`);
    await button(page, 'Describe the boots').click();
    const left = page.getByRole('dialog').getByRole('group', { name: 'Left boot' });
    await left.getByLabel('Boots used before in this form').selectOption({ label: 'Schneid 80' });
    expect(await field(left, 'Factory lean').inputValue()).toBe('-1');
    expect(await left.getByRole('radio', { name: /^Fixed pivots/ }).isChecked()).toBe(true);
  });
});

it('[CAT-6] says of each limit of a sole where it comes from, and of the shop’s own who entered it', async () => {
  await at.opener.settings({ minLugLeftMm: 12 });
  await openCatalogue();
  await page.getByText('Limits of soles, and where they come from').click();
  const { heightMm } = SOLE_PRESETS['iso5355-a'].toe;
  const row = page.getByRole('row', { name: /^toe, height of the lug 18 to 20 mm/ });
  expect(await row.innerText()).toContain(heightMm.provenance);
  await page
    .getByText(/^No limit is known for: toe, height of the lug; toe, width; heel, width; how parallel/)
    .waitFor();
  const lug = page.getByRole('listitem').filter({ hasText: 'Lug left after routing' });
  await lug.getByText(/: 12 mm/).waitFor();
  expect(await lug.innerText()).toMatch(/entered at the opener, /);
  await page
    .getByRole('listitem')
    .filter({ hasText: 'Plate screws, diameter' })
    .getByText(/not entered/)
    .waitFor();
  await looksRight(page, 'standards', SCREENS);
  await page.evaluate(() => localStorage.setItem('fibula.language', 'de'));
  await openCatalogueGerman();
  await looksRight(page, 'standards-german', SCREENS);
  await button(page, 'Ein Modell hier messen').click();
  await page.getByLabel('Modell').fill('Firn 105');
  await page.getByLabel('Gemessen von, Kürzel').fill('WB');
  await choose(page, /^/, /^Ein Versteller/);
  await button(page, 'Mit dem Messen beginnen').click();
  await page.getByRole('heading', { name: 'Abstand der Drehpunkte', exact: true }).waitFor();
  await looksRight(page, 'measured-german', SCREENS);
});

async function openCatalogueGerman(): Promise<void> {
  await page.goto('about:blank');
  await page.goto(`${at.shop.url}/desk`);
  await button(page, 'Schuhe der Werkstatt').click();
  await page.getByText('Grenzen der Sohlen, und woher sie kommen').click();
}

it('does all that without an error, a broken policy, or a word to another host', () => {
  expect(at.seen.take()).toEqual([]);
});
