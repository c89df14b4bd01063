/**
 * Acts of a person at a page, counted as they are done, and how long an expert would take over them by the keystroke-level
 * model: Card, Moran & Newell, Commun ACM 1980;23:396–410, and The Psychology of Human-Computer Interaction, 1983 [secondary:
 * the figures as they are commonly quoted]. What the skier says, and what the machine takes, is left out.
 */
import type { Locator, Page } from 'playwright';

export const SECONDS = {
  /** One key, by somebody who types a little; a good typist takes 0.2. */
  key: 0.28,
  /** One letter on a keyboard of glass: the model's figure for letters in no order. */
  glassKey: 0.5,
  /** Pointing at a target; the model's figure is for a mouse, a finger is quicker. */
  point: 1.1,
  /** The hand from one device to the other. */
  home: 0.4,
  /** Thinking of what comes next. */
  mind: 1.35,
} as const;
type Act = keyof typeof SECONDS;

export class Acts {
  readonly #page: Page;
  readonly counts: Record<Act, number> = { key: 0, glassKey: 0, point: 0, home: 0, mind: 0 };

  constructor(page: Page) {
    this.#page = page;
  }

  mind(): void {
    this.counts.mind += 1;
  }
  async press(key: string, times = 1): Promise<void> {
    // Two keys held together are two.
    this.counts.key += times * key.split('+').length;
    for (let i = 0; i < times; i++) await this.#page.keyboard.press(key);
  }
  async type(text: string): Promise<void> {
    this.counts.key += text.length;
    await this.#page.keyboard.type(text);
  }
  async typeOnGlass(text: string): Promise<void> {
    this.counts.glassKey += text.length;
    await this.#page.keyboard.type(text);
  }
  async tap(target: Locator): Promise<void> {
    this.counts.point += 1;
    await target.tap();
  }
  /** Tab until `there` has the focus; Enter for those who know that it goes to the next field is as long. */
  async tabTo(there: Locator, most = 40): Promise<void> {
    for (let i = 0; i < most; i++) {
      if (await there.evaluate((each) => each === document.activeElement)) return;
      await this.press('Tab');
    }
    throw new Error(`${most} tabs do not come to ${String(there)}`);
  }

  get all(): number {
    const { mind: _mind, ...acts } = this.counts;
    return Object.values(acts).reduce((sum, count) => sum + count, 0);
  }
  get seconds(): number {
    return (Object.keys(SECONDS) as Act[]).reduce((sum, act) => sum + SECONDS[act] * this.counts[act], 0);
  }
  said(what: string): string {
    const { key, glassKey, point, home, mind } = this.counts;
    return `${what}: ${this.all} acts, ${this.seconds.toFixed(1)} s by the keystroke-level model (K ${key}, on glass ${glassKey}, P ${point}, H ${home}, M ${mind})`;
  }
}
