/** A browser for the end-to-end tests: found, or installed where that is possible without asking. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { findBrowser } from './find-browser.mjs';
import { run } from './run.mjs';

const WHAT_TO_DO = `The end-to-end tests need a Chromium or Chrome, and none was found.
Install one (Debian: apt-get install chromium), or set FIBULA_BROWSER to the path of one, and run again.`;

/** @returns {boolean} Debian or one made from it, where we may install a package */
function mayInstall() {
  if (process.getuid?.() !== 0) return false;
  if (spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status !== 0) return false;
  try {
    return /^ID(_LIKE)?=.*\b(debian|ubuntu)\b/m.test(readFileSync('/etc/os-release', 'utf8'));
  } catch {
    return false;
  }
}

/** @param {string} path */
function startsUp(path) {
  const { status, stdout, stderr } = spawnSync(path, ['--version'], { encoding: 'utf8', timeout: 60_000 });
  return { ok: status === 0, said: `${stdout ?? ''}${stderr ?? ''}`.trim() };
}

/**
 * Path of a browser that starts. Throws, saying what to do, when there is none and none can be installed.
 * @returns {Promise<string>}
 */
export async function readyBrowser() {
  let path = findBrowser();
  if (!path && mayInstall()) {
    console.log('No browser found: installing the package chromium.');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    const code =
      (await run('apt-get', ['update'], env)) ||
      (await run('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], env));
    if (code !== 0) throw new Error(`apt-get could not install chromium.\n${WHAT_TO_DO}`);
    path = findBrowser();
  }
  if (!path) throw new Error(WHAT_TO_DO);
  const { ok, said } = startsUp(path);
  if (!ok) throw new Error(`${path} does not start: ${said || 'it said nothing'}\n${WHAT_TO_DO}`);
  console.log(`Browser: ${path} (${said.split('\n')[0]})`);
  return path;
}
