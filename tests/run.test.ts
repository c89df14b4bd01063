/** The test run itself: what it counts and what it needs. */
import { describe, expect, it } from 'vitest';
import { findBrowser } from './helpers/find-browser.mjs';
import { countTests } from './helpers/run-vitest.mjs';

const results = (testResults: object[], passed = 0) =>
  ({ numPassedTests: passed, numFailedTests: 0, numPendingTests: 1, numTodoTests: 1, testResults }) as never;

describe('the closing line', () => {
  it('counts failed tests, and names them', () => {
    const assertionResults = [
      { status: 'failed', fullName: 'a b' },
      { status: 'passed', fullName: 'c' },
    ];
    const sum = countTests(results([{ status: 'failed', name: 'a.test.ts', assertionResults }], 1), 1);
    expect(sum).toEqual({ passed: 1, failed: 1, skipped: 2, why: ['a b'] });
  });

  it('counts a file that could not be loaded', () => {
    const broken = {
      status: 'failed',
      name: 'a.test.ts',
      message: 'no such module\nat x',
      assertionResults: [],
    };
    expect(countTests(results([broken]), 1)).toMatchObject({ failed: 1, why: ['a.test.ts: no such module'] });
  });

  it('is never green when vitest is not', () => {
    expect(countTests(results([], 7), 1)).toMatchObject({ passed: 7, failed: 1 });
    expect(countTests(null, 0)).toMatchObject({ passed: 0, failed: 1 });
  });
});

describe('what it needs', () => {
  it('is a browser that is there', () => {
    expect(findBrowser({ FIBULA_BROWSER: process.execPath })).toBe(process.execPath);
    expect(() => findBrowser({ FIBULA_BROWSER: 'no/such/browser' })).toThrow('no/such/browser');
  });
});
