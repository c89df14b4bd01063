/** What is done with open sessions while nobody enters anything: memory of documents that were put to rest is given back. */
import { setTimeout } from 'node:timers/promises';
import { expect, it, onTestFinished } from 'vitest';
import { collect } from '../../server/collect.ts';
import { BOUND } from '../../server/limits.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';

/** A thing that nothing holds any more, and that only a whole collection lets go. */
async function forgotten(): Promise<WeakRef<object>> {
  const ref = new WeakRef({ bytes: new Uint8Array(1_000) });
  // Held to the end of this turn by having been made in it: each collection finds it older.
  for (let i = 0; i < 3; i++) collect();
  await setTimeout(0);
  return ref;
}

it('gives memory back once enough documents rest and nobody enters anything, not before', async () => {
  const usual = { ...BOUND };
  onTestFinished(() => void Object.assign(BOUND, usual));
  Object.assign(BOUND, { documentsAwake: 1, heartbeatMs: 100, letGoBeforeCollection: 3 });
  const running = await run();
  onTestFinished(() => running.close());
  const desk = await running.station(['desk']);
  const open = async (ticket: string) => {
    const room = await desk.enter(newSession());
    await room.add('desk', 'session.opened', { ticket, clientRef: 'open', service: 'cuffs' });
    return room;
  };
  const rooms = [await open('4-1'), await open('4-2'), await open('4-3')];
  const ref = await forgotten();
  await setTimeout(500);
  expect(ref.deref()).toBeDefined();
  rooms.push(await open('4-4'));
  await setTimeout(0);
  await until(() => ref.deref() === undefined, 'what nothing holds to be let go');
  for (const room of rooms) room.close();
});
