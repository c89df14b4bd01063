/**
 * A cuff as a rigid body on two pivots, solved without any formula of the core: unknown pose, residuals of the
 * joints, least squares by QR.
 *
 * Frontal plane, x lateral, y up. The shell carries two pins at (±w/2, u); the cuff has two holes w apart. Pins
 * that stand at different heights are further apart than w, so something must give. Two honest ways:
 *
 * - `pinned`: the lateral pin holds its hole; the medial pin holds only its height, and its hole slides across.
 * - `shared`: both holes give alike, so that the squared distances of holes and pins are least.
 */
import { Matrix, solve } from 'ml-matrix';

export interface Pose {
  /** Middle between the holes. */
  readonly x: number;
  readonly y: number;
  /** Turn of the cuff from neutral, radians, top lateral positive. */
  readonly turn: number;
}

export type Joints = 'pinned' | 'shared';

type Vector = readonly number[];

export const holesOf = ({ x, y, turn }: Pose, spacing: number) => {
  const [across, along] = [(spacing / 2) * Math.cos(turn), (spacing / 2) * Math.sin(turn)];
  return { lateral: [x + across, y - along] as const, medial: [x - across, y + along] as const };
};

function residuals(joints: Joints, pose: Pose, spacing: number, medialUp: number, lateralUp: number): Vector {
  const { lateral, medial } = holesOf(pose, spacing);
  const held = [lateral[0] - spacing / 2, lateral[1] - lateralUp, medial[1] - medialUp];
  return joints === 'pinned' ? held : [...held, medial[0] + spacing / 2];
}

/** Gauss–Newton with differences for derivatives, from the neutral pose until nothing moves. */
export function solvePose(joints: Joints, spacing: number, medialUp: number, lateralUp: number): Pose {
  let at = [0, 0, 0];
  const of = (v: Vector) =>
    residuals(joints, { x: v[0]!, y: v[1]!, turn: v[2]! }, spacing, medialUp, lateralUp);
  const scale = [1e-5, 1e-5, 1e-7];
  for (let round = 0; round < 50; round++) {
    const here = of(at);
    const columns = scale.map((step, i) => {
      const moved = (by: number) => of(at.map((value, j) => (i === j ? value + by : value)));
      const [up, down] = [moved(step), moved(-step)];
      return up.map((value, row) => (value - down[row]!) / (2 * step));
    });
    const jacobian = new Matrix(here.map((_, row) => columns.map((column) => column[row]!)));
    const by = solve(jacobian, Matrix.columnVector(here.map((r) => -r))).to1DArray();
    at = at.map((value, i) => value + by[i]!);
    if (by.every((b, i) => Math.abs(b) < scale[i]! * 1e-4)) break;
  }
  return { x: at[0]!, y: at[1]!, turn: at[2]! };
}

/** Where the mark stands at which gaps are read: `height` up the cuff's own axis, which leans by `factory` at neutral. */
export const markOf = (pose: Pose, height: number, factory: number): readonly [x: number, y: number] => [
  pose.x + height * Math.sin(factory + pose.turn),
  pose.y + height * Math.cos(factory + pose.turn),
];

/**
 * The two gaps to a straight upright leg, measured across it through the mark: the cuff's walls are parallel to
 * its axis, `room` each way; the leg is `leg.half` thick each way around x = `leg.x`.
 */
export function gapsAt(
  pose: Pose,
  height: number,
  factory: number,
  room: number,
  leg: { readonly x: number; readonly half: number },
): { medial: number; lateral: number } {
  const [centre] = markOf(pose, height, factory);
  const wall = room / Math.cos(factory + pose.turn);
  return {
    lateral: centre + wall - (leg.x + leg.half),
    medial: leg.x - leg.half - (centre - wall),
  };
}
