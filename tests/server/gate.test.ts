/**
 * The gate, attacked rule by rule. Each attack is stopped by the rule it is meant for, and each shows what it
 * would get away with if that rule were left out: so a rule that no attack needs is seen.
 */
import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { LIMIT } from '../../core/index.ts';
import { gate, makeGate, RULES } from '../../server/gate.ts';
import type { GateWriter, RuleName, Verdict } from '../../server/gate-rule.ts';
import { any, craft, item, json, listsInLists, map, text } from './helpers/craft.ts';
import type { Struct } from './helpers/craft.ts';
import { clientOf, entry, floor, opened, reading, snow } from './helpers/entries.ts';
import { openSession, viewOf } from './helpers/view.ts';

const DESK = clientOf(3);
const OWN = clientOf(5);
const MEASURING: GateWriter = { number: 5, device: 'measuring-5', roles: ['measuring'], readOnly: false };
const AT_DESK: GateWriter = { number: 3, device: 'desk-3', roles: ['desk'], readOnly: false };
const FIRST = { client: DESK, clock: 0 };

/** One section of the measuring station's own client, behind `session.opened`. */
const own = (...structs: Struct[]) => craft({ sections: [{ client: OWN, clock: 0, structs }] });
const honest = own(item(any(floor('f1')), { origin: FIRST }));

const without = (rule: RuleName) => makeGate(RULES.filter(({ name }) => name !== rule));

interface Attack {
  readonly rule: RuleName;
  readonly title: string;
  readonly bytes: Uint8Array;
  readonly writer?: GateWriter;
  readonly doc?: Y.Doc;
  readonly answer: Verdict['do'];
  /** What would be done without the rule; a second rule that also objects is named. */
  readonly otherwise: 'take' | 'nothing' | 'ask' | RuleName;
}

const many = (count: number, make: (index: number) => Record<string, unknown>) =>
  Array.from({ length: count }, (_, index) => make(index));

const withPrototype = JSON.parse(JSON.stringify(floor('f1'))) as Record<string, unknown>;
Object.defineProperty(withPrototype, '__proto__', { value: {}, enumerable: true });

const ATTACKS: readonly Attack[] = [
  {
    rule: 'size',
    title: 'a megabyte of good facts',
    bytes: craft({
      sections: [
        {
          client: DESK,
          clock: 1,
          structs: [
            item(any(...many(600, (i) => snow(`s${i}`, 'desk-3', 'x'.repeat(1_900)))), { origin: FIRST }),
          ],
        },
      ],
    }),
    writer: AT_DESK,
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'count',
    title: 'more facts than an update may have',
    bytes: own(item(any(...many(LIMIT.factsPerUpdate + 1, (i) => floor(`f${i}`))), { origin: FIRST })),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'readable',
    title: 'an update that ends early',
    bytes: honest.subarray(0, honest.length - 5),
    answer: 'reject',
    otherwise: 'nothing',
  },
  {
    rule: 'no-deletes',
    title: 'a deletion beside a good fact',
    bytes: craft({
      sections: [{ client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] }],
      deletes: [{ client: DESK, clock: 0, length: 1 }],
    }),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'read-only',
    title: 'a good fact from one who may only read',
    bytes: honest,
    writer: { ...MEASURING, readOnly: true },
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'sections',
    title: 'two sections of one client, of which Yjs applies the last',
    bytes: craft({
      sections: [
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
        { client: OWN, clock: 1, structs: [item(any(floor('f2')), { origin: { client: OWN, clock: 0 } })] },
      ],
    }),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'sections',
    title: 'an empty section beside the good one',
    bytes: craft({
      sections: [
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
        { client: clientOf(9), clock: 7, structs: [] },
      ],
    }),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'items-only',
    title: 'garbage in the place of an entry',
    bytes: own({ is: 'gc', length: 1 }),
    answer: 'reject',
    otherwise: 'plain-content',
  },
  {
    rule: 'items-only',
    title: 'a gap written down as a gap',
    bytes: own({ is: 'skip', length: 1 }, item(any(floor('f1')), { origin: FIRST })),
    answer: 'reject',
    otherwise: 'plain-content',
  },
  {
    rule: 'plain-content',
    title: 'a good fact in the older JSON content',
    bytes: own(item(json(floor('f1')), { origin: FIRST })),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'plain-content',
    title: 'an empty run of values',
    bytes: own(item(any(), { origin: FIRST })),
    answer: 'reject',
    otherwise: 'nothing',
  },
  {
    rule: 'plain-content',
    title: 'a clock past the safe integers',
    bytes: craft({
      sections: [
        { client: OWN, clock: Number.MAX_SAFE_INTEGER, structs: [item(any(floor('f1')), { origin: FIRST })] },
      ],
    }),
    answer: 'reject',
    otherwise: 'ask',
  },
  {
    rule: 'no-right-origin',
    title: 'a good fact put in front of another',
    bytes: craft({
      sections: [
        {
          client: DESK,
          clock: 1,
          structs: [item(any(snow('s2', 'desk-3', 'x')), { origin: FIRST, rightOrigin: FIRST })],
        },
      ],
    }),
    writer: AT_DESK,
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'no-right-origin',
    title: 'a first fact under a key, which a later one would replace',
    bytes: craft({
      sections: [{ client: DESK, clock: 0, structs: [item(any(opened()), { parentSub: 'k' })] }],
    }),
    writer: AT_DESK,
    doc: new Y.Doc(),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'parent',
    title: 'a first fact in another list',
    bytes: craft({
      sections: [{ client: DESK, clock: 0, structs: [item(any(opened()), { parent: 'other' })] }],
    }),
    writer: AT_DESK,
    doc: new Y.Doc(),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'parent',
    title: 'a first fact inside an entry',
    bytes: craft({
      sections: [{ client: DESK, clock: 0, structs: [item(any(opened()), { parent: FIRST })] }],
    }),
    writer: AT_DESK,
    doc: new Y.Doc(),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'own-origin',
    title: 'an entry behind itself',
    bytes: own(item(any(floor('f1')), { origin: { client: OWN, clock: 0 } })),
    answer: 'reject',
    otherwise: 'ask',
  },
  {
    rule: 'integrates',
    title: 'an entry after a gap',
    bytes: craft({
      sections: [{ client: OWN, clock: 3, structs: [item(any(floor('f1')), { origin: FIRST })] }],
    }),
    answer: 'ask',
    otherwise: 'nothing',
  },
  {
    rule: 'integrates',
    title: 'an entry behind an unknown one',
    bytes: own(item(any(floor('f1')), { origin: { client: clientOf(8), clock: 0 } })),
    answer: 'ask',
    otherwise: 'nothing',
  },
  {
    rule: 'integrates',
    title: 'a known entry, said to stand behind an unknown one',
    bytes: craft({
      sections: [
        {
          client: DESK,
          clock: 0,
          structs: [item(any(opened()), { origin: { client: clientOf(8), clock: 0 } })],
        },
      ],
    }),
    writer: AT_DESK,
    answer: 'ask',
    otherwise: 'nothing',
  },
  {
    rule: 'integrates',
    title: 'two clients each behind the other',
    bytes: craft({
      sections: [
        {
          client: OWN + 1,
          clock: 0,
          structs: [item(any(floor('f1')), { origin: { client: OWN, clock: 0 } })],
        },
        {
          client: OWN,
          clock: 0,
          structs: [item(any(floor('f2')), { origin: { client: OWN + 1, clock: 0 } })],
        },
      ],
    }),
    answer: 'ask',
    otherwise: 'nothing',
  },
  {
    rule: 'known-part',
    title: 'what is known already',
    bytes: Y.encodeStateAsUpdate(openSession(DESK)),
    writer: AT_DESK,
    answer: 'nothing',
    otherwise: 'take',
  },
  {
    rule: 'owner',
    title: 'a second owner of a client id',
    bytes: craft({
      sections: [{ client: DESK, clock: 1, structs: [item(any(floor('f1')), { origin: FIRST })] }],
    }),
    answer: 'refuse',
    otherwise: 'take',
  },
  {
    rule: 'owner',
    title: 'the server’s own number',
    bytes: craft({
      sections: [{ client: 17, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] }],
    }),
    answer: 'refuse',
    otherwise: 'take',
  },
  {
    rule: 'client-cap',
    title: 'one client id too many',
    bytes: craft({
      sections: [
        { client: clientOf(5, 900), clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
      ],
    }),
    doc: withClients(LIMIT.clientsPerStation),
    answer: 'refuse',
    otherwise: 'take',
  },
  {
    rule: 'behind-the-first',
    title: 'a good fact without an origin, which would stand first',
    bytes: craft({ sections: [{ client: clientOf(2), clock: 0, structs: [item(any(floor('f1', 'm-2')))] }] }),
    writer: { ...MEASURING, number: 2, device: 'm-2' },
    answer: 'refuse',
    otherwise: 'take',
  },
  {
    rule: 'plain-json',
    title: 'a good fact with a prototype of its own',
    bytes: own(item(any(withPrototype), { origin: FIRST })),
    answer: 'refuse',
    otherwise: 'take',
  },
  ...(
    [
      ['a gap of 900 mm', reading('r1', 900)],
      ['a text where a number belongs', { ...floor('f1'), crossDeg: 'flat' }],
      ['an unknown field', { ...floor('f1'), colour: 'red' }],
      ['an unknown kind', { ...floor('f1'), kind: 'floor.swept' }],
      ['a number that is none', { ...floor('f1'), crossDeg: Number.NaN }],
      ['another device’s name', floor('f1', 'desk-3')],
      ['a role that is not granted', entry('f1', 'bench', 'measuring-5', { kind: 'shell.worked' })],
      [
        'a kind that the role does not write',
        entry('f1', 'measuring', 'measuring-5', { kind: 'home.checked', note: '' }),
      ],
      ['the id of another fact', floor('opened')],
      [
        'a strike of what is not there',
        entry('x', 'measuring', 'measuring-5', { kind: 'struck', fact: 'f9', reason: '' }),
      ],
      [
        'a strike of the first fact',
        entry('x', 'measuring', 'measuring-5', { kind: 'struck', fact: 'opened', reason: '' }),
      ],
    ] as const
  ).map(([title, value]): Attack => ({
    rule: Object.values(value).some((inner) => Number.isNaN(inner)) ? 'plain-json' : 'fact',
    title,
    bytes: own(item(any(value), { origin: FIRST })),
    answer: 'refuse',
    otherwise: Object.values(value).some((inner) => Number.isNaN(inner)) ? 'fact' : 'take',
  })),
];

function withClients(count: number): Y.Doc {
  const doc = openSession(DESK);
  for (let page = 1; page <= count; page++) {
    doc.clientID = clientOf(5, page);
    doc.getArray('facts').push([floor(`p${page}`)]);
  }
  return doc;
}

const name = (verdict: Verdict) => ('rule' in verdict ? verdict.rule : verdict.do);

describe('the gate', () => {
  it.each(ATTACKS.map((attack) => [attack.rule, attack.title, attack] as const))(
    '%s stops %s',
    (rule, _title, { bytes, writer = MEASURING, doc = openSession(DESK), answer, otherwise }) => {
      const verdict = gate(bytes, viewOf(doc), writer);
      expect(verdict.do).toBe(answer);
      if ('rule' in verdict) expect(verdict.rule).toBe(rule);
      const lax = without(rule)(bytes, viewOf(doc), writer);
      expect(lax.do === 'ask' ? 'ask' : name(lax)).toBe(otherwise);
    },
  );

  it('has an attack for each of its rules', () => {
    expect(new Set(ATTACKS.map(({ rule }) => rule))).toEqual(new Set(RULES.map(({ name }) => name)));
  });

  it('takes an honest fact and foretells what the document becomes', () => {
    const doc = openSession(DESK);
    const verdict = gate(honest, viewOf(doc), MEASURING);
    expect(verdict).toMatchObject({ do: 'take', facts: [{ id: 'f1' }], clocks: new Map([[OWN, 1]]) });
    Y.applyUpdate(doc, honest);
    expect(Y.getState(doc.store, OWN)).toBe(1);
    expect(doc.getArray('facts').toArray()).toEqual([opened(), floor('f1')]);
  });

  it('takes an honest backlog of 200 facts with what is known already before it', () => {
    const station = new Y.Doc();
    Y.applyUpdate(station, Y.encodeStateAsUpdate(openSession(DESK)));
    station.clientID = OWN;
    station.getArray('facts').push([floor('f0')]);
    const doc = openSession(DESK);
    Y.applyUpdate(doc, Y.encodeStateAsUpdate(station));
    for (let i = 1; i <= 200; i++) station.getArray('facts').push([floor(`f${i}`)]);
    const verdict = gate(Y.encodeStateAsUpdate(station), viewOf(doc), MEASURING);
    expect(verdict.do).toBe('take');
    if (verdict.do !== 'take') return;
    expect(verdict.facts.map(({ id }) => id)).toEqual(
      many(200, (i) => ({ id: `f${i + 1}` })).map(({ id }) => id),
    );
    expect(verdict.clocks).toEqual(new Map([[OWN, 201]]));
  });

  it('sees a fact that another client of the same update strikes', () => {
    const bytes = craft({
      sections: [
        {
          client: OWN + 1,
          clock: 0,
          structs: [
            item(
              any(entry('x', 'measuring', 'measuring-5', { kind: 'struck', fact: 'f1', reason: 'undo' })),
              {
                origin: { client: OWN, clock: 0 },
              },
            ),
          ],
        },
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
      ],
    });
    const verdict = gate(bytes, viewOf(openSession(DESK)), MEASURING);
    expect(verdict).toMatchObject({ do: 'take', facts: [{ id: 'f1' }, { id: 'x' }] });
  });

  it('says which facts are there already with the same value, and takes nothing', () => {
    const doc = openSession(DESK);
    Y.applyUpdate(doc, honest);
    const again = craft({
      sections: [
        {
          client: OWN + 1,
          clock: 0,
          structs: [item(any(floor('f1'), floor('f2')), { origin: { client: OWN, clock: 0 } })],
        },
      ],
    });
    expect(gate(again, viewOf(doc), MEASURING)).toMatchObject({ do: 'refuse', refused: [], already: ['f1'] });
  });

  it('names each fact at fault, and the client that is blocked', () => {
    const bytes = own(
      item(any(floor('f1'), reading('r1', 900), floor('f1', 'measuring-5', 2)), { origin: FIRST }),
    );
    expect(gate(bytes, viewOf(openSession(DESK)), MEASURING)).toMatchObject({
      do: 'refuse',
      refused: [
        { code: 'shape', fact: 'r1', field: 'medialMm', client: OWN },
        { code: 'id-taken', fact: 'f1', client: OWN },
      ],
    });
  });

  it('has a reason for the rule about sections: Yjs would keep half of such an update waiting for ever', () => {
    const { bytes } = ATTACKS.find(({ rule }) => rule === 'sections')!;
    const doc = openSession(DESK);
    Y.applyUpdate(doc, bytes);
    expect(doc.store.pendingStructs).not.toBeNull();
  });

  it('has a reason for the rule about the first place: such a fact would stand before session.opened', () => {
    const { bytes } = ATTACKS.find(({ rule }) => rule === 'behind-the-first')!;
    const doc = openSession(DESK);
    Y.applyUpdate(doc, bytes);
    expect(doc.getArray<{ id: string }>('facts').get(0).id).toBe('f1');
  });

  it.each([
    ['nothing', new Uint8Array()],
    ['one byte', new Uint8Array([1])],
    ['a text', own(item(text('hello'), { origin: FIRST }))],
    ['a map', own(item(map, { origin: FIRST }))],
    [
      'a count of structs that is not there',
      craft({ sections: [{ client: OWN, clock: 0, structs: [], announced: 2 ** 40 }] }),
    ],
    ['a count of sections that is not there', craft({ sections: [], announced: 2 ** 40 })],
    ['lists in lists without end', own(item(listsInLists(400_000), { origin: FIRST }))],
  ])('rejects %s without falling over', (_title, bytes) => {
    expect(gate(bytes, viewOf(openSession(DESK)), MEASURING).do).toBe('reject');
  });
});
