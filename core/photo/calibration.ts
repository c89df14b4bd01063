/**
 * What makes pixels of a picture millimetres of one plane: two points of known distance, where the camera looked
 * square at the plane; or the four corners of a known rectangle, which undo perspective too.
 *
 * Either holds in the plane of those points and nowhere else: what stands nearer to the camera looks larger.
 */
import type { Mm } from '../units.ts';
import { homography, mapped } from './homography.ts';
import { distance, offLine, turn } from './point.ts';
import type { Corners, Line, Point } from './point.ts';

export type Calibration =
  | { readonly by: 'length'; readonly points: Line; readonly lengthMm: Mm }
  /** `widthMm` from the first corner to the second, `heightMm` from the second to the third. */
  | { readonly by: 'rectangle'; readonly points: Corners; readonly widthMm: Mm; readonly heightMm: Mm };

/** Why points say nothing. */
export type Degenerate =
  /** Two points that should be apart are (nearly) one. */
  | 'too-near'
  /** Three corners of the rectangle lie (nearly) on one line. */
  | 'on-one-line'
  /** The corners do not go round clockwise. */
  | 'crossed'
  /** A point lies where the plane is not: past its horizon. */
  | 'past-horizon';

/**
 * Pixels that points of a scale, of a line or of a rectangle's edge must be apart, and a corner off the line of two
 * others: below it, picking by a pixel changes what is read by a tenth and more.
 */
export const LEAST_PX = 15;

/** Carries a pixel to millimetres of the plane; null past its horizon. */
export type ToMm = (p: Point) => Point | null;

export type Calibrated =
  { readonly ok: true; readonly toMm: ToMm } | { readonly ok: false; readonly why: Degenerate };

const no = (why: Degenerate): Calibrated => ({ ok: false, why });

/** The map itself, or why the points give none. */
export function calibrated(calibration: Calibration): Calibrated {
  switch (calibration.by) {
    case 'length':
      return byLength(calibration.points, calibration.lengthMm);
    case 'rectangle':
      return byRectangle(calibration.points, calibration.widthMm, calibration.heightMm);
    default:
      return calibration satisfies never;
  }
}

function byLength([a, b]: Line, lengthMm: Mm): Calibrated {
  const px = distance(a, b);
  if (!(px >= LEAST_PX)) return no('too-near');
  const scale = lengthMm / px;
  return { ok: true, toMm: (p) => ({ x: scale * p.x, y: scale * p.y }) };
}

function byRectangle(corners: Corners, widthMm: Mm, heightMm: Mm): Calibrated {
  const why = misplaced(corners);
  if (why) return no(why);
  const h = homography(corners, [
    { x: 0, y: 0 },
    { x: widthMm, y: 0 },
    { x: widthMm, y: heightMm },
    { x: 0, y: heightMm },
  ]);
  if (!h) return no('on-one-line');
  // The horizon (the vanishing line, weight 0) parts the plane's picture from what cannot lie on it.
  const side = Math.sign(mapped(h, corners[0]).weight);
  return {
    ok: true,
    toMm: (p) => {
      const { x, y, weight } = mapped(h, p);
      return weight * side > 1e-12 ? { x, y } : null;
    },
  };
}

function misplaced(corners: Corners): Degenerate | null {
  const at = (i: number) => corners[i % 4]!;
  const round = corners.map((_, i) => i);
  if (!round.every((i) => distance(at(i), at(i + 1)) >= LEAST_PX)) return 'too-near';
  if (!round.every((i) => Math.abs(offLine(at(i), [at(i + 1), at(i + 2)])) >= LEAST_PX)) return 'on-one-line';
  return round.every((i) => turn(at(i), at(i + 1), at(i + 2)) > 0) ? null : 'crossed';
}

/**
 * The same four points clockwise from the one nearest to the picture's top left, however they were picked; a corner
 * that lies between others is left where it falls, and `calibrated` says so.
 */
export function inOrder(points: Corners): Corners {
  const x = points.reduce((sum, p) => sum + p.x, 0) / 4;
  const y = points.reduce((sum, p) => sum + p.y, 0) / 4;
  const round = [...points].sort((p, q) => Math.atan2(p.y - y, p.x - x) - Math.atan2(q.y - y, q.x - x));
  const first = round.reduce((best, p, i) => (p.x + p.y < round[best]!.x + round[best]!.y ? i : best), 0);
  return [0, 1, 2, 3].map((i) => round[(first + i) % 4]!) as unknown as Corners;
}

/**
 * A rectangle whose two lengths are known and not how it lies: its longer edges in the picture are its longer sides.
 * Right while the camera looks at a sheet of paper less than 45° from square, and at a card less than 50°.
 */
export function rectangle(points: Corners, aMm: Mm, bMm: Mm): Calibration {
  const [p, q, r, s] = points;
  const lies = distance(p, q) + distance(r, s) >= distance(q, r) + distance(s, p);
  const [long, short] = aMm >= bMm ? [aMm, bMm] : [bMm, aMm];
  return { by: 'rectangle', points, widthMm: lies ? long : short, heightMm: lies ? short : long };
}
