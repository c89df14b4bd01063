/** Entries as people see them: which are struck, and which one undo would strike. The core says who may strike what. */
import { Log } from '../../core/index.ts';
import type { Fact, FactOf, Kind } from '../../core/index.ts';

/** A list of facts is never changed in place, so its log is worked out once. */
const logs = new WeakMap<readonly Fact[], Log>();

export function logOf(facts: readonly Fact[]): Log {
  const known = logs.get(facts);
  if (known) return known;
  const log = new Log(facts);
  logs.set(facts, log);
  return log;
}

/** Ids of struck facts, with the strike; a struck strike counts for nothing. */
export function struckBy(facts: readonly Fact[]): ReadonlyMap<string, FactOf<'struck'>> {
  const log = logOf(facts);
  return new Map(
    facts.flatMap(({ id }) => {
      const strike = log.struckBy(id);
      return strike ? [[id, strike] as const] : [];
    }),
  );
}

/** The newest living fact of a kind that `fits`. */
export const latest = <K extends Kind>(
  facts: readonly Fact[],
  kind: K,
  fits: (fact: FactOf<K>) => boolean = () => true,
): FactOf<K> | undefined => logOf(facts).live(kind).findLast(fits);

/** The last entry of this device, while nothing has been entered after it; null when there is nothing to undo. */
export function undoable(facts: readonly Fact[], device: string): Fact | null {
  const last = facts.at(-1);
  if (!last || last.by.station !== device || last.kind === 'struck' || last.kind === 'session.opened')
    return null;
  return last;
}
