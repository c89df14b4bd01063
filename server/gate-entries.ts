/** Rules about the entries of an update: whose they are, and whether each is a fact its writer may add. */
import { admit, LIMIT, stationOf } from '../core/index.ts';
import type { Fact, KnownFacts, Refusal } from '../core/index.ts';
import type { Refused } from './frames.ts';
import type { Rule, RuleName, Verdict } from './gate-rule.ts';
import { BOUND } from './limits.ts';

const rule = (name: RuleName, judge: Rule['judge']): Rule => ({ name, judge });

/** Refuses a whole client: no fact of it is at fault alone. */
const refuseClient = (
  name: RuleName,
  client: number,
  code: Refusal['code'],
  field: string,
  wants: string,
): Verdict => ({
  do: 'refuse',
  rule: name,
  refused: [{ code, fact: null, field, wants, client }],
  already: [],
});

/** 13. Whose a client id is can be seen from the number; nobody writes under another's. */
const owner = rule('owner', ({ fresh, writer }) => {
  const foreign = fresh.find(({ client }) => stationOf(client) !== writer.number);
  if (!foreign) return undefined;
  const wants = `must belong to station ${writer.number}, which sends it; ${foreign.client} does not`;
  return refuseClient('owner', foreign.client, 'identity', 'client', wants);
});

/** 13, too. One client id a page load; each costs memory in every copy for ever. */
const clientCap = rule('client-cap', ({ fresh, view, writer }) => {
  const added = new Set(fresh.map(({ client }) => client).filter((client) => view.clockOf(client) === 0));
  if (added.size === 0 || view.clientsOf(writer.number) + added.size <= LIMIT.clientsPerStation)
    return undefined;
  const wants = `a station uses at most ${LIMIT.clientsPerStation} client ids in one session`;
  return refuseClient('client-cap', [...added][0]!, 'full', 'client', wants);
});

/**
 * 9, too. Whoever adds to an open session has seen `session.opened`, so their entry stands behind it; without an
 * origin it could be made to stand in front.
 */
const behindTheFirst = rule('behind-the-first', ({ fresh, view }) => {
  const early = fresh.find(({ atStart }, index) => atStart && (view.facts.size > 0 || index > 0));
  if (!early) return undefined;
  return refuseClient(
    'behind-the-first',
    early.client,
    'opening',
    '',
    'must stand behind what the session holds',
  );
});

/** 14. JSON and nothing else, before any code looks inside. */
const plainJson = rule('plain-json', ({ fresh }) => {
  const refused: Refused[] = [];
  for (const { client, values } of fresh)
    for (const value of values) {
      const wants = notJson(value, LIMIT.depth);
      if (wants !== undefined) refused.push({ code: 'shape', fact: null, field: '', wants, client });
    }
  return refused.length > 0 ? refusal('plain-json', refused, []) : undefined;
});

/** 14. The question every entry form asks as well: may this author add this fact to this log? */
const fact = rule('fact', (draft) => {
  const { view, writer, fresh } = draft;
  const known = new Extended(view.facts);
  const refused: Refused[] = [];
  const already: string[] = [];
  for (const { client, values } of fresh)
    for (const value of values) {
      const verdict = admit(known, value, { station: writer.device, roles: writer.roles });
      if (!verdict.ok) refused.push({ ...verdict.refusal, client });
      else if (verdict.already) already.push(verdict.fact.id);
      else known.add(verdict.fact);
      if (refused.length >= BOUND.refusalsPerUpdate) return refusal('fact', refused, already);
    }
  draft.facts = known.added;
  return refused.length + already.length > 0 ? refusal('fact', refused, already) : undefined;
});

const refusal = (name: RuleName, refused: readonly Refused[], already: readonly string[]): Verdict => ({
  do: 'refuse',
  rule: name,
  refused: refused.slice(0, BOUND.refusalsPerUpdate),
  already,
});

/** What is wrong with a value as JSON; undefined for plain own properties, finite numbers and `depth` levels at most. */
export function notJson(value: unknown, depth: number): string | undefined {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return undefined;
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : 'numbers must be finite';
  return typeof value === 'object' ? notJsonObject(value, depth) : `must be JSON; ${typeof value} is not`;
}

function notJsonObject(value: object, depth: number): string | undefined {
  if (depth === 0) return `must be nested at most ${LIMIT.depth} deep`;
  const isList = Array.isArray(value);
  if (Object.getPrototypeOf(value) !== (isList ? Array.prototype : Object.prototype))
    return 'must be plain objects and lists'; // a value named __proto__ was made the prototype by the decoder
  for (const inner of isList ? (value as unknown[]) : Object.values(value)) {
    const wrong = notJson(inner, depth - 1);
    if (wrong !== undefined) return wrong;
  }
  return undefined;
}

/** Known facts and the ones an update adds to them so far. */
export class Extended implements KnownFacts {
  readonly #base: KnownFacts;
  readonly #added = new Map<string, Fact>();

  constructor(base: KnownFacts) {
    this.#base = base;
  }

  get size(): number {
    return this.#base.size + this.#added.size;
  }

  get erased(): boolean {
    return this.#base.erased ?? false;
  }

  get added(): readonly Fact[] {
    return [...this.#added.values()];
  }

  get(id: string): Fact | undefined {
    return this.#added.get(id) ?? this.#base.get(id);
  }

  add(fact: Fact): void {
    this.#added.set(fact.id, fact);
  }
}

export const entryRules: readonly Rule[] = [owner, clientCap, behindTheFirst, plainJson, fact];
