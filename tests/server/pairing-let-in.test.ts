/** A station that has lost its token and still knows who it is: back in by the desk's word, and only so. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { CLOSE } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { BOUND } from '../../server/limits.ts';
import { asker } from './helpers/asks.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

const PIN = '271828';
let running: Running;
let desk: Station;
beforeEach(async () => {
  running = await run();
  desk = await running.station(['desk']);
  await corner('POST', '/pin', { pin: PIN, again: PIN });
});
afterEach(() => running.close());

const ask = asker(() => running.url);
const corner = (method: string, path: string, body?: unknown) =>
  ask(method, `/api/corner${path}`, desk.cookie, body);
const knock = (device: string) => ask('POST', '/api/let-in', undefined, { device });
const claim = (secret: string) => ask('POST', '/api/let-in/claim', undefined, { secret });
const waiting = async () => (await corner('GET', '/requests')).body.requests;
const approve = (id: string, body: object) => corner('POST', `/requests/${id}/approve`, body);

it('gets its token once, with device id, number, name and roles as they were, and the older token ends', async () => {
  const floor = await running.station(['measuring', 'bench']);
  const { body: asked } = await knock(floor.me.device);
  expect(asked.number).toMatch(/^\d{4}$/);
  expect((await claim(asked.secret)).body).toEqual({ state: 'waiting' });
  expect((await corner('GET', '')).body.waiting).toEqual({ requests: 1, entries: 0, notices: 0 });
  const [request] = await waiting();
  expect(request).toEqual({
    id: expect.any(String),
    number: asked.number,
    device: 'measuring-2',
    address: '127.0.0.1',
    askedMs: expect.any(Number),
    expiresMs: expect.any(Number),
    standing: 'known',
    name: 'measuring and bench',
    roles: ['measuring', 'bench'],
    revokedMs: null,
  });
  expect(JSON.stringify(request)).not.toContain(asked.secret);
  const wire = await new Wire(running.url, `board/desk/${floor.me.boot}`, { cookie: floor.cookie }).open();
  await wire.document();
  // Roles asked for count for nothing where the device is known.
  expect((await approve(request.id, { ...request_(request), roles: ['desk'] })).body.requests).toEqual([]);
  const got = await claim(asked.secret);
  expect(got.body).toMatchObject({
    state: 'in',
    me: { device: 'measuring-2', number: 2, name: 'measuring and bench', roles: ['measuring', 'bench'] },
  });
  expect((await ask('GET', '/api/me', got.cookie)).status).toBe(200);
  expect((await ask('GET', '/api/me', floor.cookie)).status).toBe(401);
  expect((await wire.isClosed()).code).toBe(CLOSE.again);
  expect((await claim(asked.secret)).body).toEqual({ state: 'gone' });
});

const request_ = ({ number, standing }: { number: string; standing: string }) => ({ number, standing });

it('is not let in by another number, by a word given twice, or after a no', async () => {
  const floor = await running.station(['measuring']);
  const { body: asked } = await knock(floor.me.device);
  const [request] = await waiting();
  const other = asked.number === '0000' ? '0001' : '0000';
  expect((await approve(request.id, { number: other, standing: 'known' })).body.error.code).toBe('changed');
  expect((await approve('ffff', request_(request))).body.error.code).toBe('gone');
  expect((await corner('POST', `/requests/${request.id}/refuse`, {})).status).toBe(200);
  expect((await approve(request.id, request_(request))).body.error.code).toBe('gone');
  expect((await claim(asked.secret)).body).toEqual({ state: 'refused' });
  expect((await claim('guessed')).body).toEqual({ state: 'gone' });
  expect((await ask('GET', '/api/me', floor.cookie)).status).toBe(200);
});

it('revoked, comes in only by a desk that saw it was revoked', async () => {
  const floor = await running.station(['measuring']);
  const { body: asked } = await knock(floor.me.device);
  const [before] = await waiting();
  await corner('POST', '/stations/2/revoke', {});
  expect((await approve(before.id, request_(before))).body.error.code).toBe('changed');
  const [now] = await waiting();
  expect(now).toMatchObject({ standing: 'revoked', revokedMs: expect.any(Number), name: 'measuring' });
  await approve(now.id, request_(now));
  expect((await claim(asked.secret)).body).toMatchObject({ state: 'in', me: { number: 2 } });
  expect((await ask('GET', '/api/me', floor.cookie)).body.error.code).toBe('unpaired');
});

it('revoked between the yes and the token, stays out', async () => {
  const floor = await running.station(['measuring']);
  const { body: asked } = await knock(floor.me.device);
  const [request] = await waiting();
  await approve(request.id, request_(request));
  await corner('POST', '/stations/2/revoke', {});
  expect((await claim(asked.secret)).body).toEqual({ state: 'gone' });
  expect((await ask('GET', '/api/me', floor.cookie)).body.error.code).toBe('revoked');
});

it('unknown to this server, becomes a station with the roles the desk gives, under the id it had', async () => {
  const { body: asked } = await knock('bench-4');
  const [request] = await waiting();
  expect(request).toMatchObject({ standing: 'unknown', name: null, roles: [] });
  expect((await approve(request.id, request_(request))).status).toBe(400);
  await approve(request.id, { ...request_(request), roles: ['bench'] });
  expect((await claim(asked.secret)).body).toMatchObject({
    state: 'in',
    me: { device: 'bench-4', number: 2, roles: ['bench'] },
  });
  // Its id is taken, so the station that would have got it by its number gets the next.
  const numbers: [string, number][] = [];
  for (let i = 0; i < 3; i++) {
    const { me } = await running.station(['bench']);
    numbers.push([me.device, me.number]);
  }
  expect(numbers).toEqual([
    ['bench-3', 3],
    ['bench-5', 5],
    ['bench-6', 6],
  ]);
});

it('is shown with numbers that differ; requests are few, and end', async () => {
  expect((await knock('floor tablet')).status).toBe(400);
  // One page loaded again and again is one request.
  for (let i = 0; i < BOUND.letInsPerAddress; i++) expect((await knock('bench-2')).status).toBe(200);
  expect(await waiting()).toHaveLength(1);
  expect((await knock('bench-3')).body.error.code).toBe('too-many');
  running.clock.aheadMs += BOUND.letInMinutes * 60_000 + 1_000;
  await corner('POST', '/unlock', { pin: PIN });
  expect(await waiting()).toEqual([]);

  const { letIn } = running.server;
  const from = (device: string, i: number) => letIn.ask({ device, address: `10.0.0.${i}` });
  for (let i = 0; i < BOUND.letInsPerDevice; i++) expect(from('bench-2', i).ok).toBe(true);
  expect(from('bench-2', 99).ok).toBe(false);
  for (let i = BOUND.letInsPerDevice; i < BOUND.letIns; i++) expect(from(`bench-${i + 9}`, i).ok).toBe(true);
  expect(from('bench-99', 99).ok).toBe(false);
  const numbers = letIn.waiting().map(({ number }) => number);
  expect(new Set(numbers).size).toBe(BOUND.letIns);
});
