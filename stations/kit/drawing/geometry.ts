/**
 * The pair as a drawing: from the plan's numbers to points. One unit of the drawing is one millimetre, so every
 * length on it can be measured back.
 *
 * A leg is first laid out in its own frame: x lateral, y up, the origin midway between the pivots at their factory
 * neutral. `place` then puts it on the sheet, where x runs to the viewer's right and y down.
 */
import { deg, degAsin, sinDeg, tanDeg } from '../../../core/index.ts';
import type { Adjuster, AdjusterReach, CuffPlan, Pair, Side, SidePlan } from '../../../core/index.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}
/** Facing the skier, whose right leg is then on the viewer's left; or from behind. */
export type LookFrom = 'front' | 'behind';

/** Sizes that no entry gives. They carry no reading: all that is read is drawn at its own place. */
export const FORM = {
  /** From the floor to the pivot line. */
  pivotHeight: 108,
  soleThickness: 26,
  soleHalf: 37,
  /** Half the inside of the cuff at the reading height is half the pivot spacing and this. */
  cuffFlare: 9,
  cuffThick: 5,
  cuffAbove: 24,
  legAbove: 58,
  /** From the middle of the sheet to the middle of each boot. */
  apart: 122,
  sheetHalf: 248,
} as const;

const ASSUMED = { spacing: 86, height: 180 } as const;

export interface PivotShape {
  readonly adjuster: Adjuster;
  /** Where it stands, and where it shall stand. */
  readonly at: Point;
  readonly to: Point | null;
  /** The travel window, bottom and top; null when it cannot be moved. */
  readonly window: readonly [Point, Point] | null;
  readonly marks: readonly Point[];
}

export interface CuffShape {
  /** Each wall as a closed band, its inner face first, from the bottom to the rim. */
  readonly lateral: readonly Point[];
  readonly medial: readonly Point[];
  /** The inside between the walls. */
  readonly inside: readonly Point[];
  /** From the pivot line to above the rim. */
  readonly centre: readonly [Point, Point];
}

export interface GapShape {
  readonly mm: number;
  /** From the leg to the wall, at the reading height. */
  readonly leg: Point;
  readonly wall: Point;
}

/** A turn about the middle of the pivot line, degrees; positive is clockwise as drawn. */
export interface Tip {
  readonly about: Point;
  readonly deg: number;
}

export interface BootShape {
  readonly side: Side;
  readonly sole: readonly Point[];
  readonly shell: readonly Point[];
  readonly toeCap: readonly Point[];
  /** The middle of the toe cap: where the side letter stands. */
  readonly badge: Point;
  readonly pivots: readonly PivotShape[];
  /** At its lean now; null when that is not known. */
  readonly cuff: CuffShape | null;
  /** As recommended; null when nothing is. */
  readonly target: CuffShape | null;
  /** What turns the cuff as it is into the recommended one, for the eye to follow; null when nothing is recommended. */
  readonly tip: Tip | null;
  readonly leg: { readonly outline: readonly Point[]; readonly centre: readonly [Point, Point] } | null;
  readonly gaps: Readonly<Record<Adjuster, GapShape>> | null;
}

type Put = (p: Point) => Point;

/** The whole sheet, for the taller reading height of the two. */
export function sheetOf(heights: readonly number[]): {
  left: number;
  top: number;
  width: number;
  height: number;
} {
  const top = Math.max(ASSUMED.height, ...heights) + FORM.legAbove;
  return { left: -FORM.sheetHalf, top: -top, width: 2 * FORM.sheetHalf, height: top + FORM.pivotHeight + 6 };
}

/** To the viewer's right is lateral for the left leg seen from the front, and for the right leg from behind. */
export const lateralIsRight = (side: Side, from: LookFrom): boolean =>
  (side === 'left') === (from === 'front');

const place = (side: Side, from: LookFrom, cantDeg: number): Put => {
  const outward = lateralIsRight(side, from) ? 1 : -1;
  const sin = sinDeg(deg(cantDeg));
  const cos = Math.sqrt(1 - sin * sin);
  return ({ x, y }) => {
    // A cant tips the whole boot about the middle of its sole; positive is outward.
    const up = y + FORM.pivotHeight;
    return { x: outward * (FORM.apart + x * cos + up * sin), y: FORM.pivotHeight - (up * cos - x * sin) };
  };
};

/** Half the inside of the cuff at height `y`: half the spacing at the pivot line, flaring upward. */
const wallAt = (y: number, spacing: number, height: number): number =>
  spacing / 2 + FORM.cuffFlare * Math.min(1.15, Math.max(-0.1, y / height));

function cuffAt(leanDeg: number, spacing: number, height: number, put: Put): CuffShape {
  const rim = height + FORM.cuffAbove;
  const levels = [-18, 0, height, rim];
  const face = (sign: 1 | -1, thick: number) =>
    levels.map((y) => put({ x: y * tanDeg(deg(leanDeg)) + sign * (wallAt(y, spacing, height) + thick), y }));
  const band = (sign: 1 | -1) => [...face(sign, 0), ...face(sign, FORM.cuffThick).toReversed()];
  return {
    lateral: band(1),
    medial: band(-1),
    inside: [...face(1, 0), ...face(-1, 0).toReversed()],
    centre: [put({ x: 0, y: 0 }), put({ x: (rim + 12) * tanDeg(deg(leanDeg)), y: rim + 12 })],
  };
}

/** Wide at the reading height, narrow at the ankle; its line runs through the middle of the pivot line. */
function legAt(centreAtHeight: number, half: number, height: number, put: Put) {
  const top = height + FORM.legAbove;
  const line = (y: number) => (centreAtHeight * y) / height;
  const halves: readonly (readonly [number, number])[] = [
    [-12, half * 0.68],
    [height * 0.3, half * 0.76],
    [height * 0.7, half * 0.94],
    [height, half],
    [top, half * 0.985],
  ];
  const edge = (sign: 1 | -1) => halves.map(([y, h]) => put({ x: line(y) + sign * h, y }));
  return {
    outline: [...edge(1), ...edge(-1).toReversed()],
    centre: [put({ x: 0, y: 0 }), put({ x: line(top), y: top })] as const,
  };
}

function pivotShape(
  adjuster: Adjuster,
  reach: AdjusterReach | null,
  at: number,
  to: number | null,
  spacing: number,
  put: Put,
): PivotShape {
  const x = (adjuster === 'lateral' ? 1 : -1) * (spacing / 2);
  const point = (y: number) => put({ x, y });
  return {
    adjuster,
    at: point(at),
    to: to === null || Math.abs(to - at) < 1e-9 ? null : point(to),
    window: reach ? [point(reach.minMm), point(reach.maxMm)] : null,
    marks: (reach?.stops ?? []).map((stop) => point(stop.mm)),
  };
}

/** The walls' places follow the lean, the leg's place the reading: `medial − lateral` is twice its offset. */
function legAndGaps(reading: Pair, leanDeg: number, spacing: number, height: number, put: Put) {
  const cuffCentre = height * tanDeg(deg(leanDeg));
  const inside = wallAt(height, spacing, height);
  const half = inside - (reading.medialMm + reading.lateralMm) / 2;
  const centre = cuffCentre + (reading.medialMm - reading.lateralMm) / 2;
  const gap = (sign: 1 | -1, mm: number): GapShape => ({
    mm,
    leg: put({ x: centre + sign * half, y: height }),
    wall: put({ x: cuffCentre + sign * inside, y: height }),
  });
  return {
    leg: legAt(centre, half, height, put),
    gaps: { lateral: gap(1, reading.lateralMm), medial: gap(-1, reading.medialMm) },
  };
}

/** A move that moves something and is asked for: what is even may stay as it is. */
export const moves = ({ move, verdict, moveOn }: CuffPlan): boolean =>
  move !== null &&
  (verdict !== 'even' || moveOn !== null) &&
  (Math.abs(move.medialMm) > 1e-6 || Math.abs(move.lateralMm) > 1e-6);

/** The gaps that the drawing shows: as read at today's setting, else as expected after the move. */
export const gapsShown = (cuff: CuffPlan): { readonly pair: Pair; readonly expected: boolean } | null => {
  if (cuff.expected) return { pair: cuff.expected, expected: true };
  if (cuff.reading && !cuff.reading.stale) return { pair: cuff.reading, expected: false };
  return null;
};

function lowerBoot(spacing: number, put: Put) {
  const { soleHalf: s, soleThickness: t, pivotHeight } = FORM;
  const floor = -pivotHeight;
  const collar = spacing / 2 - 2;
  const outline = (points: readonly (readonly [number, number])[]) => points.map(([x, y]) => put({ x, y }));
  const mirrored = (right: readonly (readonly [number, number])[]) =>
    outline([...right, ...right.map(([x, y]) => [-x, y] as const).toReversed()]);
  return {
    sole: mirrored([
      [6, floor + 7],
      [9, floor],
      [s, floor],
      [s + 4, floor + t],
    ]),
    shell: mirrored([
      [s + 5, floor + t],
      [s + 14, floor + t + 22],
      [s + 11, floor + t + 44],
      [collar + 3, -14],
      [collar, 2],
      [collar - 3, 15],
    ]),
    toeCap: mirrored([
      [s + 2, floor + t],
      [s + 5, floor + t + 18],
      [s - 6, floor + t + 44],
      [s - 22, floor + t + 54],
    ]),
    badge: put({ x: 0, y: floor + t + 9 }),
  };
}

/** Lean of the cuff from its pivots: with an unknown factory lean, the change from factory. Degrees, outward positive. */
export function leanFromPivots({ hardware }: CuffPlan, pair: Pair): number {
  const ratio = (pair.medialMm - pair.lateralMm) / (hardware?.pivotSpacingMm ?? ASSUMED.spacing);
  return (hardware?.factoryLeanDeg ?? 0) + degAsin(ratio);
}

/** One leg in its boot. Lean unknown: the cuff is drawn from the pivots alone, as if its factory lean were 0. */
export function bootShape(side: Side, plan: SidePlan, from: LookFrom): BootShape {
  const { cuff, sole } = plan;
  const spacing = cuff.hardware?.pivotSpacingMm ?? ASSUMED.spacing;
  const height = cuff.hardware?.readingHeightMm ?? ASSUMED.height;
  const put = place(side, from, sole.cantDeg ?? 0);
  const lean = cuff.leanDeg ?? (cuff.set ? leanFromPivots(cuff, cuff.set) : null);
  const target =
    cuff.target && moves(cuff) ? (cuff.target.leanDeg ?? leanFromPivots(cuff, cuff.target)) : null;
  const outward = lateralIsRight(side, from) ? 1 : -1;
  const shown = gapsShown(cuff);
  const legAndGap = shown && lean !== null ? legAndGaps(shown.pair, lean, spacing, height, put) : null;
  const pivots = (['lateral', 'medial'] as const).map((adjuster) => {
    const key = `${adjuster}Mm` as const;
    const to = target === null ? null : (cuff.target?.[key] ?? null);
    return pivotShape(adjuster, cuff.hardware?.[adjuster] ?? null, cuff.set?.[key] ?? 0, to, spacing, put);
  });
  return {
    side,
    ...lowerBoot(spacing, put),
    pivots,
    cuff: lean === null ? null : cuffAt(lean, spacing, height, put),
    target: target === null ? null : cuffAt(target, spacing, height, put),
    tip:
      target === null || lean === null
        ? null
        : { about: put({ x: 0, y: 0 }), deg: outward * (target - lean) },
    leg: legAndGap?.leg ?? null,
    gaps: legAndGap?.gaps ?? null,
  };
}
