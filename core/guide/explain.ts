/**
 * Where each number of a plan comes from: its formula, its inputs with the facts that they came from, and the
 * interval that holds it. Why the others are null stands in the plan itself (`reasons`).
 */
import { SIDES } from '../frame.ts';
import { Log } from '../record/log.ts';
import { CUFF } from './explain/cuff.ts';
import { FIT } from './explain/fit.ts';
import { FORE_AFT } from './explain/foreaft.ts';
import type { Formula, Input, Interval, NumberPath, Unit } from './explain/formula.ts';
import { SOLE } from './explain/sole.ts';
import { STANCE } from './explain/stance.ts';
import { sidePlan } from './plan.ts';
import { sceneOf } from './scene.ts';
import type { SidePlan } from './shape.ts';
import { groundOf, leaves, nameOf, placeOf } from './walk.ts';

export interface Explanation {
  /** Where the number stands in the plan: `sides.left.cuff.rounds.0.biasMm`. */
  readonly path: string;
  readonly value: number;
  readonly unit: Unit;
  readonly formula: string;
  readonly inputs: readonly Input[];
  /** Null for what is counted, set or recorded, and for what has no end. */
  readonly interval: Interval | null;
  readonly source: string;
}

export const EXPLANATION_FORMAT = 'fibula-explanation/1';

const FORMULAS: Readonly<Record<NumberPath<SidePlan>, Formula>> = {
  ...FIT,
  ...CUFF,
  ...STANCE,
  ...SOLE,
  ...FORE_AFT,
};

/**
 * One explanation for each number in the plan's sides, in the plan's order.
 *
 * @param facts the session's facts, as for `plan`
 */
export function explain(facts: readonly { readonly kind: string }[]): Explanation[] {
  const scene = sceneOf(new Log(facts));
  return SIDES.flatMap((side) => {
    const plan = sidePlan(scene.sides[side]);
    return leaves(plan).flatMap((leaf): Explanation[] => {
      const { value } = leaf;
      if (value === null) return [];
      const ground = groundOf(scene, side, plan, leaf);
      const { unit, formula, source, inputs, interval } = FORMULAS[nameOf(leaf) as NumberPath<SidePlan>];
      return [
        {
          path: placeOf(side, leaf),
          value,
          unit,
          formula,
          inputs: inputs(ground),
          interval: interval?.(ground) ?? null,
          source,
        },
      ];
    });
  });
}
