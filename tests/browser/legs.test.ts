/** A client's legs over sessions and boots, at the desk and on the floor, and what they ask of a new boot. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright';
import type { Station } from '../../demo/station.ts';
import { DUAL, SINGLE } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { enter, teaching } from '../helpers/lessons.ts';
import { looksRight } from '../helpers/looks.ts';
import { shot } from '../helpers/shots.ts';
import { until } from '../helpers/until.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

let at: StationShop;
let page: Page;
let program: Station;
let session: string;
const CLIENT = 'p-leopoldine';
beforeAll(async () => {
  at = await stationShop('desk');
  ({ page } = at);
  program = await at.shop.station(['desk', 'measuring', 'bench'], 'a program');
  await program.request('PUT', `/api/people/${CLIENT}`, { name: 'Leopoldine Aschaber' });
  for (const [model, hardware] of [
    ['Larkspur 110', DUAL],
    ['Bryony 95', { ...SINGLE, travel: { lateral: { upMm: 1, downMm: 1 } } }],
  ] as const)
    await program.request('PUT', '/api/models', {
      model,
      source: 'measured here',
      soleStandard: 'iso5355-a',
      hardware,
    });
  for (const of of [
    { ticket: '1-11', biasMm: 10, tag: 'B-7' },
    { ticket: '1-12', biasMm: 8, model: 'Bryony 95', settings: [0, 1] },
    { ticket: '1-13', biasMm: -4, side: 'right', settings: [0] } as const,
  ])
    (await enter(program, teaching({ clientRef: CLIENT, ...of }))).room.close();
  await until(async () => (await stored()).length === 3, 'three legs to be known', 60_000);
  const told = teaching({ clientRef: CLIENT, ticket: '1-14', model: 'Tarn 100' });
  told.facts.splice(told.facts.findIndex(({ kind }) => kind === 'boot.described') + 1);
  const entered = await enter(program, told);
  ({ session } = entered);
  await until(() => entered.room.facts.some(({ kind }) => kind === 'leg.known'));
  entered.room.close();
});
afterAll(() => at?.close());

const stored = async (client = CLIENT) =>
  (await program.request<{ legs: { leg: unknown }[] }>('GET', `/api/people/${client}/legs`)).legs.filter(
    ({ leg }) => leg !== null,
  );
const sheet = (on: Page) => on.getByRole('dialog', { name: /^Legs over time|^Beine über die Zeit/ });

async function shows(on: Page): Promise<void> {
  const left = sheet(on).getByRole('region', { name: 'Left leg' });
  await left.getByText(/^In another boot expect about [\d.]+° outward \(± [\d.]+°\)/).waitFor();
  const plot = left.getByRole('img', { name: /^Left leg: its lean in degrees/ });
  expect(await plot.locator('circle').count()).toBe(2);
  expect(await plot.locator('desc').textContent()).toMatch(/Larkspur 110: \+[\d.]+° ± [\d.]+°.*Bryony 95/);
  await left.getByText(/Ticket 1-11/).waitFor();
  await left.getByText(/reaches, [\d.]+° to spare/).waitFor();
  await left.getByText(/short, a bias of/).waitFor();
  await sheet(on)
    .getByText(/^Left Tarn 100: expect the cuff even at about .* before anything is read\.$/)
    .waitFor();
}

describe('legs over time', () => {
  it('[LEG-4] stand at the desk beside the job, with what a new boot would be asked for', async () => {
    await page.goto(`${at.shop.url}/desk#${session}`);
    await page.reload(); // another session than before is the same page
    await button(page, 'Legs over time').click();
    await shows(page);
    await looksRight(page, 'legs-desk', [{ width: 1024, height: 768 }]);
    await page.emulateMedia({ colorScheme: 'dark' });
    await shot(page, 'legs-desk-dark');
    await page.emulateMedia({ colorScheme: 'light' });
  });

  it('[LEG-4] stand on the floor under “More”, in German too', async () => {
    const { browser, shop } = at;
    const measuring = await floor.pair(browser, shop.url, 'measuring', shop.code(['measuring']));
    await measuring.goto(`${shop.url}/measuring#${session}`);
    await button(measuring, /^More/).click();
    await button(measuring, /^Legs over time/).click();
    await shows(measuring);
    await looksRight(measuring, 'legs-floor', [
      { width: 1024, height: 768 },
      { width: 390, height: 844 },
    ]);
    await measuring.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await measuring.reload();
    await button(measuring, /^Mehr/).click();
    await button(measuring, /^Beine über die Zeit/).click();
    await sheet(measuring)
      .getByText(/^In einem anderen Schuh etwa .* erwarten/)
      .first()
      .waitFor();
    await looksRight(measuring, 'legs-floor-german', [{ width: 1024, height: 768 }]);
    await measuring.context().close();
  });

  it('[LEG-3] are gone from the sheet once the client’s data were erased', async () => {
    const other = await enter(program, teaching({ clientRef: 'p-gone', ticket: '2-1', settings: [0, 1] }));
    await program.request('PUT', '/api/people/p-gone', { name: 'Notburga Erlacher' });
    const again = await enter(program, teaching({ clientRef: 'p-gone', ticket: '2-2', settings: [0] }));
    for (const { room } of [other, again]) room.close();
    await until(async () => (await stored('p-gone')).length === 2, 'both legs to be known', 60_000);
    await page.goto(`${at.shop.url}/desk#${again.session}`);
    await page.reload();
    await button(page, 'Legs over time').click();
    await sheet(page)
      .getByText(/Ticket 2-1/)
      .waitFor();
    await program.request('POST', '/api/corner/pin', { pin: '271828', again: '271828' });
    await program.request('POST', '/api/corner/people/p-gone/erase', { name: 'Notburga Erlacher' });
    await page.reload();
    await button(page, 'Legs over time').click();
    await sheet(page)
      .getByText(/No cuff of this client was read in another session/)
      .waitFor();
  });
});
