/** Points to SVG path text, in thousandths of a millimetre. */
import type { Point } from './geometry.ts';

const f = (value: number): string => value.toFixed(3);

export const pathOf = (points: readonly Point[], close = false): string =>
  points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${f(x)} ${f(y)}`).join(' ') + (close ? ' Z' : '');

/** A smooth open line through the points (Catmull–Rom), for what has no straight edges; closed by a straight one. */
export function smoothPath(points: readonly Point[], close = false): string {
  const at = (i: number) => points[Math.max(0, Math.min(points.length - 1, i))]!;
  let path = `M${f(at(0).x)} ${f(at(0).y)}`;
  for (let i = 0; i < points.length - 1; i++) {
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    path += ` C${f(b.x + (c.x - a.x) / 6)} ${f(b.y + (c.y - a.y) / 6)} ${f(c.x - (d.x - b.x) / 6)} ${f(c.y - (d.y - b.y) / 6)} ${f(c.x)} ${f(c.y)}`;
  }
  return close ? `${path} Z` : path;
}

/** Two edges, one up and one down, each smooth by itself: the outline of a leg. */
export function twoEdges(outline: readonly Point[]): string {
  const half = outline.length / 2;
  const up = smoothPath(outline.slice(0, half));
  return `${up} L${smoothPath(outline.slice(half)).slice(1)} Z`;
}

/** The same two edges without the cuts across. */
export const edgesOf = (outline: readonly Point[]): string[] => {
  const half = outline.length / 2;
  return [smoothPath(outline.slice(0, half)), smoothPath(outline.slice(half))];
};
