/**
 * Gaps and angles read off a picture, each with its standard uncertainty from how well points are picked: those of
 * the calibration too, since all of them go through the same formula.
 *
 * Not in it: what lies out of the plane of the calibration, the bend of the lens, and whether the right thing was
 * pointed at.
 */
import type { Deg, Mm } from '../units.ts';
import { toDeg, rad } from '../units.ts';
import { calibrated, LEAST_PX } from './calibration.ts';
import type { Calibration, Degenerate } from './calibration.ts';
import { distance, offLine } from './point.ts';
import type { Line, Point } from './point.ts';
import { propagated } from './uncertainty.ts';

/** A number and its standard deviation, or why the points give none. */
export type Measured<U extends number> =
  { readonly ok: true; readonly value: U; readonly sd: U } | { readonly ok: false; readonly why: Degenerate };

/**
 * Standard deviation of a picked point in each direction, in pixels of the stored picture. With a loupe a careful
 * person comes within a pixel of an edge; a blurred one is worse [from memory, low].
 */
export const PICK_PX = 1;

/** Picking errors that the two ends of a gap must be apart: nearer, the error does not go in a straight line. */
const LEAST_PICKS = 4;

/** Distance of two points in the plane of the calibration. */
export function gapOfPoints(calibration: Calibration, a: Point, b: Point, pickPx = PICK_PX): Measured<Mm> {
  if (!(distance(a, b) >= LEAST_PICKS * pickPx)) return { ok: false, why: 'too-near' };
  return measured(calibration, [a, b], pickPx, ([p, q]) => distance(p!, q!));
}

/** Distance of a point from a line, square to it; always positive. */
export function gapToLine(calibration: Calibration, p: Point, line: Line, pickPx = PICK_PX): Measured<Mm> {
  if (!apart(line) || !(Math.abs(offLine(p, line)) >= LEAST_PICKS * pickPx))
    return { ok: false, why: 'too-near' };
  return measured(calibration, [p, ...line], pickPx, ([at, from, to]) =>
    Math.abs(offLine(at!, [from!, to!])),
  );
}

/**
 * Where in the picture the square from `p` meets the line; with `p` it makes a gap of two points. Null where the points
 * say nothing.
 *
 * Along a line perspective is `s = r·t/(1 − t + r·t)`, t as it is seen and s as it is; r shows at t = 1/2.
 */
export function footOn(calibration: Calibration, p: Point, [a, b]: Line): Point | null {
  const fixed = calibrated(calibration);
  if (!fixed.ok) return null;
  const [at, from, to, half] = [p, a, b, { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }].map(fixed.toMm);
  if (!at || !from || !to || !half) return null;
  const [x, y] = [to.x - from.x, to.y - from.y];
  const along = (q: Point): number => ((q.x - from.x) * x + (q.y - from.y) * y) / (x * x + y * y);
  const [s, middle] = [along(at), along(half)];
  const r = middle / (1 - middle);
  const t = s / (s + r * (1 - s));
  return Number.isFinite(t) ? { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y) } : null;
}

/**
 * From the first line to the second, −90° to 90°; positive when the second is turned clockwise as it is seen. Which
 * end of a line was picked first does not matter.
 */
export function angleBetween(
  calibration: Calibration,
  first: Line,
  second: Line,
  pickPx = PICK_PX,
): Measured<Deg> {
  if (!apart(first) || !apart(second)) return { ok: false, why: 'too-near' };
  const angle = ([a, b, c, d]: readonly Point[], back = 1): number => {
    const [u, v] = [
      { x: b!.x - a!.x, y: b!.y - a!.y },
      { x: back * (d!.x - c!.x), y: back * (d!.y - c!.y) },
    ];
    return toDeg(rad(Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y)));
  };
  const points = [...first, ...second];
  const forth = measured<Deg>(calibration, points, pickPx, angle);
  if (!forth.ok || Math.abs(forth.value) <= 90) return forth;
  // They run against each other: one is taken from its other end, so that no angle jumps by a turn nearby.
  return measured<Deg>(calibration, points, pickPx, (places) => angle(places, -1));
}

const apart = ([a, b]: Line): boolean => distance(a, b) >= LEAST_PX;

/** `f` of the points in millimetres, and its uncertainty through the calibration and through the points. */
function measured<U extends number>(
  calibration: Calibration,
  points: readonly Point[],
  pickPx: number,
  f: (places: readonly Point[]) => number,
): Measured<U> {
  const fixed = calibrated(calibration);
  if (!fixed.ok) return fixed;
  const all: readonly Point[] = [...calibration.points, ...points];
  const inputs = all.flatMap(({ x, y }) => [x, y]);
  const value = (numbers: readonly number[]): number | null => {
    const moved = all.map((_, i) => ({ x: numbers[2 * i]!, y: numbers[2 * i + 1]! }));
    const now = calibrated({
      ...calibration,
      points: moved.slice(0, calibration.points.length) as never,
    });
    if (!now.ok) return null;
    const places = moved.slice(calibration.points.length).map(now.toMm);
    return places.every((place) => place !== null) ? f(places) : null;
  };
  const at = value(inputs);
  const sd = at === null ? null : propagated(value, inputs, pickPx);
  return at === null || sd === null
    ? { ok: false, why: 'past-horizon' }
    : { ok: true, value: at as U, sd: sd as U };
}
