/** What people see while the server's disk is full: a banner at every station, and that it goes by itself. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { axeViolations } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sidewaysScrolls } from '../helpers/layout.ts';
import { shot } from '../helpers/shots.ts';
import { serveOnSmallDisk } from '../helpers/small-disk.ts';
import type { SmallDisk } from '../helpers/small-disk.ts';

const SIZE = { width: 1280, height: 800 };
let shop: SmallDisk;
let browser: Browser;
let measuring: Page;
let bench: Page;
let desk: Page;
let wall: Page;
let job: OpenJob;
let second: OpenJob;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serveOnSmallDisk(), launchBrowser()]);
  for (const role of ['measuring', 'bench', 'desk'] as const) {
    const page = await floor.pair(browser, shop.url, role, shop.shownCode(role), { size: SIZE });
    if (role === 'measuring') measuring = page;
    else if (role === 'bench') bench = page;
    else desk = page;
  }
  wall = await floor.pair(browser, shop.url, 'wall', shop.code(['wall']), { size: SIZE });
  const opener = await Opener.of(shop);
  job = await opener.open('Ludmilla Windegger', takenIn());
  second = await opener.open('Kilian Obermoser', takenIn());
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const onDisk = () => factsOnDisk(shop.data, job.session);
const alert = (page: Page) => page.getByRole('alert').filter({ hasText: 'The server’s disk is full.' });

it('a full disk is told at every station, entries wait, and both are over when there is space', async () => {
  await button(measuring, /Ludmilla Windegger/).click();
  await floor.allSaved(measuring);
  const before = onDisk().length;
  shop.fill();
  await floor.readyBoot(measuring, 'left');
  for (const page of [measuring, bench, desk]) await alert(page).waitFor();
  expect(await alert(measuring).innerText()).toMatch(
    /entries wait on this device and are saved by themselves later.*Free some space on the shop’s computer\./s,
  );
  await floor.savedState(measuring).filter({ hasText: '10 waiting to be saved' }).waitFor();
  await wall.getByRole('img', { name: 'The server needs attention' }).waitFor();
  expect(await wall.getByText(/disk/).count()).toBe(0);

  // Work goes on under the banner.
  await floor.readyBoot(measuring, 'right');
  await floor.savedState(measuring).filter({ hasText: '20 waiting to be saved' }).waitFor();
  expect(onDisk()).toHaveLength(before);
  for (const [name, page] of Object.entries({ measuring, bench, desk, wall })) {
    await shot(page, `full-disk-${name}`);
    expect([name, await sidewaysScrolls(page)]).toEqual([name, []]);
    expect([name, await axeViolations(page)]).toEqual([name, []]);
  }
  shop.free();
  for (const page of [measuring, bench, desk]) await alert(page).waitFor({ state: 'detached' });
  await wall.getByRole('img', { name: 'The server needs attention' }).waitFor({ state: 'detached' });
  await floor.allSaved(measuring);
  expect(onDisk()).toHaveLength(before + 20);
  expect(new Set(onDisk().map(({ id }) => id)).size).toBe(before + 20);
});

it('what is entered on a full disk outlives the page, and is saved once', async () => {
  const saved = factsOnDisk(shop.data, second.session).length;
  await measuring.goto('about:blank');
  await measuring.goto(`${shop.url}/measuring#${second.session}`);
  await floor.allSaved(measuring);
  shop.fill();
  await floor.readyBoot(measuring, 'left');
  await alert(measuring).waitFor();
  await measuring.reload();
  await alert(measuring).waitFor();
  await floor.savedState(measuring).filter({ hasText: '10 waiting to be saved' }).waitFor();
  expect(factsOnDisk(shop.data, second.session)).toHaveLength(saved);
  shop.free();
  await floor.allSaved(measuring);
  expect(new Set(factsOnDisk(shop.data, second.session).map(({ id }) => id)).size).toBe(saved + 10);
  expect(factsOnDisk(shop.data, second.session)).toHaveLength(saved + 10);
});
