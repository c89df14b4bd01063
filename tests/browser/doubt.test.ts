/** Where readings leave a cuff in doubt, reading once more is as near at hand as moving or closing it, and is said to be worth it. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import * as floor from '../helpers/floor.ts';
import { button, gapField } from '../helpers/floor.ts';
import { readied } from '../helpers/jobs.ts';
import { looksRight } from '../helpers/looks.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

const SCREENS = [
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

let at: StationShop;
beforeAll(async () => {
  at = await stationShop('measuring');
});
afterAll(() => at?.close());

it('[CUF-22] a cuff that may be even already is read again before it is moved, and then moved', async () => {
  const told = readied();
  told.read('right', 9, 9);
  told.read('left', 12, 8.5);
  const job = await at.opener.open('Melchior Aschaber', told);
  const { page } = at;
  await page.goto(`${at.shop.url}/measuring#${job.session}`);
  const panel = page.getByRole('region', { name: 'Left leg' });
  const worth = panel.getByText(/^Perhaps even already \(\d+ %\): read once more before moving/);
  const again = button(page, /^Read again/);
  await worth.waitFor();
  // Both are acts: who stands there decides.
  expect(await again.innerText()).toMatch(/left boot$/);
  const [toRead, toBench] = await Promise.all(
    [again, button(page, /^Send to the bench/)].map(async (act) => (await act.boundingBox())!.height),
  );
  expect(toRead).toBe(toBench);
  await floor.pictured(page);
  await looksRight(page, 'doubt', SCREENS);

  for (const [medial, lateral] of [
    ['12', '8.5'],
    ['12.5', '8.5'],
  ] as const) {
    await again.click();
    await floor.confirmPosture(page);
    await gapField(page, 'left', 'medial').fill(medial);
    await gapField(page, 'left', 'lateral').fill(lateral);
    await gapField(page, 'right', 'medial').fill('9');
    await gapField(page, 'right', 'lateral').fill('9');
    await button(page, /^Record/).click();
    await panel.waitFor();
  }
  await panel.getByText(/pivot/).first().waitFor();
  await worth.waitFor({ state: 'detached' });
});
