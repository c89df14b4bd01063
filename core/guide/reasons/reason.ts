/** Why one field of a plan is null: a code for programs, a sentence for people. */
import type { Side } from '../../frame.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason, ReasonCode, SidePlan } from '../shape.ts';

/**
 * Paths of all that may be null in a type, a list's index as `*`: `cuff.rounds.*.pressure`. A table with these as its
 * keys has a reason for every null of the plan, or does not compile.
 */
export type NullPath<T, P extends string = ''> = (null extends T ? P : never) | Below<NonNullable<T>, P>;

type Below<T, P extends string> = T extends number | string | boolean
  ? never
  : T extends readonly (infer U)[]
    ? NullPath<U, `${P}.*`>
    : T extends object
      ? { [K in keyof T & string]-?: NullPath<T[K], P extends '' ? K : `${P}.${K}`> }[keyof T & string]
      : never;

export type Why = (ground: Ground) => Reason;

/** Reasons of one part of a side's plan. */
export type ReasonsOf<Part extends keyof SidePlan> = Readonly<Record<NullPath<SidePlan[Part], Part>, Why>>;

export const because = (code: ReasonCode, text: string): Reason => ({ code, text });

/** A reason that is the same whatever else is known, but for the side it speaks of. */
export const always =
  (code: ReasonCode, text: (side: Side) => string): Why =>
  ({ side }) =>
    because(code, text(side));

/** What nobody recorded, or what two recorded differently, with the sentence that asks for it. */
export const unknown = ({ scene: { log } }: Ground, name: string, text: string): Reason =>
  because(log.now(name).is === 'conflict' ? 'conflict' : 'missing', text);
