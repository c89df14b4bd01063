/** The sheet of papers at a station, and the very paper that it shows, as the browser prints it. */
import type { Frame, Locator, Page } from 'playwright';
import { expect } from 'vitest';
import * as floor from '../../helpers/floor.ts';
import { button } from '../../helpers/floor.ts';
import { cutOff, paperPage, printed } from './paper.ts';
import type { Printed, PrintJob } from './paper.ts';

/** A number and its unit are tied together on paper. */
const said = (text: string): string => text.replaceAll('\u00a0', ' ');

type Heard = Window & { paperJob?: PrintJob; toPrinter?: string[] };
/** Pages that note what their paper's frame is given. */
const noted = new WeakSet<Page>();

async function note(page: Page): Promise<void> {
  if (noted.has(page)) return;
  noted.add(page);
  await page.addInitScript(() => {
    addEventListener('message', ({ data }) => {
      const told = data as { fibula?: string; job?: PrintJob };
      if (told?.fibula === 'paper' && told.job) (window as Heard).paperJob = told.job;
    });
    addEventListener('beforeprint', () => {
      ((top as Heard).toPrinter ??= []).push((window as Heard).paperJob?.paper ?? document.title);
    });
  });
}

export class PrintSheet {
  readonly page: Page;
  readonly dialog: Locator;

  private constructor(page: Page) {
    this.page = page;
    this.dialog = page.getByRole('dialog', { name: 'Print' });
  }

  /** `opens`: what is touched for it, where that is not the button of this name. */
  static async open(page: Page, opens: Locator = button(page, /^Print/)): Promise<PrintSheet> {
    await note(page);
    await opens.click();
    return PrintSheet.shown(page);
  }

  /** The one that is open; what it shows can be printed here when its page was given to `open` or `noteJobs` before. */
  static async shown(page: Page): Promise<PrintSheet> {
    const sheet = new PrintSheet(page);
    await sheet.dialog.waitFor();
    return sheet;
  }

  static noteJobs = note;
  /** The papers that this page has sent to the browser's print dialog, since it was noted. */
  static toPrinter = (page: Page): Promise<readonly string[]> =>
    page.evaluate(() => (window as Heard).toPrinter ?? []);

  async frame(): Promise<Frame> {
    await this.dialog.locator('iframe[aria-busy="false"]').waitFor();
    return (await (await this.dialog.locator('iframe').elementHandle())!.contentFrame())!;
  }
  async text(): Promise<string> {
    return said(await (await this.frame()).locator('main').innerText());
  }
  /** Resolves once it says this. */
  async shows(text: string | RegExp): Promise<void> {
    await this.dialog.frameLocator('iframe').getByText(text).first().waitFor();
  }
  choose(question: string, answer: string | RegExp): Promise<void> {
    return floor.choose(this.dialog, question, answer);
  }
  pick(paper: string): Promise<void> {
    return this.choose('Which paper', new RegExp(`^${paper}`));
  }
  speak(language: 'English' | 'Deutsch'): Promise<void> {
    return this.choose('Language of the paper', language);
  }
  async close(): Promise<void> {
    await button(this.dialog, 'Close').click();
    await this.dialog.waitFor({ state: 'detached' });
  }

  /** What the station gave to the paper's page. */
  async job(): Promise<PrintJob> {
    const job = await (await this.frame()).evaluate(() => (window as Heard).paperJob);
    if (!job) throw new Error('the paper was given no job');
    return job;
  }

  /** A browser prints a page and not a frame of one: the same page with the same job, with nothing cut off. */
  async print(name: string): Promise<Printed & { readonly job: PrintJob }> {
    const frame = await this.frame();
    const at = new URL(frame.url());
    const job = await this.job();
    const language = at.searchParams.get('in') as 'en' | 'de';
    const page = await paperPage(this.page.context(), at.origin, language, job);
    try {
      expect(said(await page.locator('main').innerText())).toBe(await this.text());
      expect(await cutOff(page), name).toEqual([]);
      return { ...(await printed(page, name)), job };
    } finally {
      await page.close();
    }
  }
}
