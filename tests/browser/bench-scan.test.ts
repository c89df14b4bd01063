/** Tags at the bench: a scanner that types, wherever the focus is; the boot that was asked for, and any other. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mm, plan } from '../../core/index.ts';
import type { FactOf, Side } from '../../core/index.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import * as floor from '../helpers/floor.ts';
import { button, field, scan } from '../helpers/floor.ts';
import { takenIn, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { until } from '../helpers/until.ts';
import { sound, tagged } from './helpers/bench.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

let at: StationShop;
let bench: Page;
/** Two jobs with tags on all boots, one without any. */
let one: OpenJob;
let other: OpenJob;
let bare: OpenJob;

beforeAll(async () => {
  at = await stationShop('bench');
  ({ page: bench } = at);
  one = await at.opener.open('Leopoldine Aschaber', tagged(wasRead(), { left: 'KX-101', right: 'KX-102' }));
  other = await at.opener.open('Pankraz Moosbrugger', tagged(wasRead(), { left: 'KX-201', right: 'KX-202' }));
  bare = await at.opener.open('Notburga Ferchl', wasRead());
  await button(bench.getByRole('navigation'), /^right .*Notburga Ferchl/).waitFor();
});
afterAll(() => at?.close());

const facts = (job: OpenJob) => factsOnDisk(at.shop.data, job.session);
const told = (job: OpenJob, side: Side) =>
  plan(facts(job)).next.find((action) => action.role === 'bench' && action.side === side)!.text;
const inHand = (side: Side) => bench.getByRole('region', { name: `${side} boot in hand` });
const dialog = () => bench.getByRole('dialog');
const pick = async (side: Side, name: string) => {
  await button(bench.getByRole('navigation'), new RegExp(`^${side} .*${name}`)).click();
  await floor.pictured(bench);
};
/** Nothing may be entered by a scan: how many entries all jobs hold. */
const entries = () => [one, other, bare].map((job) => facts(job).length);

describe('a tag that is scanned', () => {
  it('brings up its boot from the list, whatever the focus is on', async () => {
    await button(bench.getByRole('navigation'), /^left .*Pankraz/).focus();
    await scan(bench, 'kx-102');
    await inHand('right').getByText(told(one, 'right')).waitFor();
    expect(new URL(bench.url()).hash).toBe(`#${one.session}`);
  });

  it('of the boot in hand says nothing', async () => {
    await scan(bench, 'KX-102');
    await inHand('right').waitFor();
    expect(await dialog().count()).toBe(0);
  });

  it('[BEN-1] is asked for before an instruction shows, and the right one shows it', async () => {
    await pick('left', 'Pankraz');
    await bench.getByText('Take the left boot, and scan its tag').waitFor();
    expect(await bench.getByText(told(other, 'left')).count()).toBe(0);
    expect(await button(bench, /^Done as told/).count()).toBe(0);
    await sound(bench, 'bench-scan-first', button(bench, /^This is the left boot/));
    await scan(bench, 'KX-201');
    await inHand('left').getByText(told(other, 'left')).waitFor();
  });

  it('[BEN-2] of the other side is said plainly, with nothing entered, and the wanted one may follow', async () => {
    const before = entries();
    await scan(bench, 'KX-202');
    const said = bench.getByRole('dialog', { name: 'The other boot of this pair' });
    await said.getByText(`Right boot, ${other.ticket}`).waitFor();
    await said.getByText(`Left boot, ${other.ticket}`).waitFor();
    await said.getByText('Nothing was entered.').waitFor();
    await sound(bench, 'bench-scan-side', button(said, /^Put it down/));
    await scan(bench, 'KX-201');
    await said.waitFor({ state: 'detached' });
    await inHand('left').getByText(told(other, 'left')).waitFor();
    expect(entries()).toEqual(before);
  });

  it('[BEN-2] of another job is said plainly, and can be changed over to', async () => {
    const before = entries();
    await scan(bench, 'KX-101');
    const said = bench.getByRole('dialog', { name: 'A boot of another job' });
    await said.getByText('Leopoldine Aschaber').waitFor();
    await said.getByText('Pankraz Moosbrugger').waitFor();
    await button(said, /^Put it down/).click();
    await inHand('left').getByText(told(other, 'left')).waitFor();
    await scan(bench, 'KX-101');
    await button(
      said,
      `Change over to the left boot of ${one.ticket} its instruction comes up; the other one keeps`,
    ).click();
    await inHand('left').getByText(told(one, 'left')).waitFor();
    expect(new URL(bench.url()).hash).toBe(`#${one.session}`);
    expect(entries()).toEqual(before);
  });

  it('[BEN-2] of another job is said also while the entries of the one that was picked have not come', async () => {
    const never = await at.opener.open(
      'Rosina Thaler',
      tagged(wasRead(), { left: 'KX-501', right: 'KX-502' }),
    );
    await button(bench.getByRole('navigation'), /^left .*Rosina/).waitFor();
    await bench.context().setOffline(true);
    try {
      await pick('left', 'Rosina');
      await bench.locator('main [aria-busy="true"]').waitFor();
      await scan(bench, 'KX-202');
      const said = bench.getByRole('dialog', { name: 'A boot of another job' });
      await said.getByText(`Left boot, ${never.ticket}`).waitFor();
      await button(said, /^Put it down/).click();
    } finally {
      await bench.context().setOffline(false);
    }
    await bench.getByText('Take the left boot, and scan its tag').waitFor();
    await scan(bench, 'KX-101');
    await button(dialog(), /^Change over/).click();
    await inHand('left').getByText(told(one, 'left')).waitFor();
  });

  it('[BEN-2] that no open boot carries is named, and nothing comes of it', async () => {
    const before = entries();
    await scan(bench, 'ZZ-999');
    const said = bench.getByRole('dialog', { name: 'A code of no open boot' });
    await said.getByText('No boot in the shop carries “ZZ-999”. Nothing was entered.').waitFor();
    await sound(bench, 'bench-scan-unknown', button(said, 'Leave it'));
    await button(said, 'Leave it').click();
    await inHand('left').getByText(told(one, 'left')).waitFor();
    expect(entries()).toEqual(before);
  });

  it('while a number is typed leaves the number, and says which boot it is', async () => {
    await button(bench, /^Did something else/).click();
    const lateral = field(dialog(), 'Lateral adjuster');
    await lateral.fill('-1,5');
    await lateral.press('End');
    await scan(bench, 'KX-202');
    await bench.getByRole('dialog', { name: 'A boot of another job' }).waitFor();
    await button(bench.getByRole('dialog', { name: 'A boot of another job' }), /^Put it down/).click();
    expect(await lateral.inputValue()).toBe('-1,5');
    // A calliper's number is a number.
    await lateral.fill('');
    await scan(bench, '-0.5');
    expect(await lateral.inputValue()).toBe('-0.5');
    // What was begun for one boot is not entered for the other.
    await scan(bench, 'KX-102');
    await button(bench.getByRole('dialog', { name: 'The other boot of this pair' }), /^Change over/).click();
    await inHand('right').waitFor();
    expect(await dialog().count()).toBe(0);
  });
});

describe('without a scanner', () => {
  it('a person says which boot it is by side and ticket, in one tap', async () => {
    await pick('right', 'Pankraz');
    await button(bench, new RegExp(`^This is the right boot of ${other.ticket}`)).click();
    await inHand('right').getByText(told(other, 'right')).waitFor();
  });

  it('a boot that has no tag asks for that tap, and the next boot for its own', async () => {
    await pick('left', 'Notburga');
    await bench.getByText('Take the left boot, and read what stands on it').waitFor();
    await button(bench, /^This is the left boot/).click();
    await inHand('left').waitFor();
    await button(bench, /^Done as told/).click();
    await floor.allSaved(bench);
    await bench
      .getByText(`The left boot of ${bare.ticket} was in hand: nothing more to do on it now.`)
      .waitFor();
    await button(bench, /^This is the right boot/).waitFor();
    expect(await button(bench, /^Done as told/).count()).toBe(0);
  });

  it('a free tag is put on it by scanning it, and then finds it', async () => {
    await scan(bench, 'KX-301');
    const said = bench.getByRole('dialog', { name: 'A code of no open boot' });
    await button(said, /^Put this tag on the right boot/).click();
    await inHand('right').getByText(told(bare, 'right')).waitFor();
    await floor.allSaved(bench);
    expect(facts(bare).at(-1)).toMatchObject({ kind: 'boot.described', side: 'right', tag: 'KX-301' });
    // Its readings still stand: a tag is no other boot.
    expect(plan(facts(bare)).sides.right.cuff.reading).toMatchObject({ stale: false });
    await pick('left', 'Leopoldine');
    await scan(bench, 'KX-301');
    await button(bench.getByRole('dialog', { name: 'A boot of another job' }), /^Change over/).click();
    await inHand('right').getByText(told(bare, 'right')).waitFor();
  });

  it('ticket and side letter are a code as well, and a ticket alone opens its job', async () => {
    await scan(bench, one.ticket);
    await button(bench, new RegExp(`^This is the (left|right) boot of ${one.ticket}`)).waitFor();
    await scan(bench, `${one.ticket}-L`);
    await inHand('left').getByText(told(one, 'left')).waitFor();
  });
});

it('a boot that was read again on the floor is asked for again', async () => {
  await button(bench, /^Done as told/).click();
  await floor.allSaved(bench);
  await until(() => plan(facts(one)).sides.left.cuff.verdict === 'unread', 'the left cuff to be read');
  const {
    id: _id,
    kind: _kind,
    at: _at,
    by: _by,
    basis: _basis,
    ...read
  } = facts(one).find((fact) => fact.kind === 'cuff.read' && fact.side === 'left') as FactOf<'cuff.read'>;
  await one.room.add('measuring', 'cuff.read', { ...read, medialMm: mm(15), lateralMm: mm(5) });
  await pick('left', 'Leopoldine');
  await bench.getByText('Take the left boot, and scan its tag').waitFor();
});

describe('at the description', () => {
  it('a tag is scanned into its field: Enter goes on, and sends no form', async () => {
    const fresh = await at.opener.open('Kilian Obermoser', takenIn());
    const measuring = await floor.pair(at.browser, at.shop.url, 'measuring', at.shop.shownCode('measuring'));
    await measuring.goto(`${at.shop.url}/measuring#${fresh.session}`);
    await button(measuring, 'Correct the description').click();
    const form = measuring.getByRole('dialog', { name: 'The boots' });
    await form.getByLabel('Left boot’s tag').focus();
    await scan(measuring, 'KX-401');
    expect(await form.getByLabel('Right boot’s tag').evaluate((el) => el === document.activeElement)).toBe(
      true,
    );
    await scan(measuring, 'KX-401');
    expect(await form.isVisible()).toBe(true);
    await button(form, 'Describe both boots').click();
    await form.getByText('Both boots have the same tag: each needs one of its own.').waitFor();
    await form.getByLabel('Right boot’s tag').fill('KX-402');
    await button(form, 'Describe both boots').click();
    await form.waitFor({ state: 'detached' });
    await floor.allSaved(measuring);
    expect(
      facts(fresh)
        .filter((fact) => fact.kind === 'boot.described')
        .slice(-2),
    ).toMatchObject([
      { side: 'left', tag: 'KX-401' },
      { side: 'right', tag: 'KX-402' },
    ]);
    await scan(bench, 'KX-402');
    await bench
      .getByRole('dialog', { name: 'A boot of another job' })
      .getByText(`Right boot, ${fresh.ticket}`)
      .waitFor();
    await measuring.context().close();
  });
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  expect(at.seen.take().filter((each) => !/ERR_INTERNET_DISCONNECTED/.test(String(each)))).toEqual([]);
});
