/**
 * What a new entry rests on: the heads of every slot that its kind depends on, its own slots included, so that
 * it supersedes what its author saw there and nothing else. Which slots those are stands in one table, `rests.ts`.
 */
import type { Side } from '../frame.ts';
import type { Fact } from './facts.ts';
import type { Kind } from './kinds.ts';
import { Log } from './log.ts';
import { RESTS } from './rests.ts';

/** As much of an entry as says what it rests on. */
export interface Draft {
  readonly kind: Kind;
  readonly side?: Side | undefined;
  readonly item?: string | undefined;
  readonly adjuster?: string | undefined;
  readonly when?: string | undefined;
}

/** Ids of the heads that an entry made now, on top of these facts, rests on. */
export function basisFor(facts: readonly Fact[], draft: Draft): string[] {
  const log = new Log(facts);
  const { side = 'left', item = '', adjuster = '', when = 'after' } = draft;
  const ids = new Set<string>();
  for (const { on } of RESTS[draft.kind])
    for (const prefix of on({ side, item, adjuster, when }))
      for (const name of log.under(prefix)) for (const id of log.heads(name)) ids.add(id);
  return [...ids];
}
