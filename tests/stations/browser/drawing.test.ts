/** The pair as a page shows it, measured in the rendered picture and turned back into millimetres. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { plan, SIDES } from '../../../core/index.ts';
import type { Plan, Side } from '../../../core/index.ts';
import { enterDay } from '../../../demo/day.ts';
import { openShop } from '../../../demo/shop.ts';
import { launchBrowser } from '../../helpers/browser.ts';
import { factsOnDisk, sessionsOnDisk } from '../../helpers/disk.ts';
import { pair } from '../../helpers/floor.ts';
import { serve } from '../../helpers/server.ts';
import type { TestServer } from '../../helpers/server.ts';

let shop: TestServer;
let browser: Browser;
let desk: Page;
beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  await enterDay(await openShop(shop.url, shop.code(['desk'])), 1);
  desk = await pair(browser, shop.url, 'desk', shop.code(['desk']));
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

interface Drawn {
  /** Screen pixels of one unit of the sheet, across and down. */
  readonly scale: readonly [number, number];
  /** By boot, from the viewer's left: widths of its gaps and centres of its pivots, in screen pixels. */
  readonly boots: readonly {
    readonly letter: string;
    readonly gaps: readonly { readonly left: number; readonly width: number }[];
    readonly pivots: readonly (readonly [number, number])[];
    readonly axis: readonly [readonly [number, number], readonly [number, number]] | null;
  }[];
}

/** What is on the glass, in the screen's own pixels. */
const measure = (page: Page): Promise<Drawn> =>
  page.evaluate(() => {
    const svg = document.querySelector<SVGSVGElement>('figure svg[role=img]')!;
    const { a, d } = svg.getScreenCTM()!;
    const shapes = [...svg.children].filter((each) => each.querySelector(':scope > text.letter'));
    return {
      scale: [a, d] as const,
      boots: shapes.map((group) => {
        const path = group.querySelector<SVGPathElement>(':scope > path.axis:not(.of-leg)');
        const at = (length: number) => {
          const { x, y } = path!.getPointAtLength(length).matrixTransform(path!.getScreenCTM()!);
          return [x, y] as const;
        };
        return {
          letter: group.querySelector('text.letter')!.textContent.trim(),
          gaps: [...group.querySelectorAll<SVGRectElement>(':scope > rect.gap')].map((rect) => {
            const m = rect.getScreenCTM()!;
            const { x, width } = rect.getBBox();
            return { left: x * m.a + m.e, width: width * m.a };
          }),
          pivots: [...group.querySelectorAll<SVGCircleElement>(':scope > circle.pivot')].map((circle) => {
            const { x, y } = new DOMPoint(circle.cx.baseVal.value, circle.cy.baseVal.value).matrixTransform(
              circle.getScreenCTM()!,
            );
            return [x, y] as const;
          }),
          axis: path ? ([at(0), at(path.getTotalLength())] as const) : null,
        };
      }),
    };
  });

async function show(session: string): Promise<Plan> {
  await desk.goto(`${shop.url}/desk#${session}`);
  const facts = factsOnDisk(shop.data, session);
  const [opened] = facts;
  if (opened?.kind !== 'session.opened') throw new Error(`${session} does not begin with its opening`);
  await desk.getByRole('heading', { name: new RegExp(`^${opened.ticket} `) }).waitFor();
  await desk.getByRole('img', { name: /^Both legs/ }).waitFor();
  return plan(facts);
}

const TENTH = 0.1;

/** Compares one boot on the glass with the plan; says how many lengths it could compare. */
function compare(side: Side, { sides }: Plan, { scale, boots }: Drawn): number {
  const { cuff, sole } = sides[side];
  const boot = boots.find(({ letter }) => letter === (side === 'left' ? 'L' : 'R'))!;
  let compared = 0;
  const shown = cuff.expected ?? (cuff.reading?.stale === false ? cuff.reading : null);
  if (shown && cuff.set) {
    // Drawn in this order: medial, then lateral.
    const [medial, lateral] = boot.gaps.map(({ width }) => width / scale[0]);
    expect(Math.abs(medial! - Math.max(0, shown.medialMm))).toBeLessThan(TENTH);
    expect(Math.abs(lateral! - Math.max(0, shown.lateralMm))).toBeLessThan(TENTH);
    compared += 2;
  }
  if (cuff.set && cuff.hardware && !sole.cantDeg) {
    const [lateral, medial] = boot.pivots;
    const across = Math.abs(lateral![0] - medial![0]) / scale[0];
    const up = (medial![1] - lateral![1]) / scale[1];
    expect(Math.abs(across - cuff.hardware.pivotSpacingMm)).toBeLessThan(TENTH);
    expect(Math.abs(up - (cuff.set.lateralMm - cuff.set.medialMm))).toBeLessThan(TENTH);
    compared += 2;
  }
  if (cuff.leanDeg !== null && boot.axis && !sole.cantDeg) {
    const [low, high] = boot.axis;
    // Facing the skier: the left leg's lateral side is on the viewer's right.
    const outward = side === 'left' ? 1 : -1;
    const lean =
      (Math.atan2((outward * (high[0] - low[0])) / scale[0], (low[1] - high[1]) / scale[1]) * 180) / Math.PI;
    expect(Math.abs(lean - cuff.leanDeg)).toBeLessThan(0.05);
    compared += 1;
  }
  return compared;
}

it('every length on the picture, over a day’s sessions, is the plan’s to a tenth of a millimetre', async () => {
  let compared = 0;
  for (const session of sessionsOnDisk(shop.data)) {
    const wanted = await show(session);
    const drawn = await measure(desk);
    // Alike across and down: an angle on the glass is an angle of the boot.
    expect(drawn.scale[0]).toBeCloseTo(drawn.scale[1], 6);
    expect(drawn.boots.map(({ letter }) => letter)).toEqual(['R', 'L']);
    for (const side of SIDES) compared += compare(side, wanted, drawn);
  }
  expect(compared).toBeGreaterThan(30);
});
