/**
 * `npm run bench -- stations`: what each station's first page weighs, and how long its pages take from a touch or a key
 * to the next picture on a processor four times slower, in a shop with many jobs open.
 */
import type { Locator } from 'playwright';
import { PEOPLE } from '../../demo/people.ts';
import { launchBrowser } from '../helpers/browser.ts';
import * as floor from '../helpers/floor.ts';
import { button } from '../helpers/floor.ts';
import { Opener, readied, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { readyPages } from '../helpers/ready-packages.mjs';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { firstPage } from './helpers/first-page.ts';
import { Interactions } from './helpers/interactions.ts';
import type { Interaction } from './helpers/interactions.ts';

const SLOWED_BY = 4;
const BUILD = new URL('../../build/stations', import.meta.url).pathname;
const PAGES = ['measuring', 'bench', 'desk', 'wall'] as const;
/** Jobs that stand in every list meanwhile, and jobs worked on. */
const OPEN = 60;
const WORKED = 3;

/** A finger rests on the glass about so long, from memory: what is let go of at once shows no press. */
const press = (what: Locator) => what.click({ delay: 80 });

type Browser = Awaited<ReturnType<typeof launchBrowser>>;
interface Acts {
  readonly station: string;
  readonly acts: readonly Interaction[];
}

async function atMeasuring(browser: Browser, shop: TestServer, jobs: readonly OpenJob[]): Promise<Acts> {
  const page = await floor.pair(browser, shop.url, 'measuring', shop.code(['measuring']));
  const find = page.getByLabel('Find by ticket or name');
  await find.waitFor();
  const timed = await Interactions.of(page, SLOWED_BY);
  for (const { ticket } of jobs) {
    await find.focus();
    for (const key of ticket) await timed.act('a letter in the list', () => page.keyboard.press(key));
    await timed.act('pick the skier', () => press(button(page, new RegExp(`^${ticket} `))));
    await floor.field(page, 'Stance width').fill('200');
    for (const side of ['Left', 'Right'])
      await timed.act('say where a leg is widest', () =>
        floor.choose(page, `${side} leg widest at`, 'middle'),
      );
    await timed.act('confirm the posture', () => floor.confirmPosture(page));
    for (const mm of ['14', '6', '5', '13'])
      await timed.act('tap a gap', () => press(button(page.getByRole('group', { name: /gap$/ }), mm)));
    await timed.act('record the reading', () => floor.record(page));
    await timed.act('send to the bench', () => press(button(page, /^Send to the bench/)));
    await timed.act('ask why', () => press(button(page, /Why\?/).first()));
    await timed.act('close the answer', () => press(button(page, 'Close')));
    await timed.act('back to the list', () => press(page.getByText('All jobs')));
  }
  return { station: 'measuring', acts: await timed.all() };
}

async function atBench(browser: Browser, shop: TestServer, jobs: readonly OpenJob[]): Promise<Acts> {
  const page = await floor.pair(browser, shop.url, 'bench', shop.code(['bench']));
  await page.getByRole('navigation', { name: 'Boots to do now' }).waitFor();
  const timed = await Interactions.of(page, SLOWED_BY);
  for (const { ticket } of jobs) {
    await timed.act('pick a boot', () => floor.pickAtBench(page, 'left', `${ticket} `));
    await timed.act('open other work', () => press(button(page, 'Other work on this boot')));
    await timed.act('close other work', () => press(button(page, 'Close')));
    await timed.act('done as told', () => press(button(page, /^Done as told/)));
  }
  return { station: 'bench', acts: await timed.all() };
}

async function atDesk(browser: Browser, shop: TestServer, jobs: readonly OpenJob[]): Promise<Acts> {
  const page = await floor.pair(browser, shop.url, 'desk', shop.code(['desk']));
  const find = page.getByLabel('Find by ticket, name or step');
  await find.waitFor();
  const timed = await Interactions.of(page, SLOWED_BY);
  for (const { ticket } of jobs) {
    await find.focus();
    for (const key of ticket) await timed.act('a letter on the board', () => page.keyboard.press(key));
    await timed.act('open a job', () => press(page.getByText(ticket, { exact: true })));
    await timed.act('pause it', () => press(button(page, 'Pause the job')));
    await timed.act('think better of it', () => press(button(page, 'Close')));
    await find.press('Control+a');
    await timed.act('the whole board again', () => page.keyboard.press('Backspace'));
  }
  return { station: 'desk', acts: await timed.all() };
}

/** The middle and the worst of each kind of act. */
function summary({ station, acts }: Acts) {
  const names = [...new Set(acts.map(({ act }) => act))];
  return names.map((act) => {
    const ms = acts.filter((each) => each.act === act).map((each) => each.ms);
    const sorted = ms.toSorted((a, b) => a - b);
    return { station, act, times: ms.length, medianMs: sorted[ms.length >> 1]!, worstMs: sorted.at(-1)! };
  });
}

await readyPages();
const pages = PAGES.map((name) => ({ station: name, ...firstPage(BUILD, `${name}/index.html`) }));
const shop = await serve();
const browser = await launchBrowser();
let acts: ReturnType<typeof summary>;
try {
  const opener = await Opener.of(shop);
  const who = (i: number) => PEOPLE[i % PEOPLE.length]!.name;
  const open = async (count: number, story: typeof readied): Promise<OpenJob[]> => {
    const jobs: OpenJob[] = [];
    for (let i = 0; i < count; i++) {
      const job = await opener.open(who(i), story());
      // All is acknowledged: nobody stands at these boots any more.
      job.room.close();
      jobs.push(job);
    }
    return jobs;
  };
  const unread = await open(WORKED, readied);
  const read = await open(WORKED, wasRead);
  await open(OPEN - 2 * WORKED, wasRead);
  acts = [
    summary(await atMeasuring(browser, shop, unread)),
    summary(await atBench(browser, shop, read)),
    summary(await atDesk(browser, shop, read)),
  ].flat();
} finally {
  await browser.close();
  await shop.close();
}

if (process.argv.includes('--json'))
  console.log(
    JSON.stringify({ node: process.version, slowedBy: SLOWED_BY, open: OPEN, pages, acts }, null, 2),
  );
else {
  const kB = (bytes: number) => Number((bytes / 1000).toFixed(1));
  console.log('First page of each station, in kB: what its first picture waits for');
  console.table(
    pages.map(({ station, files, brotliBytes, gzipBytes, plainBytes }) => ({
      station,
      files,
      brotli: kB(brotliBytes),
      gzip: kB(gzipBytes),
      plain: kB(plainBytes),
    })),
  );
  console.log(
    `From an act to the next picture, ms, processor slowed ${SLOWED_BY} times, ${OPEN} jobs open (the browser counts in steps of 8, from 16)`,
  );
  console.table(
    acts.map(({ station, act, times, medianMs, worstMs }) => ({
      station,
      act,
      times,
      median: medianMs,
      worst: worstMs,
    })),
  );
}
