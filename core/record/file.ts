/** A session file: the same facts as in the session's document, with the person beside them in an export. */
import { z } from 'zod';
import { LIMIT } from '../wire.ts';
import { parseLenient } from './facts.ts';
import type { Envelope, Fact } from './facts.ts';

export const SESSION_FORMAT = 'fibula-session/1';

export interface Person {
  readonly name?: string | undefined;
  readonly contact?: string | undefined;
  readonly language?: string | undefined;
}

export interface SessionFile {
  readonly format: typeof SESSION_FORMAT;
  readonly person?: Person | undefined;
  readonly facts: readonly (Fact | Envelope)[];
}

export type ReadFile =
  { readonly ok: true; readonly file: SessionFile } | { readonly ok: false; readonly error: string };

const head = z.looseObject({
  format: z.string(),
  person: z
    .looseObject({
      name: z.string().max(LIMIT.text),
      contact: z.string().max(LIMIT.text),
      language: z.string().max(LIMIT.text),
    })
    .partial()
    .optional(),
  facts: z.array(z.unknown()).max(LIMIT.factsPerSession),
});

const nameOf = (value: unknown, index: number): string => {
  const { id, kind } = (value ?? {}) as { id?: unknown; kind?: unknown };
  const shown = typeof id === 'string' && id ? id : `number ${index + 1}`;
  return typeof kind === 'string' && kind ? `fact ${shown} (${kind})` : `fact ${shown}`;
};

/** Reads a session file from parsed JSON. The error is one line that names the fact and the field. */
export function readSession(json: unknown): ReadFile {
  const wrong = (error: string): ReadFile => ({ ok: false, error: error.replace(/\s+/g, ' ') });
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    return wrong('not a session file: must be an object with format and facts');
  const { format } = json as { format?: unknown };
  if (format !== SESSION_FORMAT)
    return wrong(
      `format: must be ${SESSION_FORMAT} (is ${format === undefined ? 'missing' : JSON.stringify(format)})`,
    );
  const parsed = head.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    return wrong(`${issue.path.join('.')}: ${issue.message}`);
  }
  const facts: (Fact | Envelope)[] = [];
  const ids = new Set<string>();
  for (const [index, value] of parsed.data.facts.entries()) {
    const fact = parseLenient(value);
    if (!fact.ok)
      return wrong(
        `${nameOf(value, index)}: ${fact.misfit.field ? `${fact.misfit.field}: ` : ''}${fact.misfit.wants}`,
      );
    if (ids.has(fact.fact.id)) return wrong(`${nameOf(value, index)}: id: is there twice`);
    ids.add(fact.fact.id);
    facts.push(fact.fact);
  }
  return { ok: true, file: { format: SESSION_FORMAT, person: parsed.data.person, facts } };
}
