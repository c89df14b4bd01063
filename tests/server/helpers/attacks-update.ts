/** Attacks by bytes and structs: on the rules of `server/gate-update.ts` that look at an update by itself. */
import * as Y from 'yjs';
import { LIMIT } from '../../../core/index.ts';
import { AT_DESK, DESK, FIRST, honest, many, MEASURING, own, OWN } from './attack.ts';
import type { Attack } from './attack.ts';
import { any, craft, item, json } from './craft.ts';
import { clientOf, floor, opened, snow } from './entries.ts';

export const updateAttacks: readonly Attack[] = [
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
    title: 'two sections of one client with another’s between them',
    bytes: craft({
      sections: [
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
        { client: OWN + 1, clock: 0, structs: [item(any(floor('f2')), { origin: FIRST })] },
        { client: OWN, clock: 1, structs: [item(any(floor('f3')), { origin: FIRST })] },
      ],
    }),
    answer: 'reject',
    otherwise: 'take',
  },
  {
    rule: 'sections',
    title: 'two sections of one client with a hole between them',
    bytes: craft({
      sections: [
        { client: OWN, clock: 0, structs: [item(any(floor('f1')), { origin: FIRST })] },
        { client: OWN, clock: 5, structs: [item(any(floor('f2')), { origin: FIRST })] },
      ],
    }),
    answer: 'reject',
    otherwise: 'ask',
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
    rule: 'plain-content',
    title: 'garbage in the place of an entry',
    bytes: own({ is: 'gc', length: 1 }),
    answer: 'reject',
    otherwise: 'no-right-origin',
  },
  {
    rule: 'plain-content',
    title: 'a gap written down as a gap',
    bytes: own({ is: 'skip', length: 1 }, item(any(floor('f1')), { origin: FIRST })),
    answer: 'reject',
    otherwise: 'no-right-origin',
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
];
