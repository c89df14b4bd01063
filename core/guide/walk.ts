/** Walking a side's plan leaf by leaf, for the tables that say something of each. */
import type { Side } from '../frame.ts';
import type { Ground } from './explain/formula.ts';
import type { Scene } from './scene.ts';
import type { SidePlan } from './shape.ts';

export interface Leaf {
  readonly path: readonly string[];
  readonly value: number | null;
}

const isIndex = (step: string): boolean => /^\d+$/.test(step);

/** Numbers and nulls under a value, in order. */
export function leaves(value: unknown, path: readonly string[] = []): Leaf[] {
  if (typeof value === 'number' || value === null) return [{ path, value }];
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => leaves(inner, [...path, key]));
}

/** The name a table knows a leaf by: its path with each index as `*`. */
export const nameOf = ({ path }: Leaf): string => path.map((step) => (isIndex(step) ? '*' : step)).join('.');

/** Where a leaf stands in the whole plan: `sides.left.cuff.rounds.0.biasMm`. */
export const placeOf = (side: Side, { path }: Leaf): string => ['sides', side, ...path].join('.');

export const groundOf = (scene: Scene, side: Side, plan: SidePlan, { path }: Leaf): Ground => ({
  scene,
  side,
  own: scene.sides[side],
  plan,
  at: path.filter(isIndex).map(Number),
});
