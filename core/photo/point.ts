/** Points and lines in a picture: x to the right, y down, in pixels; on the plane that is measured, in millimetres. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A straight line by two points on it. */
export type Line = readonly [Point, Point];
/** Four corners, going round clockwise as they are seen: top left, top right, bottom right, bottom left. */
export type Corners = readonly [Point, Point, Point, Point];

export const distance = (a: Point, b: Point): number => Math.hypot(b.x - a.x, b.y - a.y);

/** Twice the area of the triangle a, b, c: positive when they go round clockwise as they are seen (y down). */
export const turn = (a: Point, b: Point, c: Point): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

/** How far `p` lies from the line, with a sign: positive on the right-hand side of who walks from its first point. */
export const offLine = (p: Point, [a, b]: Line): number => turn(a, b, p) / distance(a, b);
