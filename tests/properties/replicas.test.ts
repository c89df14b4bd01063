/**
 * All replicas show the same plan: several stations write at the same time, cut off from each other for a while, and
 * updates arrive late, twice and out of order.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { CLIENT_SPAN, plan, stationOf } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { check } from './check.ts';
import { entry, honestIntent } from './sessions.ts';
import type { Intent } from './sessions.ts';
import { story } from './story.ts';

interface Station {
  readonly number: number;
  readonly doc: Y.Doc;
  readonly list: () => Fact[];
}

type Event =
  | { readonly do: 'write'; readonly at: number; readonly intent: Intent }
  /** One update, however old, to one station; it may have it already, or lack what it builds on. */
  | { readonly do: 'deliver'; readonly to: number; readonly update: number }
  /** Two stations meet and exchange all they have, as the sync protocol does. */
  | { readonly do: 'meet'; readonly a: number; readonly b: number };

const at = fc.nat({ max: 9 });
const event: fc.Arbitrary<Event> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ do: fc.constant('write' as const), at, intent: honestIntent }) },
  {
    weight: 4,
    arbitrary: fc.record({ do: fc.constant('deliver' as const), to: at, update: fc.nat({ max: 999 }) }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('meet' as const), a: at, b: at }) },
);

const day = fc.record({
  stations: fc.uniqueArray(fc.integer({ min: 1, max: 2 ** 20 }), { minLength: 2, maxLength: 4 }),
  low: fc.array(fc.nat({ max: 2 ** 32 - 1 }), { minLength: 4, maxLength: 4 }),
  events: fc.array(event, { minLength: 4, maxLength: 40, size: 'max' }),
  order: fc.array(fc.nat({ max: 2 ** 30 }), { minLength: 4, maxLength: 4 }),
});

/** Updates in an order of its own for each station, some of them twice. */
function shuffled(updates: readonly Uint8Array[], by: number): Uint8Array[] {
  const rank = (i: number) => Math.imul(i + 1, 2654435761 ^ by) >>> 0;
  return updates
    .flatMap((update, i) =>
      rank(i) % 3 === 0
        ? [
            { update, r: rank(i) },
            { update, r: rank(i + 997) },
          ]
        : [{ update, r: rank(i) }],
    )
    .sort((a, b) => a.r - b.r)
    .map(({ update }) => update);
}

function lived({
  stations: numbers,
  low,
  events,
  order,
}: typeof day extends fc.Arbitrary<infer T> ? T : never): Station[] {
  const updates: Uint8Array[] = [];
  const stations = numbers.map((number, i): Station => {
    const doc = new Y.Doc();
    doc.clientID = number * CLIENT_SPAN + low[i]!;
    doc.on('update', (update: Uint8Array, origin: unknown) => {
      if (origin !== 'elsewhere') updates.push(update);
    });
    return { number, doc, list: () => doc.getArray<Fact>('facts').toArray() };
  });
  const apply = (to: Station, update: Uint8Array) => Y.applyUpdate(to.doc, update, 'elsewhere');
  const first = stations[0]!;
  first.doc.getArray<Fact>('facts').push(story({ basis: true }).facts);
  for (const station of stations) apply(station, updates[0]!);

  let written = 0;
  const one = (n: number) => stations[n % stations.length]!;
  for (const e of events)
    if (e.do === 'write') {
      const station = one(e.at);
      const fact = entry(e.intent, station.list(), `w${written++}`, `station-${station.number}`);
      station.doc.getArray<Fact>('facts').push([fact]);
    } else if (e.do === 'deliver') apply(one(e.to), updates[e.update % updates.length]!);
    else
      for (const [from, to] of [
        [one(e.a), one(e.b)],
        [one(e.b), one(e.a)],
      ] as const)
        apply(to, Y.encodeStateAsUpdate(from.doc, Y.encodeStateVector(to.doc)));
  stations.forEach((station, i) => {
    for (const update of shuffled(updates, order[i]!)) apply(station, update);
  });
  expect(stations[0]!.list()).toHaveLength(story().facts.length + written);
  return stations;
}

describe('[STP-5] replicas of one session', () => {
  it('hold the same list and show the same plan once every update has reached everyone', () => {
    check(80, day, (of) => {
      const [first, ...rest] = lived(of);
      const [list, shown] = [JSON.stringify(first!.list()), JSON.stringify(plan(first!.list()))];
      for (const station of rest) {
        expect(stationOf(station.doc.clientID)).toBe(station.number);
        expect(station.doc.store.pendingStructs).toBeNull();
        expect(JSON.stringify(station.list())).toBe(list);
        expect(JSON.stringify(plan(station.list()))).toBe(shown);
      }
    });
  });

  it('keep causality in their list: nobody’s basis names what stands after it', () => {
    check(80, day, (of) => {
      const list = lived(of)[0]!.list();
      const place = new Map(list.map((fact, i) => [fact.id, i]));
      for (const [i, fact] of list.entries())
        for (const known of fact.basis ?? []) expect(place.get(known)!).toBeLessThan(i);
    });
  });
});
