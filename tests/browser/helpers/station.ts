/** A shop with one station in a browser of its own. */
import type { Browser, Page } from 'playwright';
import { expect } from 'vitest';
import { launchBrowser } from '../../helpers/browser.ts';
import * as floor from '../../helpers/floor.ts';
import type { Floor } from '../../helpers/floor.ts';
import { Opener } from '../../helpers/jobs.ts';
import type { ScreenSize } from '../../helpers/looks.ts';
import { serve } from '../../helpers/server.ts';
import type { TestServer } from '../../helpers/server.ts';
import { watch } from '../../helpers/watch.ts';
import type { Watch } from '../../helpers/watch.ts';

export interface StationShop {
  readonly shop: TestServer;
  readonly browser: Browser;
  readonly opener: Opener;
  readonly page: Page;
  readonly seen: Watch;
  close(): Promise<void>;
}

export async function stationShop(role: Floor, size?: ScreenSize): Promise<StationShop> {
  const [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  const close = async () => {
    await browser.close();
    await shop.close();
  };
  try {
    const page = await floor.pair(browser, shop.url, role, shop.shownCode(role), size ? { size } : {});
    const opener = await Opener.of(shop);
    return { shop, browser, opener, page, seen: watch(page, shop.url), close };
  } catch (error) {
    await close();
    throw error;
  }
}

/** Doors that never close, and two hands at each station but one at the desk: what the queue foretells does not hang on the hour. */
export const alwaysOpen = (desk: Page): Promise<void> =>
  desk.evaluate(async () => {
    const days = Array.from({ length: 7 }, () => ({ from: '00:00', to: '24:00' }));
    await fetch('/api/opening', {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ hands: { measuring: 2, bench: 2, desk: 1 }, days }),
    });
  });

/** A model of the shop's own table, as the desk keeps it. */
export async function keepModel(desk: Page, url: string, model: object): Promise<void> {
  const kept = await desk.request.put(`${url}/api/models`, { headers: { origin: url }, data: model });
  expect(kept.status()).toBe(200);
}
