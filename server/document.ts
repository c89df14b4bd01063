/** A session's document made of its rows. */
import * as Y from 'yjs';
import type { Fact } from '../core/index.ts';
import { SpoiltSession } from './spoilt.ts';

/** Client id → number of its entries. */
export const clocksOf = (doc: Y.Doc): Map<number, number> => Y.decodeStateVector(Y.encodeStateVector(doc));

/** Nothing waits for what is not here. */
export const isWhole = ({ store }: Y.Doc): boolean =>
  store.pendingStructs === null && store.pendingDs === null;

/** Throws `SpoiltSession` when the rows of `session` cannot be read, or make no whole document. */
export function fill(doc: Y.Doc, rows: readonly Uint8Array[], session: string): void {
  try {
    for (const row of rows) Y.applyUpdate(doc, row);
  } catch (error) {
    throw new SpoiltSession(session, 'its rows cannot be read', { cause: error });
  }
  if (!isWhole(doc)) throw new SpoiltSession(session, 'its rows do not make a whole document');
}

/** The entries in these rows, in the list's order. Throws `SpoiltSession` as `fill` does. */
export function factsOf(rows: readonly Uint8Array[], session: string): Fact[] {
  const doc = new Y.Doc();
  fill(doc, rows, session);
  const facts = doc.getArray<Fact>('facts').toArray();
  doc.destroy();
  return facts;
}

/** What `read` says of a session; null for one that cannot be read: whoever opens it is told so. */
export function readable<Read>(read: () => Read): Read | null {
  try {
    return read();
  } catch {
    return null;
  }
}

/**
 * Holds entries in some half of the memory: Yjs builds each value key by key, which leaves it a table of its own, and gives
 * each text anew. All are JSON, since the gate took them.
 * @returns the values, as the document has them from now on
 */
export function closely(content: Y.ContentAny): Fact[] {
  const values = JSON.parse(JSON.stringify(content.arr)) as Fact[];
  content.arr = values;
  return values;
}
