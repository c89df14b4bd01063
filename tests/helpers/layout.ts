/** How a page lies on its screen: what runs out of it, and what is too small for a gloved hand. */
import type { Locator, Page } from 'playwright';

/** Elements that can be scrolled sideways, the page itself among them; none where everything fits. */
export const sidewaysScrolls = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const scrolls = (element: Element) =>
      element === document.documentElement ||
      ['auto', 'scroll'].includes(getComputedStyle(element).overflowX);
    return [...document.querySelectorAll('*')]
      .filter((element) => scrolls(element) && element.scrollWidth > element.clientWidth + 1)
      .map((each) => `${each.tagName} ${each.className} (${each.scrollWidth} in ${each.clientWidth})`);
  });

/**
 * Targets whose smaller side is under `leastPx`. The target of a radio button or a tick box is its label.
 * Links in running text are in `inline`, whatever their size.
 */
export const smallTargets = (page: Page, leastPx: number): Promise<{ small: string[]; inline: string[] }> =>
  page.evaluate((least) => {
    const small: string[] = [];
    const inline: string[] = [];
    const found = document.querySelectorAll<HTMLElement>(
      'button, input:not([type=hidden]), select, textarea, summary, a[href], [role=button], [role=link]',
    );
    for (const element of found) {
      const tick = element.matches('input[type=radio], input[type=checkbox]');
      const target = (tick && element.closest('label')) || element;
      if (!target.checkVisibility()) continue;
      const { width, height } = target.getBoundingClientRect();
      const name = (element.getAttribute('aria-label') ?? target.textContent ?? '').trim().slice(0, 40);
      const said = `${element.tagName.toLowerCase()} "${name || element.id}" ${width.toFixed(0)}×${height.toFixed(0)}`;
      if (element.matches('a') && getComputedStyle(element).display === 'inline') inline.push(said);
      else if (Math.min(width, height) < least - 0.5) small.push(said);
    }
    return { small, inline };
  }, leastPx);

/** Height of a target that lies wholly on the screen, with nothing over it; otherwise what keeps it from that. */
export const inSight = (target: Locator): Promise<{ heightPx: number } | { hidden: string }> =>
  target.evaluate((element) => {
    const { left, top, right, bottom, height } = element.getBoundingClientRect();
    const box = [left, top, right, bottom].map((px) => px.toFixed(0)).join(' ');
    if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)
      return { hidden: `lies at ${box} on a screen of ${innerWidth}×${innerHeight}` };
    const corners = [
      [left + 4, top + 4],
      [right - 4, bottom - 4],
      [(left + right) / 2, (top + bottom) / 2],
    ] as const;
    const over = corners
      .map(([x, y]) => document.elementFromPoint(x, y))
      .find((top) => !top || !(element.contains(top) || top.contains(element)));
    return over === undefined
      ? { heightPx: height }
      : { hidden: `is covered by ${over?.tagName ?? 'nothing'}` };
  });

/** Headings, of tables too, that break in the middle of a word. */
export const brokenHeadings = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('h1, h2, h3, thead th')].flatMap((heading) => {
      if (!heading.checkVisibility()) return [];
      const texts = document.createTreeWalker(heading, NodeFilter.SHOW_TEXT);
      const broken: string[] = [];
      for (let text = texts.nextNode(); text; text = texts.nextNode())
        for (const { 0: word, index } of (text.textContent ?? '').matchAll(/[\p{L}\p{N}]+/gu)) {
          const range = document.createRange();
          range.setStart(text, index);
          range.setEnd(text, index + word.length);
          const lines = new Set([...range.getClientRects()].map(({ bottom }) => Math.round(bottom)));
          if (lines.size > 1) broken.push(`${heading.tagName} "${word}"`);
        }
      return broken;
    }),
  );
