/** The corner's pages on settings, clients' data and the server, and the wall screen: in real browsers. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { DEFAULT_KEEPING } from '../../server/keeper.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { looksRight } from '../helpers/looks.ts';
import { newSession, run } from '../server/helpers/running.ts';
import type { Running } from '../server/helpers/running.ts';

const SIZE = { width: 1280, height: 800 };
const SMALLER = [{ width: 1024, height: 768 }];
const PAGES = join(import.meta.dirname, '../../build/stations');
const KEEPING = { ...DEFAULT_KEEPING, backupAt: '00:00' };
const DAY_MS = 86_400_000;
const NAME = 'Ottilie Wackerbarth';

let shop: Running;
let browser: Browser;
let program: Station;
let desk: Page;

const codeOf = (running: Running, role: 'desk' | 'wall') => running.server.stations.createCode([role])!.code;

beforeAll(async () => {
  [shop, browser] = await Promise.all([run({ pages: PAGES, keeping: KEEPING }), launchBrowser()]);
  program = await shop.station(['desk', 'measuring']);
  desk = await floor.pair(browser, shop.url, 'desk', codeOf(shop, 'desk'), { size: SIZE });
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const part = (page: Page, name: string) =>
  page
    .getByRole('navigation', { name: 'Locked corner' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();

async function openSession(ticket: string, clientRef: string): Promise<string> {
  const session = newSession();
  const room = await program.enter(session);
  const notes = 'hums in the waiting room';
  await room.add('desk', 'session.opened', { ticket, clientRef, service: 'cuffs', notes });
  await room.add('desk', 'health.asked', { outcome: 'proceed' });
  room.close();
  return session;
}
const factsOf = async (session: string) =>
  (await program.request<{ facts: Fact[] }>('GET', `/api/sessions/${session}/export`)).facts;
const valuesOf = async () => (await program.request<{ values: object }>('GET', '/api/settings')).values;

describe('settings', () => {
  const group = (title: string) =>
    desk
      .getByRole('navigation', { name: 'Kinds of settings' })
      .getByRole('button', { name: new RegExp(`^${title}`) })
      .click();
  const row = (title: string) => desk.getByRole('group', { name: title, exact: true });

  it('show unit, default and where it comes from, and are saved as a field is left', async () => {
    const before = await openSession('7-1', 'before');
    await floor.openCorner(desk);
    await part(desk, 'Settings');
    await row('Even within').getByText('Default 3 mm, common practice, no source. 0.5 to 10 mm.').waitFor();
    // By the keyboard alone: Enter goes on to the next field.
    const even = desk.getByLabel('Even within, mm');
    await even.focus();
    await desk.keyboard.press('Control+A');
    await desk.keyboard.type('2,5');
    await desk.keyboard.press('Enter');
    await row('Even within').getByText('Saved: 2.5 mm.').waitFor();
    await group('Plates and soles');
    await desk.getByLabel('Lug left after routing, mm').fill('12');
    await desk.keyboard.press('Tab');
    await row('Lug left after routing')
      .getByText(/^No default, since a wrong one would hurt/)
      .waitFor();
    await row('Lug left after routing').getByText('Saved: 12 mm.').waitFor();
    expect(await valuesOf()).toEqual({ evenToleranceMm: 2.5, minLugLeftMm: 12 });

    const after = await openSession('7-2', 'after');
    const pinned = async (session: string) =>
      (await factsOf(session)).filter(({ kind }) => kind === 'settings.used');
    expect(await pinned(before)).toEqual([]);
    expect(await pinned(after)).toMatchObject([{ evenToleranceMm: 2.5, minLugLeftMm: 12 }]);
  });

  it('that are wrong are refused under their name and change nothing', async () => {
    await group('Shells');
    await desk.getByLabel('Race fit up to, mm').fill('3');
    await desk.keyboard.press('Tab');
    await row('Race fit up to')
      .getByText('“Race fit up to”: must be more than “Shell too short up to”, 5 mm. Not saved.')
      .waitFor();
    await group('Cuffs');
    await desk.getByLabel('Even within, mm').fill('40');
    await desk.getByLabel('Error of one gap reading, mm').fill('two');
    await row('Even within').getByText('Must be 0.5 to 10 mm. Not saved.').waitFor();
    await desk.getByLabel('Even within, mm').focus();
    await row('Error of one gap reading')
      .getByText(/^Not a number/)
      .waitFor();
    await looksRight(desk, 'corner-settings', SMALLER);
    expect(await valuesOf()).toEqual({ evenToleranceMm: 2.5, minLugLeftMm: 12 });
    await button(desk, 'Even within: Back to 3 mm').click();
    await row('Even within').getByText('Saved: the default.').waitFor();
    await group('Plates and soles');
    await button(desk, 'Lug left after routing: Take it away').click();
    await row('Lug left after routing').getByText('Saved: none entered.').waitFor();
    expect(await valuesOf()).toEqual({});
  });
});

describe('a client’s data', () => {
  let session: string;

  it('are found by name and saved as a file', async () => {
    await program.request('PUT', '/api/people/ottilie', { name: NAME, contact: 'ottilie@example.org' });
    session = await openSession('7-3', 'ottilie');
    await shop.server.keeper.check();
    await part(desk, 'Clients');
    await desk.getByLabel('Name or contact').fill('wackerb');
    await button(desk, `Open: ${NAME}`).click();
    await desk.getByText('Ticket 7-3, opened').waitFor();
    await looksRight(desk, 'corner-client', SMALLER);
    const [download] = await Promise.all([
      desk.waitForEvent('download'),
      desk.getByRole('link', { name: 'Save all that is kept as a file' }).click(),
    ]);
    const file = JSON.parse(readFileSync(await download.path(), 'utf8')) as object;
    expect(file).toMatchObject({ person: { name: NAME }, sessions: [{ session, facts: { length: 2 } }] });
    expect(download.suggestedFilename()).toBe('fibula-client.json');
  });

  it('are erased once the name was typed, and the technical record stays', async () => {
    await button(desk, 'Erase personal data').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByText('1 session still open').waitFor();
    await dialog.getByLabel('Type the name of the client').fill('Somebody Else');
    await looksRight(desk, 'corner-erase', SMALLER);
    await button(dialog, 'Erase for good').click();
    await dialog.getByText(/^name: this is not the name of this client/).waitFor();
    expect((await factsOf(session))[0]).toMatchObject({ notes: 'hums in the waiting room' });
    await dialog.getByLabel('Type the name of the client').fill(NAME);
    await desk.keyboard.press('Enter');
    await desk
      .getByText('Erased: the person, and the texts of 1 session. Rewritten: 1 daily backup.')
      .waitFor();

    const [opened, asked] = await factsOf(session);
    expect(opened).toMatchObject({ ticket: '7-3', notes: expect.stringMatching(/^erased/) as string });
    expect(asked).toMatchObject({ kind: 'health.asked', outcome: 'proceed' });
    await desk.getByLabel('Name or contact').fill('wackerb');
    await desk.getByText('Nobody found.').waitFor();
    expect(JSON.stringify(shop.log)).not.toMatch(/Wackerbarth/);
  });
});

describe('backups', () => {
  const backups = () => join(shop.data, 'backups');

  it('are told with the last good one and its size', async () => {
    await part(desk, 'Server');
    const bytes = desk.getByRole('region', { name: 'Backups' }).getByText(/\d\d:\d\d, \d+(\.\d)? [kM]B$/);
    await bytes.waitFor();
    await desk.getByText('Nothing needs you.').waitFor();
    await desk.getByText('1 copy kept').click();
    await looksRight(desk, 'corner-server', SMALLER);
  });

  it('that fail are shown across the desk, with what to do, until one was good', async () => {
    rmSync(backups(), { recursive: true });
    writeFileSync(backups(), 'in the way');
    await shop.server.keeper.check();
    const banner = desk.getByRole('alert').filter({ hasText: 'the last good one is of' });
    await banner.waitFor();
    await desk
      .getByRole('article')
      .filter({ hasText: `is ${backups()} there` })
      .waitFor();
    await looksRight(desk, 'corner-backup-failing', SMALLER);
    rmSync(backups());
    shop.clock.aheadMs = 16 * 60_000;
    await shop.server.keeper.check();
    await banner.waitFor({ state: 'detached' });
    shop.clock.aheadMs = 0;
  });
});

describe('certificates', () => {
  it('are told with what to do: renewed, an authority that ends, another address', async () => {
    let host = '127.0.0.1';
    const secure = await run({
      pages: PAGES,
      plain: false,
      canonical: () => host,
      names: () => ['127.0.0.1', 'localhost', host],
    });
    try {
      // Trusting the authority is shown in tests/browser/secure.test.ts; here any will do.
      const context = await browser.newContext({ viewport: SIZE, ignoreHTTPSErrors: true });
      const page = await context.newPage();
      await floor.pairHere(page, secure.url, 'desk', codeOf(secure, 'desk'));
      // Nine years and more: what is due is renewed.
      secure.clock.aheadMs = 3_400 * DAY_MS;
      host = '127.0.0.2';
      await secure.server.look();
      await floor.openCorner(page);
      await part(page, 'Server');
      const about = page.getByRole('region', { name: 'Certificate' });
      const year = new Date(Date.now() + 3_400 * DAY_MS).getFullYear();
      await about.getByText(new RegExp(`^Renewed on .* ${year}, ends on .* ${year + 1}$`)).waitFor();
      await about.getByText(/^Nothing to do: it is renewed by itself/).waitFor();
      const article = (title: string) => page.getByRole('article').filter({ hasText: title });
      await article('The server’s address has changed')
        .getByText(/Open the new address on every station/)
        .waitFor();
      await article('The shop’s authority ends soon')
        .getByText(/npm run authority -- --prepare/)
        .waitFor();
      await looksRight(page, 'corner-certificates', SMALLER);
      await context.close();
    } finally {
      await secure.close();
    }
  });
});

describe('the wall screen', () => {
  it('has no name and nothing to type, and is refused whatever its page is made to ask', async () => {
    await program.request('PUT', '/api/people/wall', { name: NAME });
    const session = await openSession('7-4', 'wall');
    const wall = await floor.pair(browser, shop.url, 'wall', codeOf(shop, 'wall'), { size: SIZE });
    await wall.getByText('7-4').waitFor();
    await looksRight(wall, 'wall', SMALLER);
    expect(await wall.content()).not.toMatch(/Ottilie|Wackerbarth/);
    expect(await wall.locator('input, textarea, select, button, [contenteditable]').count()).toBe(0);
    const before = await factsOf(session);
    const asked = await wall.evaluate(
      async ([id, boot]) => {
        const statuses: Record<string, number> = {};
        const ask = async (method: string, path: string) => {
          const body = method === 'GET' ? null : '{}';
          const headers = { 'content-type': 'application/json' };
          statuses[`${method} ${path}`] = (await fetch(path, { method, headers, body })).status;
        };
        for (const path of ['people?q=o', 'people/wall', 'people/wall/export', 'settings', 'site', 'corner'])
          await ask('GET', `/api/${path}`);
        for (const path of [`sessions/${id}/export`, `sessions/${id}/room`, 'corner/backups'])
          await ask('GET', `/api/${path}`);
        await ask('PUT', '/api/people/wall');
        await ask('PUT', '/api/corner/settings');
        for (const path of ['codes', 'corner/unlock', 'corner/pin', 'corner/people/wall/erase'])
          await ask('POST', `/api/${path}`);
        const closeOf = (room: string) =>
          new Promise<number>((resolve) => {
            const socket = new WebSocket(`${location.origin.replace('http', 'ws')}/sync/${room}?protocol=1`);
            socket.onclose = ({ code }) => resolve(code);
          });
        return {
          statuses,
          closes: [await closeOf(`session/${id}/1`), await closeOf(`board/desk/${boot}`)],
        };
      },
      [session, program.me.boot] as const,
    );
    expect(Object.keys(asked.statuses)).toHaveLength(15);
    expect([...new Set(Object.values(asked.statuses))]).toEqual([403]);
    expect(asked.closes).toEqual([4403, 4403]);
    expect(await factsOf(session)).toEqual(before);
  });
});
