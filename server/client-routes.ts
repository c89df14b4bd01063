/** All that is kept of one client, over HTTP, for the desk. */
import type { Hono } from 'hono';
import { NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import type { AskerDeps } from './asker.ts';
import type { Env } from './env.ts';
import type { Keeper } from './keeper.ts';

export function clientRoutes(
  app: Hono<Env>,
  deps: Pick<AskerDeps, 'stations'> & { readonly keeper: Keeper },
): void {
  app.get('/api/people/:ref/export', (c) => {
    need(deps, c, ['desk']);
    const file = deps.keeper.export(c.req.param('ref'));
    if (!file) throw NOT_FOUND;
    c.header('Content-Disposition', 'attachment; filename="fibula-client.json"');
    return c.json(file);
  });
}
