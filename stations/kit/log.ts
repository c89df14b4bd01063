/** A session's shared list: its facts, and where each of them lives in Yjs terms. */
import * as Y from 'yjs';
import { isKind, parseLenient } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';

const LIST = 'facts';

/**
 * A fact of a newer version than this page knows is kept like one of an unknown kind: shown by its name, and
 * nothing follows from it here.
 */
function unread(value: unknown): Fact[] {
  const { kind, v } = (value ?? {}) as { kind?: unknown; v?: unknown };
  if (!isKind(kind) || typeof v !== 'number') return [];
  const parsed = parseLenient({ ...(value as object), kind: `${kind} (version ${v})` });
  return parsed.ok ? [parsed.fact as Fact] : [];
}

/** What can be read as facts of values that stand in a list, in their order. */
export const readFacts = (values: readonly unknown[]): Fact[] =>
  values.flatMap((value) => {
    const parsed = parseLenient(value);
    return parsed.ok ? [parsed.fact as Fact] : unread(value);
  });

/** The list's values as they stand there. */
export const valuesIn = (doc: Y.Doc): unknown[] => doc.getArray<unknown>(LIST).toArray();

export const factsIn = (doc: Y.Doc): Fact[] => readFacts(valuesIn(doc));

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
