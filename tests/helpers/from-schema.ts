/** Values that a schema takes, drawn from what the schema itself says. */
import fc from 'fast-check';
import { z } from 'zod';

export interface Json {
  readonly type?: string;
  readonly const?: string;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Json[];
  readonly oneOf?: readonly Json[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly items?: Json;
  readonly properties?: Readonly<Record<string, Json>>;
  readonly required?: readonly string[];
}

export const jsonOf = (schema: z.ZodType): Json => z.toJSONSchema(schema, { io: 'input' }) as Json;

/** Both ends, 0 and the whole numbers beside what lies anywhere between. */
function number({ minimum: min, maximum: max, type }: Json): fc.Arbitrary<number> {
  if (min === undefined || max === undefined) throw new Error('a number without bounds');
  const edges = fc.constantFrom(...[min, max, 0].filter((n) => n >= min && n <= max));
  if (type === 'integer') return fc.oneof(edges, fc.integer({ min, max }));
  const whole = fc.integer({ min: Math.ceil(min), max: Math.max(Math.ceil(min), Math.floor(max)) });
  const anywhere = fc.double({ min, max, noNaN: true });
  return fc.oneof(edges, Math.ceil(min) <= max ? whole : anywhere, anywhere);
}

/** Lists stay short: what goes wrong with a hundred entries goes wrong with four. */
const MOST = 4;

export function valuesOf(json: Json): fc.Arbitrary<unknown> {
  const options = json.anyOf ?? json.oneOf;
  if (options) return fc.oneof(...options.map(valuesOf));
  if (json.const !== undefined) return fc.constant(json.const);
  if (json.enum) return fc.constantFrom(...json.enum);
  switch (json.type) {
    case 'number':
    case 'integer':
      return number(json);
    case 'string':
      return fc.constantFrom('bench', 'floor', 'ü');
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    case 'array':
      return fc.array(valuesOf(json.items!), {
        minLength: json.minItems ?? 0,
        maxLength: Math.min(MOST, json.maxItems ?? MOST),
      });
    case 'object':
      return fc.record(
        Object.fromEntries(Object.entries(json.properties!).map(([name, of]) => [name, valuesOf(of)])),
        { requiredKeys: [...(json.required ?? [])], noNullPrototype: true },
      );
    default:
      throw new Error(`cannot draw a ${JSON.stringify(json)}`);
  }
}
