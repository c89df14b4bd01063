/**
 * One whole job on three stations, each a browser of its own beside the wall's: from the intake to the archive, with every
 * paper on its way as the page's own print makes it, and every code scanned as it stands on paper. Nobody loads a page again.
 */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Plan, Side } from '../../core/index.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { DUAL, withMarks } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, capital, choose, field, scan } from '../helpers/floor.ts';
import { Opener } from '../helpers/jobs.ts';
import { codesIn } from '../helpers/pdf.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { atNeutral, gapsOf } from '../helpers/skier.ts';
import type { Skier } from '../helpers/skier.ts';
import { kneePanel, readKnee, SOLE, typeSole } from '../helpers/under-the-boot.ts';
import { until } from '../helpers/until.ts';
import { byKeys, byTouch } from '../helpers/walker.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';
import { PrintSheet } from './helpers/print-sheet.ts';
import { alwaysOpen, keepModel } from './helpers/station.ts';

const MODEL = 'Zirbel 120';
const SIDES = ['right', 'left'] as const;
const BINDING = {
  en: 'A changed sole can keep a binding from releasing',
  de: 'Eine veränderte Sohle kann verhindern, dass die Bindung auslöst',
};
const fingers = byTouch({ half: '+ ½', sign: '±', point: '.' });
const keys = byKeys({ point: '.' });

let shop: TestServer;
const browsers: Browser[] = [];
let desk: Page;
let measuring: Page;
let bench: Page;
let wall: Page;
let watches: Watch[];

beforeAll(async () => {
  shop = await serve();
  browsers.push(...(await Promise.all([launchBrowser(), launchBrowser(), launchBrowser()])));
  const [atDesk, onFloor, atBench] = browsers as [Browser, Browser, Browser];
  const opener = await Opener.of(shop);
  await opener.settings({ minLugLeftMm: 12, screwDiameterMm: 5, screwHeadDepthMm: 3, screwMarginMm: 2 });
  [desk, measuring, bench, wall] = await Promise.all([
    floor.pair(atDesk, shop.url, 'desk', shop.code(['desk'])),
    floor.pair(onFloor, shop.url, 'measuring', shop.code(['measuring'])),
    floor.pair(atBench, shop.url, 'bench', shop.code(['bench']), { touch: true }),
    floor.pair(atDesk, shop.url, 'wall', shop.code(['wall'])),
  ]);
  watches = [desk, measuring, bench, wall].map((page) => watch(page, shop.url));
  await Promise.all([desk, bench].map(PrintSheet.noteJobs));
  await alwaysOpen(desk);
  await keepModel(desk, shop.url, {
    model: MODEL,
    source: 'measured here',
    soleStandard: 'iso5355-a',
    soleMaterialMm: 22,
    soleReplaceable: false,
    hardware: withMarks(DUAL, 1),
  });
});
afterAll(async () => {
  for (const browser of browsers) await browser.close();
  await shop?.close();
});

/** Two legs that stand otherwise than the boots do, and the boots as the shop's table has them. */
function newSkier(): Skier {
  const { pivotSpacingMm, readingHeightMm, factoryLeanDeg } = DUAL as unknown as Skier['cuffs']['left'];
  const cuff = { pivotSpacingMm, readingHeightMm, factoryLeanDeg };
  return {
    legs: {
      left: { placeMm: 6, roomMm: 22, response: 0.8 },
      right: { placeMm: -5, roomMm: 22, response: 0.8 },
    },
    cuffs: { left: cuff, right: cuff },
    pivots: atNeutral(),
  };
}

const place = (mm: number) => `${mm < 0 ? '−' : '+'}${Math.abs(mm)}`;

/** All but how many entries the record had when it was printed. */
const drawnOf = (card: string) => card.replace(/Record: .*/, '');

let tries = 0;
it('goes from the intake to the archive, and every station and paper on the way says what is so', async () => {
  tries += 1;
  const name = `Apollonia Wiesfleck ${['', 'Zwei', 'Drei'][tries - 1]}`.trim();
  const skier = newSkier();
  for (const page of [desk, measuring, bench]) {
    const station = new URL(page.url()).pathname;
    await page.goto('about:blank');
    await page.goto(`${shop.url}${station}`);
  }
  let session = '';
  const facts = () => factsOnDisk(shop.data, session);
  const planned = (): Plan => plan(facts());
  const told = (role: string, side?: Side) =>
    planned().next.find((action) => action.role === role && action.side === side)!.text;

  // The desk: somebody new, in boots of the shop's table, all of the service, promised as the queue suggests.
  await floor.beginIntake(desk, name);
  await desk.getByLabel('Phone or mail').fill('0664 1234567');
  await desk.getByLabel('Language', { exact: true }).selectOption('German');
  await choose(desk, 'What is to be done', 'Cuffs, stance, soles');
  await button(desk, /^(Today|Tomorrow) after \d\d:\d\d$/).click();
  await button(desk, /^✓ (Today|Tomorrow) after/).waitFor();
  await desk.getByText('Work that cannot be undone: agreed already').click();
  for (const what of ['lugs routed', 'sole planed', /warranty/])
    await desk.locator('details').getByRole('checkbox', { name: what }).check();
  await desk.getByLabel('Boots used before in this form').selectOption(MODEL);
  await field(desk, 'Mondopoint').fill('26,5');
  await field(desk, 'Sole length').fill('305');
  await button(desk, /^Open and print/).click();
  await desk.waitForURL(/#[0-9a-f]{32}$/);
  session = new URL(desk.url()).hash.slice(1);
  await until(async () => (await PrintSheet.toPrinter(desk)).join() === 'ticket,tags', 'ticket and tags');
  await desk.getByRole('dialog').waitFor({ state: 'detached' });
  await floor.allSaved(desk);
  const [opened] = facts() as unknown as { ticket: string; promisedAt: string }[];
  const { ticket } = opened!;
  const promise = Date.parse(opened!.promisedAt);
  expect(promise).toBeGreaterThan(Date.now());
  expect(facts().map(({ kind }) => kind)).toEqual([
    'session.opened',
    'health.asked',
    'boot.described',
    'boot.described',
    'work.agreed',
    'settings.used',
  ]);
  expect(facts()[4]).toMatchObject({
    irreversible: ['plane', 'rout'],
    agreedBy: 'owner',
    warrantyTold: true,
  });
  await wall.getByText(ticket, { exact: true }).waitFor();
  expect(await wall.getByText(name).count()).toBe(0);

  /** Prints what the sheet shows, in both languages; each says all of this job's. */
  async function paper(
    sheet: PrintSheet,
    which: string,
    says: Readonly<Record<'en' | 'de', readonly string[]>>,
  ): Promise<readonly string[][]> {
    await sheet.pick(which);
    let codes: string[][] = [];
    for (const [language, spoken] of [
      ['de', 'Deutsch'],
      ['en', 'English'],
    ] as const) {
      await sheet.speak(spoken);
      await sheet.shows(says[language][0]!);
      const { pages } = await sheet.print(`whole-${which.toLowerCase().replaceAll(' ', '-')}-${language}`);
      const text = pages.map((each) => each.text).join(' ');
      for (const what of says[language]) expect(text, `${which}, ${language}`).toContain(what);
      expect(text, which).not.toMatch(/undefined|NaN|\[object|null/);
      codes = await Promise.all(
        pages.map(async ({ png }) => [...new Set((await codesIn(png)).map((code) => code.text))]),
      );
    }
    return codes;
  }
  let sheet = await PrintSheet.open(desk);
  // Whoever was taken in as speaking German has a German ticket, at this English desk.
  await sheet.pick('Ticket');
  await sheet.shows('Bitte zeigen Sie diesen Schein');
  await paper(sheet, 'Booking card', {
    de: ['Bitte mitbringen', name, ticket],
    en: ['Please bring', name, ticket],
  });
  const [[ticketCode]] = (await paper(sheet, 'Ticket', {
    de: ['Bitte zeigen Sie diesen Schein', name, ticket, MODEL],
    en: ['Please show this ticket', name, ticket, MODEL],
  })) as [[string]];
  const tags = (await paper(sheet, 'Boot tags', {
    de: ['Rechter Schuh', 'Linker Schuh', ticket, MODEL],
    en: ['Right boot', 'Left boot', ticket, MODEL],
  })) as [[string], [string]];
  await sheet.close();
  const tagCode: Record<Side, string> = { right: tags[0][0], left: tags[1][0] };
  expect(ticketCode).toBe(ticket);

  // The floor: the ticket scanned, the boots looked at, four gaps typed.
  await button(measuring, new RegExp(`^${ticket} `)).waitFor();
  await scan(measuring, ticketCode);
  for (const side of SIDES) await floor.readyBoot(measuring, side);
  await button(measuring, 'Both boots ready: stand the skier').click();
  await floor.stand(measuring, 240, SIDES);
  /** Both gaps of these legs as a hand reads them there, typed in the order of work. */
  const read = async (sides: readonly Side[]) => {
    await keys.gaps(
      measuring,
      sides.flatMap((side) => {
        const { medialMm, lateralMm } = gapsOf(skier, side);
        return [String(medialMm), String(lateralMm)];
      }),
    );
    await floor.record(measuring);
    await floor.allSaved(measuring);
  };
  await read(['left', 'right']);
  expect(SIDES.map((side) => planned().sides[side].cuff.verdict)).toEqual(['uneven', 'uneven']);
  for (const side of SIDES) {
    const leg = measuring.getByRole('region', { name: `${capital(side)} leg` });
    await leg.getByText(/Needs .*° (out|in)ward/).waitFor();
  }
  await shot(measuring, 'whole-read');
  await button(measuring, /^Send to the bench/).click();

  // What the floor wrote stands at the desk and the bench, and the bench's cards say it.
  const next = desk.getByRole('region', { name: 'Next' });
  for (const side of SIDES) await next.getByText(told('bench', side)).waitFor();
  const queue = bench.getByRole('navigation', { name: 'Boots to do now' });
  for (const side of SIDES) await button(queue, new RegExp(`^${side} .*${name}`)).waitFor();

  // The bench: each boot by its tag, as it stands on paper.
  for (const side of SIDES) {
    await scan(bench, tagCode[side]);
    await bench
      .getByRole('region', { name: `${side} boot in hand` })
      .getByText(told('bench', side))
      .waitFor();
    const { lateralMm, medialMm } = planned().sides[side].cuff.target!;
    if (side === 'right') {
      sheet = await PrintSheet.open(bench, button(bench, 'Print'));
      await paper(sheet, 'Bench card', {
        de: ['Schrauben lösen', ticket, `auf ${place(lateralMm)} mm`, 'Eine lose Schraube am Drehpunkt kann'],
        en: ['Loosen the bolts', ticket, `to ${place(lateralMm)} mm`, 'A loose pivot bolt can let the cuff'],
      });
      await sheet.close();
    }
    await shot(bench, `whole-pivots-${side}`);
    await fingers.press(bench, button(bench, /^Done as told/));
    await floor.allSaved(bench);
    skier.pivots[side] = { lateralMm, medialMm: medialMm ?? 0 };
    expect(planned().sides[side].cuff.set).toEqual(skier.pivots[side]);
  }

  // The floor again: even, and closed.
  await measuring
    .getByText(/read both gaps again\. Expect/)
    .first()
    .waitFor();
  await button(measuring, /^Read again/)
    .first()
    .click();
  await floor.confirmPosture(measuring);
  await read(['left', 'right']);
  expect(SIDES.map((side) => planned().sides[side].cuff.verdict)).toEqual(['even', 'even']);
  await button(measuring, 'Close both cuffs: even').click();

  // The knees: read flat and on a wedge, plates for the left; the right one's cant is known, and planed.
  await button(measuring, /^Go on to the knees/).click();
  await choose(measuring, 'Knee taken at', /condyles/);
  await button(measuring, 'Level both ways: 0°').click();
  await button(measuring, 'All three are so: read the knees').click();
  const left = kneePanel(measuring, 'left');
  await readKnee(measuring, 'left', { offset: '9', toward: 'lateral', height: '468' });
  await button(left, /^Other wedge/).click();
  const wedge = measuring.getByRole('dialog');
  await field(wedge, 'Wedge').fill('2');
  await choose(wedge, 'Thick edge', 'lateral');
  await button(wedge, 'This wedge is under the boot').click();
  for (let i = 0; i < 2; i++) {
    await readKnee(measuring, 'left', { offset: '4', toward: 'medial' });
    await floor.allSaved(measuring);
  }
  await button(left, /^Choose 2°, thick edge lateral/).click();
  await left.getByText('Chosen: 2°, thick edge lateral, plates').waitFor();
  const right = kneePanel(measuring, 'right');
  await readKnee(measuring, 'right', { offset: '5', toward: 'lateral', height: '468' });
  await floor.allSaved(measuring);
  await button(right, /^Another cant/).click();
  const other = measuring.getByRole('dialog');
  await field(other, 'Cant').fill('1');
  await choose(other, 'Thick edge', 'lateral');
  await choose(other, 'Made as', 'planing');
  await other.getByLabel('Why').fill('known from last season');
  await button(other, 'Choose this cant').click();
  await right.getByText('Chosen: 1°, thick edge lateral, planing').waitFor();
  await floor.allSaved(measuring);
  await button(measuring, /^Next skier.*Under the left boot a test wedge still lies/).waitFor();
  await shot(measuring, 'whole-knees');

  // The bench: soles measured as brought, plates and planing as told with the owner's word from the intake, measured again.
  const inHand = (side: Side) => bench.getByRole('region', { name: `${side} boot in hand` });
  for (const side of ['left', 'right'] as const) {
    await button(queue, new RegExp(`^${side} .*${name}`)).waitFor();
    await scan(bench, tagCode[side]);
    await inHand(side).getByText(told('bench', side)).waitFor();
    if (side === 'right')
      for (const [label, digits] of Object.entries(SOLE))
        await fingers.number(bench, field(bench, label), digits.replace(',', '.'));
    else await typeSole(bench, SOLE);
    await fingers.press(bench, button(bench, 'Enter the sole as brought'));
    await floor.allSaved(bench);
    await inHand(side).getByText(told('bench', side)).waitFor();
    await bench
      .getByText(/can keep a binding from releasing/)
      .first()
      .waitFor();
    await shot(bench, `whole-sole-${side}`);
    const made = bench.getByRole('button', { name: /^Fitted as told/ });
    await fingers.hold(bench, made, () => made.waitFor({ state: 'detached' }));
    await floor.allSaved(bench);
    await typeSole(bench, SOLE);
    await fingers.press(bench, button(bench, 'Enter the finished sole'));
    await floor.allSaved(bench);
    await shot(bench, `whole-sole-done-${side}`);
  }

  // The desk: the binding tested, its card printed, the cautions read, the boots handed over.
  await next.getByText('A changed sole goes to a certified binding technician before use.').waitFor();
  await desk.getByText(/left boot stands .* mm higher than the other/).waitFor();
  await wall.getByText('binding check').waitFor();
  await button(desk, 'Binding check').click();
  const dialog = desk.getByRole('dialog');
  await dialog.getByText(/can keep a binding from releasing/).waitFor();
  await dialog.getByLabel('Reference of the test').fill('B-77');
  await button(dialog, 'Tested and passed').click();
  await dialog.waitFor({ state: 'detached' });
  await floor.allSaved(desk);
  await wall.getByText('✓ ready to be picked up').waitFor();
  const cards = async () => {
    sheet = await PrintSheet.open(desk);
    const { left, right } = planned().sides;
    const set = (mm: number) => `${place(mm)} mm, ${Math.abs(mm)} mm`;
    const say = {
      de: [
        set(left.cuff.set!.lateralMm),
        '2°, dicke Seite außen',
        '1°, dicke Seite außen',
        'VERÄNDERT',
        BINDING.de,
      ],
      en: [
        set(right.cuff.set!.lateralMm),
        '2°, thick edge lateral',
        '1°, thick edge lateral',
        'ALTERED',
        BINDING.en,
      ],
    };
    await paper(sheet, 'Inside-boot labels', {
      de: ['Eingestellt', ticket, ...say.de],
      en: ['Set', ticket, ...say.en],
    });
    await paper(sheet, 'Alignment card', {
      de: ['So sind Ihre Schuhe eingestellt', name, ticket, ...say.de],
      en: ['How your boots are set', name, ticket, ...say.en],
    });
    const card = await sheet.text();
    // What was tried is out, and a planed sole has no edge.
    expect(card).not.toMatch(/wedge|thin edge 0/);
    await paper(sheet, 'Shop record', {
      de: ['Werkstattprotokoll', name, ticket, 'Platten darunter', 'Sohle planfräsen', 'B-77', BINDING.de],
      en: ['Shop record', name, ticket, 'plates under it', 'sole planed, lugs routed', 'B-77', BINDING.en],
    });
    await sheet.close();
    return card;
  };
  const card = await cards();
  await button(desk, 'Hand over').click();
  await dialog.getByText(/can keep a binding from releasing/).waitFor();
  const over = button(dialog, 'Hand over');
  expect(await over.isDisabled()).toBe(true);
  await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
  await shot(desk, 'whole-handover');
  await over.click();
  await floor.allSaved(desk);
  expect(planned().steps.filter(({ status }) => status !== 'done')).toEqual([]);
  expect(planned().next).toEqual([]);
  await desk.getByText('This job is finished: it is read').waitFor();

  // It is gone from the wall and from every list, and found again in the archive and at the client's next time.
  await wall.getByText(ticket, { exact: true }).waitFor({ state: 'detached' });
  await button(queue, new RegExp(name)).waitFor({ state: 'detached' });
  // The card of that day is there for good, as it was.
  sheet = await PrintSheet.open(desk);
  await sheet.pick('Alignment card');
  await sheet.speak('English');
  await sheet.shows('How your boots are set');
  expect(drawnOf(await sheet.text())).toBe(drawnOf(card));
  await sheet.close();
  await button(desk, /^‹/).click();
  await desk.getByRole('row', { name: new RegExp(name) }).waitFor({ state: 'detached' });
  await button(desk, 'All seasons').click();
  await desk.getByLabel('Ticket, name, boot, tag or day').fill(`${ticket} ${name}`);
  const found = desk.getByRole('list', { name: 'Sessions found' });
  await button(found, new RegExp(`^${ticket} ${name}.*${MODEL}.*finished`)).click();
  await desk.getByText('This job is finished: it is read').waitFor();
  sheet = await PrintSheet.open(desk);
  await sheet.pick('Alignment card');
  await sheet.shows('So sind Ihre Schuhe eingestellt');
  await sheet.close();
  await button(desk, /^‹/).click();
  await button(desk, /^‹/).click();
  await button(desk, 'Take someone in').click();
  await desk.getByLabel('Name', { exact: true }).fill(name.slice(0, 6));
  await button(desk.getByRole('list', { name: 'Known here' }), new RegExp(`^${name}`)).click();
  await desk
    .getByRole('region', { name: 'Here before' })
    .getByRole('listitem')
    .filter({ hasText: ticket })
    .filter({ hasText: 'finished' })
    .waitFor();
  await shot(desk, 'whole-again');
  await button(desk, 'Cancel').click();
  for (const each of watches) expect(each.take()).toEqual([]);
});
