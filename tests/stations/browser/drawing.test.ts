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

type Line = readonly [readonly [number, number], readonly [number, number]];
interface Drawn {
  /** Screen pixels of one unit of the sheet, across and down. */
  readonly scale: readonly [number, number];
  /** By boot, from the viewer's left: widths of its gaps and centres of its pivots, in screen pixels. */
  readonly boots: readonly {
    readonly letter: string;
    readonly gaps: readonly { readonly left: number; readonly width: number }[];
    readonly pivots: readonly (readonly [number, number])[];
    readonly axis: Line | null;
    /** The recommended cuff's, and the centres of the pivots' new places from the viewer's left. */
    readonly toAxis: Line | null;
    readonly toPivots: readonly (readonly [number, number])[];
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
        const line = (path: SVGPathElement | null) => {
          if (!path) return null;
          const at = (length: number) => {
            const { x, y } = path.getPointAtLength(length).matrixTransform(path.getScreenCTM()!);
            return [x, y] as const;
          };
          return [at(0), at(path.getTotalLength())] as const;
        };
        const centres = (circles: string) =>
          [...group.querySelectorAll<SVGCircleElement>(`:scope > ${circles}`)].map((circle) => {
            const { x, y } = new DOMPoint(circle.cx.baseVal.value, circle.cy.baseVal.value).matrixTransform(
              circle.getScreenCTM()!,
            );
            return [x, y] as const;
          });
        return {
          letter: group.querySelector('text.letter')!.textContent.trim(),
          gaps: [...group.querySelectorAll<SVGRectElement>(':scope > rect.gap')].map((rect) => {
            const m = rect.getScreenCTM()!;
            const { x, width } = rect.getBBox();
            return { left: x * m.a + m.e, width: width * m.a };
          }),
          pivots: centres('circle.pivot'),
          axis: line(group.querySelector(':scope > path.axis:not(.of-leg)')),
          toAxis: line(group.querySelector('path.to.thin')),
          toPivots: centres('circle.pivot-to'),
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
    expect(Math.abs(leanOf(boot.axis, side, scale) - cuff.leanDeg)).toBeLessThan(0.05);
    compared += 1;
  }
  const toDeg = cuff.target?.leanDeg ?? null;
  if (boot.toAxis && toDeg !== null && cuff.set && !sole.cantDeg) {
    expect(Math.abs(leanOf(boot.toAxis, side, scale) - toDeg)).toBeLessThan(0.05);
    // Lateral first, as they are drawn; a pivot that stays has no new place.
    const moved = (['lateral', 'medial'] as const).flatMap((adjuster, i) => {
      const by = cuff.target![`${adjuster}Mm`] - cuff.set![`${adjuster}Mm`];
      return Math.abs(by) > 1e-6 ? [{ by, from: boot.pivots[i]! }] : [];
    });
    expect(boot.toPivots).toHaveLength(moved.length);
    moved.forEach(({ by, from }, i) => {
      expect(Math.abs((from[1] - boot.toPivots[i]![1]) / scale[1] - by)).toBeLessThan(TENTH);
      expect(Math.abs(from[0] - boot.toPivots[i]![0]) / scale[0]).toBeLessThan(TENTH);
    });
    compared += 1 + moved.length;
  }
  return compared;
}

function leanOf([low, high]: Line, side: Side, scale: readonly [number, number]): number {
  // Facing the skier: the left leg's lateral side is on the viewer's right.
  const outward = side === 'left' ? 1 : -1;
  return (
    (Math.atan2((outward * (high[0] - low[0])) / scale[0], (low[1] - high[1]) / scale[1]) * 180) / Math.PI
  );
}

/** Of the recommended cuffs, on their way from where the cuffs are. */
const turning = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      document
        .querySelector('figure svg[role=img]')!
        .getAnimations({ subtree: true })
        .filter((each) => (each as CSSAnimation).animationName === 'goes').length,
  );
const atRest = (page: Page) =>
  page.evaluate(() =>
    Promise.all(
      document
        .querySelector('figure svg[role=img]')!
        .getAnimations({ subtree: true })
        .map(({ finished }) => finished),
    ).then(() => undefined),
  );

it.each(['screen', 'print'] as const)(
  'every length on the picture, over a day’s sessions, is the plan’s to a tenth of a millimetre: %s',
  async (media) => {
    await desk.emulateMedia({ media });
    let compared = 0;
    for (const session of sessionsOnDisk(shop.data)) {
      const wanted = await show(session);
      await atRest(desk);
      const drawn = await measure(desk);
      // Alike across and down: an angle on the glass is an angle of the boot.
      expect(drawn.scale[0]).toBeCloseTo(drawn.scale[1], 6);
      expect(drawn.boots.map(({ letter }) => letter)).toEqual(['R', 'L']);
      for (const side of SIDES) compared += compare(side, wanted, drawn);
    }
    expect(compared).toBeGreaterThan(50);
  },
);

it('lets the eye follow a recommended cuff from where it is, unless less motion is asked for', async () => {
  await desk.emulateMedia({ media: 'screen' });
  const moved = sessionsOnDisk(shop.data).find((session) =>
    SIDES.every((side) => plan(factsOnDisk(shop.data, session)).sides[side].cuff.verdict === 'uneven'),
  )!;
  await show(moved);
  // Each leg's cuff at scale, and its lean enlarged.
  expect(await turning(desk)).toBe(4);
  await desk.emulateMedia({ reducedMotion: 'reduce' });
  await desk.reload();
  await show(moved);
  expect(await turning(desk)).toBe(0);
});
