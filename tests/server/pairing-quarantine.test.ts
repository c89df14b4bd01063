/** What a revoked station still held: handed in, looked at, taken in past the gate or thrown away; never by itself. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { stationOf } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { BOUND } from '../../server/limits.ts';
import { asker } from './helpers/asks.ts';
import { clientOf, entry, floor, opened } from './helpers/entries.ts';
import { any, craft, item } from './helpers/craft.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { idsOf, Wire } from './helpers/wire.ts';

const PIN = '271828';
let running: Running;
let desk: Station;
let tablet: Station;
let session: string;
let wire: Wire;
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  tablet = await running.station(['measuring']);
  await corner('POST', '/pin', { pin: PIN, again: PIN });
  session = newSession();
  wire = await new Wire(running.url, `session/${session}/1`, { cookie: desk.cookie }).open();
  const client = clientOf(1);
  const first = item(any(opened('opened', 'desk-1', '1-1')));
  wire.sendUpdate(craft({ sections: [{ client, clock: 0, structs: [first] }] }));
  await wire.hears('durable', ({ clocks }) => clocks.get(client) === 1);
});
afterEach(async () => {
  wire.close();
  await running.close();
});

const ask = asker(() => running.url);
const corner = (method: string, path: string, body?: unknown) =>
  ask(method, `/api/corner${path}`, desk.cookie, body);
const revoke = () => corner('POST', '/stations/2/revoke', {});
const handIn = (facts: readonly unknown[], to = session, cookie = tablet.cookie) =>
  ask('POST', '/api/quarantine', cookie, { session: to, facts });
const told = async () => (await ask('GET', '/api/quarantine', tablet.cookie)).body.entries;
const at = (to = session) => `/quarantine/2/${to}`;
const mine = (id: string) => floor(id, 'measuring-2');
const inSession = () => running.query('SELECT id FROM facts').map(({ id }) => id);
const factsOf = async (to = session) => {
  const exported = await ask('GET', `/api/sessions/${to}/export`, desk.cookie);
  return exported.body.facts as { id: string; by: { station: string; role: string } }[];
};

describe('handing in', () => {
  it('is for a revoked station alone', async () => {
    expect((await handIn([mine('a')])).status).toBe(401);
    expect((await handIn([mine('a')], session, '')).status).toBe(401);
    expect((await handIn([mine('a')], session, desk.cookie)).status).toBe(401);
    await revoke();
    expect((await handIn([mine('a')])).body).toEqual({ kept: ['a'], refused: [], full: false });
    expect(await told()).toEqual([{ session, fact: 'a', state: 'waiting', reason: null }]);
  });

  it('writes nothing into the session, twice is once, and it is there after a restart', async () => {
    await revoke();
    await handIn([mine('a'), mine('b')]);
    expect((await handIn([mine('b'), mine('c')])).body.kept).toEqual(['b', 'c']);
    expect((await factsOf()).map(({ id }) => id)).toEqual(['opened']);
    await running.stop();
    running = await run({ data: running.data });
    expect((await told()).map(({ fact }: { fact: string }) => fact)).toEqual(['a', 'b', 'c']);
  });

  it('keeps only whole entries of that very station, and says what is wrong with the rest', async () => {
    await revoke();
    const { body } = await handIn([
      mine('good'),
      floor('stolen', 'desk-1'),
      { ...mine('bent'), crossDeg: 'steep' },
      entry('strange', 'measuring', 'measuring-2', { kind: 'no.such.kind' }),
      { ...mine('deep'), note: [[[[[[[[[1]]]]]]]]] },
      'no entry',
    ]);
    expect(body.kept).toEqual(['good']);
    expect(body.refused.map(({ fact }: { fact: string | null }) => fact)).toEqual([
      'stolen',
      'bent',
      'strange',
      'deep',
      null,
    ]);
    expect(body.refused[0].reason).toBe('by.station must be measuring-2');
    expect((await handIn([], session)).status).toBe(400);
    expect((await handIn([mine('a')], '../etc')).status).toBe(400);
    const many = Array.from({ length: BOUND.handInFacts + 1 }, (_, i) => mine(`f${i}`));
    expect((await handIn(many)).status).toBe(400);
    expect((await handIn([{ ...mine('a'), note: 'x'.repeat(BOUND.handInBytes) }])).status).toBe(413);
  });

  it('ends where the room ends, and what does not fit is not lost but told', async () => {
    await revoke();
    const rounds = BOUND.quarantinePerStation / BOUND.handInFacts;
    for (let r = 0; r < rounds; r++) {
      const facts = Array.from({ length: BOUND.handInFacts }, (_, i) => mine(`f${r}-${i}`));
      expect((await handIn(facts)).body.full).toBe(false);
    }
    expect((await handIn([mine('f0-0'), mine('more')])).body).toEqual({
      kept: ['f0-0'],
      refused: [],
      full: true,
    });
    expect((await corner('GET', '')).body.waiting.entries).toBe(BOUND.quarantinePerStation);
    // All that can ever wait for one station is taken in by one word.
    await corner('POST', `${at()}/take`, {});
    expect(await factsOf()).toHaveLength(1 + BOUND.quarantinePerStation);
  });
});

describe('the desk', () => {
  it('sees who, when and which session, and takes in: by the device, in the server’s hand, told to everybody', async () => {
    await revoke();
    await handIn([mine('a'), mine('b')]);
    const { body } = await corner('GET', '/quarantine');
    expect(body.backlogs).toEqual([
      {
        station: 2,
        session,
        ticket: '1-1',
        device: 'measuring-2',
        name: 'measuring',
        revokedMs: expect.any(Number),
        waiting: 2,
        taken: 0,
        thrown: 0,
        firstMs: expect.any(Number),
        lastMs: expect.any(Number),
      },
    ]);
    expect((await corner('GET', at())).body.entries[0]).toMatchObject({
      fact: 'a',
      state: 'waiting',
      value: mine('a'),
    });

    const before = wire.heard.length;
    const after = (await corner('POST', `${at()}/take`, {})).body;
    expect(after.backlog).toMatchObject({ waiting: 0, taken: 2 });
    await wire.hears('update', () => true, before);
    const facts = await factsOf();
    expect(facts.map(({ id, by }) => [id, by.station])).toEqual([
      ['opened', 'desk-1'],
      ['a', 'measuring-2'],
      ['b', 'measuring-2'],
    ]);
    expect(inSession()).toEqual(expect.arrayContaining(['opened', 'a', 'b']));
    // Written under a Yjs client of number 0, the server's own: no station has it.
    const doc = await wire.document();
    expect([...doc.store.clients.keys()].map(stationOf).sort()).toEqual([0, 1]);
    expect((await told()).map(({ state }: { state: string }) => state)).toEqual(['taken', 'taken']);
    expect(running.query('SELECT json FROM quarantine').every(({ json }) => json === null)).toBe(true);
    // Again: there is nothing left to take.
    expect((await corner('POST', `${at()}/take`, {})).body.backlog.taken).toBe(2);
    expect(await factsOf()).toHaveLength(3);
  });

  it('gets no entry past the gate that the station could not have written itself', async () => {
    await revoke();
    const steal = entry('steal', 'desk', 'measuring-2', { kind: 'home.checked', note: 'x' });
    const bench = entry('bench', 'measuring', 'measuring-2', { kind: 'home.checked', note: 'x' });
    const strike = entry('strike', 'measuring', 'measuring-2', {
      kind: 'struck',
      fact: 'opened',
      reason: 'x',
    });
    await handIn([steal, mine('a'), bench, strike, { ...mine('opened') }]);
    const { body } = await corner('POST', `${at()}/take`, {});
    expect(body.backlog).toMatchObject({ waiting: 4, taken: 1 });
    expect(body.entries.map(({ fact, state, reason }: never) => [fact, state, reason])).toEqual([
      ['steal', 'refused', 'by.role must be measuring'],
      ['a', 'taken', null],
      ['bench', 'refused', expect.stringMatching(/^kind home.checked is written by/)],
      ['strike', 'refused', expect.stringMatching(/may not strike session.opened/)],
      ['opened', 'refused', 'id opened is another fact'],
    ]);
    expect((await factsOf()).map(({ id }) => id)).toEqual(['opened', 'a']);
  });

  it('no station can write in the server’s hand', async () => {
    const other = await running.station(['measuring']);
    const from = await new Wire(running.url, `session/${session}/1`, { cookie: other.cookie }).open();
    const structs = [item(any(floor('x', 'measuring-3')), { origin: { client: clientOf(1), clock: 0 } })];
    from.sendUpdate(craft({ sections: [{ client: clientOf(0), clock: 0, structs }] }));
    const { refused } = await from.hears('refused');
    expect(refused).toMatchObject({ code: 'identity', field: 'client' });
    expect((await factsOf()).map(({ id }) => id)).toEqual(['opened']);
    from.close();
  });

  it('takes in a session that the station had opened itself, and none that nobody opened', async () => {
    const second = await running.station(['desk']);
    const cookie = second.cookie;
    await corner('POST', '/stations/3/revoke', {});
    const [begun, never] = [newSession(), newSession()];
    const note = entry('n', 'desk', 'desk-3', { kind: 'home.checked', note: 'x' });
    await handIn([opened('o', 'desk-3', '3-1'), note], begun, cookie);
    await handIn([note], never, cookie);
    expect((await corner('POST', `/quarantine/3/${begun}/take`, {})).status).toBe(200);
    expect((await factsOf(begun)).map(({ id }) => id)).toEqual(['o', 'n']);
    expect((await corner('POST', `/quarantine/3/${never}/take`, {})).body.error.code).toBe('no-session');
    expect((await corner('GET', `/quarantine/3/${never}`)).body.backlog.waiting).toBe(1);
  });

  it('throws away what it has seen and no more; it stays to be exported for a month, then it is gone', async () => {
    await revoke();
    await handIn([mine('a'), mine('b')]);
    expect((await corner('POST', `${at()}/throw-away`, { count: 1 })).body.error.code).toBe('changed');
    expect((await corner('POST', `${at()}/throw-away`, {})).status).toBe(400);
    const { body } = await corner('POST', `${at()}/throw-away`, { count: 2 });
    expect(body.backlog).toMatchObject({ waiting: 0, thrown: 2 });
    expect((await told()).map(({ state }: { state: string }) => state)).toEqual(['thrown', 'thrown']);
    expect((await factsOf()).map(({ id }) => id)).toEqual(['opened']);
    const file = await corner('GET', `${at()}/export`);
    expect(file.body).toMatchObject({
      format: 'fibula-quarantine/1',
      device: 'measuring-2',
      ticket: '1-1',
      entries: [{ fact: 'a', state: 'thrown', value: mine('a') }, { fact: 'b' }],
    });
    // Handed in again it is not offered again.
    expect((await handIn([mine('a')])).body.kept).toEqual(['a']);
    expect((await corner('GET', '')).body.waiting.entries).toBe(0);
    running.clock.aheadMs += (BOUND.quarantineDays + 1) * 86_400_000;
    await handIn([mine('c')]);
    expect((await told()).map(({ fact }: { fact: string }) => fact)).toEqual(['c']);
  });

  it('lets the station back in, which then hears what became of its entries', async () => {
    await revoke();
    await handIn([mine('a')]);
    await corner('POST', `${at()}/take`, {});
    const { secret } = (await ask('POST', '/api/let-in', undefined, { device: 'measuring-2' })).body;
    const [{ id, number }] = (await corner('GET', '/requests')).body.requests;
    await corner('POST', `/requests/${id}/approve`, { number, standing: 'revoked' });
    const { cookie } = await ask('POST', '/api/let-in/claim', undefined, { secret });
    expect((await ask('GET', '/api/quarantine', cookie)).body.entries).toEqual([
      { session, fact: 'a', state: 'taken', reason: null },
    ]);
    const back = await new Wire(running.url, `session/${session}/1`, { cookie: cookie! }).open();
    expect(idsOf(await back.document())).toEqual(['opened', 'a']);
    back.close();
  });
});
