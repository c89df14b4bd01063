/** Attacks by entries: on the rules of `server/gate-entries.ts`. */
import type * as Y from 'yjs';
import { LIMIT } from '../../../core/index.ts';
import { DESK, FIRST, MEASURING, own } from './attack.ts';
import type { Attack } from './attack.ts';
import { any, craft, item } from './craft.ts';
import { clientOf, entry, floor, reading } from './entries.ts';
import { openSession } from './view.ts';

const withPrototype = JSON.parse(JSON.stringify(floor('f1'))) as Record<string, unknown>;
Object.defineProperty(withPrototype, '__proto__', { value: {}, enumerable: true });

/** A session in which the measuring station has used `count` client ids. */
function withClients(count: number): Y.Doc {
  const doc = openSession(DESK);
  for (let page = 1; page <= count; page++) {
    doc.clientID = clientOf(5, page);
    doc.getArray('facts').push([floor(`p${page}`)]);
  }
  return doc;
}

/** Lists in a list, `levels` of them in all. */
const nested = (levels: number): unknown => (levels === 0 ? 1 : [nested(levels - 1)]);

const byEntry = (
  rule: 'plain-json' | 'fact',
  otherwise: 'take' | 'fact' | 'throw',
  rows: readonly (readonly [title: string, value: unknown])[],
): Attack[] =>
  rows.map(([title, value]) => ({
    rule,
    title,
    bytes: own(item(any(value), { origin: FIRST })),
    answer: 'refuse',
    otherwise,
  }));

export const entryAttacks: readonly Attack[] = [
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
  ...byEntry('plain-json', 'fact', [
    ['a number that is none', { ...floor('f1'), crossDeg: Number.NaN }],
    ['a number without an end in a list', { ...floor('f1'), crossDeg: [1, Number.POSITIVE_INFINITY] }],
    ['bytes', { ...floor('f1'), crossDeg: new Uint8Array(3) }],
    ['a value that is not there', { ...floor('f1'), crossDeg: undefined }],
    ['lists nine deep', { ...floor('f1'), crossDeg: nested(LIMIT.depth) }],
  ]),
  ...byEntry('plain-json', 'throw', [['a big integer', { ...floor('f1'), crossDeg: 5n }]]),
  ...byEntry('fact', 'take', [
    ['a gap of 900 mm', reading('r1', 900)],
    ['a text where a number belongs', { ...floor('f1'), crossDeg: 'flat' }],
    ['an unknown field', { ...floor('f1'), colour: 'red' }],
    ['an unknown kind', { ...floor('f1'), kind: 'floor.swept' }],
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
  ]),
];
