/** Undo until the next entry: what was entered by one act goes by one, and its numbers stand there to be corrected. */
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { launchBrowser } from '../helpers/browser.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import type { Story } from '../helpers/facts.ts';
import { KNEE } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, field } from '../helpers/floor.ts';
import { Opener, readied, takenIn } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';

const UNDO = 'Undo last entry';
let shop: TestServer;
let browser: Browser;
let opener: Opener;

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  opener = await Opener.of(shop);
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

/** Both cuffs closed; the knees are next. */
const closed = (): Story => {
  const told = readied();
  told.add('service.changed', { service: 'full', reason: 'wants all of it' });
  for (const side of ['left', 'right'] as const) {
    told.read(side, 10, 10);
    told.add('cuff.closed', { side, decision: 'even' });
  }
  return told;
};

async function open(
  role: 'measuring' | 'bench' | 'desk',
  told: Story,
): Promise<{ page: Page; job: OpenJob }> {
  const job = await opener.open('Serafin Wibmer', told);
  const page = await floor.pair(browser, shop.url, role, shop.code([role]));
  await page.goto(`${shop.url}/${role}#${job.session}`);
  await page.reload();
  return { page, job };
}
const tail = ({ session }: OpenJob, count: number): readonly Fact[] =>
  factsOnDisk(shop.data, session).slice(-count);

it('takes back both legs of a reading, with their numbers in the fields again', async () => {
  const { page, job } = await open('measuring', readied());
  await floor.stand(page, 230, ['left', 'right']);
  await button(page, '12').click();
  await button(page, /^Presses/).click();
  await button(page, '9').click();
  await button(page, '+ ½').click();
  await button(page, '11½').click();
  await floor.record(page);
  await floor.allSaved(page);
  await button(page, UNDO).click();
  await floor.allSaved(page);
  const [left, right, ...struck] = tail(job, 4);
  expect([left, right]).toMatchObject([
    { kind: 'cuff.read', contact: 'lateral', pressure: 'press' },
    { kind: 'cuff.read', lateralMm: 11.5 },
  ]);
  expect(struck).toMatchObject([
    { kind: 'struck', fact: left!.id, reason: 'undo' },
    { kind: 'struck', fact: right!.id, reason: 'undo' },
  ]);
  // One digit was wrong: the other three are not typed again.
  const gaps = await page
    .getByRole('textbox')
    .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value));
  expect(gaps.toSorted()).toEqual(['0', '11.5', '12', '9']);
  await page.getByText('Presses', { exact: true }).first().waitFor();
  await floor.gapField(page, 'left', 'medial').fill('13');
  await floor.record(page);
  await floor.allSaved(page);
  expect(tail(job, 2)).toMatchObject([
    { kind: 'cuff.read', medialMm: 13, lateralMm: 0, contact: 'lateral', pressure: 'press' },
    { kind: 'cuff.read', medialMm: 9, lateralMm: 11.5 },
  ]);
  await page.close();
});

it('takes back a boot that was said to be as expected, all of it by one touch', async () => {
  const { page, job } = await open('measuring', takenIn());
  await floor.readyBoot(page, 'left');
  await floor.allSaved(page);
  await button(page, UNDO).click();
  await floor.allSaved(page);
  await floor.readyBoot(page, 'left');
  const said = factsOnDisk(shop.data, job.session);
  const made = said.filter(({ kind }) => kind === 'ready.checked' || kind === 'sole.set');
  const struck = new Set(said.flatMap((fact) => (fact.kind === 'struck' ? [fact.fact] : [])));
  expect(struck).toEqual(new Set(made.slice(0, struck.size).map(({ id }) => id)));
  expect(struck.size).toBe(10);
  await page.close();
});

it('takes back a knee, and it stands there again', async () => {
  const { page, job } = await open('measuring', closed());
  const knee = page.getByRole('region', { name: 'Left knee' });
  await floor.choose(page, 'Knee taken at', /condyles/);
  await button(page, /read the knees/).click();
  await field(knee, 'Knee from the line').fill('7,5');
  await floor.choose(knee, 'Toward', 'medial');
  await field(knee, 'Knee height').fill('468');
  await button(knee, /^Record/).click();
  await floor.allSaved(page);
  await button(page, UNDO).click();
  await floor.allSaved(page);
  expect(tail(job, 2)).toMatchObject([{ kind: 'stance.read', kneeOffsetMm: -7.5 }, { kind: 'struck' }]);
  expect(await field(knee, 'Knee from the line').inputValue()).toBe('7.5');
  expect(await field(knee, 'Knee height').inputValue()).toBe('468');
  await page.close();
});

it('takes back a measured sole at the bench, and it stands there again', async () => {
  const told = closed();
  told.add('stance.read', { side: 'left', kneeOffsetMm: -9, ...KNEE });
  told.add(
    'cant.chosen',
    { side: 'left', cantDeg: -2, method: 'plate', override: 'known for years' },
    { role: 'measuring' },
  );
  const { page, job } = await open('bench', told);
  await floor.bootInHand(page, 'left');
  await floor.bootInHand(page, 'left');
  const sole = ['19.2', '19', '69', '30.1', '30', '69.5'];
  await field(page, 'Toe, medial height').focus();
  for (const number of sole) {
    await page.keyboard.type(number);
    await page.keyboard.press('Enter');
  }
  await floor.allSaved(page);
  await expect.poll(() => tail(job, 1)[0]?.kind, { timeout: 15_000 }).toBe('sole.measured');
  await button(page, UNDO).click();
  await field(page, 'Toe, medial height').waitFor();
  const typed = await page
    .getByRole('textbox')
    .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value));
  expect(typed).toEqual(sole);
  await page.close();
});

it('takes back the last word of the desk, and nothing of what another station said after it', async () => {
  const { page, job } = await open('desk', readied());
  await button(page, 'Pause the job').click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Where the boots are').fill('in the rack');
  await button(dialog, 'Pause the job').click();
  await dialog.waitFor({ state: 'detached' });
  await floor.allSaved(page);
  const paused = tail(job, 1)[0]!;
  await button(page, UNDO).click();
  await floor.allSaved(page);
  expect(tail(job, 1)[0]).toMatchObject({ kind: 'struck', fact: paused.id, reason: 'undo' });
  expect(await button(page, UNDO).isDisabled()).toBe(true);
  await page.close();
});
