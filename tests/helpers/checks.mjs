/** What is checked without running the program: format, lint, types. */
import { packaged, run } from './run.mjs';

const CHECKS = [
  {
    name: 'format',
    program: 'prettier',
    args: ['--check', '.'],
    failed: 'format: files are not as prettier writes them (npx prettier --write .)',
  },
  {
    name: 'lint',
    program: 'eslint',
    args: ['.', '--max-warnings', '0'],
    failed: 'lint: eslint found fault (npx eslint .)',
  },
  {
    name: 'types',
    program: 'tsc',
    args: ['-p', '.'],
    failed: 'types: tsc found errors (npx tsc -p .)',
  },
  {
    name: 'types in Svelte components',
    program: 'svelte-check',
    args: ['--tsconfig', './tsconfig.json', '--output', 'human', '--fail-on-warnings'],
    failed: 'Svelte: svelte-check found errors or warnings (npx svelte-check --tsconfig ./tsconfig.json)',
  },
];

/** Every check runs, also after one has failed, so that one run says all. */
export async function checks() {
  const sum = { passed: 0, failed: 0, skipped: 0, why: /** @type {string[]} */ ([]) };
  for (const { name, program, args, failed } of CHECKS) {
    console.log(`\nCheck: ${name}`);
    if ((await run(packaged(program), args)) === 0) sum.passed += 1;
    else {
      sum.failed += 1;
      sum.why.push(failed);
    }
  }
  return sum;
}
