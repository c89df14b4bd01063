/** A person at a station who has only fingers, or only a keyboard: every act of a walk goes through one of them. */
import type { Locator, Page } from 'playwright';
import { until } from './until.ts';

export interface Walker {
  /** A button, a radio button or a tick box; waited for until it takes the touch. */
  press(page: Page, what: Locator): Promise<void>;
  /** Digits with a point or comma and a sign, into a number field. */
  number(page: Page, field: Locator, digits: string): Promise<void>;
  /** A name or a word. */
  text(page: Page, field: Locator, words: string): Promise<void>;
  /** Both gaps of these legs, in the order of work. */
  gaps(page: Page, numbers: readonly string[]): Promise<void>;
  /** Holds a button until this has come. */
  hold(page: Page, what: Locator, done: () => Promise<unknown>): Promise<void>;
}

const enabled = async (what: Locator): Promise<Locator> => {
  const one = what.first();
  await one.waitFor();
  await until(() => one.isEnabled(), 'it takes the touch');
  return one;
};

/** Fingers on glass: nothing but taps. Names come from the tablet's own keyboard, numbers from the page's keys. */
export function byTouch(words: {
  readonly half: string;
  readonly sign: string;
  readonly point: string;
}): Walker {
  const key = (scope: Locator, name: string) => scope.getByRole('button', { name, exact: true });
  const pad = (page: Page) => page.locator('section.keypad');
  return {
    press: async (_page, what) => (await enabled(what)).tap(),
    async number(page, field, digits) {
      await field.tap();
      await pad(page).waitFor();
      for (const digit of digits.replace('-', ''))
        await key(pad(page), digit === '.' ? words.point : digit).tap();
      if (digits.startsWith('-')) await key(pad(page), words.sign).tap();
    },
    async text(_page, field, typed) {
      await field.tap();
      await field.fill(typed);
    },
    async gaps(page, numbers) {
      const row = page.locator('.typing');
      await row.waitFor();
      for (const number of numbers) {
        const whole = number.replace('.5', '');
        if (whole !== number) await page.getByRole('button', { name: words.half }).tap();
        await row.getByRole('button', { name: whole === number ? number : `${whole}½`, exact: true }).tap();
      }
    },
    async hold(page, what, done) {
      const box = (await (await enabled(what)).boundingBox())!;
      const touch = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      const glass = await page.context().newCDPSession(page);
      await glass.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [touch] });
      await done();
      await glass.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      await glass.detach();
    },
  };
}

/** Tab, arrows, Enter, Space and what is typed: no pointer at all. */
export function byKeys(words: { readonly point: string }): Walker {
  const LIMIT = 200;
  /** Where the focus stands to this: on it, in its group of radio buttons, before it or after it. */
  const look = (what: Locator) =>
    what.evaluate((wanted) => {
      const here = document.activeElement;
      if (here === wanted) return 'here';
      const radio = (each: Element | null): each is HTMLInputElement =>
        each instanceof HTMLInputElement && each.type === 'radio';
      if (radio(here) && radio(wanted) && here.name === wanted.name) return 'group';
      if (!here || here === document.body) return 'before';
      return here.compareDocumentPosition(wanted) & Node.DOCUMENT_POSITION_PRECEDING ? 'after' : 'before';
    });
  async function go(page: Page, what: Locator): Promise<void> {
    const one = await enabled(what);
    for (let i = 0; i < LIMIT; i++) {
      const at = await look(one);
      if (at === 'here') return;
      await page.keyboard.press(at === 'group' ? 'ArrowDown' : at === 'after' ? 'Shift+Tab' : 'Tab');
    }
    throw new Error(`${LIMIT} keys did not come to ${String(what)}`);
  }
  return {
    async press(page, what) {
      await go(page, what);
      const kind = await what.first().evaluate((one) => (one as HTMLInputElement).type);
      if (kind !== 'radio' && kind !== 'checkbox') return page.keyboard.press('Enter');
      if (!(await what.first().isChecked())) await page.keyboard.press('Space');
    },
    async number(page, field, digits) {
      // Tab into a field takes all of it, so that what is typed takes its place.
      await go(page, field);
      await page.keyboard.type(digits.replace('.', words.point));
    },
    async text(page, field, typed) {
      await go(page, field);
      await page.keyboard.type(typed);
    },
    async gaps(page, numbers) {
      await until(
        () => page.evaluate(() => document.activeElement?.id.startsWith('gap-') === true),
        'the first gap has the focus',
      );
      for (const [i, number] of numbers.entries()) {
        await page.keyboard.type(number.replace('.', words.point));
        if (i < numbers.length - 1) await page.keyboard.press('Enter');
      }
    },
    async hold(page, what, done) {
      await go(page, what);
      await page.keyboard.down('Enter');
      await done();
      await page.keyboard.up('Enter');
    },
  };
}
