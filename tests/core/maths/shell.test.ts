/** Boot length from a pair of feet, and the gap behind the heel. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandsOf } from '../../../core/guide/fit.ts';
import { DEFAULT_SETTINGS } from '../../../core/index.ts';
import { markedMm, mondopoint, SHELL_GAP_BANDS, shellGapBand } from '../../../core/maths/shell.ts';
import { mm } from '../../../core/units.ts';

describe('boot length', () => {
  it('is marked in centimetres or millimetres', () => {
    expect([26.5, 265, 36, 150].map(markedMm)).toEqual([265, 265, 360, 150]);
  });

  it('has the bands of the settings', () => {
    expect(bandsOf(DEFAULT_SETTINGS)).toEqual(SHELL_GAP_BANDS);
  });

  it('goes by the longer foot', () => {
    expect(mondopoint(mm(262), mm(266))).toEqual({
      lengthMm: 266,
      longer: 'right',
      belowMm: 265,
      aboveMm: 270,
      nearestMm: 265,
    });
    expect(mondopoint(mm(267.5), mm(266))).toMatchObject({ longer: 'left', nearestMm: 270 });
  });

  it('a foot that is a size is between no two', () => {
    expect(mondopoint(mm(265), mm(265))).toEqual({
      lengthMm: 265,
      longer: 'both',
      belowMm: 265,
      aboveMm: 265,
      nearestMm: 265,
    });
    expect(mondopoint(mm(267.5), mm(1), mm(7.5))).toMatchObject({ belowMm: 262.5, aboveMm: 270 });
  });

  it('lies between its sizes, for every foot', () => {
    const foot = fc.double({ min: 120, max: 380, noNaN: true });
    fc.assert(
      fc.property(foot, foot, (left, right) => {
        const one = mondopoint(mm(left), mm(right));
        expect(one.belowMm).toBeLessThanOrEqual(one.lengthMm + 1e-6);
        expect(one.aboveMm).toBeGreaterThanOrEqual(one.lengthMm - 1e-6);
        expect(Math.abs(one.nearestMm - one.lengthMm)).toBeLessThanOrEqual(2.5 + 1e-6);
        const turned = mondopoint(mm(right), mm(left));
        expect(turned.lengthMm).toBe(one.lengthMm);
        const other = { left: 'right', right: 'left', both: 'both' } as const;
        expect(turned.longer).toBe(other[one.longer]);
      }),
    );
  });

  it.each([
    [3, 'too short'],
    [5, 'too short'],
    [5.1, 'race'],
    [12, 'performance'],
    [20, 'comfort'],
  ])('a shell gap of %d mm is %s', (gap, name) => {
    expect(shellGapBand(mm(gap))!.name).toBe(name);
  });

  it('a gap over the last band is in none, and the bands are the shop’s', () => {
    expect(shellGapBand(mm(21))).toBeNull();
    expect(shellGapBand(mm(12), [{ name: 'ours', toMm: mm(30) }])!.name).toBe('ours');
    const ends = SHELL_GAP_BANDS.map((band) => band.toMm);
    expect(ends).toEqual(ends.toSorted((a, b) => a - b));
  });
});
