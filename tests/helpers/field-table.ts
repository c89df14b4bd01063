/** The table of all fact kinds and fields for docs/fields.md, made from the schemas themselves. */
import { z } from 'zod';
import {
  KIND_NAMES,
  KINDS,
  SETTING_NAMES,
  SETTINGS,
  ENTERED_NAMES,
  ENTERED_SETTINGS,
} from '../../core/index.ts';

interface Json {
  readonly type?: string;
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Json[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly maxLength?: number;
  readonly maxItems?: number;
  readonly format?: string;
  readonly unit?: string;
  readonly items?: Json;
  readonly properties?: Readonly<Record<string, Json>>;
  readonly required?: readonly string[];
}

function wants(json: Json): string {
  if (json.enum) return json.enum.map((word) => `\`${word}\``).join(', ');
  if (json.anyOf) return json.anyOf.map(wants).join(', or ');
  switch (json.type) {
    case 'number':
    case 'integer':
      return `${json.type === 'integer' ? 'whole ' : ''}${json.minimum ?? '…'} to ${json.maximum ?? '…'}${json.unit ? ` ${json.unit}` : ''}`;
    case 'string':
      return json.format
        ? `ISO 8601 ${json.format}`
        : json.maxLength
          ? `text, at most ${json.maxLength}`
          : 'id';
    case 'boolean':
      return 'true or false';
    case 'array':
      return `list of at most ${json.maxItems}${json.items?.properties ? '' : `: ${wants(json.items ?? {})}`}`;
    default:
      return json.type ?? '';
  }
}

function rows(json: Json, prefix: string): string[] {
  return Object.entries(json.properties ?? {}).flatMap(([name, field]) => {
    const optional = json.required?.includes(name) ? '' : '?';
    const path = `${prefix}${name}`;
    if (field.type === 'object') return rows(field, `${path}${optional}.`);
    const inner = field.items?.properties ? rows(field.items, `${path}[].`) : [];
    return [`| \`${path}\`${optional} | ${wants(field)} |`, ...inner];
  });
}

export function fieldsPage(): string {
  const kinds = KIND_NAMES.map((kind) => {
    const { roles, payload } = KINDS[kind];
    const json = z.toJSONSchema(payload(z.strictObject) as z.ZodType, { io: 'input' }) as Json;
    return `## \`${kind}\`\n\nWritten by ${roles.join(', ')}.\n\n| field | value |\n| --- | --- |\n${rows(json, '').join('\n')}\n`;
  });
  const settings = SETTING_NAMES.map((name) => {
    const s = SETTINGS[name];
    return `| \`${name}\` | ${s.default} | ${s.min} to ${s.max} | ${s.unit} | ${s.means} | ${s.provenance} |`;
  });
  const entered = ENTERED_NAMES.map((name) => {
    const s = ENTERED_SETTINGS[name];
    return `| \`${name}\` | none | ${s.min} to ${s.max} | ${s.unit} | ${s.means} | the maker's or the shop's figure must be entered |`;
  });
  return [
    '# Every fact, field by field',
    'Made from the code by `npm run docs`. A `?` marks what may be left out. Past a bound, a value is a typing error.',
    ...kinds,
    '## Settings',
    'A session pins the values it was opened with in `settings.used`.',
    [
      '| setting | default | bounds | unit | meaning | provenance |',
      '| --- | --- | --- | --- | --- | --- |',
      ...settings,
      ...entered,
    ].join('\n'),
    '',
  ].join('\n\n');
}
