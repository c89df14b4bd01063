/** Two people on one session: what one of them types is the other's to see only once it is entered. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { cableTo } from '../helpers/cable.ts';
import type { Cable } from '../helpers/cable.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, entry } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

let shop: TestServer;
let browser: Browser;
let opener: Opener;
/** Of the station that is cut off in these tests. */
let cable: Cable;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  cable = await cableTo(shop.url);
  opener = await Opener.of(shop);
});
afterAll(async () => {
  await browser?.close();
  await cable?.close();
  await shop?.close();
});

const planned = ({ session }: OpenJob) => plan(factsOnDisk(shop.data, session));

describe('two measuring stations', () => {
  let one: Page;
  let two: Page;
  let job: OpenJob;

  beforeAll(async () => {
    one = await floor.pair(browser, cable.url, 'measuring', shop.shownCode('measuring'), {
      name: 'Floor one',
    });
    two = await floor.pair(browser, shop.url, 'measuring', shop.code(['measuring']), { name: 'Floor two' });
  });
  beforeEach(async () => {
    job = await opener.open('Crispin Achleitner', readied());
    for (const [page, url] of [
      [one, cable.url],
      [two, shop.url],
    ] as const) {
      await page.goto(`${url}/measuring#${job.session}`);
      await page.reload(); // another part after # alone loads no page anew
      await floor.stand(page, 230, ['left', 'right']);
    }
  });

  it('see each other, and what the other is at', async () => {
    await one.getByText('Floor two, reading the gaps').waitFor();
    await two.getByText('Floor one, reading the gaps').waitFor();
    await two.goto('about:blank');
    await one.getByText(/Floor two/).waitFor({ state: 'detached' });
  });

  it('keep a number that is typed and not entered, over the other’s entry and a lost connection', async () => {
    const typed = floor.gapField(one, 'left', 'medial');
    await typed.fill('11.5');
    await floor.typeGaps(two, { left: { medialMm: 13, lateralMm: 7 }, right: { medialMm: 8, lateralMm: 9 } });
    await floor.record(two);
    await floor.allSaved(two);
    await button(one, 'Entries').click();
    const list = one.getByRole('dialog');
    await entry(list, 'Left cuff read: medial 13, lateral 7 mm', '· saved').waitFor();
    await button(list, 'Close').click();
    expect(await typed.inputValue()).toBe('11.5');

    cable.pull();
    await floor.savedState(one).filter({ hasText: 'No connection' }).waitFor();
    await button(two, /^Close the right cuff: even/).click();
    await floor.allSaved(two);
    expect(await typed.inputValue()).toBe('11.5');
    cable.plugIn();
    await floor.allSaved(one);
    expect(await typed.inputValue()).toBe('11.5');

    await floor.gapField(one, 'left', 'lateral').fill('6.5');
    await floor.record(one);
    await floor.allSaved(one);
    expect(planned(job).sides.left.cuff.reading).toMatchObject({
      medialMm: 12.25,
      lateralMm: 6.75,
      repeats: 2,
    });
    await two
      .getByRole('region', { name: 'Left leg' })
      .getByText(/mean of 2 \(spread 1 mm\)/)
      .waitFor();
  });
});

describe('two benches', () => {
  it('that set the same pivots at once are told of it, and one more entry settles it', async () => {
    const job = await opener.open('Notburga Ferchl', wasRead());
    const benches: Page[] = [];
    for (const [name, url] of [
      ['Press one', shop.url],
      ['Press two', cable.url],
    ] as const) {
      const page = await floor.pair(browser, url, 'bench', shop.code(['bench']), { name });
      await floor.pickAtBench(page, 'left', 'Notburga Ferchl');
      await button(page, /^Done as told/).waitFor();
      benches.push(page);
    }
    const [one, two] = benches as [Page, Page];
    // Neither sees the other: the second bench is cut off while both work.
    cable.pull();
    await floor.savedState(two).filter({ hasText: 'No connection' }).waitFor();
    await button(one, /^Done as told/).click();
    await floor.allSaved(one);
    await button(two, 'Did something else').click();
    const enter = async (page: Page, lateral: string, medial: string) => {
      const dialog = page.getByRole('dialog');
      await floor.field(dialog, 'Lateral adjuster').fill(lateral);
      await floor.field(dialog, 'Medial adjuster').fill(medial);
      await button(dialog, 'Enter these positions').click();
    };
    await enter(two, '-3', '0');
    await floor.savedState(two).filter({ hasText: '1 waiting to be saved' }).waitFor();
    cable.plugIn();
    await floor.allSaved(two);

    const conflict = planned(job).problems.find(({ code }) => code === 'conflict');
    expect(conflict).toMatchObject({ side: 'left' });
    for (const page of benches)
      await page.getByRole('region', { name: 'Look at this' }).getByText(conflict!.text).waitFor();
    expect(planned(job).sides.left.cuff.set).toBeNull();

    await button(one, 'Other work on this boot').click();
    // The boot in hand is the right one by now: the left one has nothing more to be told.
    await floor.choose(one.getByRole('dialog'), 'Which boot?', 'Left');
    await button(one.getByRole('dialog'), /^Pivots set otherwise/).click();
    await one.getByRole('dialog', { name: 'Left boot: what the dial reads now' }).waitFor();
    await enter(one, '-1', '2');
    await floor.allSaved(one);
    for (const page of benches)
      await page.getByRole('region', { name: 'Look at this' }).waitFor({ state: 'detached' });
    expect(planned(job).sides.left.cuff.set).toEqual({ lateralMm: -1, medialMm: 2 });
    expect(planned(job).problems.filter(({ code }) => code === 'conflict')).toEqual([]);
  });
});
