/** What every route of the HTTP API says and reads the same way: a no with a code, and a body of a known shape. */
import type { Context } from 'hono';
import type { ContentfulStatusCode } from 'hono/utils/http-status';
import type { z } from 'zod';
import type { NoCode } from '../core/index.ts';

/** An answer that says no, thrown from a route and turned into a response in one place. */
export class No extends Error {
  constructor(
    readonly status: ContentfulStatusCode,
    readonly code: NoCode,
    readonly text: string,
  ) {
    super(text);
  }
}

export const NOT_FOUND = new No(404, 'not-found', 'There is nothing under this address.');

export const refusal = (c: Context, { status, code, text }: No) => c.json({ error: { code, text } }, status);

/** The request's body as `schema` wants it; throws a `No` that says which field does not fit. */
export async function body<T>(c: Context, schema: z.ZodType<T>): Promise<T> {
  const raw: unknown = await c.req.json().catch((error: unknown) => {
    throw error instanceof No ? error : new No(400, 'not-json', 'The request’s body is not JSON.');
  });
  const parsed = schema.safeParse(raw);
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0]!;
  throw new No(400, 'shape', `${issue.path.join('.') || 'The body'}: ${issue.message}.`);
}
