/** What the shop works by, over HTTP: every desk sees it, the open corner changes it. */
import type { Hono } from 'hono';
import type { Logger } from 'pino';
import { body } from './answer.ts';
import { need } from './asker.ts';
import { needOpen } from './corner-routes.ts';
import type { Corner } from './corner.ts';
import type { Env } from './env.ts';
import type { Stations } from './pair.ts';
import { ShopBody } from './shop-settings.ts';
import type { ShopSettings } from './shop-settings.ts';

export interface SettingsDeps {
  readonly stations: Stations;
  readonly corner: Corner;
  readonly settings: ShopSettings;
  readonly log: Logger;
}

export function settingsRoutes(app: Hono<Env>, deps: SettingsDeps): void {
  const { corner, settings, log } = deps;
  app.get('/api/settings', (c) => {
    need(deps, c, ['desk']);
    return c.json({ values: settings.values });
  });
  app.get('/api/settings/entered', (c) => {
    need(deps, c, ['desk']);
    return c.json({ entered: settings.entered });
  });
  app.put('/api/corner/settings', async (c) => {
    const station = needOpen(deps, c);
    const values = await body(c, ShopBody);
    settings.set(values, station.name);
    corner.used(station);
    log.warn({ station: station.number, values }, 'shop settings changed');
    return c.json({ values: settings.values });
  });
}
