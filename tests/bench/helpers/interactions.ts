/** How long a page takes from a touch or a key to the next picture, as its browser sees it. */
import type { Page } from 'playwright';

/**
 * From the event to the next paint, in ms, of the slowest event of each interaction. The browser gives them in steps of
 * 8 ms and leaves out what took less than 16.
 * Source: W3C Event Timing, `PerformanceEventTiming.duration` and `interactionId`.
 */
export interface Interaction {
  readonly act: string;
  readonly ms: number;
}

/** More than the bars of a window are high, in px. */
const BARS = 120;

interface Timed extends PerformanceEntry {
  readonly interactionId: number;
}
declare global {
  interface Window {
    fibulaTimed?: { startTime: number; duration: number; id: number }[];
  }
}

export class Interactions {
  readonly #page: Page;
  readonly #acts: { readonly name: string; readonly from: number }[] = [];

  private constructor(page: Page) {
    this.#page = page;
  }

  /** Slows the page's processor so many times from now on, and watches it. */
  static async of(page: Page, slowedBy: number): Promise<Interactions> {
    const line = await page.context().newCDPSession(page);
    // The window of a browser without a screen has bars too: what is drawn behind its lower edge is never shown, and
    // a press there would last until something else is.
    const { width, height } = page.viewportSize()!;
    const { windowId } = await line.send('Browser.getWindowForTarget');
    await line.send('Browser.setWindowBounds', { windowId, bounds: { width, height: height + BARS } });
    await line.send('Emulation.setCPUThrottlingRate', { rate: slowedBy });
    await page.evaluate(() => {
      const timed: NonNullable<Window['fibulaTimed']> = [];
      window.fibulaTimed = timed;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries() as Timed[])
          if (entry.interactionId)
            timed.push({ startTime: entry.startTime, duration: entry.duration, id: entry.interactionId });
      }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
    });
    return new Interactions(page);
  }

  /** Does it, and lets the page come to rest. */
  async act(name: string, what: () => Promise<unknown>): Promise<void> {
    this.#acts.push({ name, from: await this.#page.evaluate(() => performance.now()) });
    await what();
    await this.#page.evaluate(
      () =>
        new Promise<void>((done) =>
          requestAnimationFrame(() => requestIdleCallback(() => done(), { timeout: 2000 })),
        ),
    );
  }

  /** All that were done, those below the browser's 16 ms as 16. */
  async all(): Promise<Interaction[]> {
    // The browser tells of an event some time after the picture.
    await this.#page.waitForTimeout(500);
    const timed = (await this.#page.evaluate(() => window.fibulaTimed)) ?? [];
    return this.#acts.map(({ name, from }, i) => {
      const until = this.#acts[i + 1]?.from ?? Infinity;
      const within = timed.filter(({ startTime }) => startTime >= from && startTime < until);
      return { act: name, ms: Math.max(16, ...within.map(({ duration }) => duration)) };
    });
  }
}
