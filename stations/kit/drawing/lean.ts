/** The magnified lean: angles enlarged for the eye, with the same words for which way. */
import { deg, degAsin, sinDeg } from '../../../core/index.ts';
import type { Side, SidePlan } from '../../../core/index.ts';
import { gapsShown, lateralIsRight, leanFromPivots, moves } from './geometry.ts';
import type { LookFrom, Point, Tip } from './geometry.ts';

/** How many times each angle is enlarged. */
export const TIMES = 8;
const LIMIT_DEG = 68;

export interface Leans {
  /**
   * Degrees from plumb, outward positive, not enlarged; from factory where the factory lean is unknown; null where
   * nothing is known.
   */
  readonly cuff: number | null;
  readonly to: number | null;
  readonly leg: number | null;
}

export function leansOf({ cuff }: SidePlan): Leans {
  const gaps = gapsShown(cuff)?.pair;
  const lean = cuff.leanDeg ?? (cuff.set ? leanFromPivots(cuff, cuff.set) : null);
  const to = cuff.target && moves(cuff) ? (cuff.target.leanDeg ?? leanFromPivots(cuff, cuff.target)) : null;
  const leg =
    gaps && lean !== null && cuff.hardware
      ? degAsin(sinDeg(deg(lean)) + (gaps.medialMm - gaps.lateralMm) / 2 / cuff.hardware.readingHeightMm)
      : null;
  return { cuff: lean, to, leg };
}

const enlarged = (angleDeg: number): number => Math.max(-LIMIT_DEG, Math.min(LIMIT_DEG, angleDeg * TIMES));

/** What turns a line drawn at `isDeg` into the one drawn at `toDeg`. */
export const turnOf = (isDeg: number, toDeg: number, side: Side, from: LookFrom): Tip => ({
  about: { x: 0, y: 0 },
  deg: (lateralIsRight(side, from) ? 1 : -1) * (enlarged(toDeg) - enlarged(isDeg)),
});

/** The end of a line of `length` from the origin, its angle enlarged; y runs down. */
export function tipOf(angleDeg: number, length: number, side: Side, from: LookFrom): Point {
  const angle = deg(enlarged(angleDeg));
  const outward = lateralIsRight(side, from) ? 1 : -1;
  return { x: outward * sinDeg(angle) * length, y: -Math.sqrt(1 - sinDeg(angle) ** 2) * length };
}
