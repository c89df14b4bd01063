/** Tablets that hold more than the server: after a restore they offer it again; after an erasure they forget it too. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startServer } from '../../demo/serve.ts';
import type { ServerProcess } from '../../demo/serve.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { allKept, keptEntries } from '../helpers/device.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, takenIn } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';

const TOP = fileURLToPath(new URL('../..', import.meta.url));

let shop: TestServer;
let server: ServerProcess;
let browser: Browser;
let desk: Page;
let measuring: Page;
/** Opened after the backup. */
let young: string;

const NOTE = 'Quintilia rings at noon';

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  server = shop.server;
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
  measuring = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'));
});
afterAll(async () => {
  await browser?.close();
  await server?.stop();
  await shop?.close();
});

function command(name: 'backup' | 'restore' | 'erase', ...args: readonly string[]): void {
  const { status, stderr } = spawnSync(
    process.execPath,
    [`server/setup/${name}.mjs`, ...args, '--data', shop.data],
    { cwd: TOP, encoding: 'utf8', timeout: 60_000 },
  );
  if (status !== 0) throw new Error(`${name}: ${stderr}`);
}

const idsOnDisk = (session: string) => new Set(factsOnDisk(shop.data, session).map(({ id }) => id));

it('lose nothing that was saved after the backup: each offers its own, the opening first', async () => {
  const opener = await Opener.of(shop);
  const old = await opener.open('Ludmilla Windegger', takenIn());
  old.room.close();
  const copy = join(shop.data, 'copy.db');
  command('backup', copy);

  await measuring.goto(`${shop.url}/measuring#${old.session}`);
  await floor.readyBoot(measuring, 'left');
  await floor.allSaved(measuring);
  await floor.beginIntake(desk, 'Rosina Thalhammer');
  await floor.choose(desk, 'Describe the boots', 'Leave the boots to the floor');
  await desk.getByLabel('Note for the floor').fill(NOTE);
  young = await floor.openSession(desk);
  await floor.allSaved(desk);
  await measuring.goto(`${shop.url}/measuring#${young}`);
  await floor.readyBoot(measuring, 'right');
  await floor.allSaved(measuring);
  const before = new Map([old.session, young].map((session) => [session, idsOnDisk(session)]));
  await desk.goto('about:blank');
  await server.stop();
  command('restore', copy, '--replace');
  const { port } = new URL(shop.url);
  server = await startServer(shop.data, ['--plain', '--host', '127.0.0.1', '--port', port]);

  // The job that nobody looks at comes back by itself; the other one waits for the desk that opened it.
  const missing = (session: string) => before.get(session)!.size - idsOnDisk(session).size;
  await until(() => missing(old.session) === 0, 'the older job whole again', 30_000);
  await floor.savedState(measuring).filter({ hasText: 'has been restored' }).waitFor();
  await button(measuring, 'Entries').click();
  await floor.entry(measuring.getByRole('dialog'), 'Right footbed: done', '· waiting').waitFor();
  await button(measuring.getByRole('dialog'), 'Close').click();
  await desk.goto(`${shop.url}/desk`);
  await until(() => missing(young) === 0, 'the younger job whole again', 30_000);
  await floor.allSaved(measuring);
  for (const [session, ids] of before) expect(idsOnDisk(session)).toEqual(ids);
  const kept = await keptEntries(measuring);
  expect(kept.every(({ state }) => state === 'saved')).toBe(true);
});

it('forget the texts of an erased client, and say so to whoever types one', async () => {
  const [opening] = factsOnDisk(shop.data, young);
  if (opening?.kind !== 'session.opened') throw new Error('no opening');
  expect(opening.notes).toBe(NOTE);
  await until(async () => (await allKept(desk)).split(NOTE).length > 2, 'entry and session kept by the desk');
  await desk.goto(`${shop.url}/desk#${young}`);
  await floor.allSaved(desk);
  command('erase', opening.clientRef, '--yes');
  await until(async () => !(await allKept(desk)).includes(NOTE), 'the text gone from the desk’s device');
  await until(async () => !(await allKept(measuring)).includes(NOTE), 'and from the other');
  const own = async () => (await keptEntries(desk)).find(({ fact }) => fact.kind === 'session.opened');
  await until(async () => (await own())?.state === 'saved', 'what is left of it saved on the desk’s device');
  expect(await own()).toMatchObject({ fact: { ticket: opening.ticket, notes: `erased ${opening.id}` } });
  expect(idsOnDisk(young).size).toBeGreaterThan(10);

  await floor.allSaved(measuring);
  // One act that is one entry.
  await button(measuring.getByRole('region', { name: 'Left leg' }), /^Cant on the sole/).click();
  await button(measuring.getByRole('dialog'), 'Brought flat: 0°').click();
  await floor.allSaved(measuring);
  const before = idsOnDisk(young).size;
  await button(measuring, 'Undo last entry').click();
  const row = measuring.getByRole('alert', { name: 'Not taken by the shop' }).getByRole('listitem');
  await row.filter({ hasText: 'Notes of this session were erased' }).waitFor();
  await button(row, 'Try again').click();
  await row.waitFor({ state: 'detached' });
  await floor.allSaved(measuring);
  await until(() => idsOnDisk(young).size === before + 1, 'the strike without its text on disk');
});
