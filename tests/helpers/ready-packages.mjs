/** Node new enough and packages installed, those for tests too. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { packaged, ROOT, run } from './run.mjs';

/**
 * One sentence when this Node is older than what the packages need; null when it will do.
 * @param {string} version like 20.19.0
 */
export function nodeTooOld(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > 20 || (major === 20 && minor >= 19)
    ? null
    : `This is Node ${version}; Node 20.19 or newer is needed (https://nodejs.org).`;
}

/** Throws when they cannot be installed. */
export async function readyPackages() {
  const shared = join(ROOT, 'server', 'setup', 'ready.mjs');
  if (existsSync(shared)) {
    const { ready } = await import(shared);
    await ready({ build: false });
  }
  // What the server needs may be there without what the tests need.
  if (['vitest', 'prettier', 'eslint', 'tsc', 'svelte-check'].every((name) => existsSync(packaged(name))))
    return;
  console.log('Installing the packages (npm ci).');
  const code = await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']);
  if (code !== 0) throw new Error('npm ci failed: see its output above');
}
