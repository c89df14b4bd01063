/**
 * Where each number of a plan comes from: its formula, its inputs with the facts that they came from, and the
 * interval that holds it. What nobody has measured is null in the plan, and needs no explanation.
 */
import { SIDES } from '../frame.ts';
import { Log } from '../record/log.ts';
import { CUFF } from './explain/cuff.ts';
import { FORE_AFT } from './explain/foreaft.ts';
import type { Formula, Ground, Input, Interval, NumberPath, Unit } from './explain/formula.ts';
import { SOLE } from './explain/sole.ts';
import { STANCE } from './explain/stance.ts';
import { sidePlan } from './plan.ts';
import { sceneOf } from './scene.ts';
import type { SidePlan } from './shape.ts';

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
  ...CUFF,
  ...STANCE,
  ...SOLE,
  ...FORE_AFT,
};

interface Leaf {
  readonly path: readonly string[];
  readonly value: number;
}

const leaves = (value: unknown, path: readonly string[]): Leaf[] => {
  if (typeof value === 'number') return [{ path, value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, [...path, key]));
};

const isIndex = (step: string): boolean => /^\d+$/.test(step);

/**
 * One explanation for each number in the plan's sides, in the plan's order.
 *
 * @param facts the session's facts, as for `plan`
 */
export function explain(facts: readonly { readonly kind: string }[]): Explanation[] {
  const scene = sceneOf(new Log(facts));
  return SIDES.flatMap((side) => {
    const own = scene.sides[side];
    const plan = sidePlan(own);
    return leaves(plan, []).map(({ path, value }) => {
      const ground: Ground = { scene, side, own, plan, at: path.filter(isIndex).map(Number) };
      const name = path.map((step) => (isIndex(step) ? '*' : step)).join('.');
      const { unit, formula, source, inputs, interval } = FORMULAS[name as NumberPath<SidePlan>];
      return {
        path: ['sides', side, ...path].join('.'),
        value,
        unit,
        formula,
        inputs: inputs(ground),
        interval: interval?.(ground) ?? null,
        source,
      };
    });
  });
}
