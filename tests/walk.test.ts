/**
 * One fit session on three stations, from intake to hand-over: a server process, a database file, three browsers.
 * Every gap that is typed comes from a leg that the shop cannot see, and from the pivots as the bench left them.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../core/index.ts';
import type { Plan, Side } from '../core/index.ts';
import { launchBrowser } from './helpers/browser.ts';
import { factsOnDisk } from './helpers/disk.ts';
import * as floor from './helpers/floor.ts';
import { button, entry } from './helpers/floor.ts';
import { serve } from './helpers/server.ts';
import type { TestServer } from './helpers/server.ts';
import { shot } from './helpers/shots.ts';
import { atNeutral, gapsOf, pivotsIn } from './helpers/skier.ts';
import type { Skier } from './helpers/skier.ts';
import { until } from './helpers/until.ts';
import { watch } from './helpers/watch.ts';
import type { Watch } from './helpers/watch.ts';

const TOP = dirname(dirname(fileURLToPath(import.meta.url)));
/** How a line of the list of entries says that it is on disk, or not yet. */
const SAVED = '· saved';
const WAITING = '· waiting to be saved';
const EACH = ['desk', 'measuring', 'bench'] as const;

let shop: TestServer;
let browser: Browser;
let desk: Page;
let measuring: Page;
let bench: Page;
let watches: Watch[];
/** When each page was loaded: nobody ever loads it again. */
let loaded: number[];

const loadedAt = () =>
  Promise.all([desk, measuring, bench].map((page) => page.evaluate(() => performance.timeOrigin)));

/** A code that the desk's corner shows for another station. The first look into it sets the shop's PIN. */
async function codeFromDesk(role: 'Measuring' | 'Bench'): Promise<string> {
  await floor.openCorner(desk);
  await button(desk, 'New station').click();
  for (const each of ['Measuring', 'Bench'])
    await desk.getByRole('checkbox', { name: each }).setChecked(each === role);
  await button(desk, 'Show a code').click();
  const code = await until(async () => /\d{6}/.exec(await desk.locator('output').innerText())?.[0]);
  await button(desk, /^‹/).click();
  return code;
}

beforeAll(async () => {
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  desk = await floor.pair(browser, shop.url, 'desk', shop.shownCode('desk'));
  measuring = await floor.pair(browser, shop.url, 'measuring', await codeFromDesk('Measuring'));
  bench = await floor.pair(browser, shop.url, 'bench', await codeFromDesk('Bench'));
  watches = [desk, measuring, bench].map((page) => watch(page, shop.url));
  loaded = await loadedAt();
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const onDisk = (session: string) => factsOnDisk(shop.data, session);
const planned = (session: string): Plan => plan(onDisk(session));
const nextOf = (session: string, side: Side) =>
  planned(session).next.find((action) => action.side === side)!.text;
const kindsOnDisk = (session: string, kind: string) =>
  onDisk(session).filter((fact) => fact.kind === kind).length;
/** The pivots of one boot, from what the bench is told, and then set so by its hands. */
async function doAsTold(skier: Skier, side: Side): Promise<void> {
  const told = button(bench, /^Done as told/);
  skier.pivots[side] = pivotsIn(await told.innerText());
  await told.click();
  await floor.allSaved(bench);
}
async function typeReadings(skier: Skier, sides: readonly Side[]): Promise<void> {
  await floor.typeGaps(measuring, Object.fromEntries(sides.map((side) => [side, gapsOf(skier, side)])));
}
async function readAgain(skier: Skier, sides: readonly Side[]): Promise<void> {
  await button(measuring, /^Read again/)
    .first()
    .click();
  await floor.confirmPosture(measuring);
  await typeReadings(skier, sides);
  await floor.record(measuring);
  await floor.allSaved(measuring);
}

describe('two cuffs, one outward on two adjusters and one inward on a single one', () => {
  const skier: Skier = {
    legs: {
      left: { placeMm: 9.5, roomMm: 24, response: 0.65 },
      right: { placeMm: -7.5, roomMm: 24, response: 0.7 },
    },
    cuffs: {
      left: { pivotSpacingMm: 82, readingHeightMm: 190, factoryLeanDeg: 1 },
      right: { pivotSpacingMm: 80, readingHeightMm: 180, factoryLeanDeg: 0.5 },
    },
    pivots: atNeutral(),
  };
  let session: string;
  let ticket: string;

  it('is taken in at the desk, boot by boot, and asked about health', async () => {
    await floor.beginIntake(desk, 'Wendelin Espenlaub');
    await desk.getByRole('checkbox', { name: 'Same boot both sides' }).uncheck();
    await floor.typeBoot(desk.getByRole('group', { name: 'Left boot' }), {
      model: 'Ombrik Tarn 110',
      pivots: 'Two adjusters',
      spacing: 82,
      height: 190,
      lean: 1,
      travel: 6,
      mark: 1,
    });
    await floor.typeBoot(desk.getByRole('group', { name: 'Right boot' }), {
      model: 'Sedrax Nadel 95',
      pivots: 'One adjuster',
      spacing: 80,
      height: 180,
      lean: 0.5,
      travel: 8,
    });
    session = await floor.openSession(desk);
    await floor.allSaved(desk);
    const facts = onDisk(session);
    expect(facts.map(({ kind }) => kind)).toEqual([
      'session.opened',
      'health.asked',
      'boot.described',
      'boot.described',
    ]);
    ticket = (facts[0] as unknown as { ticket: string }).ticket;
    await entry(desk, 'Left boot: Ombrik Tarn 110, two adjusters', SAVED).waitFor();
    await entry(desk, 'Right boot: Sedrax Nadel 95, one adjuster', SAVED).waitFor();
  });

  it('is picked on the floor, both boots made ready, both soles recorded as flat', async () => {
    await button(measuring, /Wendelin Espenlaub/).click();
    const right = measuring.getByRole('region', { name: 'Right leg' });
    await button(right, /^Cant on the sole/).click();
    await button(measuring.getByRole('dialog'), 'Brought flat: 0°').click();
    await floor.readyBoot(measuring, 'right');
    await floor.readyBoot(measuring, 'left');
    await floor.allSaved(measuring);
    const now = planned(session);
    expect([now.sides.left.sole.cantDeg, now.sides.right.sole.cantDeg]).toEqual([0, 0]);
    expect(now.steps.filter(({ step }) => step === 'ready').map(({ status }) => status)).toEqual([
      'done',
      'done',
    ]);
    await button(measuring, 'Both boots ready: stand the skier').click();
    await floor.stand(measuring, 240, ['left', 'right']);
  });

  it('has four gaps read: waiting while the server is still, saved when they are on disk', async () => {
    await typeReadings(skier, ['left', 'right']);
    await shot(measuring, 'measuring-reading');
    await button(desk, /^‹/).waitFor();
    shop.server.process.kill('SIGSTOP');
    try {
      await floor.record(measuring);
      await floor.savedState(measuring).filter({ hasText: '2 waiting to be saved' }).waitFor();
      await button(measuring, 'Entries').click();
      const list = measuring.getByRole('dialog');
      await entry(list, 'Left cuff read', WAITING).waitFor();
      await entry(list, 'Right cuff read', WAITING).waitFor();
      expect(await entry(list, 'cuff read', SAVED).count()).toBe(0);
      expect(kindsOnDisk(session, 'cuff.read')).toBe(0);
      expect(await desk.getByText(/cuff read/).count()).toBe(0);
    } finally {
      shop.server.process.kill('SIGCONT');
    }
    const list = measuring.getByRole('dialog');
    await entry(list, 'Left cuff read', SAVED).waitFor();
    expect(kindsOnDisk(session, 'cuff.read')).toBe(2);
    await button(list, 'Close').click();
    await floor.allSaved(measuring);
  });

  it('shows the correction at all three stations', async () => {
    const { left, right } = planned(session).sides;
    expect(left.cuff.correctionDeg).toBeGreaterThan(0.5);
    expect(right.cuff.correctionDeg).toBeLessThan(-0.5);
    await measuring
      .getByRole('region', { name: 'Left leg' })
      .getByText(/Needs .*° outward/)
      .waitFor();
    await measuring
      .getByRole('region', { name: 'Right leg' })
      .getByText(/Needs .*° inward/)
      .waitFor();
    const next = desk.getByRole('region', { name: 'Next' });
    for (const side of ['left', 'right'] as const) await next.getByText(nextOf(session, side)).waitFor();
    expect(await floor.drawn(desk)).toBe(await floor.drawn(measuring));
    await shot(measuring, 'measuring-result');
    await shot(desk, 'desk-job');
    await floor.pickAtBench(bench, 'left', ticket);
    await bench.getByText(nextOf(session, 'left')).waitFor();
    await shot(bench, 'bench-task');
    await floor.pickAtBench(bench, 'right', ticket);
    await bench.getByText(nextOf(session, 'right')).waitFor();
  });

  it('has its left pivots set as told, and its right one otherwise, with one entry undone', async () => {
    await button(measuring, /^Send to the bench/).click();
    await floor.pickAtBench(bench, 'right', ticket);
    await bench.getByText(/^Right boot: lateral pivot up/).waitFor();
    await button(bench, /^Done as told/).click();
    await floor.allSaved(bench);
    await button(bench, 'Undo last entry').click();
    await bench.getByText(/^Right boot: lateral pivot up/).waitFor();
    await floor.allSaved(bench);
    expect(onDisk(session).at(-1)).toMatchObject({ kind: 'struck', reason: 'undo' });

    await button(bench, 'Did something else').click();
    const dialog = bench.getByRole('dialog');
    await floor.field(dialog, 'Lateral adjuster').fill('2');
    await button(dialog, 'Enter these positions').click();
    skier.pivots.right = { lateralMm: 2, medialMm: 0 };
    await floor.pickAtBench(bench, 'left', ticket);
    await bench.getByText(nextOf(session, 'left')).waitFor();
    await doAsTold(skier, 'left');
    await bench.getByText('Nothing more to do on this pair now.').waitFor();

    const { left, right } = planned(session).sides;
    expect(left.cuff.set).toEqual(skier.pivots.left);
    expect(right.cuff.set).toEqual(skier.pivots.right);
    expect(left.cuff.set!.medialMm - left.cuff.set!.lateralMm).toBeGreaterThan(0);
  });

  it('is read again, with a slip of the fingers struck through and typed anew', async () => {
    await measuring
      .getByRole('region', { name: 'Left leg' })
      .getByText(/read both gaps again\. Expect/)
      .waitFor();
    await button(measuring, /^Read again/)
      .first()
      .click();
    await floor.confirmPosture(measuring);
    await typeReadings(skier, ['left']);
    const right = gapsOf(skier, 'right');
    await floor.typeGaps(measuring, { right: { medialMm: 22.5, lateralMm: right.lateralMm } });
    await floor.record(measuring);
    // It looks wrong, it is asked about, and it is kept all the same.
    await measuring.getByText(/^Right medial gap 22\.5 mm; .* was to be expected/).waitFor();
    await button(measuring, 'It is so: keep it').click();
    await button(measuring, 'Entries').click();
    const list = measuring.getByRole('dialog', { name: 'All entries of this session' });
    await entry(list, 'medial 22.5')
      .getByRole('button', { name: /^Strike through/ })
      .click();
    const why = measuring.getByRole('dialog', { name: 'Strike through an entry' });
    await button(why, 'typing error').click();
    await entry(list, 'medial 22.5', 'struck: typing error').waitFor();
    await button(list, 'Close').click();
    await floor.allSaved(measuring);
    await readAgain(skier, ['right']);
    await desk.getByText(/struck: typing error/).waitFor();
    const { left, right: now } = planned(session).sides;
    expect([left.cuff.verdict, now.cuff.verdict]).toEqual(['uneven', 'uneven']);
    expect(now.cuff.reading).toMatchObject({ ...right, repeats: 1 });
  });

  it('comes to even on both sides in a second move, and is closed', async () => {
    await button(measuring, /^Send to the bench/).click();
    for (const side of ['left', 'right'] as const) {
      await floor.pickAtBench(bench, side, ticket);
      await bench.getByText(nextOf(session, side)).waitFor();
      await doAsTold(skier, side);
    }
    await readAgain(skier, ['left', 'right']);
    const { left, right } = planned(session).sides;
    expect([left.cuff.verdict, right.cuff.verdict]).toEqual(['even', 'even']);
    for (const cuff of [left.cuff, right.cuff]) {
      expect(cuff.rounds.length).toBeGreaterThanOrEqual(3);
      expect(Math.abs(cuff.reading!.biasMm)).toBeLessThanOrEqual(3);
      // A cuff that gives way tells so: less than the geometry alone would give.
      expect(cuff.response.k).toBeLessThan(0.9);
    }
    await button(measuring, 'Close both cuffs: even').click();
    await measuring.getByText('Both boots now stand as your legs do. You can step out.').waitFor();
    await floor.allSaved(measuring);
  });

  it('is handed over, and all three stations show one plan', async () => {
    const drawings = () => Promise.all([desk, measuring, bench].map(floor.drawn));
    const [first] = await until(async () => {
      const all = await drawings();
      return new Set(all).size === 1 && all;
    }, 'one drawing on three stations');
    for (const { medialMm, lateralMm } of [gapsOf(skier, 'left'), gapsOf(skier, 'right')])
      expect(first).toContain(`gaps read: medial ${medialMm} mm, lateral ${lateralMm} mm`);
    await button(desk, 'Hand over').click();
    const dialog = desk.getByRole('dialog');
    await dialog.getByRole('checkbox', { name: /^The cautions were read/ }).check();
    await button(dialog, 'Hand over').click();
    await floor.allSaved(desk);
    const steps = desk.getByRole('region', { name: 'Steps' }).getByRole('listitem');
    await until(
      async () => (await steps.allInnerTexts()).every((text) => /: done$/.test(text)),
      'all steps done',
    );
    await button(bench.getByRole('navigation'), new RegExp(` ${ticket} `)).waitFor({ state: 'detached' });
  });

  it('leaves a session file whose plan says that every step is done', async () => {
    const answer = await desk.context().request.get(`${shop.url}/api/sessions/${session}/export`);
    expect(answer.status()).toBe(200);
    const folder = mkdtempSync(join(tmpdir(), 'fibula-walk-'));
    try {
      const file = join(folder, 'session.json');
      writeFileSync(file, await answer.body());
      const out = execFileSync('npm', ['run', '-s', 'plan', '--', file], { cwd: TOP, encoding: 'utf8' });
      const { steps, next } = JSON.parse(out) as Plan;
      expect(steps.length).toBeGreaterThanOrEqual(6);
      expect(steps.filter(({ status }) => status !== 'done')).toEqual([]);
      expect(next).toEqual([]);
      expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(planned(session))));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe('a single pivot that runs out of travel', () => {
  const cuff = { pivotSpacingMm: 80, readingHeightMm: 180, factoryLeanDeg: 0 };
  const skier: Skier = {
    legs: {
      left: { placeMm: 9, roomMm: 26, response: 1 },
      right: { placeMm: 0.5, roomMm: 20, response: 1 },
    },
    cuffs: { left: cuff, right: cuff },
    pivots: atNeutral(),
  };
  let session: string;

  it('is taken in without boots, which the floor describes', async () => {
    await button(desk, /^‹/).click();
    await floor.beginIntake(desk, 'Odila Kranzbichler');
    await floor.choose(desk, 'Describe the boots', 'Leave the boots to the floor');
    session = await floor.openSession(desk);
    await button(measuring, /^(Next skier|‹)/)
      .first()
      .click();
    await button(measuring, /Odila Kranzbichler/).click();
    await button(measuring, 'Describe the boots').click();
    const dialog = measuring.getByRole('dialog');
    await floor.typeBoot(dialog, {
      model: 'Quillon Pas 80',
      pivots: 'One adjuster',
      spacing: 80,
      height: 180,
      lean: 0,
      travel: 2,
      mark: 1,
    });
    await button(dialog, 'Describe both boots').click();
    for (const side of ['left', 'right'] as const) await floor.readyBoot(measuring, side);
    await button(measuring, 'Both boots ready: stand the skier').click();
    await floor.stand(measuring, 210, ['left', 'right']);
    await typeReadings(skier, ['left', 'right']);
    await floor.record(measuring);
    await floor.allSaved(measuring);
    expect(planned(session).sides.left.cuff).toMatchObject({ verdict: 'uneven', limitedBy: 'travel' });
  });

  it('says at its end what is missing, and is accepted on record', async () => {
    await button(measuring, 'Close the right cuff: even').click();
    await button(measuring, /^Send to the bench/).click();
    await floor.pickAtBench(bench, 'left', 'Odila Kranzbichler');
    await bench.getByText(nextOf(session, 'left')).waitFor();
    await doAsTold(skier, 'left');
    expect(skier.pivots.left).toEqual({ lateralMm: -2, medialMm: 0 });
    await readAgain(skier, ['left']);

    const { left } = planned(session).sides;
    expect(left.cuff.verdict).toBe('out-of-travel');
    const said = nextOf(session, 'left');
    expect(said).toMatch(
      /end of the travel.* \d+(\.\d)?° of lean and \d+(\.\d)? mm at the pivots are missing/,
    );
    await measuring.getByRole('region', { name: 'Left leg' }).getByText(said).waitFor();
    await desk.getByRole('region', { name: 'Next' }).getByText(said).waitFor();

    await button(measuring, 'Decide on the left cuff').click();
    const dialog = measuring.getByRole('dialog');
    await dialog.getByLabel('Note').fill('owner knows, wants to ski tomorrow');
    await button(dialog, /^Accept it as it is/).click();
    await measuring.getByText('out of travel, accepted').waitFor();
    await entry(desk, 'Left cuff accepted as it is, owner knows', SAVED).waitFor();
    const cuffs = planned(session).steps.filter(({ step }) => step === 'cuff');
    expect(cuffs.map(({ status }) => status)).toEqual(['done', 'done']);
    expect(cuffs[0]!.because).toEqual(['Left cuff accepted with what is left over.']);
  });
});

it('never loaded a page again, and no page did what it may not', async () => {
  expect(await loadedAt()).toEqual(loaded);
  for (const [i, each] of watches.entries()) expect(each.take(), EACH[i]).toEqual([]);
});
