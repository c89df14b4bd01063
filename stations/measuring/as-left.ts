/** How boots left the shop, out of the session that a recheck goes on from; and what "still so" enters. */
import type { Fact, Plan, Side } from '../../core/index.ts';
import { latest } from '../kit/entries.ts';
import type { FactDraft } from '../kit/session.ts';

export interface AsLeft {
  /** mm up from factory neutral; null where it is not on record, or where nothing can be set. */
  readonly set: { readonly lateralMm: number; readonly medialMm?: number } | null;
  /** Degrees, outward plus; null where nobody recorded it. */
  readonly cantDeg: number | null;
}

/** @param before plan of the earlier session */
export function asLeftOf(before: Plan, side: Side): AsLeft {
  const { cuff, sole } = before.sides[side];
  const adjusts = cuff.hardware !== null && cuff.hardware.pivots !== 'fixed';
  if (!adjusts || cuff.set === null) return { set: null, cantDeg: sole.cantDeg };
  const { lateralMm, medialMm } = cuff.set;
  return {
    set: cuff.hardware.pivots === 'dual' ? { lateralMm, medialMm } : { lateralMm },
    cantDeg: sole.cantDeg,
  };
}

/** Nothing was said yet of how this boot's pivots stand. */
export const isOpen = (facts: readonly Fact[], side: Side): boolean =>
  !latest(facts, 'ready.checked', (fact) => fact.side === side && fact.item === 'cuff-neutral');

/** A person has looked at dials and sole, and they stand as they were left. */
export function stillSo(left: AsLeft, side: Side): FactDraft[] {
  if (!left.set) return [];
  return [
    { kind: 'cuff.set', side, state: 'as-found', ...left.set } as FactDraft,
    { kind: 'ready.checked', side, item: 'cuff-neutral', outcome: 'kept-as-found' },
    ...(left.cantDeg === null
      ? []
      : [{ kind: 'sole.set', side, cantDeg: left.cantDeg, state: 'as-brought' } as FactDraft]),
  ];
}
