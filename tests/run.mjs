/**
 * `npm test`: everything, from a fresh clone: packages, a browser, the checks, the tests.
 * `npm run check` (`--check`): the checks alone. Arguments after `--` go to vitest.
 *
 * Plain JavaScript without packages, since it runs before they are there. The last line that it prints is
 * `N passed, N failed` (`, N skipped`), in which each check counts as one test.
 */
import { readyBrowser } from './helpers/install-browser.mjs';
import { checks } from './helpers/checks.mjs';
import { nodeTooOld, readyPackages } from './helpers/ready-packages.mjs';
import { runVitest } from './helpers/run-vitest.mjs';

const args = process.argv.slice(2);
const onlyChecks = args[0] === '--check';

/** @param {{ passed: number, failed: number, skipped: number }} sum */
const closingLine = ({ passed, failed, skipped }) =>
  `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;

/** @returns {Promise<number>} exit code */
async function main() {
  const tooOld = nodeTooOld(process.versions.node);
  if (tooOld) {
    console.error(tooOld);
    return 1;
  }
  await readyPackages();
  if (!onlyChecks) process.env.FIBULA_BROWSER = await readyBrowser();

  const checked = await checks();
  const tested = onlyChecks ? { passed: 0, failed: 0, skipped: 0, why: [] } : await runVitest(args);

  const why = [...checked.why, ...tested.why];
  if (why.length > 0) console.error(`\nWhat failed:\n${why.map((line) => `  - ${line}`).join('\n')}`);
  const sum = {
    passed: checked.passed + tested.passed,
    failed: checked.failed + tested.failed,
    skipped: tested.skipped,
  };
  console.log(`\n${closingLine(sum)}`);
  return sum.failed > 0 ? 1 : 0;
}

try {
  process.exitCode = await main();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
