/** Codes, tokens and what a station is: by the front door, over HTTP. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createHash } from 'node:crypto';
import { CLOSE, LIMIT } from '../../core/index.ts';
import { STANDARD_LIMITS } from '../../server/limit-table.ts';
import { BOUND } from '../../server/limits.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';
import { Wire } from './helpers/wire.ts';

let running: Running;
beforeEach(async () => {
  running = await run();
});
afterEach(() => running.close());

interface Answer {
  readonly status: number;
  readonly cookie: string | undefined;
  readonly body: { readonly [key: string]: unknown; readonly error?: { code: string; text: string } };
}

async function ask(
  method: string,
  path: string,
  body?: unknown,
  headers: Record<string, string> = {},
): Promise<Answer> {
  const response = await fetch(running.url + path, {
    method,
    headers: { origin: running.url, 'content-type': 'application/json', ...headers },
    ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
  });
  const text = await response.text();
  return {
    status: response.status,
    cookie: response.headers.getSetCookie()[0],
    body: JSON.parse(text) as Answer['body'],
  };
}

const code = (...roles: Parameters<Running['server']['stations']['createCode']>[0]) =>
  running.server.stations.createCode(roles)!.code;
const pair = (body: object) => ask('POST', '/api/pair', body);
const tokenOf = (cookie: string) => /^fibula=([^;]+)/.exec(cookie)![1]!;

describe('a code', () => {
  it('is six digits and grants its roles, once', async () => {
    const made = code('measuring', 'bench');
    expect(made).toMatch(/^\d{6}$/);
    const { status, body, cookie } = await pair({ code: made, name: ' Floor tablet ' });
    expect(status).toBe(200);
    expect(body).toEqual({
      device: 'measuring-1',
      number: 1,
      name: 'Floor tablet',
      roles: ['measuring', 'bench'],
      boot: 1,
      generation: 1,
      backup: null, // only a desk is told
      protocol: 1,
      plain: true,
      shop: { name: 'Test shop', timeZone: 'Europe/Vienna' },
    });
    expect(cookie).toMatch(/; HttpOnly/);
    expect(cookie).toMatch(/; SameSite=Strict/);
    expect(cookie).toMatch(/; Path=\//);
    expect(cookie).not.toMatch(/; Secure/); // over plain http it would not come back
    expect((await pair({ code: made })).body.error?.code).toBe('wrong-code');
  });

  it('may be typed with a gap', async () => {
    const made = code('desk');
    expect((await pair({ code: `${made.slice(0, 3)} ${made.slice(3)}` })).status).toBe(200);
  });

  it('lives ten minutes', async () => {
    const [early, late] = [code('desk'), code('desk')];
    running.clock.aheadMs = LIMIT.codeMinutes * 60_000 - 1_000;
    expect((await pair({ code: early })).status).toBe(200);
    running.clock.aheadMs = LIMIT.codeMinutes * 60_000 + 1_000;
    expect((await pair({ code: late })).body.error).toMatchObject({ code: 'expired-code' });
  });

  it('is guessed ten times, then not even a good one is taken for ten minutes', async () => {
    for (let i = 0; i < LIMIT.guesses; i++)
      expect((await pair({ code: String(i).padStart(6, '9') })).body.error?.code).toBe('wrong-code');
    const good = code('desk');
    expect(await pair({ code: good })).toMatchObject({ status: 429, body: { error: { code: 'too-many' } } });
    running.clock.aheadMs = 10 * 60_000 + 1_000;
    expect((await pair({ code: code('desk') })).status).toBe(200);
  });

  it('is guessed a hundred times from everywhere', () => {
    const { stations } = running.server;
    const guess = (address: string) => stations.pair({ code: 'no', address });
    for (let i = 0; i < LIMIT.guessesInAll; i++) expect(guess(`10.0.0.${i}`)).toMatchObject({ why: 'wrong' });
    expect(guess('10.0.1.1')).toMatchObject({ why: 'too-many' });
  });

  it('is made by a desk, and by nobody else', async () => {
    const desk = await running.station(['desk']);
    const made = await desk.request<{ code: string; roles: string[]; expiresAt: string }>(
      'POST',
      '/api/codes',
      {
        roles: ['bench', 'bench'],
      },
    );
    expect(made).toMatchObject({ roles: ['bench'] });
    expect(Date.parse(made.expiresAt)).toBeGreaterThan(Date.now());
    expect((await pair({ code: made.code })).body).toMatchObject({ roles: ['bench'] });
    for (const role of ['measuring', 'bench', 'wall'] as const) {
      const { cookie } = await running.station([role]);
      expect(await ask('POST', '/api/codes', { roles: ['desk'] }, { cookie })).toMatchObject({
        status: 403,
        body: { error: { code: 'forbidden' } },
      });
    }
    expect((await ask('POST', '/api/codes', { roles: ['desk'] })).status).toBe(401);
  });

  it('does not live beside too many others', async () => {
    const desk = await running.station(['desk']);
    for (let i = 0; i < BOUND.codes; i++) code('bench');
    const { status } = await ask('POST', '/api/codes', { roles: ['desk'] }, { cookie: desk.cookie });
    expect(status).toBe(429);
  });

  it.each([
    ['letters', { code: 'abcdef' }],
    ['no code', {}],
    ['a strange field', { code: '123456', admin: true }],
    ['no JSON', '{'],
    ['a long name', { code: '123456', name: 'x'.repeat(41) }],
  ])('asked for with %s is a bad request, in words', async (_title, body) => {
    const answer = await ask('POST', '/api/pair', body);
    expect(answer.status).toBe(400);
    expect(answer.body.error?.text).toMatch(/\w+ .+\./);
  });
});

describe('a station', () => {
  it('is known by a token of which only the hash is kept', async () => {
    const { cookie } = await pair({ code: code('desk') });
    const token = tokenOf(cookie!);
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const [row] = running.query('SELECT * FROM stations');
    expect(row!['token_hash']).toEqual(createHash('sha256').update(token).digest());
    expect(JSON.stringify(row)).not.toContain(token);
    expect((await ask('GET', '/api/me', undefined, { cookie: `fibula=${token}` })).body).toMatchObject({
      device: 'desk-1',
    });
  });

  it('paired anew keeps its device id and number, takes the new roles, and the old token ends', async () => {
    const before = await running.station(['measuring']);
    const wire = await new Wire(running.url, `board/desk/${before.me.boot}`, {
      cookie: before.cookie,
    }).open();
    await wire.document();
    const { body, cookie } = await pair({ code: code('bench'), device: before.me.device });
    expect(body).toMatchObject({ device: 'measuring-1', number: 1, name: 'measuring', roles: ['bench'] });
    expect((await wire.isClosed()).code).toBe(CLOSE.again);
    expect((await ask('GET', '/api/me', undefined, { cookie: before.cookie })).status).toBe(401);
    expect((await ask('GET', '/api/me', undefined, { cookie: cookie! })).status).toBe(200);
  });

  it('with an unknown device id is a new one, and no number comes twice', async () => {
    const first = await running.station(['bench']);
    const { body } = await pair({ code: code('bench'), device: 'bench-99' });
    expect(body).toMatchObject({ device: 'bench-2', number: 2 });
    expect(first.me.number).toBe(1);
  });

  it('is still paired after a restart', async () => {
    const { cookie, me } = await running.station(['wall']);
    await running.stop();
    const again = await run({ data: running.data });
    const answer = await fetch(`${again.url}/api/me`, { headers: { cookie } });
    expect(await answer.json()).toEqual({ ...me, boot: 2 });
    await again.stop();
  });
});

describe('a change', () => {
  it.each([
    ['another site', { origin: 'http://elsewhere.example' }],
    ['a page of nowhere', { origin: 'null' }],
    ['https in the place of http', { origin: 'https://127.0.0.1' }],
  ])('from %s is refused', async (_title, headers) => {
    const { cookie } = await running.station(['desk']);
    const answer = await ask('POST', '/api/codes', { roles: ['desk'] }, { cookie, ...headers });
    expect(answer).toMatchObject({ status: 403, body: { error: { code: 'foreign-origin' } } });
  });

  it('that says neither Origin nor Sec-Fetch-Site is refused, and one that says same-origin is not', async () => {
    const { cookie } = await running.station(['desk']);
    const bare = (headers: Record<string, string>) =>
      fetch(`${running.url}/api/codes`, {
        method: 'POST',
        headers: { cookie, 'content-type': 'application/json', ...headers },
        body: JSON.stringify({ roles: ['wall'] }),
      });
    expect((await bare({})).status).toBe(403);
    expect((await bare({ 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await bare({ 'sec-fetch-site': 'same-origin' })).status).toBe(200);
  });

  it('of too many bytes is refused', async () => {
    const { cookie } = await running.station(['desk']);
    const answer = await ask(
      'PUT',
      '/api/people/c1',
      { name: 'x'.repeat(STANDARD_LIMITS.bodyBytes) },
      { cookie },
    );
    expect(answer).toMatchObject({ status: 413, body: { error: { code: 'too-large' } } });
  });
});

describe('people', () => {
  const put = (cookie: string, ref: string, body: object) =>
    ask('PUT', `/api/people/${ref}`, body, { cookie });

  it('are written by the desk, found by desk and floor, and the bench sees no contact', async () => {
    const desk = await running.station(['desk']);
    const floor = await running.station(['measuring']);
    const bench = await running.station(['bench']);
    const person = { ref: 'c1', name: 'Zoë Example', contact: 'zoe@example.org', language: 'de' };
    expect((await put(desk.cookie, 'c1', person)).status).toBe(400); // ref is in the address
    const { ref, ...rest } = person;
    expect((await put(desk.cookie, ref, rest)).body).toEqual(person);
    expect(await floor.request('GET', '/api/people/c1')).toEqual(person);
    expect(await bench.request('GET', '/api/people/c1')).toEqual({ ...person, contact: '' });
    expect(await floor.request('GET', '/api/people?q=zoe%20ex')).toEqual({ people: [person] });
    expect(await floor.request('GET', '/api/people?q=%25')).toEqual({ people: [] });
    expect((await ask('GET', '/api/people?q=', undefined, { cookie: bench.cookie })).status).toBe(403);
    expect((await put(floor.cookie, 'c1', { name: 'x' })).status).toBe(403);
    const wall = await running.station(['wall']);
    expect((await ask('GET', '/api/people/c1', undefined, { cookie: wall.cookie })).status).toBe(403);
  });

  it('are at most twenty a search, the lately changed first', async () => {
    const { cookie } = await running.station(['desk']);
    for (let i = 0; i < 25; i++) {
      running.clock.aheadMs = i * 1_000;
      await put(cookie, `p${i}`, { name: `Person ${i}` });
    }
    const { body } = await ask('GET', '/api/people?q=person', undefined, { cookie });
    const refs = (body['people'] as { ref: string }[]).map(({ ref }) => ref);
    expect(refs).toEqual(Array.from({ length: BOUND.people }, (_, i) => `p${24 - i}`));
  });
});

describe('a session', () => {
  it('tells its room and its file to those who may', async () => {
    const desk = await running.station(['desk']);
    const bench = await running.station(['bench']);
    const session = newSession();
    expect(await bench.request('GET', `/api/sessions/${session}/room`)).toEqual({
      room: `session/${session}/1`,
      known: false,
      erased: false,
    });
    const none = await ask('GET', '/api/sessions/nonsense/room', undefined, { cookie: desk.cookie });
    expect(none).toMatchObject({ status: 404, body: { error: { code: 'unknown-session' } } });
    await put1(desk.cookie);
    const room = await desk.enter(session);
    await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: 'c1', service: 'cuffs' });
    room.close();
    expect(await bench.request('GET', `/api/sessions/${session}/room`)).toEqual({
      room: `session/${session}/1`,
      known: true,
      erased: false,
    });
    expect(await desk.request('GET', `/api/sessions/${session}/export`)).toMatchObject({
      format: 'fibula-session/1',
      person: { name: 'Ada Example', contact: '', language: 'en' },
      facts: [{ kind: 'session.opened', by: { role: 'desk', station: desk.me.device } }],
    });
    const { status } = await ask('GET', `/api/sessions/${session}/export`, undefined, {
      cookie: bench.cookie,
    });
    expect(status).toBe(403);
  });
  const put1 = (cookie: string) =>
    ask('PUT', '/api/people/c1', { name: 'Ada Example', language: 'en' }, { cookie });
});

describe('a page', () => {
  it('and every answer forbid what is not ours', async () => {
    for (const path of ['/', '/healthz', '/api/me', '/nowhere']) {
      const { headers } = await fetch(running.url + path);
      expect(headers.get('content-security-policy')).toMatch(/default-src 'none'.*script-src 'self'/);
      expect(headers.get('content-security-policy')).not.toMatch(/script-src[^;]*unsafe/);
      expect(headers.get('x-content-type-options')).toBe('nosniff');
      expect(headers.get('referrer-policy')).toBe('no-referrer');
    }
  });

  it('says so when it was not built, and the server lives', async () => {
    expect((await fetch(`${running.url}/`)).status).toBe(503);
    expect((await ask('GET', '/healthz')).body).toMatchObject({ ok: true, protocol: 1 });
  });

  it('an unknown route of the API answers like the rest of it', async () => {
    expect(await ask('GET', '/api/nothing')).toMatchObject({
      status: 404,
      body: { error: { code: 'not-found' } },
    });
  });
});
