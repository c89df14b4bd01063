/** A real browser for the end-to-end tests. */
import { chromium } from 'playwright';
import type { Browser, BrowserContext } from 'playwright';
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

export interface Device {
  /** More for the browser's command line. */
  readonly args?: readonly string[];
  readonly env?: NodeJS.ProcessEnv;
}

/** Throws when no browser is found: an end-to-end test that is skipped unseen shows nothing. */
function found(): string {
  const executablePath = findBrowser();
  if (!executablePath)
    throw new Error('no Chromium or Chrome found: install one, or set FIBULA_BROWSER to its path');
  return executablePath;
}

const asked = ({ args = [], env }: Device) => ({
  executablePath: found(),
  args: [...FLAGS, ...args],
  ...(env ? { env } : {}),
});

export const launchBrowser = async (device: Device = {}): Promise<Browser> => chromium.launch(asked(device));

/** A browser with a profile on disk: what its pages keep is there again after its process has ended. */
export const launchProfile = async (folder: string, device: Device = {}): Promise<BrowserContext> =>
  chromium.launchPersistentContext(folder, {
    ...asked(device),
    viewport: { width: 1280, height: 800 },
  });
