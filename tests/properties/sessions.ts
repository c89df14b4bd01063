/** Random sessions: what is to be written, in which order, knowing what. */
import fc from 'fast-check';
import { basisFor, KINDS, ROLES } from '../../core/index.ts';
import type { Fact, Kind, Role } from '../../core/index.ts';
import { PAYLOADS, someKind } from './payloads.ts';
import { AT, story } from './story.ts';

/** One entry before it knows the session it stands in: `target` and `replacement` count into the facts there. */
export interface Intent {
  readonly kind: Kind;
  readonly payload: object;
  readonly role: Role;
  /** `heads`: what a station names. `none`: the list's order. A list: any facts at all. */
  readonly basis: 'heads' | 'none' | readonly number[];
  readonly target: number;
  readonly replacement: number | null;
}

const count = fc.nat({ max: 999 });

const intentOf = (kind: Kind, wild: boolean): fc.Arbitrary<Intent> =>
  fc.record({
    kind: fc.constant(kind),
    payload: (kind === 'struck' ? fc.constant({ reason: 'undo' }) : PAYLOADS[kind]) as fc.Arbitrary<object>,
    role: wild
      ? fc.oneof(
          { weight: 9, arbitrary: fc.constantFrom(...KINDS[kind].roles) },
          { weight: 1, arbitrary: fc.constantFrom(...ROLES) },
        )
      : fc.constantFrom(...KINDS[kind].roles),
    basis: wild
      ? fc.oneof(
          { weight: 5, arbitrary: fc.constant('heads' as const) },
          { weight: 3, arbitrary: fc.constant('none' as const) },
          { weight: 1, arbitrary: fc.array(count, { maxLength: 5 }) },
        )
      : fc.constant('heads' as const),
    target: count,
    replacement: fc.option(count, { freq: 3 }),
  });

/** Anything that fits the schemas, in wrong roles and with odd bases too. */
export const wildIntent = someKind.chain((kind) => intentOf(kind, true));
/** What the gate would take from stations that name what they rest on. */
export const honestIntent = someKind
  .filter((kind) => kind !== 'session.opened')
  .chain((kind) => intentOf(kind, false));

/** The fact that comes of an intent on top of these facts. */
export function entry(intent: Intent, facts: readonly Fact[], id: string, station: string): Fact {
  const pick = (n: number): string => facts[n % Math.max(1, facts.length)]?.id ?? 'nothing';
  const { kind, role } = intent;
  const payload =
    kind === 'struck'
      ? {
          ...intent.payload,
          fact: pick(intent.target),
          ...(intent.replacement !== null && { replacedBy: pick(intent.replacement) }),
        }
      : intent.payload;
  const basis =
    intent.basis === 'none'
      ? undefined
      : intent.basis === 'heads'
        ? basisFor(facts, { kind, ...payload }).slice(0, 100)
        : [...new Set(intent.basis.map(pick))];
  return {
    id,
    kind,
    at: AT,
    by: { role, station },
    ...(basis && { basis }),
    ...payload,
  } as unknown as Fact;
}

export function written(intents: readonly Intent[], first: readonly Fact[] = []): Fact[] {
  const facts = [...first];
  for (const intent of intents) facts.push(entry(intent, facts, `r${facts.length}`, 'any-1'));
  return facts;
}

/** What one cuff lives through between being ready and being closed. */
const loopIntent = fc
  .constantFrom<Kind>('cuff.read', 'cuff.read', 'cuff.read', 'cuff.set', 'cuff.closed', 'struck')
  .chain((kind) => intentOf(kind, true));

/** Half begin ready and tell of anything, a third tell of nothing but cuffs, the rest begin with nothing. */
export const someSession: fc.Arbitrary<Fact[]> = fc
  .tuple(fc.constantFrom('ready', 'ready', 'ready', 'loop', 'loop', 'nothing'), fc.boolean())
  .chain(([start, basis]) =>
    fc
      .array(start === 'loop' ? loopIntent : wildIntent, {
        maxLength: start === 'loop' ? 12 : 24,
        size: 'max',
      })
      .map((intents) => written(intents, start === 'nothing' ? [] : story({ basis }).facts)),
  );
