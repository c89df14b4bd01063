/**
 * One whole job, from the desk to the hand-over: by touch alone and by keyboard alone, in English and in German. The words
 * are the catalogues' own.
 */
import type { Browser, Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { plan, SIDES } from '../../../core/index.ts';
import type { Fact, Side } from '../../../core/index.ts';
import { launchBrowser } from '../../helpers/browser.ts';
import { factsOnDisk } from '../../helpers/disk.ts';
import * as floor from '../../helpers/floor.ts';
import type { Floor } from '../../helpers/floor.ts';
import { serve } from '../../helpers/server.ts';
import type { TestServer } from '../../helpers/server.ts';
import { until } from '../../helpers/until.ts';
import { byKeys, byTouch } from '../../helpers/walker.ts';
import type { Walker } from '../../helpers/walker.ts';
import { watch } from '../../helpers/watch.ts';
import type { Watch } from '../../helpers/watch.ts';

type Speaks = 'en' | 'de';
type Way = 'touch' | 'keys';

/** The words of the stations in one language, as a page gets them. */
async function wordsIn(language: Speaks) {
  vi.resetModules();
  vi.stubGlobal('localStorage', { getItem: () => language });
  const [common, desk, measuring, bench, boot, stance, sole, keypad, scan, numbers] = await Promise.all([
    import('../../../stations/kit/words/common.ts'),
    import('../../../stations/kit/words/desk.ts'),
    import('../../../stations/kit/words/measuring.ts'),
    import('../../../stations/kit/words/bench.ts'),
    import('../../../stations/kit/words/boot.ts'),
    import('../../../stations/kit/words/stance.ts'),
    import('../../../stations/kit/words/sole.ts'),
    import('../../../stations/kit/words/keypad.ts'),
    import('../../../stations/kit/words/scan.ts'),
    import('../../../stations/kit/numbers.ts'),
  ]);
  return {
    ...{ common: common.common, desk: desk.desk, measuring: measuring.measuring, bench: bench.bench },
    ...{ boot: boot.bootForm, hardware: boot.hardware, knees: stance.knees, sole: sole.sole },
    ...{ keypad: keypad.keypad, scan: scan.scan, point: numbers.POINT },
  };
}
type Words = Awaited<ReturnType<typeof wordsIn>>;

let shop: TestServer;
let browser: Browser;
const stations = {} as Record<Way, Record<Floor, Page>>;
const words = {} as Record<Speaks, Words>;
const watches: Watch[] = [];

beforeAll(async () => {
  for (const language of ['en', 'de'] as const) words[language] = await wordsIn(language);
  vi.unstubAllGlobals();
  [shop, browser] = await Promise.all([serve(), launchBrowser()]);
  for (const way of ['touch', 'keys'] as const) {
    const pages = {} as Record<Floor, Page>;
    for (const role of ['desk', 'measuring', 'bench'] as const) {
      const context = await browser.newContext({ viewport: floor.SIZE[role], hasTouch: way === 'touch' });
      context.setDefaultTimeout(15_000);
      pages[role] = await context.newPage();
      await floor.pairHere(pages[role], shop.url, role, shop.code([role]), `${role} by ${way}`);
      watches.push(watch(pages[role], shop.url));
    }
    stations[way] = pages;
  }
});
afterAll(async () => {
  await browser?.close();
  await shop?.close();
});

const begins = (text: string) => new RegExp(`^${text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}`);
const named = (scope: Page | Locator, name: string) => scope.getByRole('button', { name: begins(name) });
const radio = (scope: Page | Locator, question: string, answer: string) =>
  scope.getByRole('group', { name: begins(question) }).getByRole('radio', { name: begins(answer) });
const labelled = (scope: Page | Locator, label: string) =>
  scope.getByLabel(new RegExp(`${begins(label).source}(,.*)?$`));

const SOLE = ['19.2', '19.2', '69', '30', '30', '69'];

class Walk {
  readonly #by: Walker;
  readonly #words: Words;
  readonly #pages: Record<Floor, Page>;
  readonly #name: string;
  session = '';

  constructor(way: Way, words: Words, name: string) {
    const { keypad, measuring, point } = words;
    this.#by =
      way === 'touch' ? byTouch({ half: measuring.half, sign: keypad.sign, point }) : byKeys({ point });
    this.#words = words;
    this.#pages = stations[way];
    this.#name = name;
  }

  get #facts(): Fact[] {
    return factsOnDisk(shop.data, this.session);
  }
  get plan() {
    return plan(this.#facts);
  }
  /** Resolves once the newest of this kind is on disk and fits. */
  async #stored(kind: string, count: number): Promise<void> {
    await until(
      () => this.#facts.filter((fact) => fact.kind === kind).length >= count,
      `${count} × ${kind} on disk`,
    );
  }

  /** The switch in each station's menu. */
  async speak(language: string): Promise<void> {
    for (const role of ['desk', 'measuring', 'bench'] as const) {
      const page = this.#pages[role];
      await this.#by.press(page, page.getByRole('banner').locator('button.station'));
      const choice = page.getByRole('dialog').getByRole('button', { name: language });
      await choice.waitFor();
      if ((await choice.getAttribute('aria-pressed')) === 'true') {
        await this.#by.press(page, page.getByRole('dialog').locator('header button'));
        continue;
      }
      const loaded = page.waitForEvent('load');
      await this.#by.press(page, choice);
      await loaded;
      await page.getByRole('banner').waitFor();
    }
  }

  async takeIn(): Promise<void> {
    const { desk } = this.#pages;
    const { boot, desk: words, hardware, measuring } = this.#words;
    const [press, number] = [this.#by.press.bind(this.#by, desk), this.#by.number.bind(this.#by, desk)];
    const before = desk.url();
    await press(named(desk, words.takeIn));
    await this.#by.text(desk, desk.getByLabel(words.name, { exact: true }), this.#name);
    await press(radio(desk, words.service, words.services.full));
    await press(radio(desk, measuring.healthTitle, measuring.healthChoices.proceed));
    await this.#by.text(desk, labelled(desk, boot.model), 'Ombrik Tarn 110');
    await number(labelled(desk, boot.mondo), '26.5');
    await number(labelled(desk, boot.soleLength), '317');
    await press(radio(desk, boot.pivots, hardware.pivots.single));
    for (const [label, digits] of [
      [boot.spacing, '80'],
      [boot.height, '185'],
      [boot.lean, '-0.5'],
      [boot.lateralUp, '8'],
      [boot.lateralDown, '8'],
      [boot.mark, '1'],
    ] as const)
      await number(labelled(desk, label), digits);
    await press(named(desk, words.open));
    await desk.waitForURL((url) => /^#[0-9a-f]{32}$/.test(url.hash) && url.href !== before);
    this.session = new URL(desk.url()).hash.slice(1);
    await this.#stored('boot.described', 2);
    expect(this.#facts.find(({ kind }) => kind === 'boot.described')).toMatchObject({
      mondo: 26.5,
      hardware: { factoryLeanDeg: -0.5, travel: { lateral: { upMm: 8, downMm: 8 } } },
    });
  }

  async #read(gaps: readonly string[], record: string): Promise<void> {
    const { measuring: page } = this.#pages;
    await this.#by.press(page, named(page, this.#words.measuring.postureGo));
    await this.#by.gaps(page, gaps);
    await this.#by.press(page, named(page, record));
  }

  async readCuffs(): Promise<void> {
    const { measuring: page, bench } = this.#pages;
    const { measuring: words, bench: atBench, scan } = this.#words;
    const press = this.#by.press.bind(this.#by, page);
    await press(page.getByRole('main').getByRole('button', { name: new RegExp(this.#name) }));
    for (const side of SIDES) await press(named(page, words.allExpected(side)));
    await press(named(page, words.goStand));
    await this.#by.number(page, labelled(page, words.stanceWidth), '240');
    for (const side of ['right', 'left'] as const)
      await press(radio(page, words.widest(side), words.widestPlaces.middle));
    await this.#read(['14', '6', '10', '10.5'], words.recordBoth);
    await this.#stored('cuff.read', 2);
    await press(named(page, words.closeEven(['right'])));
    await press(named(page, words.toBench));

    const ticket = (this.#facts[0] as Fact & { ticket: string }).ticket;
    const atPress = this.#by.press.bind(this.#by, bench);
    await atPress(this.#queued());
    await atPress(named(bench, scan.here('left', ticket)));
    await atPress(named(bench, atBench.told));
    await this.#stored('cuff.set', 1);
    const { expected } = this.plan.sides.left.cuff;
    const half = (mm: number) => String(Math.max(1, Math.round(mm * 2) / 2));
    await press(named(page, words.readAgain));
    await this.#read([half(expected!.medialMm), half(expected!.lateralMm)], words.recordOne('left'));
    await press(named(page, words.closeEven(['left'])));
    await this.#stored('cuff.closed', 2);
  }

  /** This job's first line in the bench's queue. */
  #queued(): Locator {
    const { bench } = this.#pages;
    return bench.getByRole('navigation').getByRole('button', { name: new RegExp(this.#name) });
  }

  async chooseCants(): Promise<void> {
    const { measuring: page } = this.#pages;
    const { knees: words, measuring } = this.#words;
    const press = this.#by.press.bind(this.#by, page);
    await press(named(page, words.goOn));
    await press(radio(page, words.mark, words.marks.condyles));
    await press(named(page, words.go));
    const cants: readonly [Side, string][] = [
      ['right', '0'],
      ['left', '2'],
    ];
    for (const [i, [side, size]] of cants.entries()) {
      const knee = page.getByRole('region', { name: words.leg(side) });
      await this.#by.number(page, labelled(knee, words.offset), '4.5');
      await press(radio(knee, words.toward, words.towards.medial));
      await this.#by.number(page, labelled(knee, words.height), '468');
      await press(named(knee, words.record(side)));
      await this.#stored('stance.read', i + 1);
      await press(named(knee, words.other));
      const dialog = page.getByRole('dialog');
      await this.#by.number(page, labelled(dialog, words.cantSize), size);
      if (size !== '0') await press(radio(dialog, words.thickEdge, words.edges.lateral));
      await this.#by.text(page, labelled(dialog, words.why), 'skied like this for years');
      await press(named(dialog, words.otherEnter));
      await this.#stored('cant.chosen', i + 1);
    }
    await press(named(page, measuring.backToList));
    expect(this.#facts.filter(({ kind }) => kind === 'stance.read')).toMatchObject([
      { kneeOffsetMm: -4.5, kneeHeightMm: 468 },
      { kneeOffsetMm: -4.5 },
    ]);
  }

  async #measureSole(enter: string, count: number): Promise<void> {
    const { bench } = this.#pages;
    const { sole } = this.#words;
    const zones = Object.values({ toe: sole.zones.toe, heel: sole.zones.heel });
    const fields = [sole.fields.heightMedialMm, sole.fields.heightLateralMm, sole.fields.widthMm];
    const labels = zones.flatMap((zone) => fields.map((field) => `${zone}, ${field}`));
    for (const [i, label] of labels.entries()) await this.#by.number(bench, labelled(bench, label), SOLE[i]!);
    await this.#by.press(bench, named(bench, enter));
    await this.#stored('sole.measured', count);
  }

  async workSole(): Promise<void> {
    const { bench, desk } = this.#pages;
    const { sole, desk: atDesk, scan } = this.#words;
    const [atPress, press] = [this.#by.press.bind(this.#by, bench), this.#by.press.bind(this.#by, desk)];
    const ticket = (this.#facts[0] as Fact & { ticket: string }).ticket;
    const here = named(bench, scan.here('left', ticket));
    const first = labelled(bench, `${sole.zones.toe}, ${sole.fields.heightMedialMm}`);
    await here.or(first).first().waitFor();
    if (await here.isVisible()) await atPress(here);
    await this.#measureSole(sole.enterBefore, 1);

    await press(named(desk, atDesk.agree));
    const agree = desk.getByRole('dialog');
    await press(agree.getByRole('checkbox', { name: begins(atDesk.agreeWhat.rout) }));
    await press(agree.getByRole('checkbox', { name: begins(atDesk.agreeWarranty) }));
    await press(named(agree, atDesk.agreeEnter));
    await this.#stored('work.agreed', 1);
    // The same entry in every language.
    expect(this.#facts.find(({ kind }) => kind === 'work.agreed')).toMatchObject({ irreversible: ['rout'] });

    await atPress(named(bench, sole.else));
    const dialog = bench.getByRole('dialog');
    await this.#by.number(bench, labelled(dialog, sole.thinEdge), '3.5');
    await this.#by.hold(bench, named(dialog, sole.elseEnter), () => dialog.waitFor({ state: 'detached' }));
    await this.#stored('plate.fitted', 1);
    expect(this.#facts.findLast(({ kind }) => kind === 'plate.fitted')).toMatchObject({
      cantDeg: -2,
      thinEdgeMm: 3.5,
    });
    await this.#measureSole(sole.enterAfter, 2);
  }

  async handOver(): Promise<void> {
    const { desk } = this.#pages;
    const { desk: words } = this.#words;
    const press = this.#by.press.bind(this.#by, desk);
    await press(named(desk, words.binding));
    const dialog = desk.getByRole('dialog');
    await this.#by.text(desk, labelled(dialog, words.bindingReference), 'B-77');
    await press(named(dialog, words.bindingOutcomes.passed));
    await this.#stored('binding.checked', 1);
    await dialog.waitFor({ state: 'detached' });
    await press(named(desk.getByRole('main'), words.handover));
    await press(dialog.getByRole('checkbox', { name: begins(words.handoverRead) }));
    await press(named(dialog, words.handoverDo));
    await this.#stored('handed.over', 1);
  }
}

/** Each way has its own stations, so both are walked at a time. */
describe.each([
  { language: 'en', says: 'English', names: { touch: 'Wendelin Espenlaub', keys: 'Odila Kranzbichler' } },
  { language: 'de', says: 'Deutsch', names: { touch: 'Burgl Feichtinger', keys: 'Korbinian Achleitner' } },
] as const)('a job goes from the desk to the hand-over in $language', ({ language, says, names }) => {
  it.concurrent.each(['touch', 'keys'] as const)('by %s alone', async (way) => {
    const walk = new Walk(way, words[language], names[way]);
    await walk.speak(says);
    await walk.takeIn();
    await walk.readCuffs();
    await walk.chooseCants();
    await walk.workSole();
    await walk.handOver();
    const { steps, next } = walk.plan;
    expect(steps.filter(({ status }) => status !== 'done')).toEqual([]);
    expect(next).toEqual([]);
  });
});

it('and no page did what it may not', () => {
  for (const each of watches) expect(each.take()).toEqual([]);
});
