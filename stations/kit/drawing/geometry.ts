/**
 * The pair as a drawing: from the plan's numbers to points. One unit of the drawing is one millimetre, so every
 * length on it can be measured back.
 *
 * A leg is first laid out in its own frame: x lateral, y up, the origin midway between the pivots at their factory
 * neutral. `place` then puts it on the sheet, where x runs to the viewer's right and y down.
 */
import { deg, sinDeg } from '../../../core/index.ts';
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
  pivotHeight: 122,
  soleThickness: 30,
  soleHalf: 38,
  /** Half the inside of the cuff at the reading height is half the pivot spacing and this. */
  cuffFlare: 9,
  cuffThick: 5,
  cuffAbove: 26,
  legAbove: 128,
  /** From the middle of the sheet to the middle of each boot. */
  apart: 118,
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
  /** Inner walls from the bottom to the rim. */
  readonly lateral: readonly Point[];
  readonly medial: readonly Point[];
  /** From the pivot line to the rim. */
  readonly centre: readonly [Point, Point];
}

export interface GapShape {
  readonly mm: number;
  /** From the leg to the wall, at the reading height. */
  readonly leg: Point;
  readonly wall: Point;
}

export interface BootShape {
  readonly side: Side;
  readonly sole: readonly Point[];
  readonly shell: readonly Point[];
  readonly pivots: readonly PivotShape[];
  /** At its lean now; null when that is not known. */
  readonly cuff: CuffShape | null;
  /** As recommended; null when nothing is. */
  readonly target: CuffShape | null;
  readonly leg: { readonly outline: readonly Point[]; readonly centre: readonly [Point, Point] } | null;
  readonly gaps: Readonly<Record<Adjuster, GapShape>> | null;
}

/** The width and height of the whole sheet, for the tallest reading height of the two. */
export function sheetOf(heights: readonly number[]): {
  left: number;
  top: number;
  width: number;
  height: number;
} {
  const top = Math.max(ASSUMED.height, ...heights) + FORM.legAbove;
  return { left: -262, top: -top, width: 524, height: top + FORM.pivotHeight + 40 };
}

/** To the viewer's right is lateral for the left leg seen from the front, and for the right leg from behind. */
export const lateralIsRight = (side: Side, from: LookFrom): boolean =>
  (side === 'left') === (from === 'front');

const place = (side: Side, from: LookFrom, cantDeg: number) => {
  const outward = lateralIsRight(side, from) ? 1 : -1;
  const sin = sinDeg(deg(cantDeg));
  const cos = Math.sqrt(1 - sin * sin);
  return ({ x, y }: Point): Point => {
    // A cant tips the whole boot about the middle of its sole; positive is outward.
    const up = y + FORM.pivotHeight;
    const tipped = { x: x * cos + up * sin, y: up * cos - x * sin - FORM.pivotHeight };
    return { x: outward * (FORM.apart + tipped.x), y: -tipped.y };
  };
};

/** Half the inside of the cuff at height `y`. */
const wallAt = (y: number, spacing: number, height: number): number =>
  spacing / 2 + FORM.cuffFlare * Math.min(1.15, Math.max(-0.25, y / height));

function cuffAt(leanDeg: number, spacing: number, height: number, put: (p: Point) => Point): CuffShape {
  const rim = height + FORM.cuffAbove;
  const wall = (sign: 1 | -1) =>
    [-16, 0, height, rim].map((y) =>
      put({ x: y * sinDeg(deg(leanDeg)) + sign * wallAt(y, spacing, height), y }),
    );
  return {
    lateral: wall(1),
    medial: wall(-1),
    centre: [put({ x: 0, y: 0 }), put({ x: rim * sinDeg(deg(leanDeg)), y: rim })],
  };
}

function legAt(centreAtHeight: number, half: number, height: number, put: (p: Point) => Point) {
  const top = height + FORM.legAbove;
  const line = (y: number) => (centreAtHeight * y) / height;
  const halves: readonly (readonly [number, number])[] = [
    [-8, half * 0.74],
    [height * 0.35, half * 0.8],
    [height, half],
    [height * 1.3, half * 1.04],
    [top, half * 0.98],
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
  put: (p: Point) => Point,
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
function legAndGaps(
  reading: Pair,
  leanDeg: number,
  spacing: number,
  height: number,
  put: (p: Point) => Point,
) {
  const cuffCentre = height * sinDeg(deg(leanDeg));
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

/** The gaps that the drawing shows: as read at today's setting, else as expected after the move. */
export const gapsShown = (cuff: CuffPlan): { readonly pair: Pair; readonly expected: boolean } | null => {
  if (cuff.expected) return { pair: cuff.expected, expected: true };
  if (cuff.reading && !cuff.reading.stale) return { pair: cuff.reading, expected: false };
  return null;
};

/** One leg in its boot. Lean unknown: the cuff is drawn from the pivots alone, as if its factory lean were 0. */
export function bootShape(side: Side, plan: SidePlan, from: LookFrom): BootShape {
  const { cuff, sole } = plan;
  const spacing = cuff.hardware?.pivotSpacingMm ?? ASSUMED.spacing;
  const height = cuff.hardware?.readingHeightMm ?? ASSUMED.height;
  const put = place(side, from, sole.cantDeg ?? 0);
  const fromPivots = (pair: Pair) =>
    (cuff.hardware?.factoryLeanDeg ?? 0) +
    (Math.asin(Math.max(-1, Math.min(1, (pair.medialMm - pair.lateralMm) / spacing))) * 180) / Math.PI;
  const lean = cuff.leanDeg ?? (cuff.set ? fromPivots(cuff.set) : null);
  const target = cuff.target && cuff.move ? (cuff.target.leanDeg ?? fromPivots(cuff.target)) : null;
  const shown = gapsShown(cuff);
  const legAndGap = shown && lean !== null ? legAndGaps(shown.pair, lean, spacing, height, put) : null;
  const { soleHalf, soleThickness, pivotHeight } = FORM;
  const shellHalf = spacing / 2 + 9;
  const at = (x: number, y: number) => put({ x, y });
  const under = -pivotHeight;
  const pivots = (['lateral', 'medial'] as const).map((adjuster) =>
    pivotShape(
      adjuster,
      cuff.hardware?.[adjuster] ?? null,
      (adjuster === 'lateral' ? cuff.set?.lateralMm : cuff.set?.medialMm) ?? 0,
      target === null
        ? null
        : ((adjuster === 'lateral' ? cuff.target?.lateralMm : cuff.target?.medialMm) ?? null),
      spacing,
      put,
    ),
  );
  return {
    side,
    sole: [
      at(-soleHalf, under),
      at(soleHalf, under),
      at(soleHalf + 3, under + soleThickness),
      at(-soleHalf - 3, under + soleThickness),
    ],
    shell: [
      at(soleHalf + 6, under + soleThickness),
      at(shellHalf + 3, under + soleThickness + 24),
      at(shellHalf, -18),
      at(shellHalf - 3, 16),
      at(-shellHalf + 3, 16),
      at(-shellHalf, -18),
      at(-shellHalf - 3, under + soleThickness + 24),
      at(-soleHalf - 6, under + soleThickness),
    ],
    pivots,
    cuff: lean === null ? null : cuffAt(lean, spacing, height, put),
    target: target === null ? null : cuffAt(target, spacing, height, put),
    leg: legAndGap?.leg ?? null,
    gaps: legAndGap?.gaps ?? null,
  };
}

export const pathOf = (points: readonly Point[], close = false): string =>
  points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(3)} ${y.toFixed(3)}`).join(' ') +
  (close ? ' Z' : '');

/** A smooth line through the points (Catmull–Rom), for what has no straight edges. */
export function smoothPath(points: readonly Point[], close = false): string {
  const n = points.length;
  const at = (i: number) => points[close ? (i + n) % n : Math.max(0, Math.min(n - 1, i))]!;
  const f = (value: number) => value.toFixed(3);
  let path = `M${f(at(0).x)} ${f(at(0).y)}`;
  for (let i = 0; i < (close ? n : n - 1); i++) {
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    path += ` C${f(b.x + (c.x - a.x) / 6)} ${f(b.y + (c.y - a.y) / 6)} ${f(c.x - (d.x - b.x) / 6)} ${f(c.y - (d.y - b.y) / 6)} ${f(c.x)} ${f(c.y)}`;
  }
  return close ? `${path} Z` : path;
}
