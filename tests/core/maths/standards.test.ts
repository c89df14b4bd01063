/** Soles against their limits, and heights against competition rules. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SOLE_STANDARDS } from '../../../core/index.ts';
import { RACE_RULES, raceCheck, soleHeightWith } from '../../../core/maths/racing.ts';
import { conformance, SOLE_PRESETS, taper } from '../../../core/maths/standards.ts';
import type { MeasuredZone, SolePreset } from '../../../core/maths/standards.ts';
import { mm } from '../../../core/units.ts';

const zone = (medial: number, lateral: number, width: number): MeasuredZone => ({
  heightMedialMm: mm(medial),
  heightLateralMm: mm(lateral),
  widthMm: mm(width),
});
const sole = (toe: MeasuredZone, heel: MeasuredZone) => ({ toe, heel });
const GOOD = sole(zone(19.3, 18.9, 69), zone(30.2, 29.6, 68));
const A = SOLE_PRESETS['iso5355-a'];

describe('sole presets', () => {
  it('there is one for each standard that a boot can be described with', () => {
    expect(Object.keys(SOLE_PRESETS).toSorted()).toEqual([...SOLE_STANDARDS].toSorted());
  });

  it('each figure says where it comes from', () => {
    for (const preset of Object.values<SolePreset>(SOLE_PRESETS))
      for (const at of [preset.toe, preset.heel])
        for (const limit of [at.heightMm, at.widthMm])
          if (limit) expect(limit.provenance).toMatch(/check against your copy/);
  });

  it.each([
    // from memory, low; no copy of the standards seen
    ['iso5355-a', 18, 20, 29, 31, 67, 71],
    ['iso5355-c', 15, 18, 25, 29, 60, 64],
  ] as const)('%s: toe %d to %d, heel %d to %d, width %d to %d mm (memory)', (name, ...limits) => {
    const { toe, heel } = SOLE_PRESETS[name];
    const around = [toe.heightMm, heel.heightMm, toe.widthMm].flatMap((l) => [
      l.nominalMm - l.toleranceMm,
      l.nominalMm + l.toleranceMm,
    ]);
    expect(around).toEqual(limits);
  });
});

describe('conformance', () => {
  it('holds when every known limit does, and names what nobody knows', () => {
    expect(conformance(GOOD, A)).toEqual({
      conforms: true,
      failures: [],
      unchecked: ['toe.parallelMm', 'heel.widthMm', 'heel.parallelMm'],
    });
  });

  it('names each place outside, with its limits', () => {
    const bad = conformance(sole(zone(20.4, 19, 72), zone(30, 28.9, 68)), A);
    expect(bad.conforms).toBe(false);
    expect(bad.failures).toEqual([
      { where: 'toe.heightMedialMm', is: 20.4, min: 18, max: 20 },
      { where: 'toe.widthMm', is: 72, min: 67, max: 71 },
      { where: 'heel.heightLateralMm', is: 28.9, min: 29, max: 31 },
    ]);
  });

  it('a limit itself is allowed', () => {
    expect(conformance(sole(zone(18, 20, 67), zone(29, 31, 90)), A).conforms).toBe(true);
    expect(conformance(sole(zone(17.99, 20, 67), zone(29, 31, 90)), A).conforms).toBe(false);
  });

  it('a sole of which nothing is known neither conforms nor fails', () => {
    const nothing = conformance(GOOD, SOLE_PRESETS.other);
    expect(nothing.conforms).toBeNull();
    expect(nothing.unchecked).toHaveLength(8);
  });

  it('judges parallelism where the shop entered a limit', () => {
    const parallelMm = { maxMm: mm(0.5), provenance: 'the shop’s own' };
    const preset = { toe: { ...A.toe, parallelMm }, heel: A.heel };
    expect(taper(GOOD.toe)).toBeCloseTo(0.4, 12);
    expect(conformance(GOOD, preset).conforms).toBe(true);
    expect(conformance(sole(zone(18.5, 19.2, 69), GOOD.heel), preset).failures).toEqual([
      { where: 'toe.parallelMm', is: expect.closeTo(0.7, 12) as number, min: 0, max: 0.5 },
    ]);
  });

  it('mirrored soles are judged alike', () => {
    const height = fc.double({ min: 0, max: 80, noNaN: true });
    const width = fc.double({ min: 30, max: 130, noNaN: true });
    const anyZone = fc.tuple(height, height, width).map((z) => zone(...z));
    const turn = (z: MeasuredZone) => zone(z.heightLateralMm, z.heightMedialMm, z.widthMm);
    const near = fc.tuple(fc.double({ min: 17, max: 21, noNaN: true }), height, width).map((z) => zone(...z));
    fc.assert(
      fc.property(fc.oneof(anyZone, near), anyZone, (toe, heel) => {
        const one = conformance(sole(toe, heel), A);
        const other = conformance(sole(turn(toe), turn(heel)), A);
        expect(other.conforms).toBe(one.conforms);
        expect(other.failures).toHaveLength(one.failures.length);
      }),
    );
  });
});

describe('competition', () => {
  it('tells the room that is left, and what is too much', () => {
    const heights = { standHeightMm: mm(49), soleHeightMm: soleHeightWith(mm(39), mm(5)) };
    expect(raceCheck(heights, RACE_RULES.general)).toEqual({
      allowed: false,
      failures: [{ where: 'soleHeightMm', is: 44, min: 0, max: 43 }],
      unchecked: [],
      roomMm: { standHeightMm: 1, soleHeightMm: -1 },
    });
    expect(raceCheck(heights, RACE_RULES.masters).allowed).toBe(true);
  });

  it('what was not measured is unchecked', () => {
    expect(raceCheck({ standHeightMm: null, soleHeightMm: mm(43) }, RACE_RULES.general)).toMatchObject({
      allowed: true,
      unchecked: ['standHeightMm'],
      roomMm: { standHeightMm: null, soleHeightMm: 0 },
    });
    expect(raceCheck({ standHeightMm: null, soleHeightMm: null }, RACE_RULES.general).allowed).toBeNull();
  });

  it('each class says for which season, and that its figures are to be checked', () => {
    for (const { season, standHeightMm, soleHeightMm } of Object.values(RACE_RULES)) {
      expect(season).not.toBe('');
      for (const limit of [standHeightMm, soleHeightMm]) expect(limit.provenance).toMatch(/of your season/);
    }
  });
});
