/** Packages installed, those for tests too, and the pages built that the browsers will load. */
import { existsSync } from 'node:fs';
import { ready } from '../../server/setup/ready.mjs';
import { packaged, run } from './run.mjs';

const FOR_TESTS = ['vitest', 'prettier', 'eslint', 'tsc', 'svelte-check'];

/** Throws, in words, when this Node is too old or the packages cannot be installed. */
export async function readyPackages() {
  await ready({ build: false });
  // Where NODE_ENV says production, npm leaves out what only tests need.
  if (FOR_TESTS.every((name) => existsSync(packaged(name)))) return;
  console.log('Installing what the tests need (npm ci).');
  const code = await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']);
  if (code !== 0) throw new Error('npm ci failed: see its output above');
}

/** Throws when the pages cannot be built. */
export const readyPages = () => ready();
