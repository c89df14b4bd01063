/** A real browser for the end-to-end tests. */
import { chromium } from 'playwright';
import type { Browser } from 'playwright';
import { findBrowser } from './find-browser.mjs';

/** Nothing but the pages under test: no sandbox (containers), no GPU, no traffic of the browser's own. */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

interface Device {
  /** More for the browser's command line. */
  readonly args?: readonly string[];
  readonly env?: NodeJS.ProcessEnv;
}

/** Throws when no browser is found: an end-to-end test that is skipped unseen shows nothing. */
export async function launchBrowser({ args = [], env }: Device = {}): Promise<Browser> {
  const executablePath = findBrowser();
  if (!executablePath)
    throw new Error('no Chromium or Chrome found: install one, or set FIBULA_BROWSER to its path');
  return chromium.launch({ executablePath, args: [...FLAGS, ...args], ...(env ? { env } : {}) });
}
