/** The gate's own tests reach every branch of it. */
import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';

it('has no branch that its tests do not reach', () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['tests/helpers/coverage.mjs', 'gate'], {
    encoding: 'utf8',
  });
  expect(stdout + stderr).toMatch(/gate-entries\.ts/); // else nothing was looked at
  expect({ status, said: status === 0 ? '' : stdout + stderr }).toEqual({ status: 0, said: '' });
});
