/** What a station without a token may ask: to be let back in, and what became of that. */
import type { Context, Hono } from 'hono';
import type { Logger } from 'pino';
import { z } from 'zod';
import { CLOSE } from '../core/index.ts';
import { body, No } from './answer.ts';
import { keepCookie, me } from './asker.ts';
import type { AskerDeps } from './asker.ts';
import type { Env } from './env.ts';
import type { Hub } from './hub.ts';
import type { LetIn } from './let-in.ts';

export interface LetInDeps extends AskerDeps {
  readonly hub: Hub;
  readonly letIn: LetIn;
  readonly log: Logger;
}

const AskBody = z.strictObject({
  device: z.string().regex(/^(desk|measuring|bench|wall)-[1-9]\d{0,8}$/, 'must be a device id of this shop'),
});
const ClaimBody = z.strictObject({ secret: z.string().min(1).max(100) });

export function letInRoutes(app: Hono<Env>, deps: LetInDeps): void {
  const { letIn, hub, log } = deps;
  const addressOf = (c: Context<Env>) => c.env.incoming.socket.remoteAddress ?? '';
  app.post('/api/let-in', async (c) => {
    const { device } = await body(c, AskBody);
    const address = addressOf(c);
    const asked = letIn.ask({ device, address });
    if (!asked.ok) {
      log.warn({ address, device }, 'request to be let back in not heard');
      throw new No(429, 'too-many', 'Too many stations ask to be let back in; wait ten minutes.');
    }
    log.info({ address, device }, 'asks to be let back in');
    const { secret, number, expiresMs } = asked;
    return c.json({ secret, number, expiresAt: new Date(expiresMs).toISOString() });
  });
  app.post('/api/let-in/claim', async (c) => {
    const { secret } = await body(c, ClaimBody);
    const claim = letIn.claim(secret);
    if (claim.state !== 'in') return c.json({ state: claim.state });
    const { station, token } = claim;
    log.warn({ station: station.number, device: station.device }, 'let back in');
    hub.disconnect(station.number, CLOSE.again, 'This station was paired anew.');
    keepCookie(deps, c, token);
    return c.json({ state: 'in', me: me(deps, station) });
  });
}
