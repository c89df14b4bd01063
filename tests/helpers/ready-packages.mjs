/** Packages installed, those for tests too, and built what the tests start and the browsers load. */
import { existsSync } from 'node:fs';
import { ready, readyServer } from '../../server/setup/ready.mjs';
import { packaged, run } from './run.mjs';

const FOR_TESTS = ['vitest', 'prettier', 'eslint', 'tsc', 'svelte-check'];

/** The packages, and the server. Throws, in words, when this Node is too old, or one of them cannot be had. */
export async function readyPackages() {
  await ready({ build: false });
  // Where NODE_ENV says production, npm leaves out what only tests need.
  if (!FOR_TESTS.every((name) => existsSync(packaged(name)))) {
    console.log('Installing what the tests need (npm ci).');
    const code = await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund']);
    if (code !== 0) throw new Error('npm ci failed: see its output above');
  }
  await readyServer();
}

/** Throws when the pages cannot be built. */
export const readyPages = () => ready();
