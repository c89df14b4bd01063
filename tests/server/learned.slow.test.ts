/** What was learned, over a kill of the real server: it is in the session once, and learning goes on where it was. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { Fact } from '../../core/index.ts';
import { enter, teaching } from '../helpers/lessons.ts';
import { serve } from '../helpers/server.ts';
import type { TestServer } from '../helpers/server.ts';
import { until } from '../helpers/until.ts';

async function killed(shop: TestServer): Promise<void> {
  const { process } = shop.server;
  process.kill('SIGKILL');
  await until(() => process.signalCode !== null, 'the server to be dead', 60_000);
}
const responses = (facts: readonly Fact[]) => facts.filter(({ kind }) => kind === 'response.known');
const begun = () => {
  const told = teaching();
  told.facts.splice(told.facts.findIndex(({ kind }) => kind === 'boot.described') + 1);
  return told;
};

it('[LRN-4] a session that took what was learned has it once after a kill, and the next one takes it too', async () => {
  const data = mkdtempSync(join(tmpdir(), 'fibula-learned-'));
  onTestFinished(() => rmSync(data, { recursive: true, force: true }));
  let shop = await serve({ data });
  const first = await shop.station(['desk', 'measuring', 'bench']);
  for (const k of [0.7, 0.75]) {
    const { room } = await enter(first, teaching({ k }));
    room.close();
  }
  // Killed at once: what the second session taught may not be written down yet, and is worked out again.
  await killed(shop);

  shop = await serve({ data });
  const second = await shop.station(['desk', 'measuring', 'bench']);
  const learned = async () =>
    (await second.request<{ models: { pairs: number }[] }>('GET', '/api/learned')).models[0];
  await until(async () => (await learned())?.pairs === 4, 'both sessions to have taught', 60_000);
  const { session, room } = await enter(second, begun());
  await until(() => responses(room.facts).length === 1);
  const [before] = responses(room.facts);
  expect(before).toMatchObject({ pairs: 4 });
  room.close();
  await killed(shop);

  shop = await serve({ data });
  const third = await shop.station(['desk', 'measuring', 'bench']);
  const again = await third.enter(session);
  expect(responses(again.facts)).toEqual([before]);
  // Entered on: nothing is written a second time.
  await again.add('desk', 'home.checked', { note: 'warm' });
  expect(responses(again.facts)).toEqual([before]);
  again.close();
  const next = await enter(third, begun());
  await until(() => responses(next.room.facts).length === 1);
  const { k, sd, pairs } = responses(next.room.facts)[0] as Fact & { kind: 'response.known' };
  expect({ k, sd, pairs }).toEqual({
    k: (before as { k?: number }).k,
    sd: (before as { sd?: number }).sd,
    pairs: 4,
  });
  next.room.close();
  await shop.server.stop();
});
