/** Rules about the update as bytes and structs: may it be applied at all without harm to the document? */
import * as decoding from 'lib0/decoding';
import * as Y from 'yjs';
import { LIMIT } from '../core/index.ts';
import type { GateView, Rule, RuleName, Verdict } from './gate-rule.ts';

const rule = (name: RuleName, judge: Rule['judge']): Rule => ({ name, judge });

/** A rule that each struct must keep; `keeps` returns what is wrong, or nothing. */
const everyStruct = (name: RuleName, keeps: (item: Y.Item) => string | undefined) =>
  rule(name, ({ structs }) => {
    for (const struct of structs) {
      const because = keeps(struct as Y.Item);
      if (because !== undefined)
        return {
          do: 'reject',
          rule: name,
          because: `entry ${struct.id.client}:${struct.id.clock} ${because}`,
        };
    }
    return undefined;
  });

/** 1. An honest offline backlog fits; more is not a backlog. */
const size = rule('size', ({ bytes }) =>
  bytes.length > LIMIT.frameBytes
    ? { do: 'reject', rule: 'size', because: `${bytes.length} bytes; at most ${LIMIT.frameBytes} are taken` }
    : undefined,
);

/** 2. Yjs's own reader throws on what it cannot read, in several ways. */
const readable = rule('readable', (draft) => {
  try {
    const { structs, ds } = Y.decodeUpdate(draft.bytes);
    draft.structs = structs;
    draft.hasDeletes = ds.clients.size > 0;
  } catch {
    return { do: 'reject', rule: 'readable', because: 'the update cannot be read' };
  }
  return undefined;
});

/** 1, too. Facts are capped apart from bytes: each costs a look at its schema. */
const count = rule('count', ({ structs }) => {
  const entries = structs.reduce((sum, struct) => sum + struct.length, 0);
  return entries > LIMIT.factsPerUpdate
    ? {
        do: 'reject',
        rule: 'count',
        because: `${entries} entries; at most ${LIMIT.factsPerUpdate} are taken`,
      }
    : undefined;
});

/** 3. Nothing is deleted, ever. */
const noDeletes = rule('no-deletes', ({ hasDeletes, writer }) =>
  // A reader's copy of a board carries the server's own deletions back to it; they are never applied.
  hasDeletes && !writer.readOnly
    ? { do: 'reject', rule: 'no-deletes', because: 'entries are struck, never deleted' }
    : undefined,
);

/** 4. An update without entries is the honest answer of a client that has nothing new. A reader sends no other. */
const readOnly = rule('read-only', ({ structs, writer }) => {
  if (structs.length === 0) return { do: 'nothing', clients: [] };
  return writer.readOnly
    ? { do: 'reject', rule: 'read-only', because: 'this connection may read and not write' }
    : undefined;
});

/**
 * 5. `decodeUpdate` flattens two sections of one client into one list, while `applyUpdate` keeps only the last:
 * what was judged must be what is applied.
 */
const sections = rule('sections', ({ bytes, structs }) => {
  const reject = (because: string): Verdict => ({ do: 'reject', rule: 'sections', because });
  const next = new Map<number, number>();
  let last: number | undefined;
  for (const { id, length } of structs) {
    const expected = next.get(id.client);
    if (expected !== undefined && last !== id.client) return reject(`client ${id.client} comes twice`);
    if (expected !== undefined && expected !== id.clock) return reject(`client ${id.client} has a hole`);
    next.set(id.client, id.clock + length);
    last = id.client;
  }
  const announced = decoding.readVarUint(decoding.createDecoder(bytes));
  return announced === next.size ? undefined : reject(`${announced} sections of ${next.size} clients`);
});

/** 6, 7. No garbage and no gaps: plain values, at least one, counted by numbers that are exact. */
const plainContent = everyStruct('plain-content', ({ content, id, length }) => {
  if (!(content instanceof Y.ContentAny)) return 'is no plain value'; // garbage and gaps have no content at all
  if (length < 1) return 'is empty';
  return Number.isSafeInteger(id.client) && Number.isSafeInteger(id.clock + length)
    ? undefined
    : 'is counted past the safe integers';
});

/** 8. Entries are appended: nothing is said about what stands to the right, and nothing is a key of a map. */
const noRightOrigin = everyStruct('no-right-origin', ({ rightOrigin, parentSub }) =>
  rightOrigin !== null ? 'is put in front of another' : parentSub !== null ? 'is set under a key' : undefined,
);

/** 9. Only the list `facts` exists. With an origin the parent is the origin's, which is this list too. */
const parent = everyStruct('parent', (item) => {
  const named = item.parent as unknown;
  return item.origin === null && named !== 'facts' ? 'is outside the list of facts' : undefined;
});

/** 10. An entry cannot stand behind itself or behind a later one of its own client. */
const ownOrigin = everyStruct('own-origin', ({ id, origin }) =>
  origin !== null && origin.client === id.client && origin.clock >= id.clock
    ? 'stands behind itself'
    : undefined,
);

/** 11. Integration, simulated: what builds on something unknown would wait in the document for ever. */
const integrates = rule('integrates', (draft) => {
  const { ordered, stuck } = integrationOrder(draft.structs as readonly Y.Item[], draft.view);
  draft.ordered = ordered;
  return stuck
    ? {
        do: 'ask',
        rule: 'integrates',
        because: `entry ${stuck.id.client}:${stuck.id.clock} builds on what is not here`,
      }
    : undefined;
});

/** 12. What the document holds already is passed over, as Yjs does. */
const knownPart = rule('known-part', (draft) => {
  const fresh = draft.ordered.map((item) => {
    const known = Math.max(0, draft.view.clockOf(item.id.client) - item.id.clock);
    return {
      client: item.id.client,
      clock: item.id.clock + known,
      values: (item.content as Y.ContentAny).arr.slice(known) as unknown[],
      atStart: item.origin === null && known === 0,
    };
  });
  draft.fresh = fresh.filter(({ values }) => values.length > 0);
  if (draft.fresh.length > 0) return undefined;
  return { do: 'nothing', clients: [...new Set(draft.ordered.map(({ id }) => id.client))] };
});

/**
 * Takes items client by client as long as each finds the entry before it and its origin, known ones included,
 * since Yjs asks for their origins too. `stuck` is the first that never does.
 */
function integrationOrder(items: readonly Y.Item[], view: GateView): { ordered: Y.Item[]; stuck?: Y.Item } {
  const queues = new Map<number, Y.Item[]>();
  for (const item of items) {
    const queue = queues.get(item.id.client);
    if (queue) queue.push(item);
    else queues.set(item.id.client, [item]);
  }
  const clocks = new Map<number, number>();
  const clockOf = (client: number) => clocks.get(client) ?? view.clockOf(client);
  const finds = ({ id, origin }: Y.Item) =>
    id.clock <= clockOf(id.client) && (origin === null || origin.clock < clockOf(origin.client));

  const ordered: Y.Item[] = [];
  const heads = new Map([...queues.keys()].map((client) => [client, 0]));
  for (let progress = true; progress && ordered.length < items.length;) {
    progress = false;
    for (const [client, queue] of queues) {
      let head = heads.get(client)!;
      for (let item = queue[head]; item && finds(item); item = queue[++head]) {
        clocks.set(client, Math.max(clockOf(client), item.id.clock + item.length));
        ordered.push(item);
        progress = true;
      }
      heads.set(client, head);
    }
  }
  for (const [client, queue] of queues) {
    const stuck = queue[heads.get(client)!];
    if (stuck) return { ordered, stuck };
  }
  return { ordered };
}

export const updateRules: readonly Rule[] = [
  size,
  readable,
  count,
  noDeletes,
  readOnly,
  sections,
  plainContent,
  noRightOrigin,
  parent,
  ownOrigin,
  integrates,
  knownPart,
];
