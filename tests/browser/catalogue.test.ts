/** The shop's boots: a table taken at the desk, a description kept, and the models that would reach a leg at the end of its travel. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { MODEL_COLUMNS } from '../../core/index.ts';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { DUAL, story } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';

let shop: TestServer;
let browser: Browser;
let desk: Page;
let measuring: Page;
let watches: Watch[];
let described: OpenJob;
let short: OpenJob;

/** A leg far outward of a cuff that has used up its travel: 26 and 4 mm at the end of it. */
const atTheEnd = () => {
  const told = story(DUAL);
  told.read('left', 30, 2);
  told.set('left', -4, 4);
  told.read('left', 26, 6);
  return told;
};

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  const opener = await Opener.of(shop);
  described = await opener.open('Josine Halmdreher', takenIn());
  short = await opener.open('Ruven Krumholm', atTheEnd());
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
  measuring = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'));
  watches = [desk, measuring].map((page) => watch(page, shop.url));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const HEADS = MODEL_COLUMNS.map(({ head }) => head);
const csv = (rows: readonly Readonly<Record<string, string>>[]) =>
  Buffer.from(
    [HEADS, ...rows.map((row) => HEADS.map((head) => row[head] ?? ''))]
      .map((cells) => cells.join(';'))
      .join('\n'),
  );
const model = (name: string, lean: string, travel: string) => ({
  model: name,
  source: 'measured here in autumn',
  pivots: 'single',
  'spacing mm': '82',
  'reading height mm': '160',
  'factory lean deg': lean,
  'lateral up mm': travel,
  'lateral down mm': travel,
  'sole standard': 'iso5355-a',
});

async function importTable(rows: readonly Readonly<Record<string, string>>[]): Promise<void> {
  const chooser = desk.waitForEvent('filechooser');
  await button(desk, /^Import a table/).click();
  await (await chooser).setFiles({ name: 'boots.csv', mimeType: 'text/csv', buffer: csv(rows) });
}

it('takes a table at the desk, all of it or nothing', async () => {
  await button(desk, 'Boots of the shop').click();
  await desk.getByText('No model yet.', { exact: false }).waitFor();
  await importTable([model('Grat 120', '1,5', '4'), model('Kar 130', 'steep', '8')]);
  const wrong = desk.getByRole('alert');
  await wrong.getByText('Nothing was taken: 1 cell does not fit.').waitFor();
  expect(await wrong.getByRole('row').last().textContent()).toMatch(
    /3\s*factory lean deg\s*must be a number/,
  );
  await shot(desk, 'catalogue-faults');
  await importTable([
    model('Grat 120', '1,5', '4'),
    model('Kar 130', '3,5', '8'),
    model('Nadel 90', '', '5'),
  ]);
  await desk.getByText('3 models taken, 0 of them in the place of one of the same name.').waitFor();
  await desk.getByRole('rowheader', { name: 'Kar 130' }).waitFor();
  await desk.getByLabel('Find a model').fill('grat');
  expect(await desk.getByRole('rowheader').allTextContents()).toEqual(['Grat 120']);
  await desk.getByLabel('Find a model').fill('');
  await shot(desk, 'catalogue');
});

it('gives it out again as it came in', async () => {
  const download = desk.waitForEvent('download');
  await desk.getByRole('link', { name: 'Export as a table' }).click();
  const stream = await (await download).createReadStream();
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  const text = Buffer.concat(chunks).toString('utf8');
  expect(
    text
      .split('\n')
      .slice(1)
      .map((line) => line.split(',')[0])
      .filter(Boolean),
  ).toEqual(['Grat 120', 'Kar 130', 'Nadel 90']);
});

it('describes a boot from it, and keeps one that was described', async () => {
  await desk.goto('about:blank');
  await desk.goto(`${shop.url}/desk#${described.session}`);
  await button(desk, 'Describe the boots').click();
  const sheet = desk.getByRole('dialog');
  const left = sheet.getByRole('group', { name: 'Left boot' });
  await left.getByLabel('Boots used before in this form').selectOption({ label: 'Kar 130' });
  expect(await field(left, 'Factory lean').inputValue()).toBe('3.5');
  // The size is this boot's own, and stays as it was.
  expect(await field(left, 'Sole length').inputValue()).toBe('305');
  await field(left, 'Model').fill('Kar 130 narrow');
  const keep = sheet.getByRole('group').filter({ hasText: 'Keep Kar 130 narrow for the next pair' });
  await keep.getByText('Keep Kar 130 narrow').click();
  await field(keep, 'Where the numbers come from').fill('measured at the press');
  await button(keep, 'Keep it in the catalogue').click();
  await sheet.getByText('Kar 130 narrow stands in the catalogue.').waitFor();
  await shot(desk, 'catalogue-keep');
  await sheet.getByRole('button', { name: 'Close' }).click();
  const kept = (await (await desk.request.get(`${shop.url}/api/models`)).json()) as {
    models: { model: string; source: string }[];
  };
  expect(kept.models.find((each) => each.model === 'Kar 130 narrow')).toMatchObject({
    source: 'measured at the press',
    hardware: { factoryLeanDeg: 3.5, travel: { lateral: { upMm: 8, downMm: 8 } } },
  });
  expect(
    factsOnDisk(shop.data, described.session).filter(({ kind }) => kind === 'boot.described'),
  ).toHaveLength(2);
});

it('says at the end of the travel which models would reach the leg', async () => {
  await measuring.goto(`${shop.url}/measuring#${short.session}`);
  await button(measuring, 'Otherwise: Left cuff').click();
  await button(measuring, 'Which boots would reach?').click();
  const sheet = measuring.getByRole('dialog', { name: 'Boots that would reach the left leg' });
  await sheet.getByRole('listitem').first().waitFor();
  const said = await sheet.getByRole('listitem').allTextContents();
  expect(said.map((line) => line.replace(/\s+/g, ' ').trim())).toEqual([
    expect.stringMatching(/^● Kar 130 narrow reaches, [\d.]+° to spare|^● Kar 130 reaches, [\d.]+° to spare/),
    expect.stringMatching(/^● Kar 130/),
    expect.stringMatching(/^⊘ Grat 120 [\d.]+° short, a bias of [\d.]+ mm is left/),
  ]);
  await sheet.getByText('1 model has no factory lean and cannot be compared.').waitFor();
  await shot(measuring, 'reach');
  expect(await axeViolations(measuring)).toEqual([]);
  expect(await axeViolations(measuring, COLOUR_RULES)).toEqual([]);
  expect(await smallTargets(measuring, 56)).toEqual({ small: [], inline: [] });
});

it('fits the desk, small and large, light and dark', async () => {
  await desk.goto(`${shop.url}/desk`);
  await button(desk, 'Boots of the shop').click();
  await desk.getByRole('rowheader', { name: 'Kar 130', exact: true }).waitFor();
  for (const size of [
    { width: 1024, height: 768 },
    { width: 1920, height: 1080 },
  ]) {
    await desk.setViewportSize(size);
    expect(await sidewaysScrolls(desk)).toEqual([]);
    expect(await smallTargets(desk, 56)).toEqual({ small: [], inline: [] });
  }
  for (const colorScheme of ['light', 'dark'] as const) {
    await desk.emulateMedia({ colorScheme });
    expect(await axeViolations(desk)).toEqual([]);
    expect(await axeViolations(desk, COLOUR_RULES)).toEqual([]);
  }
  await button(desk, 'Remove Nadel 90').click();
  await desk.getByText('Nadel 90 was removed.').waitFor();
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  for (const each of watches) expect(each.take()).toEqual([]);
});
