/** When jobs will be ready, and what that is worked out from, over HTTP: for the desk. */
import type { Hono } from 'hono';
import type { Logger } from 'pino';
import { SERVICES } from '../core/index.ts';
import { body, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import type { Env } from './env.ts';
import { OpeningBody } from './opening.ts';
import type { Openings } from './opening.ts';
import type { Stations } from './pair.ts';
import type { Queue } from './queue.ts';

export interface QueueDeps {
  readonly stations: Stations;
  readonly queue: Queue;
  readonly openings: Openings;
  readonly log: Logger;
}

export function queueRoutes(app: Hono<Env>, deps: QueueDeps): void {
  const { queue, openings, log } = deps;
  app.get('/api/queue', async (c) => {
    need(deps, c, ['desk']);
    return c.json(await queue.told());
  });
  app.get('/api/queue/:service', async (c) => {
    need(deps, c, ['desk']);
    const service = SERVICES.find((each) => each === c.req.param('service'));
    if (!service) throw NOT_FOUND;
    return c.json({ offer: await queue.offer(service) });
  });
  app.get('/api/opening', (c) => {
    need(deps, c, ['desk']);
    return c.json(openings.value);
  });
  app.put('/api/opening', async (c) => {
    const { number } = need(deps, c, ['desk']);
    openings.set(await body(c, OpeningBody));
    log.info({ station: number }, 'opening hours and hands changed');
    return c.json(openings.value);
  });
}
