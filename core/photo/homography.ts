/**
 * The homography (projective map of a plane) that carries four points to four others, by the direct linear transform
 * with normalised coordinates.
 *
 * Source: Hartley & Zisserman, Multiple View Geometry in Computer Vision, 2nd ed., section 4.1 (the transform) and
 * algorithm 4.2 (normalisation) [section numbers from memory].
 */
import type { Corners, Point } from './point.ts';

/** Three rows of three; a multiple of it is the same map. */
export type Homography = readonly [Row, Row, Row];
type Row = readonly [number, number, number];

/** Shift and scale that bring points round the origin, √2 from it on average. */
interface Norm {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

function normOf(points: Corners): Norm {
  const x = points.reduce((sum, p) => sum + p.x, 0) / 4;
  const y = points.reduce((sum, p) => sum + p.y, 0) / 4;
  const mean = points.reduce((sum, p) => sum + Math.hypot(p.x - x, p.y - y), 0) / 4;
  return { scale: Math.SQRT2 / mean, x, y };
}

const normalised = ({ scale, x, y }: Norm, p: Point): Point => ({
  x: scale * (p.x - x),
  y: scale * (p.y - y),
});

/**
 * The solution of a square system, rows with their right-hand side last, by elimination with the largest pivot; null
 * when there is none or more than one.
 */
function solve(system: readonly (readonly number[])[]): number[] | null {
  const rows = system.map((row) => [...row]);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i;
    [rows[k], rows[best]] = [rows[best]!, rows[k]!];
    const pivot = rows[k]![k]!;
    // Coordinates are normalised, so the pivots of four points in general position are far from this.
    if (!(Math.abs(pivot) > 1e-9)) return null;
    for (let i = 0; i < n; i++) {
      if (i === k) continue;
      const factor = rows[i]![k]! / pivot;
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

const times = (a: Homography, b: Homography): Homography =>
  a.map((row) => [0, 1, 2].map((j) => row[0] * b[0][j]! + row[1] * b[1][j]! + row[2] * b[2][j]!)) as never;

/**
 * Null for points in no general position. Corners of which none lies inside the triangle of the others are asked for:
 * their centre then maps to a finite point, so that its weight may be set to 1 (h₃₃ in normalised coordinates).
 */
export function homography(from: Corners, to: Corners): Homography | null {
  const [here, there] = [normOf(from), normOf(to)];
  const equations = from.flatMap((point, i) => {
    const { x, y } = normalised(here, point);
    const { x: u, y: v } = normalised(there, to[i]!);
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  const h = solve(equations);
  if (!h) return null;
  const [a, b, c, d, e, f, g, k] = h as [number, number, number, number, number, number, number, number];
  return times(
    times(
      [
        [1 / there.scale, 0, there.x],
        [0, 1 / there.scale, there.y],
        [0, 0, 1],
      ],
      [
        [a, b, c],
        [d, e, f],
        [g, k, 1],
      ],
    ),
    [
      [here.scale, 0, -here.scale * here.x],
      [0, here.scale, -here.scale * here.y],
      [0, 0, 1],
    ],
  );
}

/** Where a point comes to lie; `weight` has the same sign for all that lies on one side of the plane's horizon. */
export function mapped(h: Homography, p: Point): Point & { readonly weight: number } {
  const [x, y, weight] = h.map((row) => row[0] * p.x + row[1] * p.y + row[2]) as [number, number, number];
  return { x: x / weight, y: y / weight, weight };
}
