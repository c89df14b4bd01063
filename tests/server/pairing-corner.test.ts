/** The desk's locked corner: its PIN, what is done behind it, and who gets no further than the door. */
import { spawn } from 'node:child_process';
import { scryptSync } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CLOSE } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { waitWords } from '../../server/corner.ts';
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
});
afterEach(() => running.close());

const ask = asker(() => running.url);
const corner = (method: string, path = '', body?: unknown, cookie = desk.cookie) =>
  ask(method, `/api/corner${path}`, cookie, body);
const begin = (pin = PIN) => corner('POST', '/pin', { pin, again: pin });
const unlock = (pin = PIN, cookie = desk.cookie) => corner('POST', '/unlock', { pin }, cookie);
const board = async ({ me, cookie }: Station) => {
  const wire = await new Wire(running.url, `board/desk/${me.boot}`, { cookie }).open();
  await wire.document();
  return wire;
};

/** Every route behind the lock, with a body that would do. */
const ROUTES = [
  ['GET', '/stations'],
  ['PATCH', '/stations/1', { name: 'x' }],
  ['POST', '/stations/2/revoke', {}],
  ['GET', '/requests'],
  ['PUT', '/settings', {}],
  ['POST', '/requests/abc/approve', { number: '0000', standing: 'known' }],
  ['POST', '/requests/abc/refuse', {}],
  ['GET', '/quarantine'],
  ['GET', `/quarantine/1/${'a'.repeat(32)}`],
  ['GET', `/quarantine/1/${'a'.repeat(32)}/export`],
  ['POST', `/quarantine/1/${'a'.repeat(32)}/take`, {}],
  ['POST', `/quarantine/1/${'a'.repeat(32)}/throw-away`, { count: 1 }],
] as const;

describe('the lock', () => {
  it('is closed to every station that is no desk, and to a desk before the PIN', async () => {
    const bench = await running.station(['bench', 'measuring']);
    await begin();
    await corner('POST', '/lock', {});
    for (const [method, path, body] of ROUTES) {
      expect((await corner(method, path, body, '')).status, path).toBe(401);
      expect((await corner(method, path, body, bench.cookie)).body.error.code, path).toBe('forbidden');
      expect((await corner(method, path, body)).body.error.code, path).toBe('locked');
    }
    expect((await corner('GET', '', undefined, bench.cookie)).status).toBe(403);
    // A code is something the corner gives, too, once there is a PIN.
    expect((await ask('POST', '/api/codes', desk.cookie, { roles: ['desk'] })).body.error.code).toBe(
      'locked',
    );
    await unlock();
    expect((await ask('POST', '/api/codes', desk.cookie, { roles: ['desk'] })).status).toBe(200);
  });

  it('takes its first PIN from whoever has the desk, typed twice, and then from nobody', async () => {
    expect((await corner('GET')).body).toMatchObject({ pinSet: false, unlockedUntil: null });
    const twice = await corner('POST', '/pin', { pin: PIN, again: '271829' });
    expect(twice.body.error).toEqual({
      code: 'differs',
      text: 'The two PINs differ; type the same one twice.',
    });
    for (const easy of ['111111', '123456', '987654'])
      expect((await begin(easy)).body.error.code, easy).toBe('easy');
    expect((await begin('12345')).body.error.code).toBe('shape');
    expect((await unlock()).body.error.code).toBe('no-pin');
    expect((await begin()).body).toMatchObject({ pinSet: true, unlockedUntil: expect.any(String) });
    await corner('POST', '/lock', {});
    expect((await begin('314159')).body.error.code).toBe('locked');
    expect((await unlock('314159')).body.error.code).toBe('wrong-pin');
    expect((await unlock()).status).toBe(200);
  });

  it('changes its PIN for one who knows the old one, and locks everybody else out', async () => {
    await begin();
    const other = await running.station(['desk']);
    expect((await unlock(PIN, other.cookie)).status).toBe(200);
    const change = (old: string) => corner('POST', '/pin', { old, pin: '314159', again: '314159' });
    expect((await change('000000')).body.error.code).toBe('wrong-pin');
    expect((await change(PIN)).status).toBe(200);
    expect((await corner('GET', '/stations')).status).toBe(200);
    expect((await corner('GET', '/stations', undefined, other.cookie)).body.error.code).toBe('locked');
    expect((await unlock(PIN, other.cookie)).status).toBe(403);
    expect((await unlock('314159', other.cookie)).status).toBe(200);
  });

  it('keeps the PIN as scrypt with its cost and a salt, and nothing else of it', async () => {
    await begin();
    const [row] = running.query(`SELECT value FROM meta WHERE key = 'corner.pin'`);
    const { kdf, N, r, p, salt, key } = JSON.parse(String(row!['value'])) as Record<string, never>;
    expect({ kdf, N, r, p }).toEqual({ kdf: 'scrypt', N: 32_768, r: 8, p: 3 });
    const again = scryptSync(PIN, Buffer.from(salt!, 'base64'), 32, { N, r, p, maxmem: 2 ** 26 });
    expect(again.toString('base64')).toBe(key);
    expect(JSON.stringify(running.query('SELECT * FROM meta'))).not.toContain(PIN);
    expect(JSON.stringify(running.log)).not.toContain(PIN);
  });

  it('makes guesses wait, longer each time, also after a restart, and many at once gain nothing', async () => {
    await begin();
    await corner('POST', '/lock', {});
    const wrong = await Promise.all(Array.from({ length: 20 }, (_, i) => unlock(String(500_000 + i * 7))));
    const heard = wrong.filter(({ status }) => status === 403);
    expect(heard).toHaveLength(BOUND.pinFree + 1);
    expect(wrong.filter(({ status }) => status === 429)).toHaveLength(20 - BOUND.pinFree - 1);
    const waiting = await unlock();
    expect(waiting.body.error).toMatchObject({
      code: 'wait',
      text: expect.stringMatching(/^Too many wrong PINs. Wait \d+ seconds before the next try\.$/),
    });
    expect((await corner('GET')).body.waitSeconds).toBeGreaterThan(20);

    running.clock.aheadMs += 31_000;
    expect((await unlock('500000')).body.error.text).toMatch(
      /^This is not the PIN. Wait \d+ seconds? before/,
    );
    running.clock.aheadMs += 31_000;
    expect((await unlock()).body.error.code).toBe('wait');
    await running.stop();
    const again = await run({ data: running.data });
    again.clock.aheadMs = running.clock.aheadMs;
    running = again;
    expect((await unlock()).body.error.code).toBe('wait');
    running.clock.aheadMs += 31_000;
    expect((await unlock()).status).toBe(200);
    expect((await corner('GET')).body.waitSeconds).toBe(0);
  });

  it('says a wait in words', () => {
    expect([1, 30_000, 61_000, 3_600_000].map(waitWords)).toEqual([
      '1 second',
      '30 seconds',
      '2 minutes',
      '60 minutes',
    ]);
  });

  it('is open to one station, for minutes after the last act, and looking does not count', async () => {
    await begin();
    const other = await running.station(['desk']);
    expect((await corner('GET', '/stations', undefined, other.cookie)).body.error.code).toBe('locked');
    const minutes = (n: number) => (running.clock.aheadMs += n * 60_000);
    minutes(BOUND.cornerMinutes - 1);
    expect((await corner('PATCH', '/stations/1', { name: 'The desk' })).status).toBe(200);
    minutes(BOUND.cornerMinutes - 1);
    expect((await corner('GET', '/stations')).status).toBe(200);
    minutes(2);
    expect((await corner('GET', '/stations')).body.error.code).toBe('locked');
    await unlock();
    await corner('POST', '/lock', {});
    expect((await corner('GET', '/stations')).body.error.code).toBe('locked');
    // A clock that was set back does not hold it open.
    await unlock();
    minutes(-60);
    expect((await corner('GET', '/stations')).body.error.code).toBe('locked');
  });
});

describe('stations', () => {
  it('are listed with what a person needs to tell them apart, and no token', async () => {
    const bench = await running.station(['bench']);
    const wire = await board(bench);
    await begin();
    const { body } = await corner('GET', '/stations');
    expect(body.stations).toEqual([
      {
        number: 1,
        device: 'desk-1',
        name: 'desk',
        roles: ['desk'],
        pairedMs: expect.any(Number),
        seenMs: expect.any(Number),
        revokedMs: null,
        connected: false,
        own: true,
      },
      expect.objectContaining({
        number: 2,
        device: 'bench-2',
        roles: ['bench'],
        connected: true,
        own: false,
      }),
    ]);
    wire.close();
  });

  it('renamed and given other work, come back as what they are now', async () => {
    const bench = await running.station(['bench']);
    const wire = await board(bench);
    await begin();
    const changed = await corner('PATCH', '/stations/2', { name: ' Press ', roles: ['bench', 'measuring'] });
    expect(changed.body.stations[1]).toMatchObject({ name: 'Press', roles: ['bench', 'measuring'] });
    expect((await wire.isClosed()).code).toBe(CLOSE.again);
    expect((await ask('GET', '/api/me', bench.cookie)).body).toMatchObject({
      device: 'bench-2',
      name: 'Press',
      roles: ['bench', 'measuring'],
    });
    expect((await corner('PATCH', '/stations/9', { name: 'x' })).status).toBe(404);
    expect((await corner('PATCH', '/stations/2', { roles: ['owner'] })).status).toBe(400);
  });

  it('revoked, lose socket and token at once, and hear why; the number and the entry in the list stay', async () => {
    const bench = await running.station(['bench']);
    const wire = await board(bench);
    await begin();
    const { body } = await corner('POST', '/stations/2/revoke', {});
    expect(body.stations[1]).toMatchObject({ number: 2, revokedMs: expect.any(Number), connected: false });
    expect(await wire.isClosed()).toEqual({
      code: CLOSE.unpaired,
      reason: 'This station was revoked at the desk.',
    });
    expect((await ask('GET', '/api/me', bench.cookie)).body.error.code).toBe('revoked');
    const again = await new Wire(running.url, `board/desk/${bench.me.boot}`, { cookie: bench.cookie }).open();
    expect((await again.isClosed()).code).toBe(CLOSE.unpaired);
    expect((await ask('GET', '/api/people?q=', bench.cookie)).status).toBe(401);
    expect((await running.station(['bench'])).me.number).toBe(3);
  });

  it('revoked, stay so over a restart', async () => {
    const bench = await running.station(['bench']);
    await begin();
    await corner('POST', '/stations/2/revoke', {});
    await running.stop();
    running = await run({ data: running.data });
    expect((await ask('GET', '/api/me', bench.cookie)).body.error.code).toBe('revoked');
  });

  it('never lock the desk out: its own is neither revoked nor robbed of its role', async () => {
    await begin();
    expect((await corner('POST', '/stations/1/revoke', {})).body.error.code).toBe('own');
    expect((await corner('PATCH', '/stations/1', { roles: ['bench'] })).body.error.code).toBe('own');
    expect((await ask('GET', '/api/me', desk.cookie)).status).toBe(200);
  });
});

describe('a forgotten PIN', () => {
  const command = (data: string) =>
    new Promise<{ status: number | null; said: string }>((resolve) => {
      const child = spawn(process.execPath, ['server/setup/pin.mjs', '--data', data]);
      let said = '';
      for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => (said += String(part)));
      child.once('close', (status) => resolve({ status, said }));
    });

  it('is ended by whoever owns the data directory; everything is locked, and a new one is set at the desk', async () => {
    await begin();
    const { status, said } = await command(running.data);
    expect({ status, said }).toEqual({ status: 0, said: expect.stringMatching(/^The PIN is forgotten/) });
    expect((await corner('GET')).body).toMatchObject({ pinSet: false, unlockedUntil: null });
    expect((await corner('GET', '/stations')).body.error.code).toBe('locked');
    expect((await begin('314159')).status).toBe(200);
    await running.stop();
    expect(await command(running.data)).toEqual({ status: 1, said: `No server runs on ${running.data}.\n` });
  });
});
