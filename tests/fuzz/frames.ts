/**
 * Frames of an attacker. A `still` frame leaves the connection open, so that many can be read on one; after any other
 * it may be closed, so it is sent last.
 */
import * as encoding from 'lib0/encoding';
import { CLIENT_SPAN, LIMIT, MESSAGE } from '../../core/index.ts';
import { step1Frame, step2Frame, updateFrame } from '../../server/frames.ts';
import { BOUND } from '../../server/limits.ts';
import { MEASURING } from '../server/helpers/attack.ts';
import { orderAttacks } from '../server/helpers/attacks-order.ts';
import { updateAttacks } from '../server/helpers/attacks-update.ts';
import { any, craft, item, json, listsInLists, map, text } from '../server/helpers/craft.ts';
import type { Content, Struct, Update } from '../server/helpers/craft.ts';
import { clientOf, floor } from '../server/helpers/entries.ts';
import type { Chance } from './chance.ts';
import { anyFact, anyId, badFact } from './target.ts';
import type { Target } from './target.ts';

export type Frame = Uint8Array | string;
type Make = (chance: Chance, target: Target) => Frame;

const written = (write: (encoder: encoding.Encoder) => void): Uint8Array => {
  const encoder = encoding.createEncoder();
  write(encoder);
  return encoding.toUint8Array(encoder);
};

const update = (parts: Update): Uint8Array => updateFrame(craft(parts));
const fresh = (chance: Chance, { number }: Target) => clientOf(number, chance.under(CLIENT_SPAN));
const one = (client: number, struct: Struct, clock = 0): Uint8Array =>
  update({ sections: [{ client, clock, structs: [struct] }] });

/** Says who it is, or who it is not. */
const STATES: readonly unknown[] = [
  null,
  0,
  '',
  [],
  {},
  { role: 'desk' },
  { role: 'measuring', initials: 'AB', doing: { side: 'left', act: 'reading' } },
  { role: 'measuring', initials: 'x'.repeat(900), doing: 7 },
  { role: 'wall', device: 'desk-1', name: 'somebody else' },
  JSON.parse('{"__proto__":{"role":"measuring"},"constructor":{"prototype":{"role":"desk"}}}'),
  JSON.parse('['.repeat(400) + ']'.repeat(400)),
];

const presence: Make = (chance, target) =>
  written((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.awareness);
    const inner = written((body) => {
      const count = chance.under(5);
      encoding.writeVarUint(body, count);
      for (let i = 0; i < count; i++) {
        encoding.writeVarUint(body, chance.once(2) ? target.own.client : anyId(chance, target).client);
        encoding.writeVarUint(body, chance.under(2 ** 31));
        encoding.writeVarString(body, JSON.stringify(chance.pick(STATES)));
      }
    });
    encoding.writeVarUint8Array(encoder, inner);
  });

const stateVector: Make = (chance, target) =>
  step1Frame(
    written((encoder) => {
      const count = 1 + chance.under(20);
      encoding.writeVarUint(encoder, count);
      for (let i = 0; i < count; i++) {
        const { client, clock } = anyId(chance, target);
        encoding.writeVarUint(encoder, client);
        encoding.writeVarUint(encoder, clock);
      }
    }),
  );

/** [weight, frame] */
const STILL: readonly (readonly [number, Make])[] = [
  [
    10,
    (chance) =>
      written(
        (encoder) => (
          encoding.writeVarUint(encoder, unknownNumber(chance)),
          encoding.writeUint8Array(encoder, chance.bytes(chance.under(60)))
        ),
      ),
  ],
  [4, () => new Uint8Array([MESSAGE.queryAwareness])],
  [6, presence],
  [2, stateVector],
  // Refused: whole facts, by the rules on entries.
  [
    30,
    (chance, target) =>
      one(fresh(chance, target), item(any(badFact(chance, target)), { origin: target.first })),
  ],
  [
    4,
    (chance, target) =>
      one(target.own.client, item(any(badFact(chance, target)), { origin: target.first }), target.own.clock),
  ],
  [
    4,
    (chance, target) =>
      one(
        target.others[0] ?? 17,
        item(any(floor('f', target.device)), { origin: target.first }),
        1e6 * chance.under(2),
      ),
  ],
  [4, (chance) => one(chance.under(2 ** 32), item(any(floor('f'))))],
  [4, (chance, target) => one(fresh(chance, target), item(any(badFact(chance, target))))],
  [
    4,
    (chance, target) =>
      one(
        fresh(chance, target),
        item(any(...Array.from({ length: 1 + chance.under(60) }, () => badFact(chance, target))), {
          origin: target.first,
        }),
      ),
  ],
  // Asked about: a gap, an origin that is not here.
  [
    6,
    (chance, target) =>
      one(
        fresh(chance, target),
        item(any(anyFact(chance, target)), { origin: target.first }),
        1 + chance.under(2 ** 31),
      ),
  ],
  [
    6,
    (chance, target) =>
      one(
        fresh(chance, target),
        item(any(anyFact(chance, target)), { origin: { client: clientOf(900), clock: chance.under(9) } }),
      ),
  ],
  // Nothing in it, or nothing new.
  [3, () => update({ sections: [] })],
  [
    6,
    (chance, { overheard }) =>
      overheard.length > 0 ? updateFrame(chance.pick(overheard)) : step2Frame(new Uint8Array([0, 0])),
  ],
];

function unknownNumber(chance: Chance): number {
  const number = chance.pick([2, 4, 99, 104, 2 ** 20, 2 ** 40, Number.MAX_SAFE_INTEGER]);
  return number + (number < 2 ** 50 && number > 4 ? chance.under(50) : 0);
}

const contents = (chance: Chance, target: Target): Content => {
  switch (chance.under(12)) {
    case 0:
      return any();
    case 1:
      return json(floor('j', target.device)); // no plain value, so never taken
    case 2:
      return text('x'.repeat(chance.under(40)));
    case 3:
      return map;
    case 4:
      return any(...Array.from({ length: chance.under(9) }, () => anyFact(chance, target)));
    default:
      return any(anyFact(chance, target));
  }
};

function anyStruct(chance: Chance, target: Target): Struct {
  if (chance.once(12))
    return { is: chance.pick(['gc', 'skip'] as const), length: chance.pick([0, 1, 5, 2 ** 31]) };
  const rest = {
    ...(chance.once(5) ? {} : { origin: anyId(chance, target) }),
    ...(chance.once(6) ? { rightOrigin: anyId(chance, target) } : {}),
    ...(chance.once(6)
      ? {
          parent: chance.pick<string | ReturnType<typeof anyId>>([
            'facts',
            'other',
            '',
            anyId(chance, target),
          ]),
        }
      : {}),
    ...(chance.once(9) ? { parentSub: chance.pick(['', 'k', '__proto__']) } : {}),
  };
  return item(contents(chance, target), rest);
}

/** Sections, structs and deletions put together at random, with counts that are sometimes not true. */
const crafted: Make = (chance, target) =>
  update({
    sections: Array.from({ length: 1 + chance.under(3) }, () => ({
      ...(chance.once(3) ? anyId(chance, target) : target.own),
      structs: Array.from({ length: chance.under(4) }, () => anyStruct(chance, target)),
      ...(chance.once(15) ? { announced: chance.pick([0, 1, 99, 2 ** 31, 2 ** 52]) } : {}),
    })),
    ...(chance.once(6)
      ? { deletes: [{ ...anyId(chance, target), length: chance.pick([0, 1, 2 ** 31]) }] }
      : {}),
    ...(chance.once(15) ? { announced: chance.pick([0, 1, 99, 2 ** 31, 2 ** 52]) } : {}),
  });

/** An update that would be taken, or nearly, with some of its bytes changed. */
const changed: Make = (chance, target) => {
  const { client, clock } = target.own;
  const origin = clock > 0 ? { client, clock: clock - 1 } : target.first;
  const frame = one(client, item(any(anyFact(chance, target), badFact(chance, target)), { origin }), clock);
  for (let left = chance.under(4); left > 0; left--) frame[chance.under(frame.length)] = chance.under(256);
  return frame;
};

const cut: Make = (chance, target) => {
  const frame = chance.pick([crafted, changed, presence, stateVector])(chance, target) as Uint8Array;
  return chance.once(3)
    ? new Uint8Array([...frame, ...chance.bytes(1 + chance.under(9))])
    : frame.subarray(0, chance.under(frame.length));
};

const RULES = [...updateAttacks, ...orderAttacks]
  .filter(
    ({ bytes, answer, writer = MEASURING }) =>
      bytes.length < 10_000 && answer === 'reject' && !writer.readOnly,
  )
  .map(({ bytes }) => updateFrame(bytes));
const facts = (count: number) => any(...Array.from({ length: count }, (_, i) => ({ id: `f${i}` })));

/** What costs the server most, made once. */
const HEAVY: readonly (() => Frame)[] = [
  () => new Uint8Array(LIMIT.frameBytes + 1),
  () => new Uint8Array(BOUND.frameBytesRead + 1),
  () => updateFrame(new Uint8Array(LIMIT.frameBytes - 10).fill(255)),
  () => one(clientOf(5), item(facts(LIMIT.factsPerUpdate + 1))),
  () => one(clientOf(5), item(listsInLists(400_000))),
  () => step1Frame(new Uint8Array(LIMIT.frameBytes - 10).fill(1)),
  () =>
    written(
      (encoder) => (
        encoding.writeVarUint(encoder, 1),
        encoding.writeVarUint8Array(encoder, new Uint8Array(900_000).fill(1))
      ),
    ),
];
const heavy = new Map<number, Frame>();

const LAST: readonly (readonly [number, Make])[] = [
  [30, changed],
  [30, crafted],
  [15, cut],
  [10, (chance) => new Uint8Array([chance.under(3), chance.under(4), ...chance.bytes(chance.under(200))])],
  [4, (chance) => chance.pick(['', 'hello', '{"type":"sync"}', '\u0000'.repeat(50)])],
  [10, (chance) => chance.pick(RULES)],
];

const weighed = (table: readonly (readonly [number, Make])[]): readonly Make[] =>
  table.flatMap(([weight, make]) => Array.from({ length: weight }, () => make));
const still = weighed(STILL);
const last = weighed(LAST);

export const stillFrame: Make = (chance, target) => chance.pick(still)(chance, target);

export const lastFrame: Make = (chance, target) => {
  if (!chance.once(300)) return chance.pick(last)(chance, target);
  const which = chance.under(HEAVY.length);
  const frame = heavy.get(which) ?? HEAVY[which]!();
  heavy.set(which, frame);
  return frame;
};
