/** A session's shared list: its facts, and where each of them lives in Yjs terms. */
import * as Y from 'yjs';
import { parseLenient } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';

const LIST = 'facts';

/** Everything that can be read as a fact, in the list's order. */
export const factsIn = (doc: Y.Doc): Fact[] =>
  doc
    .getArray<unknown>(LIST)
    .toArray()
    .flatMap((value) => {
      const parsed = parseLenient(value);
      return parsed.ok ? [parsed.fact as Fact] : [];
    });

export const append = (doc: Y.Doc, facts: readonly Fact[]): void => doc.getArray<Fact>(LIST).push([...facts]);

export interface Spot {
  readonly client: number;
  readonly durable: boolean;
}

/** By fact id: whose item it is, and whether that is on the server's disk. */
export function spotsIn(
  doc: Y.Doc,
  isDurable: (client: number, clock: number) => boolean,
): ReadonlyMap<string, Spot> {
  const spots = new Map<string, Spot>();
  for (let item = doc.getArray(LIST)._start; item; item = item.right) {
    if (item.deleted || !(item.content instanceof Y.ContentAny)) continue;
    const { client, clock } = item.id;
    item.content.arr.forEach((value: { id?: unknown } | null, i: number) => {
      if (typeof value?.id === 'string')
        spots.set(value.id, { client, durable: isDurable(client, clock + i) });
    });
  }
  return spots;
}
