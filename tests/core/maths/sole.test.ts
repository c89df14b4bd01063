/** Plates, planing and routing. Expected numbers are worked by hand from the formulas beside them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
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
} from '../../../core/maths/sole.ts';
import type { SoleWork } from '../../../core/maths/sole.ts';
import { leastLifter, routing } from '../../../core/maths/routing.ts';
import type { Lugs } from '../../../core/maths/routing.ts';
import { deg, mm } from '../../../core/units.ts';

const tan = (angle: number) => Math.tan((angle * Math.PI) / 180);
const both = (toe: number, heel: number = toe) => ({ toe: mm(toe), heel: mm(heel) });
const pair = (medial: number, lateral: number = medial) => ({ medialMm: mm(medial), lateralMm: mm(lateral) });
const W = both(69);

describe('plates', () => {
  it('outward is thick medial: t(x) = t_min + (W/2 − x)·tan δ', () => {
    const { toe } = plates(W, deg(2), mm(3));
    expect(toe.thinEdgeMm).toBeCloseTo(3, 12);
    expect(toe.lateralMm).toBeCloseTo(3, 12);
    expect(toe.medialMm).toBeCloseTo(3 + 69 * tan(2), 12);
    expect(toe.thickEdgeMm).toBeCloseTo(3 + 69 * tan(2), 12);
    expect(toe.centreMm).toBeCloseTo(3 + 34.5 * tan(2), 12);
  });

  it('inward is thick lateral', () => {
    const { heel } = plates(W, deg(-1), mm(3));
    expect(heel.medialMm).toBeCloseTo(3, 12);
    expect(heel.lateralMm).toBeCloseTo(3 + 69 * tan(1), 12);
  });

  it('without a fore-aft wedge have equal centres, and the wider zone has the thin edge', () => {
    const { toe, heel } = plates(both(69, 63), deg(1.5), mm(3));
    expect(toe.centreMm).toBe(heel.centreMm);
    expect(toe.thinEdgeMm).toBeCloseTo(3, 12);
    expect(heel.thinEdgeMm).toBeCloseTo(3 + 3 * tan(1.5), 12);
  });

  it('a wedge makes their centres differ by L·tan β, and keeps the thin edge', () => {
    const rise = foreAftRise(deg(1), mm(240));
    expect(rise).toBeCloseTo(240 * tan(1), 12);
    expect(foreAftOf(rise, mm(240))).toBeCloseTo(1, 12);
    const up = plates(W, deg(1), mm(3), rise);
    expect(up.heel.centreMm - up.toe.centreMm).toBeCloseTo(240 * tan(1), 12);
    expect(up.toe.thinEdgeMm).toBeCloseTo(3, 12);
    const down = plates(W, deg(1), mm(3), mm(-rise));
    expect(down.heel.thinEdgeMm).toBeCloseTo(3, 12);
    expect(down.toe.thinEdgeMm).toBeCloseTo(3 + 240 * tan(1), 12);
  });

  it('four corners of a plate tilted two ways, its thinnest at the least thickness', () => {
    const thin = thinEdgeFor(mm(3), mm(60), deg(1));
    expect(thin).toBeCloseTo(3 + 30 * tan(1), 12);
    const { toe } = plates(W, deg(2), thin, foreAftRise(deg(1), mm(240)));
    const at = corners(toe, mm(60), deg(1));
    expect(at.toeLateralMm).toBeCloseTo(3, 12);
    expect(at.toeMedialMm).toBeCloseTo(3 + 69 * tan(2), 12);
    expect(at.heelLateralMm).toBeCloseTo(3 + 60 * tan(1), 12);
    expect(at.heelMedialMm).toBeCloseTo(3 + 60 * tan(1) + 69 * tan(2), 12);
  });
});

describe('planing', () => {
  it('takes nothing off the edge that stays, and the whole rise off the other', () => {
    const out = planing(W, deg(2));
    expect(out.toe).toEqual({
      medialMm: 0,
      lateralMm: expect.closeTo(69 * tan(2), 12),
      centreMm: expect.closeTo(34.5 * tan(2), 12),
    });
    const inward = planing(W, deg(-2));
    expect(inward.heel.lateralMm).toBe(0);
    expect(inward.heel.medialMm).toBeCloseTo(69 * tan(2), 12);
  });

  it('a higher heel is planed off the toe, a lower one off the heel', () => {
    expect(planing(W, deg(0), mm(2))).toMatchObject({
      toe: { medialMm: 2, lateralMm: 2 },
      heel: { medialMm: 0 },
    });
    expect(planing(W, deg(0), mm(-2))).toMatchObject({
      toe: { medialMm: 0 },
      heel: { medialMm: 2, centreMm: 2 },
    });
  });

  it('with a lifter tips and raises the sole as plates of the same cant do', () => {
    const cut = planing(W, deg(2));
    const plane: SoleWork = { method: 'plane', cut, lifterMm: mm(3 + 69 * tan(2)) };
    const plate: SoleWork = { method: 'plate', plates: plates(W, deg(2), mm(3)) };
    expect(standHeight(plane)).toBeCloseTo(standHeight(plate), 12);
    expect(madeRise(plane)).toBeCloseTo(0, 12);
  });

  it('zones of unequal width leave a rise of half their difference, which is told', () => {
    const cut = planing(both(69, 63), deg(2));
    expect(madeRise({ method: 'plane', cut, lifterMm: mm(4) })).toBeCloseTo(3 * tan(2), 12);
  });
});

describe('stand heights', () => {
  it('are levelled by raising the lower side', () => {
    expect(evenStand(mm(4.2), mm(3.6))).toEqual({ leftMm: 0, rightMm: expect.closeTo(0.6, 12) });
    expect(evenStand(mm(3), mm(4))).toEqual({ leftMm: 1, rightMm: 0 });
  });

  it('or left one higher by what a leg-length correction wants', () => {
    expect(evenStand(mm(4), mm(4), mm(3))).toEqual({ leftMm: 3, rightMm: 0 });
    expect(evenStand(mm(4), mm(4), mm(-2))).toEqual({ leftMm: 0, rightMm: 2 });
  });

  it('the thin edges that they lead to do make them equal', () => {
    const [left, right] = [deg(2), deg(-0.5)];
    const least = (cant: typeof left) => standHeight({ method: 'plate', plates: plates(W, cant, mm(3)) });
    const gain = evenStand(least(left), least(right));
    const stands = (cant: typeof left, more: number) =>
      standHeight({ method: 'plate', plates: plates(W, cant, mm(3 + more)) });
    expect(stands(left, gain.leftMm)).toBeCloseTo(stands(right, gain.rightMm), 12);
  });
});

const LUGS: Lugs = {
  measured: { toe: pair(19.2, 19.1), heel: pair(30.3, 30) },
  nominalMm: both(19, 30),
  looseSoleMm: mm(0),
  minLeftMm: mm(10),
};
const plate: SoleWork = { method: 'plate', plates: plates(W, deg(2), mm(3)) };

describe('routing', () => {
  it('brings the lug back to its height over the new sole: t(x) + (h0 − nominal)', () => {
    const told = routing(plate, LUGS);
    if (!told.told) throw new Error(JSON.stringify(told.faults));
    expect(told.rout.toe.medialMm).toBeCloseTo(3 + 69 * tan(2) + 0.2, 12);
    expect(told.rout.toe.lateralMm).toBeCloseTo(3 + 0.1, 12);
    expect(told.rout.heel.medialMm).toBeCloseTo(3 + 69 * tan(2) + 0.3, 12);
    expect(told.rout.heel.lateralMm).toBeCloseTo(3, 12);
    // h0 − rout: the plate's own thickness is gone from the nominal height.
    expect(told.lugLeft.toe.medialMm).toBeCloseTo(19 - 3 - 69 * tan(2), 12);
    expect(told.lugLeft.heel.lateralMm).toBeCloseTo(27, 12);
  });

  it('after planing: lifter − r(x) + (h0 − nominal), and the planed side has lost r(x) too', () => {
    const work: SoleWork = { method: 'plane', cut: planing(W, deg(2)), lifterMm: mm(4) };
    const told = routing(work, LUGS);
    if (!told.told) throw new Error(JSON.stringify(told.faults));
    expect(told.rout.toe.medialMm).toBeCloseTo(4.2, 12);
    expect(told.rout.toe.lateralMm).toBeCloseTo(4 - 69 * tan(2) + 0.1, 12);
    expect(told.lugLeft.toe.medialMm).toBeCloseTo(19.2 - 4.2, 12);
    expect(told.lugLeft.toe.lateralMm).toBeCloseTo(19.1 - (4 - 69 * tan(2) + 0.1) - 69 * tan(2), 12);
  });

  it('a replaceable sole is no solid lug: its thickness comes off as well', () => {
    const solid = routing(plate, LUGS);
    const loose = routing(plate, { ...LUGS, looseSoleMm: mm(2) });
    if (!solid.told || !loose.told) throw new Error('not told');
    expect(loose.lugLeft.toe.medialMm).toBeCloseTo(solid.lugLeft.toe.medialMm - 2, 12);
    expect(loose.rout).toEqual(solid.rout);
  });

  it.each<[string, Partial<Lugs>]>([
    ['minimum-unknown', { minLeftMm: null }],
    ['lug-unmeasured', { measured: null }],
    ['loose-sole-unknown', { looseSoleMm: null }],
    ['nominal-unknown', { nominalMm: { toe: null, heel: mm(30) } }],
  ])('is not told while something is unknown: %s', (code, change) => {
    const answer = routing(plate, { ...LUGS, ...change });
    expect(answer).toMatchObject({ told: false, faults: [{ code }] });
    expect(answer).not.toHaveProperty('rout');
  });

  it('all that is unknown is named at once', () => {
    const answer = routing(plate, {
      measured: null,
      nominalMm: { toe: null, heel: null },
      looseSoleMm: null,
      minLeftMm: null,
    });
    expect(answer.told ? [] : answer.faults.map((f) => f.code)).toEqual([
      'lug-unmeasured',
      'minimum-unknown',
      'loose-sole-unknown',
      'nominal-unknown',
      'nominal-unknown',
    ]);
  });

  it('names a lug that would be too low, with its place and by how much', () => {
    const work: SoleWork = { method: 'plane', cut: planing(W, deg(2)), lifterMm: mm(1) };
    const answer = routing(work, LUGS);
    expect(answer).toMatchObject({
      told: false,
      faults: [
        {
          code: 'lug-too-low',
          zone: 'toe',
          edge: 'lateral',
          byMm: expect.closeTo(69 * tan(2) - 1.1, 9) as number,
        },
        {
          code: 'lug-too-low',
          zone: 'heel',
          edge: 'lateral',
          byMm: expect.closeTo(69 * tan(2) - 1, 9) as number,
        },
      ],
    });
  });

  it('the least lifter leaves no lug too low, and a thinner one does', () => {
    const cut = planing(W, deg(2));
    const lifter = leastLifter(cut, LUGS.measured!, both(19, 30));
    expect(lifter).toBeCloseTo(69 * tan(2), 12);
    const at = (lifterMm: number) => routing({ method: 'plane', cut, lifterMm: mm(lifterMm) }, LUGS).told;
    expect(at(lifter)).toBe(true);
    expect(at(lifter - 0.01)).toBe(false);
  });

  it('names a lug that would be left too thin', () => {
    const answer = routing(plate, { ...LUGS, minLeftMm: mm(14) });
    expect(answer).toMatchObject({
      told: false,
      faults: [{ code: 'lug-too-thin', zone: 'toe', edge: 'medial', minMm: 14 }],
    });
  });
});

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyWork: fc.Arbitrary<SoleWork> = fc
  .record({
    toe: real(30, 130),
    heel: real(30, 130),
    cant: real(-12, 12),
    thin: real(0, 30),
    rise: real(-40, 40),
    lifter: real(0, 40),
    plane: fc.boolean(),
  })
  .map(({ toe, heel, cant, thin, rise, lifter, plane }) =>
    plane
      ? { method: 'plane', cut: planing(both(toe, heel), deg(cant), mm(rise)), lifterMm: mm(lifter) }
      : { method: 'plate', plates: plates(both(toe, heel), deg(cant), mm(thin), mm(rise)) },
  );
const anyPair = (min: number, max: number) =>
  fc.tuple(real(min, max), real(min, max)).map(([a, b]) => pair(a, b));
const lugsOf = (toe: [number, number], heel: [number, number], loose: number, least: number) =>
  fc.record({
    measured: fc.record({ toe: anyPair(...toe), heel: anyPair(...heel) }),
    nominalMm: fc.record({ toe: real(10, 20).map(mm), heel: real(24, 32).map(mm) }),
    looseSoleMm: real(0, loose).map(mm),
    minLeftMm: real(0, least).map(mm),
  });
/** Half of them anywhere in bounds, half near what a boot is, so that many are told. */
const anyLugs: fc.Arbitrary<Lugs> = fc.oneof(
  lugsOf([0, 80], [0, 80], 20, 40),
  lugsOf([18, 24], [30, 36], 2, 6),
);

describe('whatever is planned', () => {
  it('what is told holds: no depth is negative, enough is left, and the lug stands at its height', () => {
    let told = 0;
    fc.assert(
      fc.property(anyWork, anyLugs, (work, lugs) => {
        const answer = routing(work, lugs);
        expect(Number.isFinite(standHeight(work))).toBe(true);
        if (!answer.told) {
          expect(answer.faults.length).toBeGreaterThan(0);
          return;
        }
        told++;
        for (const zone of ['toe', 'heel'] as const)
          for (const key of ['medialMm', 'lateralMm'] as const) {
            const under =
              work.method === 'plate' ? work.plates[zone][key] : work.lifterMm - work.cut[zone][key];
            const top = lugs.measured![zone][key] + under - answer.rout[zone][key];
            expect(top).toBeCloseTo(lugs.nominalMm[zone]!, 6);
            expect(answer.rout[zone][key]).toBeGreaterThanOrEqual(0);
            expect(answer.lugLeft[zone][key]).toBeGreaterThanOrEqual(lugs.minLeftMm! - 1e-6);
          }
      }),
      { numRuns: 3000 },
    );
    expect(told).toBeGreaterThan(100);
  });

  it('the mirrored cant swaps the edges', () => {
    fc.assert(
      fc.property(
        real(30, 130),
        real(30, 130),
        real(0.01, 12),
        real(0, 30),
        real(-40, 40),
        (toe, heel, cant, thin, rise) => {
          const widths = both(toe, heel);
          const [a, b] = [
            plates(widths, deg(cant), mm(thin), mm(rise)),
            plates(widths, deg(-cant), mm(thin), mm(rise)),
          ];
          const [c, d] = [planing(widths, deg(cant), mm(rise)), planing(widths, deg(-cant), mm(rise))];
          for (const zone of ['toe', 'heel'] as const) {
            expect([b[zone].medialMm, b[zone].lateralMm]).toEqual([a[zone].lateralMm, a[zone].medialMm]);
            expect([d[zone].medialMm, d[zone].lateralMm]).toEqual([c[zone].lateralMm, c[zone].medialMm]);
            expect(a[zone].thinEdgeMm).toBeGreaterThanOrEqual(thin - 1e-9);
          }
        },
      ),
    );
  });
});
