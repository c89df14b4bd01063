/** Run the tests, and count them from vitest's own results. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { packaged, run } from './run.mjs';

/**
 * @typedef {{ status: string, message?: string, name: string, assertionResults: { status: string, fullName: string }[] }} FileResult
 * @typedef {{ numPassedTests: number, numFailedTests: number, numPendingTests: number, numTodoTests: number, testResults: FileResult[] }} Results
 */

/**
 * A file that could not be loaded has no failed test, and counts as one; so does a run that vitest calls
 * failed for another reason, an error outside every test.
 * @param {Results | null} results null: vitest wrote none
 * @param {number} code vitest's exit code
 */
export function countTests(results, code) {
  if (!results) return { passed: 0, failed: 1, skipped: 0, why: ['vitest ended without results'] };
  const why = [];
  let failed = 0;
  for (const { status, name, message, assertionResults } of results.testResults) {
    const tests = assertionResults.filter((test) => test.status === 'failed');
    why.push(...tests.map((test) => test.fullName));
    if (status === 'failed' && tests.length === 0)
      why.push(`${name}: ${(message ?? '').split('\n')[0] || 'could not be run'}`);
    failed += status === 'failed' ? Math.max(1, tests.length) : tests.length;
  }
  if (code !== 0 && failed === 0) {
    failed = 1;
    why.push(`vitest ended with ${code} though no test failed: see its output above`);
  }
  return {
    passed: results.numPassedTests,
    failed,
    skipped: results.numPendingTests + results.numTodoTests,
    why,
  };
}

/** @param {readonly string[]} args for vitest */
export async function runVitest(args) {
  console.log('\nTests');
  const folder = mkdtempSync(join(tmpdir(), 'fibula-test-'));
  try {
    const file = join(folder, 'results.json');
    const code = await run(packaged('vitest'), [
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${file}`,
      ...args,
    ]);
    /** @type {Results | null} */
    let results = null;
    try {
      results = JSON.parse(readFileSync(file, 'utf8'));
    } catch {
      // Counted as a failure: vitest could not start.
    }
    return countTests(results, code);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
