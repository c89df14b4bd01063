/** Papers as a browser prints them, and jobs that fill them. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright';
import type { Fact } from '../../../core/index.ts';
import { DUAL, KNEE, SINGLE, Story, WHOLE_BOOT, withMarks } from '../../helpers/facts.ts';
import { readPdf } from '../../helpers/pdf.ts';
import type { PdfPage } from '../../helpers/pdf.ts';

/** As a station gives it to the paper's page (`stations/kit/paper/papers.ts`). */
export interface PrintJob {
  readonly paper: 'booking' | 'ticket' | 'tags' | 'inside' | 'bench' | 'card' | 'record';
  readonly roll: 'receipt' | 'a6';
  readonly sides: readonly ('left' | 'right')[];
  readonly facts: readonly Fact[];
  readonly client: string | null;
  readonly shop: { readonly name: string; readonly timeZone: string };
}

/** The page of one paper by itself, with `job` on it. */
export async function paperPage(
  context: BrowserContext,
  url: string,
  language: 'en' | 'de',
  job: PrintJob,
): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${url}/paper?in=${language}`);
  await lay(page, job);
  return page;
}

/** Gives the page a job, and waits until it says that it has drawn it. */
export async function lay(page: Page, job: PrintJob): Promise<void> {
  await page.evaluate(
    (given) =>
      new Promise<void>((done) => {
        addEventListener('message', ({ data }) => {
          if ((data as { fibula?: string }).fibula === 'drawn') done();
        });
        const give = () => postMessage({ fibula: 'paper', job: given }, location.origin);
        // Its script runs before the load is over, so it hears this.
        if (document.readyState === 'complete') give();
        else addEventListener('load', give);
      }),
    job as unknown as Record<string, unknown>,
  );
}

export interface Printed {
  readonly bytes: Buffer;
  readonly pages: readonly PdfPage[];
}

/** As the browser's own print makes it, on paper of the size that the page asks for. */
export async function printed(page: Page, name: string): Promise<Printed> {
  const bytes = await page.pdf({ preferCSSPageSize: true, printBackground: false });
  const folder = process.env['FIBULA_SHOTS'];
  if (folder) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, `${name}.pdf`), bytes);
  }
  return { bytes, pages: await readPdf(bytes) };
}

/** What lies over the edge of its sheet, or is cut off where it stands. */
export const cutOff = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const sheets = [...document.querySelectorAll<HTMLElement>('section.sheet > .inside')];
    if (sheets.length === 0) return ['no sheet'];
    return sheets.flatMap((sheet) => {
      const edge = sheet.getBoundingClientRect();
      const fixed = !sheet.closest('.flows');
      const out = [...sheet.querySelectorAll('*')].filter((each) => {
        if (!each.checkVisibility() || each.closest('defs, [data-bleeds]')) return false;
        const { left, right, top, bottom, width, height } = each.getBoundingClientRect();
        if (width === 0 && height === 0) return false;
        return (
          left < edge.left - 1 ||
          right > edge.right + 1 ||
          (fixed && (top < edge.top - 1 || bottom > edge.bottom + 1))
        );
      });
      const clipped = [...sheet.querySelectorAll<HTMLElement>('p, li, td, th, dd, dt, h1, h2, h3')].filter(
        (each) =>
          !each.closest('[data-bleeds]') &&
          each.scrollWidth > each.clientWidth + 1 &&
          getComputedStyle(each).display !== 'inline',
      );
      return [...out, ...clipped].map(
        (each) =>
          `${each.tagName} ${each.getAttribute('class') ?? ''}: ${(each.textContent ?? '').trim().slice(0, 50)}`,
      );
    });
  });

/** A long name that a sheet must hold. */
export const CLIENT = 'Maximiliane Oberhollenzer-Freudenthaler';
export const SHOP = { name: 'Werkstatt am Lift', timeZone: 'Europe/Vienna' };

export const given = (
  facts: readonly Fact[],
  paper: PrintJob['paper'],
  more: Partial<PrintJob> = {},
): PrintJob => ({
  paper,
  roll: 'receipt',
  sides: ['right', 'left'],
  facts,
  client: CLIENT,
  shop: SHOP,
  ...more,
});

/** Taken in with both boots described, and nothing more. */
export function fresh(): Story {
  const told = new Story();
  told.add('session.opened', {
    ticket: '4-12',
    clientRef: 'c-12',
    service: 'full',
    promisedAt: '2026-01-10T16:00:00+01:00',
    racing: true,
    youth: true,
  });
  told.add('health.asked', { outcome: 'proceed' });
  for (const [side, hardware] of [
    ['left', withMarks(DUAL, 1)],
    ['right', withMarks(SINGLE, 1)],
  ] as const)
    told.add('boot.described', { side, ...WHOLE_BOOT, hardware } as never);
  return told;
}

/** Both cuffs read as they were brought, the left one uneven: the bench is to set its pivots. */
export function atTheBench(): Story {
  const told = fresh();
  told.ready('left').ready('right');
  for (const side of ['left', 'right'] as const) {
    told.add('shell.worked', { side, spot: 'fifth metatarsal head', method: 'punch', amountMm: 3 });
    told.add('inside.set', { side, heelLiftMm: 3, forwardLeanPos: 2 });
  }
  told.set('left', 1, -1, { role: 'bench' });
  Object.assign(told.facts.at(-1)!, { state: 'as-found' });
  told.read('left', 14, 6);
  told.read('right', 5, 12);
  return told;
}

/** Closed cuffs and a cant chosen: the bench is to make plates, or to plane; agreed to or not. */
export function soleToMake(method: 'plate' | 'plane', agreed: boolean): Story {
  const zone = (height: number) => ({ heightMedialMm: height, heightLateralMm: height, widthMm: 69 });
  const told = new Story();
  told.add('session.opened', { ticket: '4-12', clientRef: 'c-12', service: 'full' });
  told.add('health.asked', { outcome: 'proceed' });
  told.add(
    'settings.used',
    { minLugLeftMm: 12, screwDiameterMm: 5, screwHeadDepthMm: 3, screwMarginMm: 2 },
    { role: 'server' },
  );
  for (const side of ['left', 'right'] as const) {
    told.add('boot.described', { side, ...WHOLE_BOOT, soleMaterialMm: 22 });
    told.ready(side);
    told.read(side, 9, 9);
    told.add('cuff.closed', { side, decision: 'even' });
    told.add('cant.chosen', {
      side,
      cantDeg: side === 'left' ? -2 : 1.5,
      method,
      override: 'known from last season',
    });
    told.add('sole.measured', { side, when: 'before', toe: zone(19.2), heel: zone(30.1) });
  }
  if (agreed) told.add('work.agreed', { irreversible: ['lugs routed', 'plates'], warrantyTold: true });
  return told;
}

/** All of it: set, read again, closed, plates under both, tested and handed over. */
export function wholeJob(): Story {
  const told = atTheBench();
  told.set('left', -2, 2, { role: 'bench' });
  told.set('right', 2, undefined, { role: 'bench' });
  told.read('left', 10.5, 9.5);
  told.read('right', 8, 9);
  for (const side of ['left', 'right'] as const) {
    told.add('cuff.closed', { side, decision: 'even' });
    told.add('stance.read', { side, kneeOffsetMm: 12, ...KNEE });
    told.add('cant.chosen', {
      side,
      cantDeg: side === 'left' ? 1.5 : -1,
      method: 'plate',
      override: 'asked for',
    });
    told.add('plate.fitted', {
      side,
      cantDeg: side === 'left' ? 1.5 : -1,
      method: 'plate',
      thinEdgeMm: 3,
      toe: { medialMm: 4.8, lateralMm: 3 },
      heel: { medialMm: 4.8, lateralMm: 3 },
    });
    told.add('sole.set', { side, cantDeg: side === 'left' ? 1.5 : -1, state: 'fitted' });
  }
  told.add('binding.checked', { outcome: 'passed', reference: 'T-118' });
  told.add('handed.over', { acknowledgedBy: 'owner', language: 'de' });
  return told;
}
