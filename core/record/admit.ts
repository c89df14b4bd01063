/**
 * May this author add this fact to this log? The same question in the entry form and in the gate.
 *
 * It asks for shape, identity, permission and an unseen id. It never judges the workflow: an honest entry made
 * in the wrong order is stored, and the plan says what is wrong with it.
 */
import { LIMIT } from '../wire.ts';
import { parseStrict } from './facts.ts';
import type { Fact } from './facts.ts';
import { KINDS } from './kinds.ts';
import type { Kind, Role } from './kinds.ts';
import { personalIn, sameButPersonal } from './personal.ts';
import type { Refusal, RefusalCode } from './refusals.ts';
import { sameJson } from './same.ts';

/** Who writes: the authenticated device, and every role granted to it. */
export interface Writer {
  readonly station: string;
  readonly roles: readonly Role[];
}

/** As much of a session's log as the question needs. A `Map` by id fits. */
export interface KnownFacts {
  readonly size: number;
  /** Personal texts of this session were erased: none is taken any more. */
  readonly erased?: boolean;
  get(id: string): Fact | undefined;
}

export type Verdict =
  | { readonly ok: true; readonly fact: Fact; readonly already: boolean }
  | { readonly ok: false; readonly refusal: Refusal };

export const mayWrite = (role: Role, kind: Kind): boolean =>
  (KINDS[kind].roles as readonly Role[]).includes(role);

/** A role that may write the target's kind may strike it, and so may the desk; nobody strikes the server's. */
export const mayStrike = (role: Role, target: Fact): boolean =>
  target.kind !== 'session.opened' &&
  target.by.role !== 'server' &&
  (role === 'desk' || mayWrite(role, target.kind));

/** `already` is true for a fact that is there with the same value: nothing to add, nothing wrong. */
export function admit(known: KnownFacts, value: unknown, writer: Writer): Verdict {
  const parsed = parseStrict(value);
  if (!parsed.ok) {
    const id = (value as { id?: unknown } | null)?.id;
    const { field, wants } = parsed.misfit;
    return { ok: false, refusal: { code: 'shape', fact: typeof id === 'string' ? id : null, field, wants } };
  }
  const { fact } = parsed;
  const refuse = (code: RefusalCode, field: string, wants: string): Verdict => ({
    ok: false,
    refusal: { code, fact: fact.id, field, wants },
  });

  if (fact.by.station !== writer.station)
    return refuse('identity', 'by.station', `must be ${writer.station}`);
  if (!writer.roles.includes(fact.by.role))
    return refuse('identity', 'by.role', `must be ${writer.roles.join(' or ')}`);
  if (!mayWrite(fact.by.role, fact.kind))
    return refuse('permission', 'kind', `${fact.kind} is written by ${KINDS[fact.kind].roles.join(', ')}`);

  const there = known.get(fact.id);
  if (there)
    return sameJson(there, fact) || (known.erased && sameButPersonal(there, fact))
      ? { ok: true, fact, already: true }
      : refuse('id-taken', 'id', `${fact.id} is another fact`);

  if ((known.size === 0) !== (fact.kind === 'session.opened'))
    return refuse(
      'opening',
      'kind',
      known.size === 0 ? 'a session begins with session.opened' : 'the session is open already',
    );
  if (known.size >= LIMIT.factsPerSession)
    return refuse('full', '', `a session holds ${LIMIT.factsPerSession} facts`);

  const personal = known.erased ? personalIn(fact) : null;
  if (personal !== null)
    return refuse('erased', personal, 'is a personal text; those of this session were erased');

  if (fact.kind === 'struck') {
    const target = known.get(fact.fact);
    if (!target) return refuse('unknown-target', 'fact', `${fact.fact} is not in this session`);
    if (!mayStrike(fact.by.role, target))
      return refuse('permission', 'fact', `${fact.by.role} may not strike ${target.kind}`);
  }
  return { ok: true, fact, already: false };
}
