/**
 * Entries that come into a session by the desk's decision and not by their station's socket: which of them may,
 * and the update that holds those.
 *
 * They go past the same gate. What differs is whose Yjs client writes them: the server's own (number 0), since a
 * revoked station's number sends nothing any more. `by.station` stays the station that made them, and they must be
 * of a role and kind that this station was granted.
 */
import * as Y from 'yjs';
import { admit } from '../core/index.ts';
import type { Fact, KnownFacts, Refusal, Writer } from '../core/index.ts';
import { Extended } from './gate-entries.ts';

/** The device that made the entries, and the roles it was granted. */
export type Author = Writer;

export interface TakenIn {
  readonly taken: readonly Fact[];
  /** Ids of facts that are in the session already, with the same value. */
  readonly already: readonly string[];
  readonly refused: readonly { readonly fact: string; readonly refusal: Refusal }[];
}

/** Asks for each entry what the gate asks, with those before it taken. */
export function sortForTakeIn(known: KnownFacts, facts: readonly Fact[], author: Author): TakenIn {
  const extended = new Extended(known);
  const already: string[] = [];
  const refused: { fact: string; refusal: Refusal }[] = [];
  for (const fact of facts) {
    const verdict = admit(extended, fact, author);
    if (!verdict.ok) refused.push({ fact: fact.id, refusal: verdict.refusal });
    else if (verdict.already) already.push(fact.id);
    else extended.add(verdict.fact);
  }
  return { taken: extended.added, already, refused };
}

/** `facts` behind all that a document's `state` holds, by a client id of its own: Yjs's own choice is below 2^32, so the server's. */
export function updateOf(state: Uint8Array, facts: readonly Fact[]): Uint8Array {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, state);
  const before = Y.encodeStateVector(copy);
  copy.getArray('facts').push([...facts]);
  const update = Y.encodeStateAsUpdate(copy, before);
  copy.destroy();
  return update;
}

/** What was sorted as good, refused after all for a reason that holds for the whole update. */
export function allRefused(sorted: TakenIn, { code, field, wants }: Refusal): TakenIn {
  const more = sorted.taken.map(({ id }) => ({ fact: id, refusal: { code, fact: id, field, wants } }));
  return { ...sorted, taken: [], refused: [...sorted.refused, ...more] };
}
