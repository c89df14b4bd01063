/** What the shop learns from its sessions, and what the next session takes of it. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { legOf, plan } from '../../core/index.ts';
import type { Fact, FactOf, LearnedTold } from '../../core/index.ts';
import type { Room } from '../../demo/room.ts';
import type { Station } from '../../demo/station.ts';
import { enter, teaching } from '../helpers/lessons.ts';
import type { Taught } from '../helpers/lessons.ts';
import { until } from '../helpers/until.ts';
import { asker } from './helpers/asks.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

let running: Running;
let all: Station;
let rooms: Room[];
beforeEach(async () => {
  running = await run();
  all = await running.station(['desk', 'measuring', 'bench']);
  rooms = [];
});
afterEach(async () => {
  for (const room of rooms) room.close();
  await running.close();
});

const pairsOf = (session: string) =>
  running.query('SELECT * FROM lesson_pairs WHERE session = ? ORDER BY after', session);
const legsOf = (session: string) =>
  running.query('SELECT leg FROM lesson_boots WHERE session = ? AND leg IS NOT NULL', session);

/** A session that teaches, and what it taught is kept. */
async function taught(of: Taught = {}): Promise<{ session: string; room: Room }> {
  const told = teaching(of);
  const entered = await enter(all, told);
  rooms.push(entered.room);
  const moves = told.facts.filter(({ kind }) => kind === 'cuff.set').length;
  await until(() => pairsOf(entered.session).length === moves && legsOf(entered.session).length > 0);
  return entered;
}

/** A session that was only begun: opened, and its boot described. */
async function described(of: Taught = {}): Promise<{ session: string; room: Room }> {
  const told = teaching(of);
  told.facts.splice(told.facts.findIndex(({ kind }) => kind === 'boot.described') + 1);
  const entered = await enter(all, told);
  rooms.push(entered.room);
  return entered;
}

const known = <K extends 'response.known' | 'leg.known'>(room: Room, kind: K): FactOf<K>[] =>
  room.facts.filter((fact: Fact) => fact.kind === kind) as unknown as FactOf<K>[];

describe('what was learned of a model', () => {
  it('[LRN-4] is in the next session once, in the commit of the boot, and stays as it was', async () => {
    const first = await taught({ k: 0.7 });
    expect(known(first.room, 'response.known')).toEqual([]); // nobody had taught anything
    await taught({ k: 0.7 });
    const third = await described({});
    await until(() => known(third.room, 'response.known').length === 1);
    const [response] = known(third.room, 'response.known');
    expect(response).toMatchObject({ by: { station: 'server', role: 'server' }, side: 'left', pairs: 4 });
    expect(response!.k).toBeLessThan(0.95);
    expect(response!.sd).toBeLessThan(0.2);
    const rows = running.query(
      `SELECT facts.id, facts.committed_ms AS ms FROM facts JOIN documents ON documents.id = document
       WHERE session = ?`,
      third.session,
    );
    const boot = third.room.facts.find(({ kind }) => kind === 'boot.described')!;
    const at = (id: string) => rows.find((row) => row['id'] === id)!['ms'];
    expect(at(response!.id)).toBe(at(boot.id));
    expect(plan(third.room.facts).sides.left.cuff.response).toEqual({ k: response!.k, sd: response!.sd });

    // Two more sessions that say otherwise: what the third works by is as it was.
    await taught({ k: 1.1 });
    await taught({ k: 1.1 });
    await third.room.add('desk', 'home.checked', { note: 'warm' });
    expect(known(third.room, 'response.known')).toEqual([response]);
    const later = await described({});
    await until(() => known(later.room, 'response.known').length === 1);
    expect(known(later.room, 'response.known')[0]!.k).toBeGreaterThan(response!.k);
    expect(known(later.room, 'response.known')[0]!.pairs).toBe(8);
  });

  it('[LRN-4] is taken anew when the boot is described anew, and never from the session itself', async () => {
    await taught({ k: 0.7 });
    const { room, session } = await taught({ k: 1.3, model: 'Bryony 95' });
    await until(() => known(room, 'response.known').length === 1);
    const before = known(room, 'response.known')[0]!;
    expect(before.pairs).toBe(0); // of a model nobody had met
    const boot = room.facts.find(({ kind }) => kind === 'boot.described') as FactOf<'boot.described'>;
    const { id: _i, at: _a, by: _b, basis: _s, kind: _k, ...payload } = boot;
    await room.add('desk', 'boot.described', { ...payload, model: 'Larkspur 110' });
    await until(() => known(room, 'response.known').length === 2);
    const after = known(room, 'response.known')[1]!;
    // Two moves of the first session; its own, which said 1.3, are not among them.
    expect(after.pairs).toBe(2);
    expect(after.k).toBeLessThan(1);
    expect(plan(room.facts).problems.filter(({ code }) => code === 'conflict')).toEqual([]);
    expect(running.query('SELECT 1 FROM lesson_boots WHERE session = ?', session)).toHaveLength(1);
  });

  it('[LRN-4] of one boot, known by its tag, counts more than that of its model', async () => {
    for (let i = 0; i < 3; i++) await taught({ k: 1 });
    await taught({ k: 0.6, tag: 'B-7', settings: [0, 2, 0, 2, 0, 2, 0] });
    const same = await described({ tag: 'B-7' });
    const other = await described({ tag: 'B-8' });
    await until(() => [same, other].every(({ room }) => known(room, 'response.known').length === 1));
    const [own, model] = [same, other].map(({ room }) => known(room, 'response.known')[0]!);
    expect(own!.k).toBeLessThan(0.8);
    expect(model!.k).toBeGreaterThan(own!.k + 0.1);
    expect(own!.sd).toBeLessThan(model!.sd);
  });

  it('[LRN-4] is taken from what is on disk: a stop and a start change nothing, and double nothing', async () => {
    await taught({ k: 0.7 });
    const third = await described({});
    await until(() => known(third.room, 'response.known').length === 1);
    const before = known(third.room, 'response.known');
    await running.stop();
    const again = await run({ data: running.data });
    try {
      const station = await again.station(['desk']);
      const room = await station.enter(third.session);
      expect(known(room, 'response.known')).toEqual(before);
      room.close();
      // Nothing is due any more: what was learned is not worked out again.
      expect(
        again.query(
          `SELECT 1 FROM documents JOIN lessons USING (session)
           WHERE lessons.last_n != documents.last_n OR lessons.generation != documents.generation`,
        ),
      ).toEqual([]);
    } finally {
      await again.stop();
    }
  });

  it('[LRN-4] is learned from an archive that an older program wrote', async () => {
    const { session } = await taught({ k: 0.7, close: true });
    await running.stop();
    const { default: Database } = await import('better-sqlite3');
    const db = new Database(`${running.data}/fibula.db`);
    for (const table of ['lessons', 'lesson_boots', 'lesson_pairs', 'lesson_choices'])
      db.exec(`DELETE FROM ${table}`);
    db.exec('UPDATE documents SET closed = 1');
    db.close();
    const again = await run({ data: running.data });
    try {
      const rows = () => again.query('SELECT 1 FROM lesson_pairs WHERE session = ?', session);
      await until(() => rows().length === 2, 'the archive to be learned from', 20_000);
    } finally {
      await again.stop();
    }
  });
});

describe('a pair that is far off', () => {
  const ask = asker(() => running.url);
  const report = async (cookie = all.cookie) =>
    (await ask('GET', '/api/learned', cookie)).body as LearnedTold;
  const model = ({ models }: LearnedTold) => models.find(({ model: name }) => name === 'Larkspur 110')!;

  it('[LRN-3] is asked about, weighs less until somebody decides, and every decision can be taken back', async () => {
    for (let i = 0; i < 4; i++) await taught({ k: 0.9 });
    const without = model(await report());
    const { session } = await taught({ k: 0.9, offMm: 14, ticket: '7-7' });
    const asked = await report();
    expect(asked.farOff).toHaveLength(1);
    const [pair] = asked.farOff;
    expect(pair).toMatchObject({
      session,
      state: 'asked',
      model: 'Larkspur 110',
      side: 'left',
      decisions: [],
    });
    expect(Math.abs(pair!.observedMm - pair!.predictedMm)).toBeGreaterThan(3 * pair!.sdMm);
    const { before, after } = pair!;
    const decide = (choice: object) =>
      ask('POST', '/api/learned/choices', all.cookie, { session, before, after, ...choice });

    const kept = (await decide({ choice: 'kept' })).body as LearnedTold;
    const out = (await decide({ choice: 'out', reason: 'pivots' })).body as LearnedTold;
    const back = (await decide({ choice: 'asked' })).body as LearnedTold;
    // In full it pulls the most, questioned less, left out not at all: its other move says what the rest say.
    const pull = (of: LearnedTold) => Math.abs(model(of).k - without.k);
    expect(pull(kept)).toBeGreaterThan(pull(asked) + 0.005);
    expect(pull(asked)).toBeGreaterThan(pull(out) + 0.005);
    expect(pull(out)).toBeLessThan(0.01);
    expect(model(back)).toEqual(model(asked));
    expect(back.farOff[0]).toMatchObject({
      state: 'asked',
      decisions: [
        { choice: 'kept', reason: null, by: 'desk and measuring and bench' },
        { choice: 'out', reason: 'pivots' },
        { choice: 'asked', reason: null },
      ],
    });
    expect(model(out).pairs).toBe(model(kept).pairs - 1);
  });

  it('[LRN-3] alone is a person’s to decide on, at a desk, with a reason when it is left out', async () => {
    const { session } = await taught({ k: 0.9, offMm: 14 });
    const honest = pairsOf(session).find(({ state }) => state === 'used')!;
    const far = pairsOf(session).find(({ state }) => state === 'asked')!;
    const post = (cookie: string, pair: Record<string, unknown>, choice: object) =>
      ask('POST', '/api/learned/choices', cookie, {
        session,
        before: pair['before'],
        after: pair['after'],
        ...choice,
      });
    const floor = await running.station(['measuring']);
    expect((await post(floor.cookie, far, { choice: 'kept' })).status).toBe(403);
    expect((await post(all.cookie, honest, { choice: 'out', reason: 'misread' })).status).toBe(404);
    expect((await post(all.cookie, far, { choice: 'out' })).status).toBe(400);
    expect((await post(all.cookie, far, { choice: 'out', reason: 'because' })).status).toBe(400);
    expect((await ask('GET', '/api/learned', floor.cookie)).status).toBe(403);
    expect(running.query('SELECT 1 FROM lesson_choices')).toEqual([]);
  });

  it('[LRN-5] what was foretold is scored by the month', async () => {
    await taught({ k: 0.9, close: true, settings: [0, 1] });
    await taught({ k: 0.9, close: true });
    await taught({ k: 0.9, offMm: 14 });
    const closed = 'SELECT 1 FROM lesson_boots WHERE first_enough IS NOT NULL';
    await until(() => running.query(closed).length === 3);
    const { scores } = await report();
    expect(scores).toHaveLength(1);
    expect(scores[0]).toMatchObject({ moved: 3, firstEnough: 1, pairs: 5, held80: 4, held90: 4 });
    expect(scores[0]!.month).toMatch(/^20\d\d-\d\d$/);
    const moves = (await ask('GET', '/api/learned/moves?model=larkspur%20%20110', all.cookie)).body.moves;
    expect(moves).toHaveLength(5);
  });
});

describe('a leg that was read before', () => {
  it('[LEG-2] is a prior in the client’s next boot: once, as it would stand there, with added error', async () => {
    const first = await taught({ clientRef: 'c1', biasMm: 10 });
    const leg = legOf(first.room.facts, 'left');
    if (leg.is !== 'known') throw new Error(leg.because);
    const second = await described({ clientRef: 'c1', model: 'Bryony 95' });
    await until(() => known(second.room, 'leg.known').length === 1);
    const [carried] = known(second.room, 'leg.known');
    expect(carried).toMatchObject({ by: { role: 'server' }, side: 'left' });
    // The same hardware: it stands where it stood.
    expect(carried!.mLegMm).toBeCloseTo(5, 0);
    // 0.7° and 1° at 160 mm alone are 3.4 mm.
    expect(carried!.sdMm).toBeGreaterThan(3.4);
    expect(carried!.sdMm).toBeGreaterThan(leg.sdMm!);
    // Nothing before a reading; then a prior beside it.
    expect(plan(second.room.facts).sides.left.cuff.biasMm).toBeNull();
    const stranger = await described({ clientRef: 'c2' });
    await stranger.room.add('desk', 'home.checked', { note: 'here' });
    expect(known(stranger.room, 'leg.known')).toEqual([]);
  });

  it('[LEG-2] is not carried over a change of model in one session: described anew, it is taken anew', async () => {
    await taught({ clientRef: 'c1' });
    const { room } = await described({ clientRef: 'c1' });
    await until(() => known(room, 'leg.known').length === 1);
    const boot = room.facts.find(({ kind }) => kind === 'boot.described') as FactOf<'boot.described'>;
    const { id: _i, at: _a, by: _b, basis: _s, kind: _k, ...payload } = boot;
    const { factoryLeanDeg: _f, ...unknownLean } = payload.hardware;
    await room.add('desk', 'boot.described', { ...payload, hardware: unknownLean as never });
    await until(() => known(room, 'leg.known').length === 2);
    // Without a factory lean nothing can be carried: what stood there says nothing any more.
    expect(known(room, 'leg.known')[1]).toMatchObject({ mLegMm: 0, sdMm: 100 });
  });

  it('[LEG-3] is carried nowhere once the client’s data were erased', async () => {
    await all.request('PUT', '/api/people/c1', { name: 'Quintilia Fabelhaft' });
    const { session } = await taught({ clientRef: 'c1', close: true });
    expect(legsOf(session)).toHaveLength(1);
    await running.server.keeper.erase('c1', false);
    expect(legsOf(session)).toEqual([]);
    expect((await asker(() => running.url)('GET', '/api/people/c1/legs', all.cookie)).body).toEqual({
      legs: [],
    });
    const next = await described({ clientRef: 'c1' });
    await next.room.add('desk', 'home.checked', { note: 'here' });
    expect(known(next.room, 'leg.known')).toEqual([]);
    // The boots go on teaching: nothing in that says who somebody is.
    expect(known(next.room, 'response.known')).toHaveLength(1);
  });
});
