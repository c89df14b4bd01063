/** The desk's locked corner and a revoked tablet, in real browsers: by touch, by keyboard, and for every eye. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, PIN } from '../helpers/floor.ts';
import { Opener, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { looksRight } from '../helpers/looks.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

const SIZE = { width: 1280, height: 800 };

let shop: TestServer;
let browser: Browser;
let desk: Page;
let tablet: Page;
let job: OpenJob;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'), { size: SIZE });
  tablet = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'), {
    name: 'Floor tablet',
  });
  job = await (await Opener.of(shop)).open('Ludmilla Windegger', takenIn());
  job.room.close();
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const part = (name: string) =>
  desk
    .getByRole('navigation', { name: 'Locked corner' })
    .getByRole('button', { name: new RegExp(`^${name}`) })
    .click();

describe('the lock', () => {
  it('is set at first use by the keys on the screen, typed twice', async () => {
    await button(desk, /^Locked corner/).click();
    await desk.getByRole('heading', { name: 'Choose a PIN for this shop' }).waitFor();
    await looksRight(desk, 'corner-first');
    const pad = desk.getByRole('group', { name: 'Digits' });
    for (const digit of PIN) await button(pad, digit).click();
    await desk.getByLabel('The same again').fill('271829');
    await button(desk, 'Set this PIN').click();
    await desk.getByText('The two differ. Type the same PIN twice.').waitFor();
    await desk.getByLabel('The same again').focus();
    await button(pad, 'Erase').click();
    for (const digit of PIN) await button(pad, digit).click();
    await button(desk, 'Set this PIN').click();
    await button(desk, 'Lock now').waitFor();
  });

  it('locks by its button, says that a PIN is wrong, and opens by the keyboard alone', async () => {
    await button(desk, 'Lock now').click();
    await desk.getByRole('heading', { name: 'Enter the PIN of this shop' }).waitFor();
    await desk.keyboard.type('314159');
    await desk.keyboard.press('Enter');
    await desk.getByRole('alert').filter({ hasText: 'This is not the PIN.' }).waitFor();
    await looksRight(desk, 'corner-locked');
    await desk.getByLabel('PIN', { exact: true }).focus();
    await desk.keyboard.type(PIN);
    await desk.keyboard.press('Enter');
    await button(desk, 'Lock now').waitFor();
  });
});

describe('the parts', () => {
  it('lists the stations, renames one, and fits the desk', async () => {
    await part('Stations');
    const row = desk.getByRole('row', { name: /Floor tablet/ });
    await row.filter({ hasText: 'connected now' }).waitFor();
    await looksRight(desk, 'corner-stations');
    await button(row, /^Change/).click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByLabel('Name of this station').fill('Tablet by the window');
    await looksRight(desk, 'corner-change');
    await button(dialog, 'Keep this').click();
    await desk.getByText('“Tablet by the window” was changed.').waitFor();
  });

  it('gives a code, and another PIN', async () => {
    await part('New station');
    await button(desk, 'Show a code').click();
    await desk
      .locator('output')
      .filter({ hasText: /^\d{6}$/ })
      .waitFor();
    await looksRight(desk, 'corner-code');
    await part('PIN');
    await looksRight(desk, 'corner-pin');
  });
});

describe('a revoked tablet', () => {
  it('hears it at once, and what it still held waits for the desk', async () => {
    await button(tablet, /Ludmilla Windegger/).click();
    await floor.allSaved(tablet);
    const before = factsOnDisk(shop.data, job.session).length;
    await tablet.context().setOffline(true);
    await floor.savedState(tablet).filter({ hasText: 'No connection' }).waitFor({ timeout: 60_000 });
    await floor.readyBoot(tablet, 'left');
    await floor.savedState(tablet).filter({ hasText: '10 waiting to be saved' }).waitFor();

    await part('Stations');
    await button(desk.getByRole('row', { name: /Tablet by the window/ }), /^Revoke/).click();
    await looksRight(desk, 'corner-revoke');
    await button(desk.getByRole('dialog'), 'Revoke this station').click();
    await desk.getByText('“Tablet by the window” was revoked.').waitFor();

    await tablet.context().setOffline(false);
    await tablet.getByRole('heading', { name: 'This station was revoked' }).waitFor({ timeout: 60_000 });
    await tablet.getByText('10 entries wait for the desk').waitFor();
    await looksRight(tablet, 'revoked');
    expect(factsOnDisk(shop.data, job.session)).toHaveLength(before);
  });

  it('has its entries taken in by the desk, each once, and is told', async () => {
    await part('Left behind');
    await button(desk, /^Look: Tablet by the window, ticket/).click();
    await desk.getByText('Left footbed: done').waitFor();
    await looksRight(desk, 'corner-quarantine');
    await button(desk, 'Throw away').click();
    await looksRight(desk, 'corner-throw');
    await button(desk.getByRole('dialog'), 'Cancel').click();
    await button(desk, /^Take in 10 entries/).click();
    await desk.getByText('10 entries taken in').waitFor();
    const facts = factsOnDisk(shop.data, job.session);
    expect(facts.filter(({ by }) => by.station.startsWith('measuring'))).toHaveLength(10);
    expect(new Set(facts.map(({ id }) => id)).size).toBe(facts.length);
    await tablet.getByText('10 entries taken in by the desk.').waitFor();
  });

  it('asks to be let back in, and both screens show one number', async () => {
    await button(tablet, 'Ask the desk to let this station back in').click();
    const number = (
      await tablet
        .locator('output')
        .filter({ hasText: /^\d{4}$/ })
        .innerText()
    ).trim();
    await looksRight(tablet, 'revoked-asks');
    await part('Let back in');
    const asks = desk.getByRole('listitem').filter({ hasText: 'Tablet by the window' });
    await asks.getByText(number).waitFor();
    await asks.getByText(/It was revoked on/).waitFor();
    await looksRight(desk, 'corner-request');
    await button(asks, 'The numbers are the same: let the revoked station in').click();
    // Back at its work, with the same entries, all of them saved.
    await button(tablet, /Ludmilla Windegger/)
      .or(floor.savedState(tablet))
      .first()
      .waitFor();
    await floor.allSaved(tablet);
    expect(
      factsOnDisk(shop.data, job.session).filter(({ by }) => by.station.startsWith('measuring')),
    ).toHaveLength(10);
  });

  it('that has only lost its cookie is let in without a word of revocation', async () => {
    await tablet.context().clearCookies();
    await tablet.reload();
    await tablet.getByLabel('Pairing code').waitFor();
    await looksRight(tablet, 'unpaired-known');
    await button(tablet, 'Ask the desk to let this station back in').click();
    await part('Let back in');
    const asks = desk.getByRole('listitem').filter({ hasText: 'This shop knows it.' });
    await button(asks, 'The numbers are the same: let it in').click();
    await floor.allSaved(tablet);
  });
});
