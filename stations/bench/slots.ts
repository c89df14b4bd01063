/** Slots that were made longer as told, as entries: the travel from now on, and what is left to the edge. */
import { ADJUSTERS } from '../../core/index.ts';
import type { Adjuster, CuffPlan, Fact, Side } from '../../core/index.ts';
import { latest } from '../kit/entries.ts';
import type { FactDraft } from '../kit/session.ts';

export interface LongerSlot {
  readonly adjuster: Adjuster;
  readonly upMm: number;
  readonly downMm: number;
  readonly draft: FactDraft;
}

/** One for each slot that is cut. Travel counts from neutral, wherever an earlier rework has put that. */
export function longerSlots(
  { hardware, extension }: Pick<CuffPlan, 'hardware' | 'extension'>,
  side: Side,
  facts: readonly Fact[],
): LongerSlot[] {
  if (!hardware || !extension) return [];
  return ADJUSTERS.flatMap((adjuster): LongerSlot[] => {
    const [reach, cut] = [hardware[adjuster], extension[adjuster]];
    if (!reach || !cut || cut.byMm <= 0) return [];
    const before = latest(
      facts,
      'pivot.reworked',
      (fact) => fact.side === side && fact.adjuster === adjuster,
    );
    const neutral = before?.neutralShiftMm ?? 0;
    const more = (way: 'up' | 'down') => (extension.way[adjuster] === way ? cut.byMm : 0);
    const upMm = reach.maxMm - neutral + more('up');
    const downMm = neutral - reach.minMm + more('down');
    const draft = {
      kind: 'pivot.reworked',
      side,
      adjuster,
      method: 'slot',
      newUpMm: upMm,
      newDownMm: downMm,
      ...(before?.neutralShiftMm === undefined ? {} : { neutralShiftMm: neutral }),
      edgeMm: cut.edgeLeftMm,
    } as FactDraft;
    return [{ adjuster, upMm, downMm, draft }];
  });
}
