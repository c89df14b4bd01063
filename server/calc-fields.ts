/** What one calculation takes and gives, field by field, from its own schema. */
import { z } from 'zod';
import type { Calculation } from '../core/index.ts';

interface Json {
  readonly type?: string;
  readonly const?: unknown;
  readonly default?: unknown;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Json[];
  readonly oneOf?: readonly Json[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxLength?: number;
  readonly maxItems?: number;
  readonly unit?: string;
  readonly description?: string;
  readonly items?: Json;
  readonly properties?: Readonly<Record<string, Json>>;
  readonly required?: readonly string[];
}

export interface Field {
  /** Dotted from the top; `[]` stands for each entry of a list, `?` for what may be left out. */
  readonly path: string;
  /** Bounds and unit, choices, or type. */
  readonly wants: string;
  readonly means: string;
}

/** Without the null that a value may also be. */
function known(json: Json): { readonly is: Json; readonly orNull: boolean } {
  const options = json.anyOf?.filter(({ type }) => type !== 'null');
  if (!options || options.length !== 1) return { is: json, orNull: false };
  const { anyOf: _, ...around } = json;
  return { is: { ...options[0], ...around }, orNull: true };
}

function bare(json: Json): string {
  if (json.const !== undefined) return String(json.const);
  if (json.enum) return json.enum.join(', ');
  switch (json.type) {
    case 'number':
    case 'integer':
      return `${json.type === 'integer' ? 'whole ' : ''}${json.minimum} to ${json.maximum}${json.unit ? ` ${json.unit}` : ''}`;
    case 'string':
      return `text, at most ${json.maxLength}`;
    case 'boolean':
      return 'true or false';
    case 'array':
      return `list of at most ${json.maxItems}${nests(json.items ?? {}) ? '' : `: ${bare(json.items ?? {})}`}`;
    default:
      return 'object';
  }
}

/** Has fields of its own to be told one by one. */
const nests = (json: Json): boolean =>
  json.properties !== undefined ||
  json.oneOf !== undefined ||
  (json.type === 'array' && nests(json.items ?? {}));

/** Has a value of its own where it is left out; what an empty object gives, its fields tell. */
const leftOut = ({ default: value }: Json): boolean =>
  value !== undefined && value !== null && JSON.stringify(value) !== '{}';

function wants(json: Json, orNull: boolean): string {
  const usual = leftOut(json) ? `; left out: ${JSON.stringify(json.default)}` : '';
  return `${bare(json)}${orNull ? ', or null' : ''}${usual}`;
}

function at(path: string, json: Json): Field[] {
  const { is, orNull } = known(json);
  const own: Field = { path, wants: wants(is, orNull), means: is.description ?? '' };
  if (is.oneOf) return once(path, is.oneOf);
  if (is.properties) return [...(is.description || orNull || leftOut(is) ? [own] : []), ...below(path, is)];
  if (is.type === 'array' && nests(is.items ?? {}))
    return [own, ...at(`${path}[]`, is.items!).filter((f) => f.path !== `${path}[]`)];
  return [own];
}

const below = (path: string, json: Json): Field[] =>
  Object.entries(json.properties ?? {}).flatMap(([name, inner]) =>
    at(`${path ? `${path}.` : ''}${name}${json.required?.includes(name) ? '' : '?'}`, inner),
  );

/** Variants share fields: each stands once, what tells them apart with all its words, the rest with whose it is. */
function once(path: string, variants: readonly Json[]): Field[] {
  const told = variants.map((variant) => ({
    word: Object.values(variant.properties ?? {}).flatMap(({ const: word }) => word ?? [])[0],
    fields: below(path, variant),
  }));
  const seen = new Map<string, Field>();
  for (const { word, fields } of told)
    for (const field of fields) {
      const before = seen.get(field.path);
      const means = told.every((other) => other.fields.some((f) => f.path === field.path))
        ? field.means
        : [field.means, `for ${String(word)}`].filter(Boolean).join('; ');
      const both = before && before.wants !== field.wants ? `${before.wants}, ${field.wants}` : field.wants;
      seen.set(field.path, { ...field, wants: both, means });
    }
  return [...seen.values()];
}

export const inputsOf = (calculation: Calculation): Field[] =>
  at('', z.toJSONSchema(calculation.input, { io: 'input' }) as Json);

export const outputsOf = (calculation: Calculation): Field[] =>
  Object.entries(calculation.gives).map(([path, [unit, means]]) => ({
    path,
    wants: unit === '1' ? 'a number' : unit,
    means,
  }));
