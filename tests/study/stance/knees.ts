/**
 * Knees for the study, drawn from a printed seed. What is measured of people has its source; what nobody has published is an
 * assumption with a name, and can be changed in one place.
 */
import { deg, mm, tanDeg } from '../../../core/units.ts';
import type { Random } from '../../../demo/random.ts';

/** ANSUR II (US Army, 2012, public): mid-patella height of 4082 men, mm. Soldiers of 17 to 58, no skiers. */
const HEIGHT = { mean: 488.39, sd: 28.13 };
/** A man stands in a boot with his sole so much above the floor, from memory; ANSUR measures barefoot. */
const BOOT_MM = 30;

export const ASSUMED = {
  /** Knee centre over the boot on a flat sole once the cuffs are closed, lateral positive, mm; from memory. */
  offsetMeanMm: 0,
  offsetSdMm: 8,
  /** Share of the rigid leg's movement that a knee makes: mean by case. Published are wedges with mixed and even reversed effects. */
  shareSd: 0.15,
  leastShare: 0.2,
} as const;

export interface Knee {
  /** Above the sole, mm. */
  readonly heightMm: number;
  /** On a flat sole, mm. */
  readonly offsetMm: number;
  /** Movement for one degree of cant, mm. */
  readonly slopeMm: number;
}

export function kneeOf(random: Random, meanShare: number): Knee {
  const heightMm = HEIGHT.mean + BOOT_MM + random.normal(HEIGHT.sd);
  const share = Math.max(ASSUMED.leastShare, Math.min(1, meanShare + random.normal(ASSUMED.shareSd)));
  return {
    heightMm,
    offsetMm: ASSUMED.offsetMeanMm + random.normal(ASSUMED.offsetSdMm),
    slopeMm: share * mm(heightMm) * tanDeg(deg(1)),
  };
}
