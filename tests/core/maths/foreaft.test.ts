/** Fore-aft angles. Expected numbers are worked by hand from the formulas beside them. */
import { describe, expect, it } from 'vitest';
import { foreAft } from '../../../core/maths/foreaft.ts';
import type { ForeAftReading } from '../../../core/maths/foreaft.ts';
import { deg, mm } from '../../../core/units.ts';

const atan = (ratio: number) => (Math.atan(ratio) * 180) / Math.PI;
const READING: ForeAftReading = {
  boardHeelMm: mm(28),
  boardToeMm: mm(20),
  boardSpanMm: mm(180),
  standHeelMm: mm(26),
  standToeMm: mm(24),
  soleLengthMm: mm(310),
  forwardLeanDeg: deg(13),
};

describe('fore-aft', () => {
  it('ramp and delta, and what they add up to', () => {
    const angles = foreAft(READING);
    expect(angles.rampDeg).toBeCloseTo(atan(8 / 180), 12);
    expect(angles.deltaDeg).toBeCloseTo(atan(2 / 310), 12);
    expect(angles.netRampDeg).toBeCloseTo(atan(8 / 180) + atan(2 / 310), 12);
    expect(angles.netForwardLeanDeg).toBeCloseTo(13 + atan(2 / 310), 12);
    expect(angles.degPerHeelMm).toBeCloseTo(atan(1 / 310), 12);
  });

  it('a lower heel is negative', () => {
    const down = foreAft({ ...READING, standHeelMm: mm(22) });
    expect(down.deltaDeg).toBeCloseTo(-atan(2 / 310), 12);
    expect(down.netForwardLeanDeg!).toBeLessThan(13);
  });

  it('a planned wedge joins delta and the net angles, not the ramp', () => {
    const [plain, wedged] = [foreAft(READING), foreAft(READING, deg(1))];
    expect(wedged.rampDeg).toBe(plain.rampDeg);
    for (const field of ['deltaDeg', 'netRampDeg', 'netForwardLeanDeg'] as const)
      expect(wedged[field]! - plain[field]!).toBeCloseTo(1, 12);
  });

  it('what was not measured is not told, and nothing that rests on it', () => {
    expect(foreAft({ ...READING, standToeMm: null, forwardLeanDeg: null })).toEqual({
      rampDeg: expect.closeTo(atan(8 / 180), 12) as number,
      deltaDeg: null,
      netRampDeg: null,
      netForwardLeanDeg: null,
      degPerHeelMm: expect.closeTo(atan(1 / 310), 12) as number,
    });
    expect(foreAft({ ...READING, soleLengthMm: null })).toMatchObject({ deltaDeg: null, degPerHeelMm: null });
  });
});
