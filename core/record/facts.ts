/** One fact: its envelope around a kind's payload, and reading one from outside, strictly or leniently. */
import { z } from 'zod';
import { key, moment, name } from '../bounds.ts';
import { LIMIT } from '../wire.ts';
import { KIND_NAMES, KINDS, newestVersion, ROLES } from './kinds.ts';
import type { Kind, Payload, Role } from './kinds.ts';

export interface Author {
  readonly role: Role;
  /** A device id; it survives re-pairing. */
  readonly station: string;
  readonly initials?: string | undefined;
}

export interface Envelope<K extends string = string> {
  readonly id: string;
  readonly kind: K;
  /** The station's clock, ISO 8601 with offset. For display only. */
  readonly at: string;
  readonly by: Author;
  /** Ids of the heads its author knew, of all it rests on. Absent: everything before it in the list. */
  readonly basis?: readonly string[] | undefined;
  readonly v?: number | undefined;
}

export type FactOf<K extends Kind> = Envelope<K> & Readonly<Payload<K>>;
/** A fact of any kind this program knows; a switch on `kind` narrows it. */
export type Fact = { [K in Kind]: FactOf<K> }[Kind];

/** Why a value is no fact: the field (dotted path, '' for the whole), and in words what is wanted. */
export interface Misfit {
  readonly field: string;
  readonly wants: string;
}
export type Parsed<T> =
  { readonly ok: true; readonly fact: T } | { readonly ok: false; readonly misfit: Misfit };

type ObjectMaker = typeof z.strictObject;
type Rule = (value: Record<string, unknown>) => Misfit | null;

const envelope = (object: ObjectMaker) => ({
  id: key,
  at: moment,
  by: object({ role: z.enum(ROLES), station: name(64), initials: name(8).optional() }),
  basis: z.array(key).max(LIMIT.basis).optional(),
  v: z.int().min(1).optional(),
});

const schemaFor = (object: ObjectMaker) =>
  Object.fromEntries(
    KIND_NAMES.map((kind) => [
      kind,
      object({
        ...envelope(object),
        kind: z.literal(kind),
        ...(KINDS[kind].payload(object) as z.ZodObject).shape,
      }),
    ]),
  ) as unknown as Record<Kind, z.ZodType<Fact>>;

const strict = schemaFor(z.strictObject);
const lenient = schemaFor(z.looseObject as unknown as ObjectMaker);
const looseEnvelope = z.looseObject({ ...envelope(z.looseObject as unknown as ObjectMaker), kind: name(80) });

/** A touching side reads 0, and how hard it touches is said. */
const touches: Rule = (fact) => {
  for (const [path, reading] of [
    ['', fact],
    ['lower.', fact['lower']],
  ] as const) {
    if (typeof reading !== 'object' || reading === null) continue;
    const { contact, medialMm, lateralMm } = reading as Record<string, unknown>;
    for (const [side, gap] of [
      ['medial', medialMm],
      ['lateral', lateralMm],
    ] as const)
      if ((contact === side || contact === 'both') && gap !== 0)
        return { field: `${path}${side}Mm`, wants: `must be 0 where the leg touches (is ${String(gap)})` };
  }
  const lower = fact['lower'] as { contact?: unknown } | undefined;
  const touching = fact['contact'] !== 'none' || (lower && lower.contact !== 'none');
  if (touching && fact['pressure'] === undefined)
    return { field: 'pressure', wants: 'must be graze or press where the leg touches' };
  return null;
};

const RULES: Partial<Record<Kind, Rule>> = { 'cuff.read': touches };

export const isKind = (value: unknown): value is Kind =>
  typeof value === 'string' && Object.hasOwn(KINDS, value);

const TYPE_WORDS: Partial<Record<string, string>> = {
  int: 'a whole number',
  number: 'a number',
  string: 'a text',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
};

/** What is wanted, in words, from one of zod's issues. `raw` is the whole value that was parsed. */
export function misfitOf(issue: z.core.$ZodIssue, raw: unknown): Misfit {
  const field = issue.path.map(String).join('.');
  const is = issue.path.reduce<unknown>(
    (value, step) =>
      typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[step] : undefined,
    raw,
  );
  const shown = is === undefined ? 'is missing' : `is ${JSON.stringify(is)?.slice(0, 60) ?? String(is)}`;
  switch (issue.code) {
    case 'unrecognized_keys':
      return {
        field: [field, issue.keys[0]].filter(Boolean).join('.'),
        wants: 'is not a field of this kind',
      };
    case 'too_big':
      return issue.origin === 'number' || issue.origin === 'int'
        ? { field, wants: `must be at most ${issue.maximum} (${shown})` }
        : {
            field,
            wants: `must have at most ${issue.maximum} ${issue.origin === 'string' ? 'characters' : 'entries'}`,
          };
    case 'too_small':
      return issue.origin === 'number' || issue.origin === 'int'
        ? { field, wants: `must be at least ${issue.minimum} (${shown})` }
        : {
            field,
            wants: `must have at least ${issue.minimum} ${issue.origin === 'string' ? 'character' : 'entry'}`,
          };
    case 'invalid_value':
      return { field, wants: `must be ${issue.values.map(String).join(', ')} (${shown})` };
    case 'invalid_type':
      return {
        field,
        wants: `must be ${TYPE_WORDS[issue.expected] ?? issue.expected} (${shown})`,
      };
    case 'invalid_union': {
      // The branch that got furthest says most: a number out of bounds beats "is not a text".
      const best = issue.errors.flat().find((e) => e.code === 'too_big' || e.code === 'too_small');
      if (best) return { field, wants: `must be within bounds (${shown})` };
      return { field, wants: `does not fit (${shown})` };
    }
    default:
      return { field, wants: `${issue.message} (${shown})` };
  }
}

function parseWith(schemas: Record<Kind, z.ZodType<Fact>>, kind: Kind, value: unknown): Parsed<Fact> {
  const version = (value as { v?: unknown }).v;
  if (typeof version === 'number' && version > newestVersion(kind))
    return {
      ok: false,
      misfit: {
        field: 'v',
        wants: `is version ${version} of ${kind}; this program knows ${newestVersion(kind)}`,
      },
    };
  const result = schemas[kind].safeParse(value);
  if (!result.success) return { ok: false, misfit: misfitOf(result.error.issues[0]!, value) };
  const misfit = RULES[kind]?.(value as Record<string, unknown>);
  return misfit ? { ok: false, misfit } : { ok: true, fact: result.data };
}

const plainObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const NO_OBJECT: Misfit = { field: '', wants: 'must be an object' };

/** The gate's and the forms' reading: a known kind, known fields only, all inside their bounds. */
export function parseStrict(value: unknown): Parsed<Fact> {
  if (!plainObject(value)) return { ok: false, misfit: NO_OBJECT };
  if (!isKind(value['kind']))
    return {
      ok: false,
      misfit: { field: 'kind', wants: `is unknown: ${JSON.stringify(value['kind'])?.slice(0, 60)}` },
    };
  return parseWith(strict, value['kind'], value);
}

/** A reader's: unknown fields are kept; a fact of an unknown kind is kept as an envelope and means nothing. */
export function parseLenient(value: unknown): Parsed<Fact | Envelope> {
  if (!plainObject(value)) return { ok: false, misfit: NO_OBJECT };
  if (isKind(value['kind'])) return parseWith(lenient, value['kind'], value);
  const result = looseEnvelope.safeParse(value);
  return result.success
    ? { ok: true, fact: result.data }
    : { ok: false, misfit: misfitOf(result.error.issues[0]!, value) };
}
