/** The gate against chance: honest updates with bytes changed, and updates put together at random. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { parseStrict } from '../../core/index.ts';
import { gate } from '../../server/gate.ts';
import type { GateWriter } from '../../server/gate-rule.ts';
import { any, craft, item, json, text } from './helpers/craft.ts';
import type { Id, Struct, Update } from './helpers/craft.ts';
import { clientOf, floor, reading } from './helpers/entries.ts';
import { openSession, viewOf } from './helpers/view.ts';

const DESK = clientOf(3);
const OWN = clientOf(5);
const MEASURING: GateWriter = { number: 5, device: 'measuring-5', roles: ['measuring'], readOnly: false };

/** A session with three entries of the measuring station in it. */
function begun(): Y.Doc {
  const doc = openSession(DESK);
  doc.clientID = OWN;
  for (const id of ['a', 'b', 'c']) doc.getArray('facts').push([floor(id)]);
  doc.clientID = 1; // else Yjs gives up the id as soon as it comes from outside
  return doc;
}

/** Whatever the bytes, the gate answers; and what it takes does exactly what it foretold. */
function hold(bytes: Uint8Array): void {
  const doc = begun();
  const before = doc.getArray('facts').toArray();
  const verdict = gate(bytes, viewOf(doc), MEASURING);
  if (verdict.do !== 'take') return;
  let told = 0;
  doc.on('update', () => (told += 1));
  Y.applyUpdate(doc, bytes);
  const after = doc.getArray<{ id: string }>('facts').toArray();
  expect(told).toBe(1);
  expect(doc.store.pendingStructs).toBeNull();
  expect(doc.store.pendingDs).toBeNull();
  for (const [client, clock] of verdict.clocks) expect(Y.getState(doc.store, client)).toBe(clock);
  expect(after).toHaveLength(before.length + verdict.facts.length);
  expect(after[0]!.id).toBe('opened');
  expect([...doc.share.keys()]).toEqual(['facts']);
  expect(after.every((fact) => parseStrict(fact).ok)).toBe(true);
  expect(new Set(after.map(({ id }) => id)).size).toBe(after.length);
}

const often = <T>(weight: number, usual: fc.Arbitrary<T>, ...rest: fc.Arbitrary<T>[]) =>
  fc.oneof({ weight, arbitrary: usual }, ...rest);

const known: fc.Arbitrary<Id> = fc.constantFrom(
  { client: DESK, clock: 0 },
  ...[0, 1, 2].map((clock) => ({ client: OWN, clock })),
);
const anyId: fc.Arbitrary<Id> = fc.record({
  client: fc.constantFrom(DESK, OWN, OWN + 1, OWN + 2, clientOf(4), 7),
  clock: fc.integer({ min: 0, max: 5 }),
});
const content = often(
  12,
  fc.constantFrom('f1', 'f2', 'f3', 'f4', 'f5', 'a').map((name) => any(floor(name))),
  fc.constantFrom(any(), any(floor('g1'), floor('g2')), any(reading('r', 900)), json(floor('j')), text('t')),
);
const struct: fc.Arbitrary<Struct> = often(
  12,
  fc.tuple(content, often(5, known, anyId)).map(([inner, origin]) => item(inner, { origin })),
  fc.tuple(content, anyId, anyId).map(([inner, origin, rightOrigin]) => item(inner, { origin, rightOrigin })),
  content.map((inner) => item(inner)),
  content.map((inner) => item(inner, { parent: 'other' })),
  fc.constantFrom<Struct>({ is: 'gc', length: 1 }, { is: 'skip', length: 2 }),
);
const start = often(
  6,
  fc.constantFrom({ client: OWN, clock: 3 }, { client: OWN + 1, clock: 0 }, { client: OWN, clock: 2 }),
  anyId,
);
const update = fc.record({
  sections: fc.array(
    fc
      .tuple(start, fc.array(struct, { minLength: 1, maxLength: 3 }))
      .map(([{ client, clock }, structs]) => ({ client, clock, structs })),
    { maxLength: 3 },
  ),
  deletes: often(
    9,
    fc.constant<Update['deletes'] & object>([]),
    fc.array(
      anyId.map((at) => ({ ...at, length: 1 })),
      { maxLength: 1 },
    ),
  ),
});

describe('the gate and chance', () => {
  it('never lets a random update do what it did not foretell', () => {
    let taken = 0;
    fc.assert(
      fc.property(update, (parts) => {
        const bytes = craft(parts);
        if (gate(bytes, viewOf(begun()), MEASURING).do === 'take') taken += 1;
        hold(bytes);
      }),
      { seed: 20_260_109, numRuns: 3_000 },
    );
    expect(taken).toBeGreaterThan(100); // else nothing was shown
  });

  it('never lets an honest update with changed bytes do what it did not foretell', () => {
    const station = begun();
    station.clientID = OWN;
    const state = Y.encodeStateVector(station);
    for (let i = 0; i < 4; i++) station.getArray('facts').push([floor(`n${i}`), reading(`r${i}`, 9)]);
    const honest = Y.encodeStateAsUpdate(station, state);
    const change = fc.record({ at: fc.nat(honest.length - 1), to: fc.integer({ min: 0, max: 255 }) });
    fc.assert(
      fc.property(fc.array(change, { maxLength: 3 }), fc.nat(honest.length), (changes, length) => {
        const bytes = honest.slice(0, changes.length === 0 ? length : honest.length);
        for (const { at, to } of changes) bytes[at] = to;
        hold(bytes);
      }),
      { seed: 20_260_110, numRuns: 3_000 },
    );
    expect(gate(honest, viewOf(begun()), MEASURING).do).toBe('take');
  });
});
