/** Hours and hands in the desk's locked corner: what the times of the board are counted with. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { button, field } from '../helpers/floor.ts';
import { looksRight } from '../helpers/looks.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

let at: StationShop;
let desk: Page;

beforeAll(async () => {
  at = await stationShop('desk');
  ({ page: desk } = at);
  await button(desk, /^Locked corner/).click();
  const pad = desk.getByRole('group', { name: 'Digits' });
  for (const digit of '271828') await button(pad, digit).click();
  await desk.getByLabel('The same again').fill('271828');
  await button(desk, 'Set this PIN').click();
  await button(desk.getByRole('navigation', { name: 'Locked corner' }), 'Hours').click();
});
afterAll(() => at?.close());

const kept = () => desk.evaluate(async () => (await fetch('/api/opening')).json() as Promise<unknown>);

describe('hours and hands', () => {
  it('are saved as typed, and stand there again', async () => {
    await field(desk, 'Bench').fill('2');
    await desk.getByLabel('Sunday: open').check();
    await field(desk, 'Sunday from').fill('9.30');
    await field(desk, 'Sunday to').fill('12');
    await desk.getByLabel('Monday: open').uncheck();
    await looksRight(desk, 'corner-opening');
    await button(desk, 'Save hours and hands').click();
    await desk.getByText('Saved.', { exact: false }).waitFor();
    expect(await kept()).toMatchObject({
      hands: { measuring: 1, bench: 2, desk: 1 },
      days: [null, {}, {}, {}, {}, { from: '09:00', to: '18:00' }, { from: '09:30', to: '12:00' }],
    });
    expect(await field(desk, 'Sunday to').inputValue()).toBe('12:00');
  });

  it('that cannot be are named beside what was typed, and nothing is saved', async () => {
    const before = await kept();
    await field(desk, 'Tuesday to').fill('8:00');
    await desk.getByText('Type two times such as 9:00 and 18:00, the later one second.').waitFor();
    await field(desk, 'Bench').fill('0');
    await desk.getByText('Type a whole number from 1 to 20.').waitFor();
    expect(await button(desk, 'Save hours and hands').isDisabled()).toBe(true);
    expect(await field(desk, 'Tuesday to').inputValue()).toBe('8:00');
    expect(await kept()).toEqual(before);
  });
});
