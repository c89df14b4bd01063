/** Every station's main pages at the sizes of real screens: nothing runs out, targets are large, axe is content. */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeViolations, COLOUR_RULES } from '../helpers/axe.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import type { Floor } from '../helpers/floor.ts';
import { Opener, readied, takenIn, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { inSight, sidewaysScrolls, smallTargets } from '../helpers/layout.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { shot } from '../helpers/shots.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';

const SCREENS = [
  { width: 1024, height: 768 },
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
] as const;
/** A mitten's target, and everybody else's. */
const MAIN_PX = 112;
const TOUCH_PX = 56;

let shop: TestServer;
let browser: Browser;
const stations = {} as Record<Floor, Page>;
const watches = {} as Record<Floor, Watch>;
const jobs = {} as Record<'takenIn' | 'readied' | 'wasRead', OpenJob>;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  for (const role of ['desk', 'measuring', 'bench'] as const) {
    stations[role] = await floor.pair(browser, shop.url, role, shop.shownCode(role));
    watches[role] = watch(stations[role], shop.url);
  }
  const opener = await Opener.of(shop);
  jobs.takenIn = await opener.open('Kilian Obermoser', takenIn());
  jobs.readied = await opener.open('Walburga Steinlechner-Hinterholzer', readied());
  jobs.wasRead = await opener.open('Leopoldine Aschaber', wasRead());
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

interface Shown {
  readonly role: Floor;
  readonly name: string;
  readonly show: (page: Page) => Promise<void>;
  /** The act that this page is for. */
  readonly act: (page: Page) => Locator;
}

/** Loads a station's page anew, with a session open or none, and nothing typed before. */
async function load(page: Page, role: Floor, job?: OpenJob): Promise<void> {
  await page.evaluate(() => sessionStorage.clear());
  await page.goto('about:blank');
  await page.goto(`${shop.url}/${role}${job ? `#${job.session}` : ''}`);
}

const PAGES: readonly Shown[] = [
  {
    role: 'measuring',
    name: 'list',
    show: (page) => load(page, 'measuring'),
    act: (page) => button(page, /Kilian Obermoser/),
  },
  {
    role: 'measuring',
    name: 'readiness',
    show: (page) => load(page, 'measuring', jobs.takenIn),
    act: (page) => button(page, /^Left boot: all as expected/),
  },
  {
    role: 'measuring',
    name: 'stand',
    show: async (page) => {
      await load(page, 'measuring', jobs.readied);
      await floor.field(page, 'Stance width').fill('230');
      for (const side of ['Left', 'Right']) await floor.choose(page, `${side} leg widest at`, 'middle');
    },
    act: (page) => button(page, 'All four are so: read the gaps'),
  },
  {
    role: 'measuring',
    name: 'reading',
    show: async (page) => {
      await load(page, 'measuring', jobs.readied);
      await floor.stand(page, 230, ['left', 'right']);
      await floor.typeGaps(page, {
        left: { medialMm: 12, lateralMm: 8 },
        right: { medialMm: 9, lateralMm: 11 },
      });
    },
    act: (page) => button(page, 'Record both legs'),
  },
  {
    role: 'measuring',
    name: 'result',
    show: (page) => load(page, 'measuring', jobs.wasRead),
    act: (page) => button(page, /^Send to the bench/),
  },
  {
    role: 'bench',
    name: 'task',
    show: async (page) => {
      await load(page, 'bench', jobs.wasRead);
      await floor.bootInHand(page, 'left');
    },
    act: (page) => button(page, /^Done as told/),
  },
  {
    role: 'bench',
    name: 'which boot',
    show: (page) => load(page, 'bench', jobs.wasRead),
    act: (page) => button(page, /^This is the left boot/),
  },
  {
    role: 'bench',
    name: 'nothing to do',
    show: (page) => load(page, 'bench', jobs.readied),
    act: (page) => button(page.getByRole('navigation'), /^left .*Leopoldine Aschaber/),
  },
  {
    role: 'desk',
    name: 'board',
    show: (page) => load(page, 'desk'),
    act: (page) => button(page, 'Take someone in'),
  },
  {
    role: 'desk',
    name: 'intake',
    show: async (page) => {
      await load(page, 'desk');
      await floor.beginIntake(page, 'Pankraz Moosbrugger');
    },
    act: (page) => button(page, /^Open the session/),
  },
  {
    role: 'desk',
    name: 'job',
    show: async (page) => {
      await load(page, 'desk', jobs.wasRead);
      await floor.allSaved(page);
    },
    act: (page) => button(page, 'Hand over'),
  },
];

/** Pages whose act may be as small as any other target: nobody wears mittens there, or it is one of many. */
const PLAIN_ACT = new Set(['bench nothing to do', 'desk job']);

describe.each(PAGES)('$role $name', ({ role, name, show, act }) => {
  beforeAll(async () => {
    const page = stations[role];
    await show(page);
    // A main act that has just appeared does not take a tap yet.
    await act(page).and(page.locator(':enabled')).waitFor();
  });

  it('fits every screen, with its act in sight and large, and targets for a glove', async () => {
    const page = stations[role];
    for (const size of SCREENS) {
      await page.setViewportSize(size);
      const at = `at ${size.width}×${size.height}`;
      expect(await sidewaysScrolls(page), at).toEqual([]);
      expect(await smallTargets(page, TOUCH_PX), at).toEqual({ small: [], inline: [] });
      if (size.width !== floor.SIZE[role].width) continue;
      await shot(page, `${role}-${name.replaceAll(' ', '-')}`);
      const seen = await inSight(act(page));
      expect(seen, at).toHaveProperty('heightPx');
      if (!PLAIN_ACT.has(`${role} ${name}`))
        expect((seen as { heightPx: number }).heightPx, at).toBeGreaterThanOrEqual(MAIN_PX - 0.5);
    }
  });

  it('gives axe nothing to say, light or dark', async () => {
    const page = stations[role];
    await page.setViewportSize(floor.SIZE[role]);
    await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
    expect(await axeViolations(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
    await shot(page, `${role}-${name.replaceAll(' ', '-')}-dark`);
    expect(await axeViolations(page, COLOUR_RULES), 'dark').toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
  });
});

/** Presses Tab until this has the focus. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  await target.waitFor();
  for (let i = 0; i < 80; i++) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('80 times Tab did not come there');
}

it('takes a reading by Tab and Enter alone', async () => {
  const page = stations.measuring;
  await load(page, 'measuring', jobs.wasRead);
  for (const name of [/^Read again/, 'All four are so: read the gaps']) {
    // A main act that has just appeared does not take a tap yet.
    const target = button(page, name).and(page.locator(':enabled')).first();
    await tabTo(page, target);
    await page.keyboard.press('Enter');
  }
  await floor.gapField(page, 'left', 'medial').waitFor();
  for (const gap of ['13,5', '6', '5', '12.5']) {
    await page.keyboard.type(gap);
    await page.keyboard.press('Enter');
  }
  await page
    .getByRole('region', { name: 'Left leg' })
    .getByText(/mean of 2/)
    .waitFor();
  await floor.allSaved(page);
  expect(factsOnDisk(shop.data, jobs.wasRead.session).slice(-2)).toMatchObject([
    { kind: 'cuff.read', side: 'left', medialMm: 13.5, lateralMm: 6 },
    { kind: 'cuff.read', side: 'right', medialMm: 5, lateralMm: 12.5 },
  ]);
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  for (const role of ['desk', 'measuring', 'bench'] as const) expect(watches[role].take(), role).toEqual([]);
});
