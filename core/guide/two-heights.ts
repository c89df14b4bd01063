/** Gaps at two heights: tilt and offset apart, and the parallel cuff as an answer of its own. */
import { aim, bias, biasAfter, gapsFor, tiltAndOffset } from '../maths/cuff.ts';
import type { Sight } from '../maths/cuff.ts';
import { lean } from '../maths/hardware.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import type { Settings } from '../record/settings.ts';
import { deg, mm, sinDeg } from '../units.ts';
import type { Mm } from '../units.ts';
import { photoSd } from './evidence.ts';
import { leanOf } from './move.ts';
import { pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import type { CuffPlan } from './shape.ts';

export function twoHeightsOf(
  hardware: HardwareNow,
  set: Pair,
  pool: readonly JudgedReading[],
  sight: Sight,
  sumMm: Mm,
  settings: Settings,
): { plan: CuffPlan['twoHeights']; tooClose: boolean } {
  const reading = pool.findLast((r) => r.fact.lower !== undefined && r.fact.lower.contact === 'none');
  const lower = reading?.fact.lower;
  if (!reading || !lower || pressed(reading)) return { plan: null, tooClose: false };
  const heights = {
    upper: {
      biasMm: bias(reading.fact),
      heightMm: reading.heightMm,
      extraSdMm: mm(photoSd(reading.fact)),
    },
    lower: { biasMm: bias(lower), heightMm: lower.heightMm },
  };
  const found = tiltAndOffset(heights, mm(settings.gapErrorMm));
  if (!found) return { plan: null, tooClose: true };
  const wanted = deg(lean(hardware, set) + found.angleDeg / sight.response);
  const tiltLeft = (pair: Pair): Mm =>
    mm(2 * sight.response * hardware.readingHeightMm * (sinDeg(wanted) - sinDeg(lean(hardware, pair))));
  const parallel = aim(hardware, { ...sight, biasMm: tiltLeft(set) }, set, wanted, tiltLeft);
  const { target } = parallel;
  return {
    tooClose: false,
    plan: {
      ...found,
      agree: Math.abs(found.offsetMm) <= Math.max(settings.offsetLimitMm, 2 * found.offsetSdMm),
      parallel: {
        correctionDeg: parallel.correctionDeg,
        target: target && { ...target, leanDeg: leanOf(hardware, target) },
        predicted: target && gapsFor(sumMm, biasAfter(hardware, sight, set, target)),
      },
    },
  };
}
