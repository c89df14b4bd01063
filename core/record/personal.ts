/**
 * What of a fact can say who somebody is, and a log without it.
 *
 * Personal are the texts in which a person may write anything: each can hold a name, a telephone number, a
 * remark about somebody. Measurements, choices and short names of things stay: they are the technical record.
 * Names and contacts never enter the log at all; `by.initials` are the staff's.
 *
 * An erased text is replaced and not left out, since that it was said can matter (a reason to override), and by
 * the same word wherever the same was said, since values are compared (a footbed is known by its note).
 */
import { sameJson } from './same.ts';
import type { Fact } from './facts.ts';
import type { Kind } from './kinds.ts';

/** Fields of each kind's payload that hold free text, alone, in a list, or in the place of a number. */
export const PERSONAL: { readonly [K in Kind]?: readonly string[] } = {
  'session.opened': ['notes'],
  'service.changed': ['reason'],
  assessed: ['forefoot', 'rearfoot', 'arch', 'shinCurve', 'note'],
  'stand.wanted': ['note'],
  paused: ['bootsAre', 'note'],
  'boot.described': ['inserts'],
  'ready.checked': ['note'],
  'inside.set': ['spoiler'],
  'cuff.closed': ['note'],
  'cant.chosen': ['override', 'note'],
  'binding.checked': ['reference', 'note'],
  'handed.over': ['note'],
  'released.unfit': ['what'],
  'home.checked': ['note'],
  'snow.reported': ['note'],
  struck: ['reason'],
};

/** What stands in the place of an erased text; the id of the first fact that said it keeps texts apart. */
const erasedAs = (factId: string): string => `erased ${factId}`;
const ERASED = /^erased( [A-Za-z0-9_-]{1,40})?$/;

/** The fact with every personal text put through `change`. */
function changed(fact: Fact, change: (text: string, field: string) => string): Fact {
  const result: Record<string, unknown> = { ...fact };
  for (const field of PERSONAL[fact.kind] ?? []) {
    const value = result[field];
    if (typeof value === 'string') result[field] = change(value, field);
    else if (Array.isArray(value))
      result[field] = value.map((text: unknown) => (typeof text === 'string' ? change(text, field) : text));
  }
  return result as unknown as Fact;
}

/**
 * The same facts with their personal texts erased: every number, choice, id and time is as it was, texts that
 * were equal are equal still, and others differ. What is erased already stays as it is.
 */
export function withoutPersonal(facts: readonly Fact[]): Fact[] {
  const first = new Map<string, string>();
  return facts.map((fact) =>
    changed(fact, (text) => {
      if (text === '' || ERASED.test(text)) return text;
      if (!first.has(text)) first.set(text, fact.id);
      return erasedAs(first.get(text)!);
    }),
  );
}

/** The first field that says a personal text, or null when there is none, or all are erased. */
export function personalIn(fact: Fact): string | null {
  let found: string | null = null;
  changed(fact, (text, field) => {
    if (text !== '' && !ERASED.test(text)) found ??= field;
    return text;
  });
  return found;
}

/** Equal but for what personal texts say: a fact as it was written, and the same one erased. */
export const sameButPersonal = (a: Fact, b: Fact): boolean => {
  const masked = (fact: Fact) => changed(fact, () => '');
  return sameJson(masked(a), masked(b));
};
