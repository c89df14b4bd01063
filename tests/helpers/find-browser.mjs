/** Where the browser is that the end-to-end tests drive: the one named, or one that is installed. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const PLACES = [
  '/usr/bin',
  '/usr/local/bin',
  '/snap/bin',
  '/opt/google/chrome',
  '/Applications/Chromium.app/Contents/MacOS',
  '/Applications/Google Chrome.app/Contents/MacOS',
];
const MAC_NAMES = ['Chromium', 'Google Chrome'];

/** @param {string} path */
const runs = (path) => {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};

/**
 * Path of a Chromium or Chrome; null when there is none. `FIBULA_BROWSER` goes before all others.
 * Throws when `FIBULA_BROWSER` names something that cannot be run.
 * @param {NodeJS.ProcessEnv} [env]
 * @returns {string | null}
 */
export function findBrowser(env = process.env) {
  const named = env.FIBULA_BROWSER;
  if (named) {
    if (runs(named)) return named;
    throw new Error(`FIBULA_BROWSER is ${named}, which is no program that can be run`);
  }
  const folders = [...(env.PATH ?? '').split(delimiter).filter(Boolean), ...PLACES];
  for (const name of [...NAMES, ...MAC_NAMES])
    for (const folder of folders) if (runs(join(folder, name))) return join(folder, name);
  return null;
}
