/** What an attacking station knows of the room it is in, as much as any station there may know. */
import { clientOf, entry, floor, reading } from '../server/helpers/entries.ts';
import type { Id } from '../server/helpers/craft.ts';
import type { Chance } from './chance.ts';

export interface Target {
  /** Number and device id of the attacker. */
  readonly number: number;
  readonly device: string;
  /** The session's first entry. */
  readonly first: Id;
  /** Yjs client ids of others in the room. */
  readonly others: readonly number[];
  /** The client id under which the attacker's entries may be taken, and how many of it are. */
  readonly own: { readonly client: number; clock: number };
  /** What stations of the room have sent lately, as it was relayed; the attacker says it again. */
  readonly overheard: Uint8Array[];
}

/** Strings, numbers and shapes that no field of a fact takes. */
const JUNK: readonly unknown[] = [
  -1e9,
  1e308,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  null,
  undefined,
  [],
  {},
  [[[[[[[[[[1]]]]]]]]]],
  'x'.repeat(3_000),
  '\u0000\u202e\uD800',
  { toString: 1, constructor: { prototype: {} } },
  new Uint8Array([1, 2, 3]),
  12345678901234567890n,
];

const FIELDS = ['at', 'by', 'kind', 'crossDeg', 'alongDeg', 'medialMm', 'to', 'posture', '__proto__', 'more'];

/** A fact that is never taken: one field of it is junk, or it is somebody else's, or not this role's. */
export function badFact(chance: Chance, { device }: Target): Record<string, unknown> {
  const id = `x${chance.under(1e9)}`;
  switch (chance.under(8)) {
    case 0:
      return floor(id, 'somebody-else');
    case 1:
      return reading(id, chance.pick([-1, 61, 1e9, Number.NaN]), device);
    case 2:
      return entry(id, 'bench', 'somebody-else', { kind: chance.pick(['shell.worked', 'struck', 'x', '']) });
    case 3:
      return floor('opened', device, chance.pick([Number.NaN, 1e6]));
    default: {
      // Without any junk, too, no kind has both of these fields: what names `__proto__` never leaves the decoder.
      const base = chance.once(2) ? floor(id, device) : reading(id, 8, device);
      const fact = { ...base, crossDeg: 1e9, medialMm: 1e9 };
      // Defined, since an assignment to `__proto__` would not make a field.
      Object.defineProperty(fact, chance.pick(FIELDS), {
        value: chance.pick(JUNK),
        enumerable: true,
        configurable: true,
        writable: true,
      });
      return fact;
    }
  }
}

/** A fact as good as any, once in a long while: a session shall not be filled by the attack. */
export const anyFact = (chance: Chance, target: Target): Record<string, unknown> =>
  chance.once(150) ? floor(`g${chance.under(1e9)}`, target.device) : badFact(chance, target);

/** An id that is there, is nearly there, or is made up. */
export function anyId(chance: Chance, { first, own, number, others }: Target): Id {
  switch (chance.under(6)) {
    case 0:
    case 1:
      return first;
    case 2:
      return { client: own.client, clock: Math.max(0, own.clock - 1 + chance.under(3)) };
    case 3:
      return { client: others.length > 0 ? chance.pick(others) : 1, clock: chance.under(50) };
    case 4:
      return { client: clientOf(number, chance.under(2 ** 32)), clock: chance.under(3) };
    default:
      return {
        client: chance.pick([0, 1, 2 ** 32, 2 ** 53 - 1, clientOf(chance.under(99))]),
        clock: chance.pick([0, 1, 2 ** 31, 2 ** 53 - 1]),
      };
  }
}
