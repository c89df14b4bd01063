/**
 * One leg carried from earlier sessions into a boot that is described now: a prior with added error, never a reading.
 *
 * What is added: 0.7° because a skier never stands twice alike (standard error of a frontal tibial angle between
 * sessions, one rater: Tse et al. 2021, Phys Ther, doi 10.1093/ptj/pzab091); 1° where the boot is another one, whose
 * shell, liner and footbed hold the leg otherwise (from memory, no source); 0.5° for the square root of each year
 * (from memory, no source); and 3 mm of the pivot line's offset where it was taken through the centre (the default of
 * `offsetLimitMm`), as far as the reading height differs.
 */
import { legAt } from '../maths/reach.ts';
import { deg, mm, sinDeg, tanDeg } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import type { SeenLeg } from './lessons.ts';
import type { Hardware } from './side.ts';

export const CARRY_ERROR = { sessionDeg: 0.7, otherBootDeg: 1, yearDeg: 0.5, offsetMm: 3 } as const;

/** A leg as one earlier session saw it. */
export interface EarlierLeg extends SeenLeg {
  readonly session: string;
  /** The boot's tag, null without one: untagged boots may always be others. */
  readonly tag: string | null;
  /** How long ago, ms, at least 0. */
  readonly agoMs: number;
}

export interface CarriedLeg {
  readonly session: string;
  readonly mLegMm: Mm;
  readonly sdMm: Mm;
  /** Absent where the leg was only taken through the pivot line's centre. */
  readonly line?: SeenLeg['line'];
}

const YEAR_MS = 365.25 * 86_400_000;

/** Deviation that is added to a leg's angle, degrees. */
export const addedDeg = (sameBoot: boolean, agoMs: number): Deg =>
  deg(
    Math.hypot(
      CARRY_ERROR.sessionDeg,
      sameBoot ? 0 : CARRY_ERROR.otherBootDeg,
      CARRY_ERROR.yearDeg * Math.sqrt(Math.max(0, agoMs) / YEAR_MS),
    ),
  );

/**
 * The leg in this boot, from the earlier session that leaves it surest; null where none is known, or the boot's
 * factory lean is not.
 *
 * 2.073° through the centre to 1.5 mm at 160 mm, a year ago in another boot; here 150 mm up, upright at neutral:
 * m = 5.430 mm, deviation √((1.5·150/160)² + (150·tan 1.319°)² + (3·10/160)²) = 3.733 mm.
 */
export function carried(
  earlier: readonly EarlierLeg[],
  boot: { readonly hardware: Hardware; readonly tag?: string | undefined },
): CarriedLeg | null {
  const { readingHeightMm: height, factoryLeanDeg } = boot.hardware;
  if (factoryLeanDeg === undefined) return null;
  const legs = earlier.map((leg): CarriedLeg => {
    const ratio = height / leg.heightMm;
    const sameBoot = leg.tag !== null && leg.tag === boot.tag;
    const added = height * tanDeg(addedDeg(sameBoot, leg.agoMs));
    const through = leg.through === 'centre' ? CARRY_ERROR.offsetMm * Math.abs(1 - ratio) : 0;
    return {
      session: leg.session,
      mLegMm: mm(legAt(leg.line, height) - height * sinDeg(factoryLeanDeg)),
      sdMm: mm(Math.hypot(leg.sdMm * ratio, added, through)),
      ...(leg.through === 'centre' ? {} : { line: leg.line }),
    };
  });
  return legs.reduce<CarriedLeg | null>((best, leg) => (best && best.sdMm <= leg.sdMm ? best : leg), null);
}
