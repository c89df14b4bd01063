/** A leg from earlier sessions in a boot that is described now. */
import { describe, expect, it } from 'vitest';
import { addedDeg, carried, deg, mm } from '../../core/index.ts';
import type { EarlierLeg } from '../../core/index.ts';
import { DUAL } from '../helpers/facts.ts';

const YEAR = 365.25 * 86_400_000;
const leg = (of: Partial<EarlierLeg> = {}): EarlierLeg => ({
  session: 'a',
  tag: null,
  agoMs: 0,
  line: { offsetMm: mm(0), angleDeg: deg(2.073) },
  through: 'centre',
  sdMm: 1.5,
  heightMm: 160,
  ...of,
});
const boot = (readingHeightMm: number, factoryLeanDeg?: number, tag?: string) => ({
  hardware: { ...DUAL, readingHeightMm, factoryLeanDeg } as unknown as typeof DUAL,
  tag,
});

describe('a leg carried', () => {
  it('[LEG-1] stands where its line stands, and is less sure for the boot, the time and the height', () => {
    const here = carried([leg({ agoMs: YEAR })], boot(150, 0))!;
    // 150·tan 2.073°; √((1.5·150/160)² + (150·tan 1.319°)² + (3·10/160)²).
    expect(here.mLegMm).toBeCloseTo(5.429, 3);
    expect(here.sdMm).toBeCloseTo(3.734, 3);
    expect(here.line).toBeUndefined();
    expect(carried([leg({ agoMs: YEAR })], boot(150, 1))!.mLegMm).toBeCloseTo(5.429 - 150 * 0.017452, 3);
  });

  it('[LEG-1] is surer in the same boot, known by its tag, and never surer than it was read', () => {
    const same = carried([leg({ tag: 'B-7' })], boot(160, 1, 'B-7'))!;
    const other = carried([leg({ tag: 'B-7' })], boot(160, 1, 'B-8'))!;
    const untagged = carried([leg()], boot(160, 1))!;
    expect(same.sdMm).toBeCloseTo(Math.hypot(1.5, 160 * Math.tan((0.7 * Math.PI) / 180)), 6);
    expect(other.sdMm).toBeGreaterThan(same.sdMm);
    expect(untagged.sdMm).toBe(other.sdMm);
    expect(addedDeg(true, 0)).toBeCloseTo(0.7, 9);
    expect(addedDeg(false, 4 * YEAR)).toBeCloseTo(Math.hypot(0.7, 1, 1), 9);
    // A clock that was set back makes nothing surer.
    expect(addedDeg(true, -YEAR)).toBe(addedDeg(true, 0));
  });

  it('[LEG-1] comes from the session that leaves it surest, with its line where two heights gave one', () => {
    const found = carried(
      [
        leg({ session: 'old', agoMs: 9 * YEAR }),
        leg({
          session: 'same boot',
          tag: 'B-7',
          agoMs: YEAR,
          through: 'two-heights',
          line: { offsetMm: mm(1), angleDeg: deg(1.5) },
        }),
        leg({ session: 'new', agoMs: YEAR / 12 }),
      ],
      boot(160, 1, 'B-7'),
    )!;
    expect(found.session).toBe('same boot');
    expect(found.line).toEqual({ offsetMm: 1, angleDeg: 1.5 });
  });

  it('[LEG-1] is not known without an earlier session, nor in a boot of unknown factory lean', () => {
    expect(carried([], boot(160, 1))).toBeNull();
    expect(carried([leg()], boot(160))).toBeNull();
  });
});
