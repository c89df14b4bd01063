/** What the shop has learned, and a client's legs over time, over HTTP. */
import type { Hono } from 'hono';
import { z } from 'zod';
import { DEFAULT_SETTINGS, LEFT_OUT_BECAUSE } from '../core/index.ts';
import type { LearnedTold, LegTold, MoveTold } from '../core/index.ts';
import { body, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import type { AskerDeps } from './asker.ts';
import type { Env } from './env.ts';
import type { Hub } from './hub.ts';
import type { LearnedReport } from './learned-report.ts';
import type { Legs } from './legs.ts';
import type { Lessons } from './lessons.ts';
import type { ShopSettings } from './shop-settings.ts';

const id = z.string().regex(/^[A-Za-z0-9_-]{1,40}$/);
const pair = { session: z.string().regex(/^[0-9a-f]{32}$/), before: id, after: id };
const ChoiceBody = z.union([
  z.strictObject({ ...pair, choice: z.enum(['kept', 'asked']) }),
  z.strictObject({ ...pair, choice: z.literal('out'), reason: z.enum(LEFT_OUT_BECAUSE) }),
]);

export function learnedRoutes(
  app: Hono<Env>,
  deps: Pick<AskerDeps, 'stations'> & {
    readonly hub: Pick<Hub, 'read' | 'ticketOf'>;
    readonly lessons: Lessons;
    readonly legs: Legs;
    readonly report: LearnedReport;
    readonly settings: ShopSettings;
  },
): void {
  const { hub, lessons, legs, report, settings } = deps;
  const named = <T extends { readonly session: string; readonly ticket: string | null }>(
    rows: readonly T[],
  ) => rows.map((row) => ({ ...row, ticket: row.ticket ?? hub.ticketOf(row.session) }));
  const now = (): LearnedTold => {
    const found = report.report({ ...DEFAULT_SETTINGS, ...settings.values });
    return { ...found, farOff: named(found.farOff) };
  };
  app.get('/api/learned', (c) => {
    need(deps, c, ['desk']);
    return c.json<LearnedTold>(now());
  });
  app.get('/api/learned/moves', (c) => {
    need(deps, c, ['desk']);
    return c.json<{ moves: MoveTold[] }>({ moves: report.moves((c.req.query('model') ?? '').slice(0, 120)) });
  });
  app.post('/api/learned/choices', async (c) => {
    const station = need(deps, c, ['desk']);
    const { session, before, after, ...choice } = await body(c, ChoiceBody);
    const chosen = { session, before, after };
    const read = hub.read(session);
    if (!read || !lessons.isFarOff(chosen)) throw NOT_FOUND;
    lessons.decide(read, chosen, choice, station);
    return c.json<LearnedTold>(now());
  });
  app.get('/api/people/:ref/legs', (c) => {
    need(deps, c, ['desk', 'measuring']);
    return c.json<{ legs: LegTold[] }>({ legs: named(legs.of(c.req.param('ref'))) });
  });
}
