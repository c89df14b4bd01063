/**
 * `npm test`: everything, from a fresh clone: packages, a browser, the checks, the tests.
 * `npm run check` (`--check`): the checks alone. Arguments after `--` go to vitest.
 *
 * Plain JavaScript without packages, since it runs before they are there. The last line that it prints is
 * `N passed, N failed` (`, N skipped`), in which each check counts as one test.
 */
import { readyBrowser } from './helpers/install-browser.mjs';
import { checks } from './helpers/checks.mjs';
import { readyPackages, readyPages } from './helpers/ready-packages.mjs';
import { runVitest } from './helpers/run-vitest.mjs';

const args = process.argv.slice(2);
const onlyChecks = args[0] === '--check';

/** @param {{ passed: number, failed: number, skipped: number }} sum */
const closingLine = ({ passed, failed, skipped }) =>
  `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;

/** The pages that the browsers load; where they cannot be built, the tests run all the same and say what else fails. */
async function pages() {
  try {
    await readyPages();
    return { passed: 0, failed: 0, skipped: 0, why: [] };
  } catch (error) {
    return {
      passed: 0,
      failed: 1,
      skipped: 0,
      why: [error instanceof Error ? error.message : String(error)],
    };
  }
}

/** @returns {Promise<number>} exit code */
async function main() {
  await readyPackages();
  if (!onlyChecks) process.env.FIBULA_BROWSER = await readyBrowser();

  const parts = [await checks()];
  if (!onlyChecks) parts.push(await pages(), await runVitest(args));

  const why = parts.flatMap((part) => part.why);
  if (why.length > 0) console.error(`\nWhat failed:\n${why.map((line) => `  - ${line}`).join('\n')}`);
  const total = (/** @type {'passed' | 'failed' | 'skipped'} */ name) =>
    parts.reduce((sum, part) => sum + part[name], 0);
  const sum = { passed: total('passed'), failed: total('failed'), skipped: total('skipped') };
  console.log(`\n${closingLine(sum)}`);
  return sum.failed > 0 ? 1 : 0;
}

try {
  process.exitCode = await main();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
