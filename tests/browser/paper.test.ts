/** Papers as a browser prints them: their size, what stands on them, that nothing is cut off, and that their codes scan. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Fact, FactOf } from '../../core/index.ts';
import { axeViolations } from '../helpers/axe.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, scan } from '../helpers/floor.ts';
import { wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { codesIn, drawnOn } from '../helpers/pdf.ts';
import { shot } from '../helpers/shots.ts';
import { sound, tagged } from './helpers/bench.ts';
import {
  atTheBench,
  CLIENT,
  cutOff,
  fresh,
  given,
  paperPage,
  printed,
  SHOP,
  soleToMake,
  wholeJob,
} from './helpers/paper.ts';
import type { PrintJob } from './helpers/paper.ts';
import { PrintSheet } from './helpers/print-sheet.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

let at: StationShop;
let desk: Page;
beforeAll(async () => {
  at = await stationShop('desk');
  ({ page: desk } = at);
});
afterAll(() => at?.close());

type Language = 'en' | 'de';
interface Expected {
  readonly job: PrintJob;
  /** Width and height of its pages in millimetres; a receipt is as long as it needs. */
  readonly size: readonly [number, number | null];
  readonly pages: number | null;
  /** On every page of it. */
  readonly codes: readonly (readonly [format: string, text: string])[][];
  readonly says: Readonly<Record<Language, readonly string[]>>;
}

const BINDING = {
  en: 'A changed sole can keep a binding from releasing',
  de: 'Eine veränderte Sohle kann verhindern, dass die Bindung auslöst',
};
const BOLTS = {
  en: 'Check that every pivot bolt is tight',
  de: 'Prüfen, ob jede Schraube am Drehpunkt fest ist',
};
const CLINICIAN = { en: 'Pain, numbness, recent surgery', de: 'Schmerz, Taubheit, frische Operation' };
const DEFERS = { en: 'gives no binding release values', de: 'gibt keine Auslösewerte' };
const LOOSE = {
  en: 'A loose pivot bolt can let the cuff give way',
  de: 'Eine lose Schraube am Drehpunkt kann',
};
const both = (language: Language, ...texts: readonly Readonly<Record<Language, string>>[]) =>
  texts.map((text) => text[language]);
const qr = (text: string) => ['QRCode', text] as const;
const bars = (text: string) => ['Code128', text] as const;
const TICKET = [qr('4-12'), bars('4-12')];

const PAPERS: readonly (readonly [string, Expected])[] = [
  [
    'booking card',
    {
      job: given(fresh().facts, 'booking'),
      size: [105, 148],
      pages: 1,
      codes: [[qr('4-12')]],
      says: {
        en: [
          'Booking card',
          CLIENT,
          'Please bring',
          'thin socks',
          'skis with their bindings',
          'parent or guardian',
          'Common practice, no source',
          ...both('en', CLINICIAN, DEFERS),
        ],
        de: [
          'Terminkarte',
          CLIENT,
          'Bitte mitbringen',
          'dünnen Socken',
          'Ski mit den Bindungen',
          'Erziehungsberechtigter',
          'Gängige Praxis, ohne Quelle',
          ...both('de', CLINICIAN, DEFERS),
        ],
      },
    },
  ],
  ...(['receipt', 'a6'] as const).map((roll): readonly [string, Expected] => [
    `ticket, ${roll}`,
    {
      job: given(fresh().facts, 'ticket', { roll }),
      size: roll === 'receipt' ? [80, null] : [105, 148],
      pages: 1,
      codes: [TICKET],
      says: {
        en: [
          SHOP.name,
          '4-12',
          'Promised for Sat 10 Jan, 16:00',
          'Larkspur 110, 265',
          ...both('en', CLINICIAN, DEFERS),
        ],
        de: [
          SHOP.name,
          '4-12',
          'Zugesagt für Sa., 10. Jan., 16:00',
          'Larkspur 110, 265',
          ...both('de', CLINICIAN, DEFERS),
        ],
      },
    },
  ]),
  [
    'boot tags',
    {
      job: given(fresh().facts, 'tags'),
      size: [100, 50],
      pages: 2,
      codes: [
        [qr('4-12-R'), bars('4-12-R')],
        [qr('4-12-L'), bars('4-12-L')],
      ],
      says: {
        en: ['R', 'L', 'Right boot', 'Left boot', 'not to be worn', BOLTS.en],
        de: ['R', 'L', 'Rechter Schuh', 'Linker Schuh', 'nicht tragen', BOLTS.de],
      },
    },
  ],
  [
    'inside-boot labels',
    {
      job: given(wholeJob().facts, 'inside'),
      size: [100, 50],
      pages: 2,
      codes: [[], []],
      says: {
        en: [
          'Set 9 January 2026',
          '+2 mm, 2 mm up',
          '−2 mm, 2 mm down',
          '1.5°, thick edge medial',
          'ALTERED: plates under it',
          BINDING.en,
        ],
        de: [
          'Eingestellt 9. Januar 2026',
          '+2 mm, 2 mm hoch',
          '−2 mm, 2 mm tief',
          '1,5°, dicke Seite innen',
          'VERÄNDERT: Platten darunter',
          BINDING.de,
        ],
      },
    },
  ],
  [
    'bench cards',
    {
      job: given(atTheBench().facts, 'bench'),
      size: [148, 210],
      pages: 2,
      codes: [[qr('4-12-R')], [qr('4-12-L')]],
      says: {
        en: ['Loosen the bolts', 'Read the dial back', 'toe', LOOSE.en],
        de: ['Schrauben lösen', 'Zehe', LOOSE.de],
      },
    },
  ],
  [
    'alignment card',
    {
      job: given(wholeJob().facts, 'card'),
      size: [297, 210],
      pages: 1,
      codes: [[qr('4-12')]],
      says: {
        en: [
          'How your boots are set',
          CLIENT,
          '+2 mm, 2 mm up',
          '10.5 mm',
          '9.5 mm',
          '1.5°, thick edge medial',
          '1°, thick edge lateral',
          'ALTERED',
          'before a mirror',
          'Common practice, no source',
          'Scale 1 : 4',
          ...both('en', BINDING, BOLTS, CLINICIAN, DEFERS),
        ],
        de: [
          'So sind Ihre Schuhe eingestellt',
          CLIENT,
          '+2 mm, 2 mm hoch',
          '10,5 mm',
          '9,5 mm',
          '1,5°, dicke Seite innen',
          '1°, dicke Seite außen',
          'VERÄNDERT',
          'vor dem Spiegel',
          'Gängige Praxis, ohne Quelle',
          'Maßstab 1 : 4',
          ...both('de', BINDING, BOLTS, CLINICIAN, DEFERS),
        ],
      },
    },
  ],
  [
    'shop record',
    {
      job: given(wholeJob().facts, 'record'),
      size: [210, 297],
      pages: null,
      codes: [TICKET],
      says: {
        en: [
          'Shop record',
          CLIENT,
          'As found',
          'As left',
          'lateral +1 mm, medial −1 mm',
          'lateral −2 mm, medial +2 mm',
          '14 | 6',
          '10.5 | 9.5',
          'Rounds and readings',
          'Taken by the owner',
          'All entries',
          'Left cuff read: medial 14, lateral 6 mm',
          ...both('en', BINDING, BOLTS, CLINICIAN, DEFERS),
        ],
        de: [
          'Werkstattprotokoll',
          CLIENT,
          'Wie vorgefunden',
          'Wie abgegeben',
          '14 | 6',
          '10,5 | 9,5',
          'Runden und Messungen',
          'Übergeben an den Besitzer',
          'Alle Einträge',
          ...both('de', BINDING, BOLTS, CLINICIAN, DEFERS),
        ],
      },
    },
  ],
];
const CASES = PAPERS.flatMap(([name, expected]) =>
  (['en', 'de'] as const).map((language) => [name, language, expected] as const),
);

describe('each paper', () => {
  it.each(CASES)('%s, %s', async (name, language, { job, size, pages, codes, says }) => {
    const page = await paperPage(desk.context(), at.shop.url, language, job);
    expect(await cutOff(page)).toEqual([]);
    expect(await axeViolations(page)).toEqual([]);
    const made = await printed(page, `${name.replaceAll(/\W+/g, '-')}-${language}`);
    await page.close();

    expect(made.pages.length).toBe(pages ?? made.pages.length);
    for (const each of made.pages) {
      // A browser rounds to whole pixels.
      expect(Math.abs(each.widthMm - size[0])).toBeLessThan(0.5);
      if (size[1] !== null) expect(Math.abs(each.heightMm - size[1])).toBeLessThan(0.5);
    }
    const text = made.pages.map((each) => each.text).join(' ');
    for (const what of says[language]) expect(text).toContain(what);
    if (pages === null)
      for (const [i, each] of made.pages.entries()) {
        expect(each.text).toContain(`${i + 1} / ${made.pages.length}`);
        expect(each.text).toContain('4-12');
      }
    expect(text).not.toMatch(/undefined|NaN|\[object|null/);
    for (const [i, wanted] of codes.entries())
      expect((await codesIn(made.pages[i]!.png)).map(({ format, text }) => [format, text]).sort()).toEqual(
        [...wanted].sort(),
      );
  });

  it('of one boot stands on one sheet', async () => {
    const job = given(fresh().facts, 'tags', { sides: ['left'] });
    const page = await paperPage(desk.context(), at.shop.url, 'en', job);
    const { pages } = await printed(page, 'one-tag');
    await page.close();
    expect(pages.map(({ text }) => text.includes('Left boot'))).toEqual([true]);
  });

  it('with a long note and model still holds all of it', async () => {
    const told = fresh();
    for (const fact of told.facts)
      if (fact.kind === 'boot.described')
        Object.assign(fact, {
          model: 'Larkspur 110 with everything that a maker likes to print beside it',
          tag: 'KX-101-AND-SOME-MORE-LETTERS',
        });
    for (const paper of ['ticket', 'tags', 'inside', 'bench', 'card', 'booking'] as const) {
      const page = await paperPage(
        desk.context(),
        at.shop.url,
        'de',
        given(told.facts, paper, { roll: 'a6' }),
      );
      expect([paper, ...(await cutOff(page))]).toEqual([paper]);
      await page.close();
    }
  });
});

describe('what is drawn', () => {
  it.each(['plate', 'plane'] as const)('for a sole is each number of the plan: %s', async (method) => {
    const { facts } = soleToMake(method, true);
    const { plate, planing, rout, screws } = plan(facts).sides.left.sole;
    for (const language of ['en', 'de'] as const) {
      const page = await paperPage(
        desk.context(),
        at.shop.url,
        language,
        given(facts, 'bench', { sides: ['left'] }),
      );
      expect(await cutOff(page)).toEqual([]);
      const { pages } = await printed(page, `bench-${method}-${language}`);
      await page.close();
      expect(pages).toHaveLength(1);
      const { text } = pages[0]!;
      const number = (mm: number) => {
        const shown = String(Number(mm.toFixed(2)));
        return language === 'de' ? shown.replace('.', ',') : shown;
      };
      for (const zone of ['toe', 'heel'] as const)
        for (const edge of ['medialMm', 'lateralMm'] as const) {
          expect(text).toContain(number((plate ?? planing)![zone][edge]));
          expect(text).toContain(number(rout![zone][edge]));
        }
      if (method === 'plate') expect(text).toContain(number(screws!.heel.medial.maxMm!));
      expect(text).toContain(BINDING[language]);
      expect(text).toContain({ en: 'eye protection', de: 'Schutzbrille' }[language]);
    }
  });

  it('without the owner’s agreement on record is told with that said, or not at all', async () => {
    const { facts } = soleToMake('plate', false);
    const page = await paperPage(
      desk.context(),
      at.shop.url,
      'en',
      given(facts, 'bench', { sides: ['left'] }),
    );
    const said = await page.locator('main').innerText();
    const told = plan(facts).next.some((each) => each.do === 'plate.fitted');
    expect(said).toContain(
      told ? 'No agreement of the owner to irreversible work' : 'Nothing to do on the left boot now.',
    );
    await page.close();
  });

  it('on the bench card is what the plan tells: from, to and the number in words', async () => {
    const { facts } = atTheBench();
    const { target } = plan(facts).sides.right.cuff;
    const page = await paperPage(
      desk.context(),
      at.shop.url,
      'en',
      given(facts, 'bench', { sides: ['right'] }),
    );
    const { bytes, pages } = await printed(page, 'bench-right');
    expect(pages[0]!.text).toContain(`to +${target!.lateralMm} mm`);
    expect(await drawnOn(bytes, 1)).toBeGreaterThan(20);
    await page.close();
  });

  it('on the alignment card can be measured: pivots to scale, and each dial at its mark', async () => {
    const { facts } = wholeJob();
    const { left, right } = plan(facts).sides;
    const page = await paperPage(desk.context(), at.shop.url, 'en', given(facts, 'card'));
    await page.emulateMedia({ media: 'print' });
    const middles = (selector: string) =>
      page.locator(selector).evaluateAll((all) =>
        all.map((each) => {
          const { left, right, top, bottom } = each.getBoundingClientRect();
          return { x: (((left + right) / 2) * 25.4) / 96, y: (((top + bottom) / 2) * 25.4) / 96 };
        }),
      );
    // The right boot, then the left one; lateral before medial.
    const [, , lateral, medial] = await middles('.pair circle.pivot');
    const apartMm = 4 * Math.hypot(medial!.x - lateral!.x, medial!.y - lateral!.y);
    const { pivotSpacingMm } = left.cuff.hardware!;
    const set = left.cuff.set!;
    expect(
      await page
        .locator('.pair line.floor')
        .evaluate((line) => (line.getBoundingClientRect().width * 25.4) / 96),
    ).toBeCloseTo(124, 0);
    expect(apartMm).toBeCloseTo(Math.hypot(pivotSpacingMm, set.medialMm - set.lateralMm), 0);

    const dials = await page.locator('.dials svg').evaluateAll((all) =>
      all.map((svg) => {
        const y = Number(svg.querySelector('g circle')!.getAttribute('cy'));
        const marks = [...svg.querySelectorAll('line')].map((line) => Number(line.getAttribute('y1')));
        return marks.sort((a, b) => b - a).findIndex((mark) => Math.abs(mark - y) < 0.1);
      }),
    );
    // Marks of 1 mm, counted from the lowest.
    expect(dials).toEqual([
      right.cuff.set!.lateralMm - right.cuff.hardware!.lateral!.minMm,
      set.lateralMm - left.cuff.hardware!.lateral!.minMm,
      set.medialMm - left.cuff.hardware!.medial!.minMm,
    ]);
    await page.close();
  });
});

/** The desk's page of a job, with its sheet of papers open. */
async function openPrint(job: OpenJob): Promise<PrintSheet> {
  await desk.goto(`${at.shop.url}/desk`);
  await desk.goto(`${at.shop.url}/desk#${job.session}`);
  await button(desk, /^Print/).waitFor();
  await shot(desk, 'print-button');
  return PrintSheet.open(desk);
}

it('takes no job from a page of another address', async () => {
  const page = await paperPage(desk.context(), at.shop.url, 'en', given(fresh().facts, 'ticket'));
  const before = await page.locator('main').innerText();
  await page.evaluate(
    (job) =>
      dispatchEvent(
        new MessageEvent('message', { origin: 'https://elsewhere.example', data: { fibula: 'paper', job } }),
      ),
    given(wholeJob().facts, 'record') as unknown as Record<string, unknown>,
  );
  await floor.pictured(page);
  expect(await page.locator('main').innerText()).toBe(before);
  await page.close();
});

describe('at the desk', () => {
  let job: OpenJob;
  let measuring: Page;
  let bench: Page;
  beforeAll(async () => {
    measuring = await floor.pair(at.browser, at.shop.url, 'measuring', at.shop.shownCode('measuring'));
    bench = await floor.pair(at.browser, at.shop.url, 'bench', at.shop.shownCode('bench'));
    job = await at.opener.open('Leopoldine Aschaber', wasRead());
    // She speaks German, at a desk that speaks English.
    const [opened] = factsOnDisk(at.shop.data, job.session) as [FactOf<'session.opened'>];
    const put = await desk.evaluate(
      async ([ref]) =>
        (
          await fetch(`/api/people/${ref}`, {
            method: 'PUT',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ name: 'Leopoldine Aschaber', language: 'de' }),
          })
        ).status,
      [opened.clientRef] as const,
    );
    expect(put).toBeLessThan(300);
  });

  it('says which papers are due, and shows the first of them', async () => {
    const sheet = await openPrint(job);
    await sheet.dialog.getByText('● due now').first().waitFor();
    await shot(desk, 'print-due');
    await sheet.shows('Loosen the bolts with the maker’s own key');
    await sheet.pick('Ticket');
    await sheet.shows('Bitte zeigen Sie diesen Schein');
    await sound(desk, 'print', button(sheet.dialog, /^Print it/));
  });

  it('gives the browser’s print dialog that paper and no other page', async () => {
    await desk.setViewportSize(floor.SIZE.desk);
    const sheet = await openPrint(job);
    await sheet.pick('Shop record');
    await sheet.shows('Rounds and readings');
    const frame = await sheet.frame();
    await frame.evaluate(() =>
      addEventListener('beforeprint', () => (document.title = 'went to the printer')),
    );
    await button(sheet.dialog, /^Print it/).click();
    await frame.waitForFunction(() => document.title === 'went to the printer');
  });

  it('speaks the skier’s language on what the skier gets, and another one on request', async () => {
    const sheet = await openPrint(job);
    await sheet.pick('Alignment card');
    await sheet.shows('So sind Ihre Schuhe eingestellt');
    await sheet.pick('Bench card');
    await sheet.shows('Loosen the bolts');
    await sheet.speak('Deutsch');
    await sheet.shows('Schrauben lösen');
    await sheet.speak('English');
    await sheet.pick('Alignment card');
    await sheet.shows('How your boots are set');
  });

  it('prints a ticket and tags whose codes every station takes', async () => {
    const sheet = await openPrint(job);
    await sheet.pick('Ticket');
    await sheet.shows('Bitte zeigen Sie diesen Schein');
    await sheet.speak('English');
    await sheet.shows('Please show this ticket');
    const { pages, job: printed } = await sheet.print('desk-ticket');
    expect(printed.facts).toEqual(factsOnDisk(at.shop.data, job.session));
    const [ticket] = pages;
    const read = await codesIn(ticket!.png);
    expect(read.map(({ text }) => text)).toEqual([job.ticket, job.ticket]);
    await sheet.pick('Boot tags');
    await sheet.shows('In work: not to be worn');
    const [, left] = (await sheet.print('desk-tags')).pages;
    const [tag] = await codesIn(left!.png);

    const other = await at.opener.open(
      'Kilian Obermoser',
      tagged(wasRead(), { left: 'KX-7', right: 'KX-8' }),
    );
    await measuring.goto(`${at.shop.url}/measuring#`);
    await button(measuring, new RegExp(`^${other.ticket} `)).waitFor();
    await scan(measuring, read[0]!.text);
    await measuring.waitForURL(`**#${job.session}`);
    await measuring.goto(`${at.shop.url}/measuring#`);
    await button(measuring, new RegExp(`^${other.ticket} `)).waitFor();
    // In the field too, and by a boot's own tag.
    await measuring.getByRole('searchbox').focus();
    await scan(measuring, 'KX-8');
    await measuring.waitForURL(`**#${other.session}`);
    await measuring.goto(`${at.shop.url}/measuring#`);
    await button(measuring, new RegExp(`^${other.ticket} `)).waitFor();
    await measuring.getByRole('searchbox').blur();
    await scan(measuring, 'ZZ-9');
    await measuring.getByText('No job fits.').waitFor();
    expect(await measuring.getByRole('searchbox').inputValue()).toBe('ZZ-9');
    await button(bench.getByRole('navigation'), /Leopoldine Aschaber/)
      .first()
      .waitFor();
    await scan(bench, tag!.text);
    await bench.getByRole('region', { name: 'left boot in hand' }).waitFor();
    await button(bench, 'Print').click();
    await bench.frameLocator('iframe').getByText('Bench card: Left boot').waitFor();
  });

  it('prints the card once more as it was handed over, whatever was entered since', async () => {
    const gone = await at.opener.open('Pankraz Moosbrugger', wholeJob());
    const first = await openPrint(gone);
    await first.pick('Alignment card');
    await first.shows('How your boots are set');
    const before = await first.text();
    expect(before).toContain('−2 mm, 2 mm down');
    const { hardware: _hardware, ...set } = {
      side: 'left',
      lateralMm: 3,
      medialMm: 0,
      hardware: null,
    } as const;
    await gone.room.add('bench', 'cuff.set', set as never);
    const seen = (fact: Fact) => fact.kind === 'cuff.set' && fact.side === 'left' && fact.lateralMm === 3;
    expect(factsOnDisk(at.shop.data, gone.session).some(seen)).toBe(true);
    const sheet = await openPrint(gone);
    await sheet.pick('Alignment card');
    await sheet.shows('How your boots are set');
    await expect.poll(() => sheet.text()).toBe(before);
    await sheet.choose('Which state', 'as it stands now');
    await sheet.shows('+3 mm, 3 mm up');
  });
});

it('does all that without an error, a broken policy, or a word to another host', () =>
  expect(at.seen.take()).toEqual([]));
