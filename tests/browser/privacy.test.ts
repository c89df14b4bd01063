/** A skier with a rare name goes through the shop: the name is where it belongs, and nowhere else. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Browser } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

const NAME = 'Quendolina Zwirnfadner';
const RARE = /quendolina|zwirnfadner/i;

let server: TestServer;
let browser: Browser;

beforeAll(async () => {
  server = await serve({ args: ['--log-level', 'trace'] });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** Every table and column of the database file in which something matches. */
function placesInDatabase(pattern: RegExp): string[] {
  const db = new Database(join(server.data, 'fibula.db'), { readonly: true });
  try {
    const tables = db
      .prepare<[], string>(`SELECT name FROM sqlite_schema WHERE type = 'table'`)
      .pluck()
      .all();
    return tables.flatMap((table) => {
      const rows = db.prepare<[], Record<string, unknown>>(`SELECT * FROM "${table}"`).all();
      return Object.keys(rows[0] ?? {})
        .filter((column) =>
          rows.some((row) => {
            const value = row[column];
            return pattern.test(Buffer.isBuffer(value) ? value.toString('latin1') : String(value));
          }),
        )
        .map((column) => `${table}.${column}`);
    });
  } finally {
    db.close();
  }
}

it('a name is in the tables of people alone, on no wall screen and in no line of the log', async () => {
  const desk = await floor.pair(browser, server.url, 'desk', server.shownCode('desk'));
  const wall = await floor.pair(browser, server.url, 'wall', server.code(['wall']));
  await floor.beginIntake(desk, NAME);
  await floor.choose(desk, 'Describe the boots', 'Leave the boots to the floor');
  await floor.openSession(desk);
  await floor.allSaved(desk);
  expect(await desk.locator('body').innerText()).toMatch(RARE); // who is meant sees who is meant

  const [ticket] = /\b\d+-\d+\b/.exec(await desk.locator('body').innerText())!;
  await wall.getByText(ticket).first().waitFor();
  expect(await wall.content()).not.toMatch(RARE);
  expect(await wall.evaluate(() => fetch('/api/people?q=a').then(({ status }) => status))).toBe(403);

  // What goes wrong is logged too: a search, an unknown path, an entry with a name where none belongs.
  const program = await server.station(['desk']);
  await program.request('GET', '/api/people?q=Quendolina');
  await fetch(`${server.url}/api/people/Quendolina`);
  await fetch(`${server.url}/Zwirnfadner`);
  const room = await program.enter('ab'.repeat(16));
  const wrong = { ticket: '9-9', clientRef: 'c9', service: NAME } as unknown as { ticket: string };
  await expect(room.add('desk', 'session.opened', wrong as never)).rejects.toThrow(/refused/);
  room.close();

  expect(placesInDatabase(RARE).sort()).toEqual(['people.folded', 'people.name', 'people_words.word']);
  await server.server.stop();
  expect(server.server.output()).toMatch(/"msg":"paired"/);
  expect(server.server.output()).not.toMatch(RARE);
  for (const name of readdirSync(server.data))
    if (!name.startsWith('fibula.db') && statSync(join(server.data, name)).isFile())
      expect(readFileSync(join(server.data, name), 'latin1')).not.toMatch(RARE);
});
