/** Attacks by order: entries that stand behind themselves, behind what is not here, or are here already. */
import * as Y from 'yjs';
import { AT_DESK, DESK, FIRST, many, own, OWN } from './attack.ts';
import type { Attack } from './attack.ts';
import { any, craft, item } from './craft.ts';
import { clientOf, floor, opened } from './entries.ts';
import { openSession } from './view.ts';

/** A session in which the measuring station has three entries. */
function begun(): Y.Doc {
  const doc = openSession(DESK);
  doc.clientID = OWN;
  doc.getArray('facts').push(many(3, (i) => floor(`f${i}`)));
  return doc;
}

export const orderAttacks: readonly Attack[] = [
  {
    rule: 'own-origin',
    title: 'an entry behind itself',
    bytes: own(item(any(floor('f1')), { origin: { client: OWN, clock: 0 } })),
    answer: 'reject',
    otherwise: 'ask',
  },
  {
    rule: 'own-origin',
    title: 'new values in a run whose first is known, said to stand behind a later one of itself',
    bytes: own(item(any(...many(4, (i) => floor(`f${i}`))), { origin: { client: OWN, clock: 2 } })),
    doc: begun(),
    answer: 'reject',
    otherwise: 'take',
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
];
