/**
 * A pinhole camera, made from rotation and central projection and not from any homography: what pictures of a plane
 * are checked against.
 */
import type { Point } from '../../core/photo/point.ts';

export interface Camera {
  /** Turns of the plane about its upright and its lying axis, and of the camera about where it looks, in radians. */
  readonly yaw: number;
  readonly pitch: number;
  readonly roll: number;
  /** From the camera to where it looks at the plane, and there the place on the plane, in millimetres. */
  readonly distanceMm: number;
  readonly at: Point;
  /** Focal length in pixels, and the picture's middle. */
  readonly focalPx: number;
  readonly middle: Point;
}

/** Where a point of the plane (millimetres, y down) comes to lie in the picture. */
export function seen({ yaw, pitch, roll, distanceMm, at, focalPx, middle }: Camera, p: Point): Point {
  const [u, v] = [p.x - at.x, p.y - at.y];
  // About the upright axis, then the lying one, then the line of sight.
  const [x1, z1] = [u * Math.cos(yaw), -u * Math.sin(yaw)];
  const [y2, z2] = [v * Math.cos(pitch) - z1 * Math.sin(pitch), v * Math.sin(pitch) + z1 * Math.cos(pitch)];
  const [x3, y3] = [x1 * Math.cos(roll) - y2 * Math.sin(roll), x1 * Math.sin(roll) + y2 * Math.cos(roll)];
  const depth = distanceMm + z2;
  return { x: middle.x + (focalPx * x3) / depth, y: middle.y + (focalPx * y3) / depth };
}
