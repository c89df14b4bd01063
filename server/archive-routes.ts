/** The sessions of all seasons, found over HTTP, for the desk. */
import type { Hono } from 'hono';
import { z } from 'zod';
import { STANDINGS } from '../core/index.ts';
import { No } from './answer.ts';
import type { Archive } from './archive.ts';
import { need } from './asker.ts';
import type { Env } from './env.ts';
import type { Stations } from './pair.ts';

export interface ArchiveDeps {
  readonly stations: Stations;
  readonly archive: Archive;
}

const Standing = z.enum(STANDINGS);

export function archiveRoutes(app: Hono<Env>, deps: ArchiveDeps): void {
  app.get('/api/archive', (c) => {
    need(deps, c, ['desk']);
    const standing = Standing.safeParse(c.req.query('standing') ?? 'all');
    if (!standing.success) throw new No(400, 'shape', 'standing: must be all, open or finished.');
    return c.json(deps.archive.find((c.req.query('q') ?? '').slice(0, 200), standing.data));
  });
  app.get('/api/people/:ref/sessions', (c) => {
    need(deps, c, ['desk']);
    return c.json(deps.archive.ofClient(c.req.param('ref')));
  });
}
