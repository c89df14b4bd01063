/** A value that looks wrong is asked about where it stands, and stored once a person says that it is so. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';

let shop: TestServer;
let browser: Browser;
let opener: Opener;
let job: OpenJob;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  opener = await Opener.of(shop);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const question = (page: Page) => page.getByRole('region', { name: 'Is that so?' });
const KEEP = 'It is so: keep it';
const reads = () => factsOnDisk(shop.data, job.session).filter(({ kind }) => kind === 'cuff.read');

describe('a gap', () => {
  let page: Page;
  beforeAll(async () => {
    job = await opener.open('Rosalinde Feuerstein', readied());
    page = await floor.pair(browser, shop.url, 'measuring', shop.shownCode('measuring'));
    await page.goto(`${shop.url}/measuring#${job.session}`);
    await page.reload();
    await floor.stand(page, 240, ['left', 'right']);
  });

  it('is asked about by the first one, once, and no second Enter says yes', async () => {
    // A foot switch that bounces: two Enters, one after the other.
    await page.keyboard.type('42\r8\r10\r11\r\r');
    // The second one went back to the number.
    await question(page).waitFor({ state: 'detached' });
    const medial = floor.gapField(page, 'left', 'medial');
    expect(reads()).toEqual([]);
    await button(page, 'Record both legs').click();
    await question(page).getByText('Left gaps together 50 mm; 4 to 30 mm is usual.').waitFor();
    expect(await button(page, 'Record both legs').count()).toBe(0);
    for (const size of [
      { width: 1024, height: 768 },
      { width: 1280, height: 800 },
    ]) {
      await page.setViewportSize(size);
      expect(await inSight(button(page, KEEP))).toHaveProperty('heightPx');
      expect(await sidewaysScrolls(page)).toEqual([]);
      expect((await smallTargets(page, 56)).small).toEqual([]);
      await shot(page, `asked-gap-${size.width}`);
    }
    expect(await axeViolations(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
    await shot(page, 'asked-gap-dark');
    expect(await axeViolations(page, COLOUR_RULES)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    // What is typed takes the question away, and what is right is stored without one.
    await medial.fill('12');
    await question(page).waitFor({ state: 'detached' });
    await floor.record(page);
    await floor.allSaved(page);
    expect(reads()).toMatchObject([{ medialMm: 12, lateralMm: 8 }, { medialMm: 10 }]);
  });

  it('that the plan foretells otherwise is asked about by its field, and kept as it is by one tap', async () => {
    await button(page, /^Read again/)
      .first()
      .click();
    await floor.confirmPosture(page);
    await floor.typeGaps(page, {
      left: { medialMm: 12, lateralMm: 24 },
      right: { medialMm: 10, lateralMm: 11 },
    });
    await floor.record(page);
    await question(page)
      .getByText(/^Left lateral gap 24 mm; .* to .* mm was to be expected\.$/)
      .waitFor();
    await button(page, 'Read again').click();
    const lateral = floor.gapField(page, 'left', 'lateral');
    expect(await lateral.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(await lateral.inputValue()).toBe('24');
    expect(reads()).toHaveLength(2);
    await floor.record(page);
    await button(page, KEEP).click();
    await page.getByRole('region', { name: 'Left leg' }).waitFor();
    await floor.allSaved(page);
    expect(reads().slice(2)).toMatchObject([{ medialMm: 12, lateralMm: 24 }, { lateralMm: 11 }]);
  });
});

describe('at the bench', () => {
  let page: Page;
  beforeAll(async () => {
    job = await opener.open('Rosalinde Feuerstein', wasRead());
    page = await floor.pair(browser, shop.url, 'bench', shop.shownCode('bench'));
    await page.evaluate(() => localStorage.setItem('fibula.language', 'de'));
    await page.goto('about:blank');
    await page.goto(`${shop.url}/bench#${job.session}`);
    await button(page, /linke.* Schuh von/).click();
  });

  it('a pivot past its travel is asked about in its dialog, in German too', async () => {
    await button(page, 'Etwas anderes gemacht').click();
    const dialog = page.getByRole('dialog');
    await field(dialog, 'Versteller außen').fill('-11');
    await field(dialog, 'Versteller innen').fill('0');
    await dialog.locator('button[type=submit]:enabled').waitFor();
    await page.keyboard.press('Enter');
    const asked = page.getByRole('region', { name: 'Stimmt das?' });
    await asked
      .getByText('Linker Schuh, Drehpunkt außen auf −11 mm; sein Weg geht von −4 bis 4 mm.')
      .waitFor();
    await shot(page, 'asked-pivot-de');
    expect(await sidewaysScrolls(page)).toEqual([]);
    expect(await axeViolations(page)).toEqual([]);
    await button(asked, 'Es stimmt: behalten').click();
    await dialog.waitFor({ state: 'detached' });
    await expect
      .poll(() => factsOnDisk(shop.data, job.session).at(-1), { timeout: 15_000 })
      .toMatchObject({ kind: 'cuff.set', lateralMm: -11 });
  });
});
