/** What people see of a session that is damaged on the server's disk: words, and that entries wait. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, takenIn } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

let shop: TestServer;
let browser: Browser;
beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

/** A digit of the newest row becomes another, as on a bad disk: SQLite finds nothing wrong with it. */
function flipDigit(data: string, session: string): void {
  const db = new Database(join(data, 'fibula.db'));
  const [row] = db
    .prepare<[string], { document: number; n: number; bytes: Buffer }>(
      'SELECT document, n, bytes FROM updates JOIN documents ON documents.id = document WHERE session = ? ORDER BY n DESC',
    )
    .all(session);
  const bytes = Buffer.from(row!.bytes);
  bytes[bytes.length - 2]! ^= 0x01;
  db.prepare('UPDATE updates SET bytes = ? WHERE document = ? AND n = ?').run(bytes, row!.document, row!.n);
  db.close();
}

it('a damaged session says so at the station, keeps what is entered there, and leaves the next job alone', async () => {
  const page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'), {
    size: { width: 1280, height: 800 },
  });
  const opener = await Opener.of(shop);
  const job = await opener.open('Ludmilla Windegger', takenIn());
  const next = await opener.open('Kilian Obermoser', takenIn());
  await button(page, /Ludmilla Windegger/).click();
  await floor.allSaved(page);
  const port = new URL(shop.url).port;
  await shop.server.stop();
  flipDigit(shop.data, job.session);
  const again = await serve({ data: shop.data, args: ['--port', port] });
  shop = again;
  expect(again.server.output()).toMatch(
    new RegExp(`WARNING: Session ${job.session} is damaged: its row \\d+`),
  );

  const state = floor.savedState(page);
  await state.filter({ hasText: 'This session is damaged on the shop’s computer. Keep working' }).waitFor();
  await floor.readyBoot(page, 'left');
  await state.filter({ hasText: '10 waiting to be saved' }).waitFor();

  await page.goto('about:blank');
  await page.goto(`${shop.url}/measuring#${next.session}`);
  await floor.allSaved(page);
  const before = factsOnDisk(shop.data, next.session).length;
  await floor.readyBoot(page, 'left');
  await floor.allSaved(page);
  expect(factsOnDisk(shop.data, next.session)).toHaveLength(before + 10);
});
