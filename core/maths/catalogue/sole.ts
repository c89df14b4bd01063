/** Calculations of core/maths/sole and routing: plates, planing, and what the router takes. */
import { z } from 'zod';
import { cantDeg, degIn, mmIn } from '../../bounds.ts';
import { mm } from '../../units.ts';
import { leastLifter, routing } from '../routing.ts';
import {
  corners,
  evenStand,
  foreAftOf,
  foreAftRise,
  madeRise,
  planing,
  plates,
  standHeight,
  thinEdgeFor,
} from '../sole.ts';
import { calculation, ofZones, TRIGONOMETRY } from './entry.ts';
import type { Calculations, Given } from './entry.ts';
import { riseMm, soleWidthMm, soleWork, thinEdgeMm, zones } from './fields.ts';

const object = z.strictObject;

const CORNERS = 'plane trigonometry, exact; corners checked against a plane through points in tests/outside';
const foreAftDeg = degIn(-8, 8);
const zoneSpacingMm = mmIn(100, 400);
const plateLengthMm = mmIn(10, 420);
const widths = zones(soleWidthMm);
const edges = (most: number) => object({ medialMm: mmIn(0, most), lateralMm: mmIn(0, most) });
const WIDTHS = { toe: 69, heel: 69 };
const PLATE = { method: 'plate' as const, widths: WIDTHS, cantDeg: 2, thinEdgeMm: 3 };

const EDGES: Readonly<Record<string, Given>> = {
  medialMm: ['mm', 'at the medial edge'],
  lateralMm: ['mm', 'at the lateral edge'],
};

const profiles = (): Calculations => ({
  plates: calculation({
    means: 'Plates of one cant under toe and heel',
    input: object({ widths, cantDeg, thinEdgeMm, riseMm }),
    gives: ofZones({
      ...EDGES,
      centreMm: ['mm', 'at the centre'],
      thinEdgeMm: ['mm', 'thinnest'],
      thickEdgeMm: ['mm', 'thickest'],
    }),
    formula: 't(x) = t_min + (W/2 ∓ x)·tan|δ|; equal centres, the heel’s higher by the rise',
    source: TRIGONOMETRY,
    example: {
      input: { widths: WIDTHS, cantDeg: 2, thinEdgeMm: 3 },
      output: {
        toe: { medialMm: 5.41, lateralMm: 3, centreMm: 4.205, thinEdgeMm: 3, thickEdgeMm: 5.41 },
        heel: { medialMm: 5.41, lateralMm: 3, centreMm: 4.205, thinEdgeMm: 3, thickEdgeMm: 5.41 },
      },
    },
    run: (is) => plates(is.widths, is.cantDeg, is.thinEdgeMm, is.riseMm),
  }),
  planing: calculation({
    means: 'What a planer takes off for a cant',
    input: object({ widths, cantDeg, riseMm }),
    gives: ofZones({ ...EDGES, centreMm: ['mm', 'at the centre'] }),
    formula: 'r(x) = (W/2 ± x)·tan|δ|; a rise comes off the toe, a fall off the heel',
    source: TRIGONOMETRY,
    example: {
      input: { widths: WIDTHS, cantDeg: 2 },
      output: {
        toe: { medialMm: 0, lateralMm: 2.41, centreMm: 1.205 },
        heel: { medialMm: 0, lateralMm: 2.41, centreMm: 1.205 },
      },
    },
    run: (is) => planing(is.widths, is.cantDeg, is.riseMm),
  }),
  corners: calculation({
    means: 'A plate tilted two ways, at its four corners',
    input: object({
      across: object({ medialMm: mmIn(0, 90), lateralMm: mmIn(0, 90), centreMm: mmIn(0, 90) }).describe(
        'its profile across the middle',
      ),
      lengthMm: plateLengthMm,
      foreAftDeg,
    }),
    gives: {
      toeMedialMm: ['mm', ''],
      toeLateralMm: ['mm', ''],
      heelMedialMm: ['mm', ''],
      heelLateralMm: ['mm', 'negative at any corner: no plate is so thin'],
    },
    formula: 't(x, y) = t_centre − x·tan δ + y·tan β',
    source: CORNERS,
    example: {
      input: { across: { medialMm: 5.4048, lateralMm: 2.9952, centreMm: 4.2 }, lengthMm: 60, foreAftDeg: 1 },
      output: { toeMedialMm: 4.881, toeLateralMm: 2.472, heelMedialMm: 5.928, heelLateralMm: 3.519 },
    },
    run: (is) => corners(is.across, is.lengthMm, is.foreAftDeg),
  }),
  thinEdgeFor: calculation({
    means: 'Thin edge across the middle of a plate that leaves its thinnest corner at the least',
    input: object({ leastMm: thinEdgeMm, lengthMm: plateLengthMm, foreAftDeg }),
    gives: { thinEdgeMm: ['mm', ''] },
    formula: 't_least + (l/2)·tan|β|',
    source: TRIGONOMETRY,
    example: { input: { leastMm: 3, lengthMm: 60, foreAftDeg: 1 }, output: { thinEdgeMm: 3.524 } },
    run: (is) => ({ thinEdgeMm: thinEdgeFor(is.leastMm, is.lengthMm, is.foreAftDeg) }),
  }),
});

const heights = (): Calculations => ({
  foreAftRise: calculation({
    means: 'How much higher the heel’s centre stands for a fore-aft wedge',
    input: object({ foreAftDeg, zoneSpacingMm }),
    gives: { riseMm: ['mm', 'heel higher than toe positive'] },
    formula: 'L·tan β',
    source: TRIGONOMETRY,
    example: { input: { foreAftDeg: 1, zoneSpacingMm: 240 }, output: { riseMm: 4.189 } },
    run: (is) => ({ riseMm: foreAftRise(is.foreAftDeg, is.zoneSpacingMm) }),
  }),
  foreAftOf: calculation({
    means: 'Fore-aft angle that a rise of the heel’s centre makes',
    input: object({ riseMm: mmIn(-60, 60), zoneSpacingMm }),
    gives: { foreAftDeg: ['°', 'heel higher than toe positive'] },
    formula: 'atan(rise/L)',
    source: TRIGONOMETRY,
    example: { input: { riseMm: 4.189, zoneSpacingMm: 240 }, output: { foreAftDeg: 1 } },
    run: (is) => ({ foreAftDeg: foreAftOf(is.riseMm, is.zoneSpacingMm) }),
  }),
  standHeight: calculation({
    means: 'How much higher the boot stands than before the work, midway between its zones',
    input: object({ work: soleWork }),
    gives: { standHeightMm: ['mm', 'negative: lower'] },
    formula: 'mean of both centres: t, or lifter − r',
    source: TRIGONOMETRY,
    example: { input: { work: PLATE }, output: { standHeightMm: 4.205 } },
    run: (is) => ({ standHeightMm: standHeight(is.work) }),
  }),
  madeRise: calculation({
    means: 'How much more the heel’s centre is raised than the toe’s',
    input: object({ work: soleWork }),
    gives: { riseMm: ['mm', 'heel higher positive'] },
    formula: 'heel’s centre − toe’s',
    source: TRIGONOMETRY,
    example: {
      input: {
        work: { method: 'plane' as const, widths: { toe: 69, heel: 65 }, cantDeg: 2, lifterMm: 3 },
      },
      output: { riseMm: 0.07 },
    },
    run: (is) => ({ riseMm: madeRise(is.work) }),
  }),
  evenStand: calculation({
    means: 'What each side must gain so that both stand level, or as far apart as wanted',
    input: object({
      leastLeftMm: mmIn(-40, 90),
      leastRightMm: mmIn(-40, 90),
      leftOverRightMm: mmIn(-40, 40).default(mm(0)),
    }),
    gives: { leftMm: ['mm', 'to add left'], rightMm: ['mm', 'to add right'] },
    formula: 'max(0, ±(right + wanted − left))',
    source: 'arithmetic',
    example: { input: { leastLeftMm: 4.2, leastRightMm: 3.6 }, output: { leftMm: 0, rightMm: 0.6 } },
    run: (is) => evenStand(is.leastLeftMm, is.leastRightMm, is.leftOverRightMm),
  }),
});

export const soleCalculations = (): Calculations => ({ ...profiles(), ...heights() });

const LUGS = {
  toe: { medialMm: 19.2, lateralMm: 19.2 },
  heel: { medialMm: 30.2, lateralMm: 30.2 },
};
const NOMINAL = { toe: 19, heel: 30 };

export const routingCalculations = (): Calculations => ({
  routing: calculation({
    means: 'Depths to rout so that the lugs stand at their height again, and what is left of them',
    input: object({
      work: soleWork,
      measured: zones(edges(80)).nullable().default(null).describe('lug heights before the work'),
      nominalMm: zones(mmIn(0, 80).nullable()),
      looseSoleMm: mmIn(0, 40).nullable().default(null).describe('of a replaceable sole; 0: solid'),
      minLeftMm: mmIn(0, 40).nullable().default(null).describe('the maker’s or the shop’s; no default'),
    }),
    gives: {
      told: ['', 'false: no routing is told, for the faults named'],
      rout: ['mm', 'depth at both edges of toe and heel'],
      lugLeft: ['mm', 'left of the lug at the same four'],
      'faults[]': ['mm', 'code, and where it has them zone, edge and lengths'],
    },
    formula: 't(x) + (h0 − nominal), or lifter − r(x) + (h0 − nominal); left: h0 − depth − r(x) − loose sole',
    source: 'geometry, exact',
    example: {
      input: { work: PLATE, measured: LUGS, nominalMm: NOMINAL, looseSoleMm: 0, minLeftMm: 10 },
      output: {
        told: true,
        rout: { toe: { medialMm: 5.61, lateralMm: 3.2 }, heel: { medialMm: 5.61, lateralMm: 3.2 } },
        lugLeft: { toe: { medialMm: 13.59, lateralMm: 16 }, heel: { medialMm: 24.59, lateralMm: 27 } },
      },
    },
    run: ({ work, ...lugs }) => routing(work, lugs),
  }),
  leastLifter: calculation({
    means: 'Least flat lifter under a planed sole that leaves no lug too low',
    input: object({ cut: zones(edges(80)), measured: zones(edges(80)), nominalMm: zones(mmIn(0, 80)) }),
    gives: { lifterMm: ['mm', ''] },
    formula: 'max(0, r(x) − (h0 − nominal))',
    source: 'geometry, exact',
    example: {
      input: {
        cut: { toe: { medialMm: 0, lateralMm: 2.41 }, heel: { medialMm: 0, lateralMm: 2.41 } },
        measured: LUGS,
        nominalMm: NOMINAL,
      },
      output: { lifterMm: 2.21 },
    },
    run: (is) => ({ lifterMm: leastLifter(is.cut, is.measured, is.nominalMm) }),
  }),
});
