/** A session's document made of its rows. */
import * as Y from 'yjs';
import { SpoiltSession } from './spoilt.ts';

/** Client id → number of its entries. */
export const clocksOf = (doc: Y.Doc): ReadonlyMap<number, number> =>
  Y.decodeStateVector(Y.encodeStateVector(doc));

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
