/** A job that is interrupted, goes out, and comes back: every act of the desk by its own page, and the floor's first look. */
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Fact, Kind, Side } from '../../core/index.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { story, SINGLE, withMarks } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, choose, entry } from '../helpers/floor.ts';
import { readied } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { looksRight } from '../helpers/looks.ts';
import { until } from '../helpers/until.ts';
import { watch } from '../helpers/watch.ts';
import type { Watch } from '../helpers/watch.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

const TABLETS = [
  { width: 1280, height: 800 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

let at: StationShop;
let desk: Page;
let measuring: Page;
let seen: Watch;
beforeAll(async () => {
  at = await stationShop('desk');
  desk = at.page;
  measuring = await floor.pair(at.browser, at.shop.url, 'measuring', at.shop.shownCode('measuring'));
  seen = watch(measuring, at.shop.url);
});
afterAll(() => at?.close());

const onDisk = (session: string) => factsOnDisk(at.shop.data, session);
const newest = <K extends Kind>(session: string, kind: K, side?: Side) =>
  onDisk(session).findLast(
    (fact) => fact.kind === kind && (side === undefined || (fact as { side?: Side }).side === side),
  ) as (Fact & { kind: K }) | undefined;
const stepOf = (session: string, name: string, side?: Side) =>
  plan(onDisk(session)).steps.find((step) => step.step === name && step.side === side);

async function show(page: Page, job: { session: string; ticket: string }): Promise<void> {
  const role = page === desk ? 'desk' : 'measuring';
  await page.goto('about:blank');
  await page.goto(`${at.shop.url}/${role}#${job.session}`);
  await page.getByText(job.ticket).first().waitFor();
}
/** The act's sheet, opened by its button on the job's page. */
async function sheet(name: string): Promise<Locator> {
  await button(desk, name).click();
  const dialog = desk.getByRole('dialog');
  await dialog.waitFor();
  return dialog;
}
const readAndHandOver = async () => {
  const dialog = await sheet('Hand over');
  await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
  return dialog;
};

/** Both cuffs closed as even, ready for pickup. */
const closed = () => {
  const told = readied();
  told.set('left', -2, 2);
  told.read('left', 10, 10);
  told.set('right', 3);
  told.read('right', 9, 9);
  for (const side of ['left', 'right'] as const)
    told.add('cuff.closed', { side, decision: 'even' }, { role: 'measuring' });
  return told;
};

describe('a job that is interrupted', () => {
  it('rests, with where the boots are and what is safe, until anybody goes on with it', async () => {
    const job = await at.opener.open('Rosina Haldenwang', readied());
    await show(desk, job);
    const dialog = await sheet('Pause the job');
    expect(await button(dialog, 'Pause the job').isDisabled()).toBe(true);
    await dialog.getByLabel('Where the boots are').fill('shelf 3');
    await dialog.getByRole('checkbox', { name: 'Test wedges are out' }).check();
    await dialog.getByRole('checkbox', { name: 'Pivot bolts are tight' }).check();
    await looksRight(desk, 'again-pause');
    await button(dialog, 'Pause the job').click();
    await floor.allSaved(desk);
    expect(newest(job.session, 'paused')).toMatchObject({
      bootsAre: 'shelf 3',
      wedgesOut: true,
      pivotsTight: true,
    });
    await button(desk, /^‹/).click();
    await desk.getByText('paused').first().waitFor();
  });

  it('becomes cuffs today and soles later with one touch, which skips no sole that was touched', async () => {
    const told = story(withMarks(SINGLE, 1));
    told.add('service.changed', { service: 'full', reason: 'asked for all of it' });
    const job = await at.opener.open('Balthasar Riedmatter', told);
    await show(desk, job);
    expect(stepOf(job.session, 'stance', 'left')).toBeDefined();
    const dialog = await sheet('Change the service');
    await looksRight(desk, 'again-service');
    await button(dialog, 'cuffs today, soles later').click();
    await floor.allSaved(desk);
    expect(newest(job.session, 'service.changed')).toMatchObject({
      service: 'cuffs',
      reason: 'cuffs today, soles later',
    });
    expect(stepOf(job.session, 'stance', 'left')).toBeUndefined();
    expect(stepOf(job.session, 'sole', 'left')).toBeUndefined();

    const touched = story(withMarks(SINGLE, 1));
    touched.add('service.changed', { service: 'full', reason: 'asked for all of it' });
    touched.add(
      'plate.fitted',
      { side: 'left', cantDeg: 2, method: 'plate', thinEdgeMm: 3 },
      { role: 'bench' },
    );
    const begun = await at.opener.open('Notburga Felsner', touched);
    await show(desk, begun);
    const later = await sheet('Change the service');
    await button(later, 'cuffs today, soles later').click();
    await floor.allSaved(desk);
    expect(newest(begun.session, 'service.changed')).toMatchObject({ service: 'cuffs' });
    expect(stepOf(begun.session, 'sole', 'left')?.status).not.toBe('done');
    const handover = await readAndHandOver();
    await handover.getByText(/Sole left is not finished/).waitFor();
    expect(await button(handover, 'Hand over').isDisabled()).toBe(true);
  });

  it('lets the boots leave unfit only with what is not fit, and who took them, on record', async () => {
    const job = await at.opener.open('Kunigunde Achleitner', readied());
    await show(desk, job);
    const dialog = await sheet('Leaves unfit');
    await dialog.getByText(/A loose pivot bolt can let the cuff give way/).waitFor();
    expect(await dialog.getByText(/A loose pivot bolt/).count()).toBe(1);
    expect(await button(dialog, 'Release, on record').isDisabled()).toBe(true);
    await dialog.getByLabel('What is not fit').fill('left cuff unread, skier had to leave');
    await choose(dialog, 'Taken by', 'guardian');
    await looksRight(desk, 'again-unfit');
    await button(dialog, 'Release, on record').click();
    await floor.allSaved(desk);
    expect(newest(job.session, 'released.unfit')).toMatchObject({
      what: 'left cuff unread, skier had to leave',
      acknowledgedBy: 'guardian',
    });
    expect(stepOf(job.session, 'handover')?.status).toBe('waived');
    expect(await button(desk, 'Leaves unfit').count()).toBe(0);
  });
});

describe('the binding check', () => {
  const plated = () => {
    const told = closed();
    told.add('plate.fitted', { side: 'left', cantDeg: 1, method: 'plate', thinEdgeMm: 3 }, { role: 'bench' });
    return told;
  };

  it('[AGN-3] is passed with a reference and not without', async () => {
    const job = await at.opener.open('Serafin Obwegeser', plated());
    await show(desk, job);
    const dialog = await sheet('Binding check');
    await dialog.getByText(/can keep a binding from releasing/).waitFor();
    await button(dialog, 'Tested and passed').click();
    await dialog.getByText('A test that was passed has a reference: type it.').waitFor();
    await looksRight(desk, 'again-binding');
    await dialog.getByLabel('Reference of the test').fill('B-19');
    await button(dialog, 'Tested and passed').click();
    await floor.allSaved(desk);
    expect(newest(job.session, 'binding.checked')).toMatchObject({ outcome: 'passed', reference: 'B-19' });
    expect(stepOf(job.session, 'binding')?.status).toBe('done');
  });

  it('may be out with the skis, and blocks the pickup until the result is in', async () => {
    const job = await at.opener.open('Apollonia Tschurtsch', plated());
    await show(desk, job);
    await button(await sheet('Binding check'), 'Skis sent out for the test').click();
    await floor.allSaved(desk);
    expect(stepOf(job.session, 'binding')?.status).toBe('waiting');
    const handover = await readAndHandOver();
    await handover.getByText(/Binding is not finished/).waitFor();
    expect(await button(handover, 'Hand over').isDisabled()).toBe(true);
  });

  it('[AGN-3] is declined only after its warning was read, in two touches', async () => {
    const job = await at.opener.open('Korbinian Lechthaler', plated());
    await show(desk, job);
    const dialog = await sheet('Binding check');
    await button(dialog, 'Declined by the owner').click();
    await dialog.getByText(/read the warning above to the owner/).waitFor();
    expect(newest(job.session, 'binding.checked')).toBeUndefined();
    await button(dialog, 'The warning was read: declined, on record').click();
    await floor.allSaved(desk);
    expect(newest(job.session, 'binding.checked')).toMatchObject({ outcome: 'declined' });
    expect(stepOf(job.session, 'binding')?.status).toBe('waived');
  });
});

describe('boots that went out', () => {
  let job: OpenJob;
  it('are handed over when nothing blocks, with the cautions read', async () => {
    job = await at.opener.open('Wigbert Sonnleitner', closed());
    await show(desk, job);
    const dialog = await sheet('Hand over');
    expect(await button(dialog, 'Hand over').isDisabled()).toBe(true);
    await dialog.getByText(/Check that every pivot bolt is tight/).waitFor();
    await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
    await button(dialog, 'Hand over').click();
    await floor.allSaved(desk);
    expect(stepOf(job.session, 'handover')?.status).toBe('done');
  });

  it('[AGN-1] are told of from the snow, and come again as they were left', async () => {
    const out = await at.opener.open('Walburga Egghart', closed());
    await out.room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
    await show(desk, out);
    const dialog = await sheet('Told afterwards');
    await dialog.getByText(/refer the skier to a clinician/).waitFor();
    await choose(dialog, 'Which boot', 'Left');
    await dialog.getByLabel('What was told').fill('catches the outside edge');
    expect(await button(dialog, 'Enter what was told').isDisabled()).toBe(true);
    await choose(dialog, 'Comes again?', 'Re-check wanted');
    await looksRight(desk, 'again-snow', TABLETS);
    await button(dialog, 'Enter, and open the re-check').click();
    const next = desk.getByRole('dialog', { name: 'Another session for this skier' });
    expect(await next.getByRole('radio', { name: /^These boots again/ }).isChecked()).toBe(true);
    await looksRight(desk, 'again-open', TABLETS);
    await button(next, /^Open the session/).click();
    const session = await until(
      async () => /#([0-9a-f]{32})$/.exec(desk.url())?.[1] !== out.session && desk.url().split('#')[1],
      'the re-check on the page',
    );
    await floor.allSaved(desk);
    expect(newest(out.session, 'snow.reported')).toMatchObject({
      side: 'left',
      note: 'catches the outside edge',
      wantsRecheck: true,
    });
    const [was] = onDisk(out.session);
    // What the server itself writes behind them is not of this test.
    const facts = onDisk(session).filter(({ by }) => by.role !== 'server');
    expect(facts.map(({ kind }) => kind)).toEqual(['session.opened', 'boot.described', 'boot.described']);
    expect(facts[0]).toMatchObject({
      service: 'recheck',
      linkedTo: out.session,
      clientRef: (was as unknown as { clientRef: string }).clientRef,
    });
    await button(desk, `Goes on from ${out.ticket}`).waitFor();

    const { ticket } = facts[0] as unknown as { ticket: string };
    await show(measuring, { session, ticket });
    const left = measuring.getByRole('region', { name: 'As these boots left the shop' });
    await left.getByText('Left: lateral pivot −2 mm, medial pivot +2 mm; sole flat').waitFor();
    await left.getByText('Right: lateral pivot +3 mm; sole flat').waitFor();
    await looksRight(measuring, 'again-as-left', TABLETS);
    for (const side of ['Left', 'Right']) await button(left, new RegExp(`^${side}: looked at`)).click();
    await left.waitFor({ state: 'detached' });
    for (const side of ['left', 'right'] as const) await floor.readyBoot(measuring, side);
    await floor.allSaved(measuring);
    expect(newest(session, 'cuff.set', 'left')).toMatchObject({
      state: 'as-found',
      lateralMm: -2,
      medialMm: 2,
    });
    expect(newest(session, 'cuff.set', 'right')).toMatchObject({ state: 'as-found', lateralMm: 3 });
    expect(newest(session, 'sole.set', 'right')).toMatchObject({ cantDeg: 0, state: 'as-brought' });
    const { sides } = plan(onDisk(session));
    expect(sides.left.cuff.set).toEqual({ lateralMm: -2, medialMm: 2 });
    expect(sides.left.cuff.rounds).toEqual([]);
    // Nothing of this was taken for neutral.
    for (const side of ['left', 'right'] as const)
      expect(
        onDisk(session).filter(
          (fact) => fact.kind === 'ready.checked' && fact.side === side && fact.item === 'cuff-neutral',
        ),
      ).toMatchObject([{ outcome: 'kept-as-found' }]);
    expect(stepOf(session, 'ready', 'left')?.status).toBe('done');
  });

  it('are looked at in the mirror at home, which is kept too', async () => {
    const out = await at.opener.open('Ottilie Zirmgast', closed());
    await out.room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
    await show(desk, out);
    const dialog = await sheet('Told afterwards');
    await choose(dialog, 'From where', 'mirror check at home');
    await dialog.getByLabel('What was told').fill('both stand straight');
    await button(dialog, 'Enter what was told').click();
    await floor.allSaved(desk);
    expect(newest(out.session, 'home.checked')).toMatchObject({ note: 'both stand straight' });
  });

  it('[AGN-2] have a second pair beside them, as a session of its own', async () => {
    const out = await at.opener.open('Zita Kammerlander', closed());
    await show(desk, out);
    const dialog = await sheet('Second pair or re-check');
    await choose(dialog, 'Which boots', /^A second pair/);
    await choose(dialog, 'What is to be done', 'Cuffs, stance, soles');
    await button(dialog, /^Open the session/).click();
    await button(desk, `Goes on from ${out.ticket}`).waitFor();
    await floor.allSaved(desk);
    const session = desk.url().split('#')[1]!;
    expect(onDisk(session)).toHaveLength(1);
    expect(onDisk(session)[0]).toMatchObject({ service: 'full', linkedTo: out.session });
    await button(desk, `Goes on from ${out.ticket}`).click();
    await desk.getByRole('heading', { name: new RegExp(`^${out.ticket} `) }).waitFor();
    expect(await entry(desk, 'Left boot: Larkspur 110').count()).toBeGreaterThan(0);
  });
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  expect(at.seen.take()).toEqual([]);
  expect(seen.take()).toEqual([]);
});
