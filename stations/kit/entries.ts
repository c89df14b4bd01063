/** Entries as people see them: which are struck, and which one undo would strike. */
import type { Fact, FactOf, Kind } from '../../core/index.ts';

/** Ids of struck facts, with the strike; a struck strike counts for nothing. */
export function struckBy(facts: readonly Fact[]): ReadonlyMap<string, FactOf<'struck'>> {
  const strikes = new Map<string, FactOf<'struck'>[]>();
  for (const fact of facts)
    if (fact.kind === 'struck') strikes.set(fact.fact, [...(strikes.get(fact.fact) ?? []), fact]);
  const living = (id: string, seen: ReadonlySet<string>): FactOf<'struck'> | undefined =>
    strikes
      .get(id)
      ?.find((strike) => !seen.has(strike.id) && !living(strike.id, new Set([...seen, strike.id])));
  const struck = new Map<string, FactOf<'struck'>>();
  for (const id of strikes.keys()) {
    const strike = living(id, new Set([id]));
    if (strike) struck.set(id, strike);
  }
  return struck;
}

/** The newest living fact of a kind that `fits`. */
export function latest<K extends Kind>(
  facts: readonly Fact[],
  kind: K,
  fits: (fact: FactOf<K>) => boolean = () => true,
): FactOf<K> | undefined {
  const struck = struckBy(facts);
  return facts.findLast(
    (fact): fact is FactOf<K> & Fact => fact.kind === kind && !struck.has(fact.id) && fits(fact as FactOf<K>),
  );
}

/** The last entry of this device, while nothing has been entered after it; null when there is nothing to undo. */
export function undoable(facts: readonly Fact[], device: string): Fact | null {
  const last = facts.at(-1);
  if (!last || last.by.station !== device || last.kind === 'struck' || last.kind === 'session.opened')
    return null;
  return last;
}
