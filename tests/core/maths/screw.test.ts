/** How long a screw may be. Expected numbers are worked by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastThinEdge, screwsThatFit, screwWindow } from '../../../core/maths/screw.ts';
import type { ScrewPlace } from '../../../core/maths/screw.ts';
import { mm } from '../../../core/units.ts';

const PLACE: ScrewPlace = {
  plateMm: mm(3),
  headDepthMm: mm(0),
  diameterMm: mm(4),
  materialMm: mm(14),
  marginMm: mm(3),
};

describe('screws', () => {
  it('grip two diameters and stay inside: 4 mm through 3 mm of plate is at least 11 mm', () => {
    expect(screwWindow(PLACE)).toEqual({ fits: true, minMm: 11, maxMm: 14, usefulMm: 14 });
    expect(screwWindow({ ...PLACE, materialMm: mm(30) })).toEqual({
      fits: true,
      minMm: 11,
      maxMm: 30,
      usefulMm: 15,
    });
  });

  it('a sunk head passes less of the plate', () => {
    expect(screwWindow({ ...PLACE, headDepthMm: mm(2) })).toMatchObject({ minMm: 9, maxMm: 12 });
  });

  it('material too thin for two diameters takes none, and it is said by how much', () => {
    expect(screwWindow({ ...PLACE, materialMm: mm(9) })).toEqual({ fits: false, minMm: 11, shortByMm: 2 });
  });

  it('an unknown depth lets no screw be chosen', () => {
    const window = screwWindow({ ...PLACE, materialMm: null });
    expect(window).toEqual({ fits: null, minMm: 11 });
    expect(screwsThatFit(window, [mm(12)])).toEqual([]);
  });

  it('the drawer is searched', () => {
    const drawer = [mm(16), mm(14), mm(12), mm(10)];
    expect(screwsThatFit(screwWindow(PLACE), drawer)).toEqual([12, 14]);
    expect(screwsThatFit(screwWindow({ ...PLACE, materialMm: mm(9) }), drawer)).toEqual([]);
  });

  it('every length inside grips and leaves the margin', () => {
    const real = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map(mm);
    const place = fc.record({
      plateMm: real(0, 30),
      headDepthMm: real(0, 10),
      diameterMm: real(2, 8),
      materialMm: real(0, 60),
      marginMm: real(0, 10),
    });
    fc.assert(
      fc.property(place, fc.double({ min: 0, max: 1, noNaN: true }), (at, share) => {
        const window = screwWindow(at);
        if (window.fits !== true) return;
        const engaged = window.minMm + share * (window.maxMm - window.minMm) - (at.plateMm - at.headDepthMm);
        expect(engaged).toBeGreaterThanOrEqual(2 * at.diameterMm - 1e-6);
        expect(engaged).toBeLessThanOrEqual(at.materialMm - at.marginMm + 1e-6);
      }),
    );
  });

  it('a plate keeps its screw heads and a millimetre', () => {
    expect(leastThinEdge(mm(3), mm(2.7))).toBeCloseTo(3.7, 12);
    expect(leastThinEdge(mm(3), mm(1))).toBe(3);
    expect(leastThinEdge(mm(3), null)).toBe(3);
  });
});
