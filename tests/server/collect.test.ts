/** Memory is given back when it is asked for, not when the engine gets round to it. */
import { setImmediate } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { collect } from '../../server/collect.ts';

it('lets go what nothing holds', async () => {
  const held = { bytes: new Uint8Array(1_000) };
  const refs = [new WeakRef(held), new WeakRef({ bytes: new Uint8Array(1_000) })] as const;
  await setImmediate(); // a reference looked at is held to the end of its turn
  collect();
  expect(refs[0].deref()).toBe(held);
  expect(refs[1].deref()).toBeUndefined();
});
