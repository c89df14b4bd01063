/** What people do at the stations' pages, by what they read there: roles, names and labels. */
import type { Browser, Locator, Page } from 'playwright';
import type { Side } from '../../core/index.ts';
import type { Gaps } from '../../demo/leg.ts';

/** Where each station's screen is made for. */
export const SIZE = {
  desk: { width: 1920, height: 1080 },
  measuring: { width: 1280, height: 800 },
  bench: { width: 1280, height: 800 },
} as const;
export type Floor = keyof typeof SIZE;

/** How long a page may take to show what is waited for. */
const LIMIT_MS = 15_000;

export const capital = (side: Side) => (side === 'left' ? 'Left' : 'Right');
/** A name given as text is the whole name, with the hint that stands in the button. */
export const button = (scope: Page | Locator, name: string | RegExp) =>
  scope.getByRole('button', { name, exact: true });

/** A browser of its own, made a station with a code typed into its page. */
export async function pair(
  browser: Browser,
  url: string,
  role: Floor | 'wall',
  code: string,
  options: { name?: string; size?: { width: number; height: number }; touch?: boolean } = {},
): Promise<Page> {
  const context = await browser.newContext({
    viewport: options.size ?? SIZE[role === 'wall' ? 'desk' : role],
    hasTouch: options.touch ?? false,
  });
  context.setDefaultTimeout(LIMIT_MS);
  const page = await context.newPage();
  await pairHere(page, url, role, code, options.name);
  return page;
}

/** Makes the browser of this page a station. */
export async function pairHere(
  page: Page,
  url: string,
  role: Floor | 'wall',
  code: string,
  name = `the ${role} station`,
): Promise<void> {
  await page.goto(`${url}/${role}`);
  await page.getByLabel('Pairing code').fill(code);
  await page.getByLabel('Name of this station').fill(name);
  await button(page, 'Pair this station').click();
  await page.getByLabel('Pairing code').waitFor({ state: 'detached' });
}

/** One of a few, by the words of the question and of the answer. */
export const choose = (scope: Page | Locator, question: string | RegExp, answer: string | RegExp) =>
  scope.getByRole('group', { name: question }).getByRole('radio', { name: answer }).check();

/** A number field is labelled with its unit: the question alone is enough here. */
export const field = (scope: Page | Locator, label: string) =>
  scope.getByLabel(new RegExp(`^${label}(,.*)?$`));

export interface BootTyped {
  readonly model: string;
  readonly pivots: 'Two adjusters' | 'One adjuster';
  readonly spacing: number;
  readonly height: number;
  readonly lean: number;
  /** Up and down alike, at each adjuster. */
  readonly travel: number;
  readonly mark?: number;
}

export async function typeBoot(scope: Page | Locator, boot: BootTyped): Promise<void> {
  const type = (label: string, value: number | string) => field(scope, label).fill(String(value));
  await type('Model', boot.model);
  await type('Mondopoint', '26.5');
  await type('Sole length', 317);
  await choose(scope, 'Pivot hardware', boot.pivots);
  await type('Pivot spacing', boot.spacing);
  await type('Reading height', boot.height);
  await type('Factory lean', boot.lean);
  const adjusters = boot.pivots === 'Two adjusters' ? ['Lateral', 'Medial'] : ['Lateral'];
  for (const adjuster of adjusters)
    for (const way of ['up', 'down']) await type(`${adjuster} ${way}`, boot.travel);
  if (boot.mark !== undefined) await type('One mark', boot.mark);
}

/** Opens the intake, and types who is there and what is to be done. */
export async function beginIntake(desk: Page, name: string): Promise<void> {
  await button(desk, 'Take someone in').click();
  await desk.getByLabel('Name', { exact: true }).fill(name);
  await choose(desk, 'What is to be done', 'Cuffs only');
  await choose(desk, /^Health/, 'None: go on');
}

/** Opens the session that was typed. Resolves to its id. */
export async function openSession(desk: Page): Promise<string> {
  await button(desk, /^Open the session/).click();
  await desk.waitForURL(/#[0-9a-f]{32}$/);
  return new URL(desk.url()).hash.slice(1);
}

/** What the top of a station's page says of its entries. */
export const savedState = (page: Page) => page.getByRole('banner').getByRole('status');
export async function allSaved(page: Page): Promise<void> {
  await pictured(page);
  await savedState(page).filter({ hasText: 'All saved' }).waitFor();
}

/** What was touched just now shows: entries and places are told once a picture, and until then the page is as before. */
export const pictured = (page: Page) =>
  page.evaluate(
    () => new Promise<void>((done) => requestAnimationFrame(() => setTimeout(() => setTimeout(done)))),
  );

/** One boot of the bench's queue, by its side and by ticket or name; then in hand, as a person without a scanner says. */
export async function pickAtBench(bench: Page, side: Side, who: string): Promise<void> {
  await button(
    bench.getByRole('navigation', { name: 'Boots to do now' }),
    new RegExp(`^${side} .*${who}`),
  ).click();
  await pictured(bench);
  await bootInHand(bench, side);
}

/** This boot's instruction shows, once a person has said which boot it is, where that is asked. */
export async function bootInHand(bench: Page, side: Side): Promise<void> {
  const here = button(bench, new RegExp(`^This is the ${side} boot`));
  const shown = bench.getByRole('region', { name: `${side} boot in hand` });
  await here.or(shown).waitFor();
  if (await here.isVisible()) await here.click();
  await shown.waitFor();
}

/** A scanner that types: the code, then Enter, wherever the focus is. */
export async function scan(page: Page, code: string): Promise<void> {
  await page.keyboard.type(code);
  await page.keyboard.press('Enter');
}

export const readyBoot = (measuring: Page, side: Side) =>
  button(measuring, new RegExp(`^${capital(side)} boot: all as expected`)).click();

/** The conditions of a first reading, and on to the gaps. */
export async function stand(measuring: Page, widthMm: number, sides: readonly Side[]): Promise<void> {
  await field(measuring, 'Stance width').fill(String(widthMm));
  for (const side of sides) await choose(measuring, `${capital(side)} leg widest at`, 'middle');
  await confirmPosture(measuring);
  // Keys go into the first gap from here on.
  await measuring.getByRole('textbox', { name: / gap$/ }).first().waitFor();
  await pictured(measuring);
}

export const confirmPosture = (measuring: Page) =>
  button(measuring, 'All four are so: read the gaps').click();

export const gapField = (measuring: Page, side: Side, place: 'medial' | 'lateral') =>
  measuring.getByRole('textbox', { name: `${capital(side)} ${place} gap`, exact: true });

export async function typeGaps(measuring: Page, gaps: Readonly<Partial<Record<Side, Gaps>>>): Promise<void> {
  for (const side of ['left', 'right'] as const) {
    const read = gaps[side];
    if (!read) continue;
    await gapField(measuring, side, 'medial').fill(String(read.medialMm));
    await gapField(measuring, side, 'lateral').fill(String(read.lateralMm));
  }
}

export const record = (measuring: Page) => button(measuring, /^Record /).click();

/** The pair's drawing in its own words: what this page shows of the plan. */
export const drawn = async (page: Page): Promise<string> =>
  (await page
    .getByRole('img', { name: /^Both legs/ })
    .locator('desc')
    .textContent()) ?? '';

/** The rows of the list of entries that say all of this. */
export const entry = (scope: Page | Locator, ...texts: readonly (string | RegExp)[]) =>
  texts.reduce<Locator>((rows, hasText) => rows.filter({ hasText }), scope.getByRole('listitem'));

/** The PIN of the shops in these tests. */
export const PIN = '271828';

/** Opens the desk's locked corner: sets the PIN where none is set, types it where it is locked. */
export async function openCorner(desk: Page): Promise<void> {
  await button(desk, /^Locked corner/).click();
  const [first, locked, open] = ['Set this PIN', 'Open the corner', 'Lock now'].map((name) =>
    button(desk, name),
  );
  await first!.or(locked!).or(open!).waitFor();
  if (await open!.isVisible()) return;
  if (await first!.isVisible()) {
    await desk.getByLabel('New PIN').fill(PIN);
    await desk.getByLabel('The same again').fill(PIN);
    await first!.click();
  } else {
    await desk.getByLabel('PIN', { exact: true }).fill(PIN);
    await locked!.click();
  }
  await open!.waitFor();
}
