/** How one number of a plan explains itself: its formula, and where its inputs come from. */
import type { Side } from '../../frame.ts';
import { Z90 } from '../../maths/quantile.ts';
import { ENTERED_SETTINGS, SETTINGS } from '../../record/settings.ts';
import type { EnteredName, SettingName } from '../../record/settings.ts';
import { slot } from '../../record/slots.ts';
import type { Scene, SideScene } from '../scene.ts';
import type { SidePlan } from '../shape.ts';

/** `1`: a count, a chance, a ratio. */
export type Unit = 'mm' | '°' | 'mm/°' | '°/mm' | 'mm²' | 'mm²/°' | 'mm²/°²' | '1';

export interface Input {
  /** Its symbol in the formula. */
  readonly name: string;
  readonly value: number;
  readonly unit: Unit;
  /** Ids of the facts it comes from; empty for a default, and for a constant. */
  readonly facts: readonly string[];
}

/** Holds the true value with the chance `share`. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly share: 0.9;
}

/** What a formula is asked about: one side of one session, and which element of each list on the way. */
export interface Ground {
  readonly scene: Scene;
  readonly side: Side;
  readonly own: SideScene;
  readonly plan: SidePlan;
  readonly at: readonly number[];
}

export interface Formula {
  readonly unit: Unit;
  readonly formula: string;
  /** Where the formula stands and what it rests on. */
  readonly source: string;
  readonly inputs: (ground: Ground) => readonly Input[];
  readonly interval?: (ground: Ground) => Interval | null;
}

/**
 * Paths of all numbers of a type, a list's index as `*`: `cuff.rounds.*.biasMm`. A table with these as its keys has
 * a formula for every number of the plan, or does not compile.
 */
export type NumberPath<T, P extends string = ''> = T extends number
  ? P
  : T extends readonly (infer U)[]
    ? NumberPath<U, `${P}.*`>
    : T extends object
      ? { [K in keyof T & string]-?: NumberPath<T[K], P extends '' ? K : `${P}.${K}`> }[keyof T & string]
      : never;

/** Formulas of one part of a side's plan. */
export type FormulasOf<Part extends keyof SidePlan> = Readonly<
  Record<NumberPath<SidePlan[Part], Part>, Formula>
>;

export const input = (
  name: string,
  value: number | null | undefined,
  unit: Unit,
  facts: readonly string[],
): Input[] =>
  value === null || value === undefined ? [] : [{ name, value, unit, facts: [...new Set(facts)] }];

/** Heads of a slot: the facts that say what stands there now. */
export const stated = ({ scene }: Ground, name: string): string[] => scene.log.heads(name);

/** A setting under its symbol, from the fact that pinned it. */
export const setting = (ground: Ground, symbol: string, name: SettingName): Input[] =>
  input(symbol, ground.scene.settings[name], SETTINGS[name].unit, stated(ground, slot.setting(name)));

/** A figure without a default, once it was entered. */
export function entered(ground: Ground, symbol: string, name: EnteredName): Input[] {
  const state = ground.scene.log.now(slot.setting(name));
  return state.is === 'one'
    ? input(symbol, state.value as number, ENTERED_SETTINGS[name].unit, state.facts)
    : [];
}

export { Z90 };

/** Nine tenths of a normal; null without a deviation. */
export const around = (value: number | null, sd: number | null | undefined): Interval | null =>
  value === null || sd === null || sd === undefined
    ? null
    : { low: value - Z90 * sd, high: value + Z90 * sd, share: 0.9 };

/** A number that somebody recorded, as it stands in the record. */
export const recorded = (unit: Unit, source: string, inputs: Formula['inputs']): Formula => ({
  unit,
  formula: 'as recorded',
  source,
  inputs,
});
