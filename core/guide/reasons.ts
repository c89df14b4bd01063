/** Why each null of a plan's sides is null: what is missing, what comes first, or that nothing is due there. */
import { SIDES } from '../frame.ts';
import { CUFF } from './reasons/cuff.ts';
import { FIT } from './reasons/fit.ts';
import { FORE_AFT } from './reasons/foreaft.ts';
import type { NullPath, Why } from './reasons/reason.ts';
import { SOLE } from './reasons/sole.ts';
import { STANCE } from './reasons/stance.ts';
import type { Scene } from './scene.ts';
import type { Plan, SidePlan } from './shape.ts';
import { groundOf, leaves, nameOf, placeOf } from './walk.ts';

const REASONS: Readonly<Record<NullPath<SidePlan>, Why>> = {
  ...FIT,
  ...CUFF,
  ...STANCE,
  ...SOLE,
  ...FORE_AFT,
};

/** One reason for each null, under its path and in the plan's order. */
export function reasonsOf(scene: Scene, sides: Plan['sides']): Plan['reasons'] {
  return Object.fromEntries(
    SIDES.flatMap((side) =>
      leaves(sides[side])
        .filter(({ value }) => value === null)
        .map((leaf) => {
          const why = REASONS[nameOf(leaf) as NullPath<SidePlan>];
          return [placeOf(side, leaf), why(groundOf(scene, side, sides[side], leaf))] as const;
        }),
    ),
  );
}
