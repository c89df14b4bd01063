/** Work at the bench beside the pivots' own: the dial read back, hot spots, what is inside, slots, plates, a skier who left. */
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan, SIDES } from '../../core/index.ts';
import type { Kind, Plan, Side } from '../../core/index.ts';
import { factsOnDisk } from '../helpers/disk.ts';
import { DUAL, Story, story, WHOLE_BOOT, withMarks } from '../helpers/facts.ts';
import * as floor from '../helpers/floor.ts';
import { button, choose, field } from '../helpers/floor.ts';
import { takenIn, wasRead } from '../helpers/jobs.ts';
import type { OpenJob } from '../helpers/jobs.ts';
import { sound } from './helpers/bench.ts';
import { stationShop } from './helpers/station.ts';
import type { StationShop } from './helpers/station.ts';

let at: StationShop;
let bench: Page;
beforeAll(async () => {
  at = await stationShop('bench');
  ({ page: bench } = at);
});
afterAll(() => at?.close());

const facts = (job: OpenJob) => factsOnDisk(at.shop.data, job.session);
const planned = (job: OpenJob): Plan => plan(facts(job));
const newest = (job: OpenJob, kind: Kind) => facts(job).findLast((fact) => fact.kind === kind);
const dialog = () => bench.getByRole('dialog');
const inHand = (side: Side) => bench.getByRole('region', { name: `${side} boot in hand` });

/** A job at the bench with one of its boots in hand. */
async function take(name: string, told: Story, side: Side): Promise<OpenJob> {
  const job = await opened(name, told);
  await bench.goto(`${at.shop.url}/bench#${job.session}`);
  await floor.pickAtBench(bench, side, name);
  return job;
}
/** A station has only so many sessions open at a time. */
async function opened(name: string, told: Story): Promise<OpenJob> {
  const job = await at.opener.open(name, told);
  job.room.close();
  return job;
}
async function hold(name: RegExp): Promise<void> {
  await bench.getByRole('button', { name }).focus();
  await bench.keyboard.down('Enter');
  await bench.waitForTimeout(1_300);
  await bench.keyboard.up('Enter');
  await floor.allSaved(bench);
}

describe('the dial', () => {
  it('is read back as told in one tap', async () => {
    const job = await take('Leopoldine Aschaber', wasRead(), 'left');
    await sound(bench, 'bench-pivots', button(bench, /^Done as told/));
    await button(bench, 'The boot lies upside down').click();
    await bench.getByText('up is ↓').first().waitFor();
    await sound(bench, 'bench-pivots-over', button(bench, /^Done as told/));
    await button(bench, 'The boot stands upright').click();
    const { target } = planned(job).sides.left.cuff;
    await button(bench, /^Done as told/).click();
    await floor.allSaved(bench);
    expect(newest(job, 'cuff.set')).toMatchObject({
      side: 'left',
      lateralMm: target!.lateralMm,
      medialMm: target!.medialMm,
    });
    expect(await bench.getByText(/than told/).count()).toBe(0);
  });

  it('[BEN-3] that reads something else is shown against what was told, and the plan goes on from there', async () => {
    const job = await take('Kilian Obermoser', wasRead(), 'left');
    expect(planned(job).sides.left.cuff.target).toMatchObject({ lateralMm: -1, medialMm: 1 });
    await button(bench, 'Did something else').click();
    const read = bench.getByRole('dialog', { name: 'Left boot: what the dial reads now' });
    await read.getByText('as told').first().waitFor();
    await field(read, 'Lateral adjuster').fill('-2,5');
    await read.getByText('told −1 mm').waitFor();
    await read.getByText('1.5 mm lower than told').waitFor();
    await field(read, 'Medial adjuster').fill('1');
    await sound(bench, 'bench-read-back', button(read, /^Enter these positions/));
    await button(read, /^Enter these positions/).click();
    await floor.allSaved(bench);
    expect(newest(job, 'cuff.set')).toMatchObject({ side: 'left', lateralMm: -2.5, medialMm: 1 });
    await bench
      .getByText(
        'lateral: told −1 mm, reads −2.5 mm, 1.5 mm lower than told. The plan goes on from where the dial stands.',
      )
      .waitFor();
    const { cuff } = planned(job).sides.left;
    expect(cuff.set).toEqual({ lateralMm: -2.5, medialMm: 1 });
    // From the real place: the gaps to expect are those of −2.5 mm, not of what was told.
    expect(cuff.expected!.medialMm).toBeLessThan(9);
    await button(bench, 'Undo last entry').click();
    await inHand('left').waitFor();
    await floor.allSaved(bench);
    expect(planned(job).sides.left.cuff.set).toEqual({ lateralMm: 0, medialMm: 0 });
  });

  it('past the travel of this boot is said to be so', async () => {
    await button(bench, 'Did something else').click();
    await field(dialog(), 'Lateral adjuster').fill('9');
    await dialog().getByText('past the travel of this boot: −4 to +4 mm').waitFor();
    await button(dialog(), 'Close').click();
  });
});

describe('what is inside', () => {
  it('is entered as far as it was changed, with its cant by word', async () => {
    const job = await take('Notburga Ferchl', wasRead(), 'left');
    await button(bench, 'Other work on this boot').click();
    await button(dialog(), /^Inside the boot/).click();
    const enter = button(dialog(), /^This is inside now/);
    expect(await enter.isDisabled()).toBe(true);
    await field(dialog(), 'Boot board at the heel').fill('12,5');
    await field(dialog(), 'Heel lift').fill('3');
    await field(dialog(), 'Cant of the boot board').fill('1');
    await dialog().getByText('Say where the board is thick.').waitFor();
    await choose(dialog(), 'Thick edge', 'lateral');
    await field(dialog(), 'Forward-lean position').fill('B');
    await choose(dialog(), 'Spoiler', 'out');
    await field(dialog(), 'Liner').fill('Ombrik thermo 26');
    await dialog().getByText('Name the liner, and say whether it was heated.').waitFor();
    await choose(dialog(), 'Liner heat-moulded', /^(✓)?\s*heated$/);
    await dialog()
      .getByText(/burns skin with poor feeling/)
      .waitFor();
    await sound(bench, 'bench-inside');
    await enter.click();
    await floor.allSaved(bench);
    expect(newest(job, 'inside.set')).toMatchObject({
      side: 'left',
      boardHeelMm: 12.5,
      heelLiftMm: 3,
      boardCantDeg: -1,
      forwardLeanPos: 'B',
      spoiler: false,
      liner: { id: 'Ombrik thermo 26', heated: true },
    });
    // Over other insides a reading no longer counts, and it is said.
    expect(planned(job).sides.left.cuff.reading).toMatchObject({ stale: true });
  });

  it('begins with what is inside now, and enters one field alone', async () => {
    await button(bench, 'Other work on this boot').click();
    await choose(dialog(), 'Which boot?', 'Left');
    await button(dialog(), /^Inside the boot/).click();
    expect(await field(dialog(), 'Boot board at the heel').inputValue()).toBe('12.5');
    await field(dialog(), 'Heel lift').fill('0');
    await button(dialog(), /^This is inside now/).click();
    await floor.allSaved(bench);
    const session = new URL(bench.url()).hash.slice(1);
    const last = factsOnDisk(at.shop.data, session).at(-1)!;
    expect(last).toMatchObject({ kind: 'inside.set', side: 'left', heelLiftMm: 0 });
    expect(last).not.toHaveProperty('boardHeelMm');
  });
});

describe('a hot spot', () => {
  const spotted = () => {
    const told = takenIn();
    told.add('assessed', { side: 'right', hotSpots: ['fifth metatarsal head', 'navicular'] });
    return told;
  };

  it('shows its place, and is cleared by stretching; grinding waits for the owner', async () => {
    const job = await take('Wendelin Espenlaub', spotted(), 'right');
    await inHand('right')
      .getByText(/clear the hot spot at: fifth metatarsal head/)
      .waitFor();
    await bench
      .getByRole('group', { name: /Right foot|right foot/i })
      .first()
      .waitFor();
    await choose(bench, 'How', 'ground');
    const held = bench.getByRole('button', { name: /^Cleared: / });
    expect(await held.isDisabled()).toBe(true);
    await bench.getByText(/not before the owner has agreed/).waitFor();
    await choose(bench, 'How', 'stretched');
    await field(bench, 'By how much').fill('2');
    await bench.getByText(/Heat can burn skin/).waitFor();
    await sound(bench, 'bench-shell', held);
    await held.click();
    await floor.allSaved(bench);
    expect(newest(job, 'shell.worked')).toMatchObject({
      side: 'right',
      spot: 'fifth metatarsal head',
      method: 'stretch',
      amountMm: 2,
    });
    await inHand('right')
      .getByText(/clear the hot spot at: navicular/)
      .waitFor();
  });

  it('is ground by a held button once the owner has agreed', async () => {
    const told = spotted();
    told.add('work.agreed', { irreversible: ['shell ground'], warrantyTold: true });
    const job = await take('Odila Kranzbichler', told, 'right');
    await choose(bench, 'How', 'ground');
    await hold(/^Cleared: /);
    expect(newest(job, 'shell.worked')).toMatchObject({ spot: 'fifth metatarsal head', method: 'grind' });
    await button(bench, 'Undo last entry').click();
    await floor.allSaved(bench);
    expect(planned(job).sides.right.fit.hotSpots.map(({ worked }) => worked)).toEqual([false, false]);
  });
});

describe('longer slots', () => {
  const SHORT = {
    ...DUAL,
    travel: { lateral: { upMm: 1, downMm: 1 }, medial: { upMm: 1, downMm: 1 } },
    holeEdgeMm: 8,
    minHoleEdgeMm: 5,
    slotsMayLengthen: true,
  };
  /** Read at the end of its travel: outward is still missing. */
  const ended = (agreed: boolean) => {
    const told = story(SHORT as typeof DUAL, withMarks(DUAL, 1));
    told.set('left', -1, 1);
    told.read('left', 14, 4);
    if (agreed)
      told.add('work.agreed', {
        irreversible: ['longer slot'],
        makerApproval: 'letter of 7 January',
        warrantyTold: true,
      });
    return told;
  };

  it('are drawn with what must be on record first', async () => {
    const job = await opened('Kassian Plangger', ended(false));
    await bench.goto(`${at.shop.url}/bench#${job.session}`);
    const { extension } = planned(job).sides.left.cuff;
    await bench.getByText('Left boot: longer slots would give the travel that is missing').waitFor();
    await bench.getByText(extension!.text).waitFor();
    await bench.getByText(/the maker’s approval: not on record/).waitFor();
    expect(await bench.getByRole('button', { name: /^The slots? (is|are)/ }).count()).toBe(0);
    await sound(bench, 'bench-slot-waits');
  });

  it('[BEN-4] are cut as told by a held button, once owner and maker agreed; every length comes from the plan', async () => {
    const job = await take('Creszenz Ladurner', ended(true), 'left');
    const { extension, hardware } = planned(job).sides.left.cuff;
    const cut = extension!.lateral!;
    const mm = (value: number) => String(Number(value.toFixed(2)));
    const picture = bench.getByRole('img', { name: /^lateral slot/ });
    const said = (await picture.getAttribute('aria-label'))!;
    expect(said).toContain('travel now 2 mm');
    expect(said).toContain(`cut ${mm(cut.byMm)} mm ${extension!.way.lateral}`);
    expect(said).toContain(`then ${mm(2 + cut.byMm)} mm`);
    expect(said).toContain(`${mm(cut.edgeLeftMm)} mm to the edge`);
    expect(said).toContain('least 5 mm');
    await bench.getByText(/A longer slot weakens the shell/).waitFor();
    await bench.getByText('Maker’s approval: letter of 7 January').waitFor();
    const act = bench.getByRole('button', { name: /^The slots? (is|are) this long now/ });
    await sound(bench, 'bench-slot', act);
    await act.click();
    expect(newest(job, 'pivot.reworked')).toBeUndefined();
    await hold(/^The slots? (is|are) this long now/);
    const reworked = facts(job).filter((fact) => fact.kind === 'pivot.reworked');
    expect(reworked[0]).toMatchObject({
      adjuster: 'lateral',
      method: 'slot',
      newUpMm: hardware!.lateral!.maxMm,
      newDownMm: -hardware!.lateral!.minMm + cut.byMm,
      edgeMm: cut.edgeLeftMm,
    });
    // With the new travel the pivots are told anew, with the same boot in hand.
    expect(planned(job).sides.left.cuff.hardware!.lateral!.minMm).toBeCloseTo(-1 - cut.byMm, 9);
    await button(bench, /^Done as told/).waitFor();
  });

  it('cut otherwise are entered as measured', async () => {
    const job = await take('Filomena Gstrein', ended(true), 'left');
    await button(bench, 'Did something else').click();
    await field(dialog(), 'Travel up now').fill('1');
    await field(dialog(), 'Travel down now').fill('3,5');
    await field(dialog(), 'Shell left to the edge').fill('5,5');
    await sound(bench, 'bench-rework');
    await hold(/^Enter hold/);
    expect(newest(job, 'pivot.reworked')).toMatchObject({ newUpMm: 1, newDownMm: 3.5, edgeMm: 5.5 });
  });
});

describe('a sole', () => {
  it('that is canted is shown from the heel, and brought to zero or said to be otherwise', async () => {
    const told = story(withMarks(DUAL, 1));
    told.add('sole.set', { side: 'left', cantDeg: 1.5, state: 'as-brought' });
    const job = await take('Ottilie Pirpamer', told, 'left');
    await bench.getByText('Under the boot now: 1.5°, thick edge medial').waitFor();
    const act = button(bench, 'The sole is at zero now');
    await sound(bench, 'bench-sole-zero', act);
    await button(bench, 'Did something else').click();
    await field(dialog(), 'Cant').fill('0,5');
    await choose(dialog(), 'Thick edge', 'medial');
    await button(dialog(), 'This is under it now').click();
    await floor.allSaved(bench);
    expect(newest(job, 'sole.set')).toMatchObject({ cantDeg: 0.5, state: 'neutralised' });
    await act.click();
    await floor.allSaved(bench);
    expect(newest(job, 'sole.set')).toMatchObject({ cantDeg: 0, state: 'neutralised' });
  });

  const LUGS = {
    toe: { heightMedialMm: 19.2, heightLateralMm: 19.2, widthMm: 69 },
    heel: { heightMedialMm: 30.1, heightLateralMm: 30.1, widthMm: 69 },
  };
  /** Closed cuffs, a cant chosen, its sole measured before, and the owner asked. */
  const chosen = (method: 'plate' | 'plane') => {
    const told = new Story().open('full');
    for (const side of SIDES) {
      told.add('boot.described', { side, ...WHOLE_BOOT, soleMaterialMm: 22 });
      told.ready(side);
      told.read(side, 9, 9);
      told.add('cuff.closed', { side, decision: 'even' });
      told.add('cant.chosen', {
        side,
        cantDeg: side === 'left' ? -2 : 1.5,
        method,
        override: 'known from last season',
      });
      told.add('sole.measured', { side, when: 'before', ...LUGS });
    }
    told.add('work.agreed', { irreversible: ['lugs routed', 'plates'], warrantyTold: true });
    return told;
  };
  beforeAll(() =>
    at.opener.settings({ minLugLeftMm: 12, screwDiameterMm: 5, screwHeadDepthMm: 3, screwMarginMm: 2 }),
  );
  const corner = (mm: number) => String(Number(mm.toFixed(2)));

  it('with plates shows profile, routing and screws at its corners, each number from the plan', async () => {
    const job = await take('Zenzi Mairamhof', chosen('plate'), 'left');
    const { plate, rout, lugLeft, screws } = planned(job).sides.left.sole;
    for (const zone of ['toe', 'heel'] as const) {
      const name = { toe: /^Toe, cut across/, heel: /^Heel, cut across/ }[zone];
      const said = await bench.getByRole('img', { name }).locator('desc').textContent();
      expect(said).toContain(
        `plate: lateral ${corner(plate![zone].lateralMm)} mm, medial ${corner(plate![zone].medialMm)} mm`,
      );
      expect(said).toContain(
        `rout off the top of the lug: lateral ${corner(rout![zone].lateralMm)} mm, medial ${corner(rout![zone].medialMm)} mm`,
      );
      expect(said).toContain(`lug that is left: lateral ${corner(lugLeft![zone].lateralMm)} mm`);
    }
    await bench
      .getByText(/heights × \d/)
      .first()
      .waitFor();
    const window = screws!.toe.medial;
    const one = (mm: number) => String(Number(mm.toFixed(1)));
    await bench
      .getByRole('listitem')
      .filter({ hasText: 'Toe, medial' })
      .getByText(`${one(window.minMm)} to ${one(window.maxMm!)} mm`)
      .waitFor();
    await sound(bench, 'bench-plates', bench.getByRole('button', { name: /^Fitted as told/ }));
    // From below, as it lies upside down, left and right change places.
    const x = async (text: string) =>
      (await bench
        .getByRole('img', { name: /^Plate, thickness/ })
        .locator('text', { hasText: text })
        .first()
        .boundingBox())!.x;
    expect(await x('lateral')).toBeLessThan(await x('medial'));
    await button(bench, 'The boot lies upside down').click();
    await bench
      .getByRole('img', { name: /from below/ })
      .first()
      .waitFor();
    expect(await x('lateral')).toBeGreaterThan(await x('medial'));
    await sound(bench, 'bench-plates-over');
    await button(bench, 'The boot stands upright').click();
    await hold(/^Fitted as told/);
    expect(newest(job, 'plate.fitted')).toMatchObject({ side: 'left', cantDeg: -2, method: 'plate' });
  });

  it('that is planed shows what comes off, and the lifter', async () => {
    const job = await take('Rupert Auckenthaler', chosen('plane'), 'left');
    const { planing } = planned(job).sides.left.sole;
    const said = await bench
      .getByRole('img', { name: /^Toe, cut across/ })
      .locator('desc')
      .textContent();
    expect(said).toContain(
      `plane off: lateral ${corner(planing!.toe.lateralMm)} mm, medial ${corner(planing!.toe.medialMm)} mm`,
    );
    expect(said).toContain(`lifter: ${corner(planing!.lifterMm)} mm`);
    await sound(bench, 'bench-planing', bench.getByRole('button', { name: /^Fitted as told/ }));
  });
});

describe('a skier who has gone', () => {
  it('[BEN-5] leaves the boots in a list of their own, and no re-read is promised', async () => {
    const told = wasRead();
    told.add('paused', {
      bootsAre: 'shelf 3',
      wedgesOut: true,
      pivotsTight: false,
      backAt: '2026-01-10T16:00:00+01:00',
    });
    const job = await opened('Vinzenz Thöni', told);
    await bench.goto(`${at.shop.url}/bench`);
    await bench.getByRole('heading', { name: 'Skier has gone' }).waitFor();
    await floor.pickAtBench(bench, 'left', 'Vinzenz');
    await bench.getByText(/The skier has gone: no re-read is possible before Sat 10 Jan/).waitFor();
    await bench.getByText(/The pivot bolts were left loose/).waitFor();
    await sound(bench, 'bench-gone', button(bench, /^Done as told/));
    await button(bench, /^Done as told/).click();
    await floor.allSaved(bench);
    expect(newest(job, 'cuff.set')).toMatchObject({ side: 'left' });
    // The right boot waits as before; the skier is still away.
    await floor.bootInHand(bench, 'right');
    await bench.getByText(/no re-read is possible/).waitFor();
  });
});

it('does all that without an error, a broken policy, or a word to another host', () => {
  expect(at.seen.take()).toEqual([]);
});
