/** How far the pivots stand from where they were told to stand. */
import { ADJUSTERS, plan } from '../../core/index.ts';
import type { Adjuster, CuffPlan, Fact, FactOf } from '../../core/index.ts';

export interface OffTold {
  readonly adjuster: Adjuster;
  readonly toldMm: number;
  readonly isMm: number;
  /** Positive: higher than told. */
  readonly byMm: number;
}

/** What a dial shows to the nearest hundredth is what was told. */
const SAME_MM = 0.005;

/** Each adjuster that does not read what was told; none where nothing was told. */
export function offTold(
  { target, hardware }: Pick<CuffPlan, 'target' | 'hardware'>,
  is: Readonly<Record<Adjuster, number | null>>,
): OffTold[] {
  if (!target || !hardware) return [];
  return ADJUSTERS.flatMap((adjuster) => {
    const isMm = is[adjuster];
    if (!hardware[adjuster] || isMm === null) return [];
    const toldMm = target[`${adjuster}Mm`];
    const byMm = isMm - toldMm;
    return Math.abs(byMm) < SAME_MM ? [] : [{ adjuster, toldMm, isMm, byMm }];
  });
}

/** The same for an entry: against what stood in the plan when it was made. */
export function offWhenEntered(facts: readonly Fact[], fact: FactOf<'cuff.set'>): OffTold[] {
  const before = plan(facts.slice(0, facts.indexOf(fact)));
  const told = before.next.some((action) => action.do === 'cuff.set' && action.side === fact.side);
  if (!told) return [];
  return offTold(before.sides[fact.side].cuff, { lateral: fact.lateralMm, medial: fact.medialMm ?? null });
}
