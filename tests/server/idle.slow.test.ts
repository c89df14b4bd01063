/** What the server does when nothing happens: heartbeats, rows joined, documents put down. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { BOUND } from '../../server/limits.ts';
import { until } from '../helpers/until.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

let running: Running;
beforeEach(async () => {
  running = await run();
});
afterEach(() => running.close());

/** The server's own beat, and some air. */
const BEATS_MS = 4 * BOUND.heartbeatMs;

it('a quiet line hears a heartbeat, a quiet session is joined into one row, an empty room is put down', async () => {
  const desk = await running.station(['desk']);
  const session = newSession();
  const room = await desk.enter(session);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c', service: 'cuffs' });
  for (let i = 0; i < BOUND.rowsBeforeCompaction; i++)
    await room.add('desk', 'home.checked', { note: `${i}` });
  const rows = () =>
    running.query(
      'SELECT n FROM updates JOIN documents ON documents.id = document WHERE session = ?',
      session,
    );
  expect(rows()).toHaveLength(BOUND.rowsBeforeCompaction + 1);

  const wire = await new Wire(running.url, `session/${session}/1`, { cookie: desk.cookie }).open();
  await wire.document();
  const before = wire.heard.length;
  await until(
    () => wire.heard.slice(before).some((one) => one.is === 'durable' && one.clocks.size === 0),
    'a heartbeat',
    BEATS_MS,
  );
  await until(() => rows().length === 1, 'the rows to be joined', BEATS_MS);
  expect(rows()).toEqual([{ n: BOUND.rowsBeforeCompaction + 1 }]); // in the place of the last of them

  wire.close();
  room.close();
  await until(() => running.log.some(({ msg }) => msg === 'socket left'), 'the sockets to be gone');
  running.clock.aheadMs = STANDARD_LIMITS.sessionIdleSeconds * 1_000;
  await until(
    () => running.log.some(({ msg }) => msg === 'session put down'),
    'the document to be put down',
    BEATS_MS,
  );

  const again = await desk.enter(session);
  expect(again.facts).toHaveLength(BOUND.rowsBeforeCompaction + 1);
  await again.add('desk', 'home.checked', { note: 'after' });
  expect(rows()).toHaveLength(2);
  again.close();
});
