/**
 * The same cuff in a general-purpose physics engine (planck), stepped to rest. The pivots are carried to their
 * places as a bench would move them, and the engine's joints do the rest: the lateral pin is a revolute joint;
 * the medial one a revolute joint on a slider that a prismatic joint lets run across.
 *
 * One unit is one millimetre, no gravity, everything damped. The engine leaves joints alone that fit to 0.005
 * units (its linear slop).
 */
import { BoxShape, PrismaticJoint, RevoluteJoint, Vec2, World } from 'planck';
import type { Pose } from './rigid-cuff.ts';

const STEP = 1 / 60;
const MOVING = 60;
const SETTLING = 120;

export function settlePose(spacing: number, medialUp: number, lateralUp: number): Pose {
  const world = new World({ gravity: new Vec2(0, 0), allowSleep: false });
  const half = spacing / 2;
  const carrier = (x: number, up: number) =>
    world.createBody({
      type: 'kinematic',
      position: new Vec2(x, 0),
      linearVelocity: new Vec2(0, up / (MOVING * STEP)),
    });
  const body = (x: number, y: number, width: number, height: number) => {
    const made = world.createBody({
      type: 'dynamic',
      position: new Vec2(x, y),
      linearDamping: 2,
      angularDamping: 2,
    });
    made.createFixture({
      shape: new BoxShape(width, height),
      density: 0.001,
      filterMaskBits: 0,
    });
    return made;
  };
  const [medial, lateral] = [carrier(-half, medialUp), carrier(half, lateralUp)];
  const cuff = body(0, 0, half, half);
  const slider = body(-half, 0, 2, 2);
  world.createJoint(new RevoluteJoint({}, lateral, cuff, new Vec2(half, 0)));
  world.createJoint(new PrismaticJoint({}, medial, slider, new Vec2(-half, 0), new Vec2(1, 0)));
  world.createJoint(new RevoluteJoint({}, slider, cuff, new Vec2(-half, 0)));

  for (let i = 0; i < MOVING; i++) world.step(STEP, 60, 60);
  for (const pin of [medial, lateral]) pin.setLinearVelocity(new Vec2(0, 0));
  for (let i = 0; i < SETTLING; i++) world.step(STEP, 60, 60);
  const { x, y } = cuff.getPosition();
  // The engine turns counter-clockwise; outward, top toward +x, is clockwise.
  return { x, y, turn: -cuff.getAngle() };
}
