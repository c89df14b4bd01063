/** Photos on the server: bare of all but the picture, for the stations at work only, and gone when erased. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { LIMIT } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { BOUND } from '../../server/limits.ts';
import { bareJpegFile, barePngFile, jpegFile, pngFile, SECRET, webpFile } from '../helpers/picture-files.ts';
import { newSession, run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

let running: Running;
let desk: Station;
let floor: Station;
let session: string;

beforeEach(async () => {
  running = await run();
  [desk, floor] = [await running.station(['desk']), await running.station(['measuring'])];
  session = await opened('c1');
});
afterEach(() => running.close());

async function opened(ref: string): Promise<string> {
  const id = newSession();
  const room = await desk.enter(id);
  await room.add('desk', 'session.opened', { ticket: '1-1', clientRef: ref, service: 'cuffs' });
  room.close();
  return id;
}

const hash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const BARE = hash(bareJpegFile);

async function ask(method: string, path: string, by?: Station, file?: Uint8Array, origin = running.url) {
  const response = await fetch(`${running.url}/api/sessions/${path}`, {
    method,
    headers: { origin, ...(by ? { cookie: by.cookie } : {}) },
    ...(file ? { body: Buffer.from(file) } : {}),
  });
  const bytes = Buffer.from(await response.arrayBuffer());
  const isJson = response.headers.get('content-type')?.includes('json') ?? false;
  const said = isJson ? (JSON.parse(bytes.toString()) as { error?: { code: string }; sha256?: string }) : {};
  return {
    status: response.status,
    headers: response.headers,
    bytes,
    sha256: said.sha256,
    code: said.error?.code,
  };
}
const put = (file: Uint8Array, by = floor, to = session) => ask('POST', `${to}/photos`, by, file);
const get = (sha256: string, by = floor, from = session) => ask('GET', `${from}/photos/${sha256}`, by);
const stored = () => running.query('SELECT session, sha256, type FROM photos ORDER BY sha256');

describe('[PHO-6] a photo', () => {
  it('is kept under the hash of the picture alone, and given back as that', async () => {
    const answer = await put(jpegFile);
    expect(answer).toMatchObject({ status: 200, sha256: BARE });
    expect(await put(jpegFile)).toMatchObject({ status: 200, sha256: BARE });
    expect(await put(bareJpegFile)).toMatchObject({ status: 200, sha256: BARE });
    expect(stored()).toEqual([{ session, sha256: BARE, type: 'image/jpeg' }]);
    const back = await get(BARE);
    expect(back.bytes.equals(Buffer.from(bareJpegFile))).toBe(true);
    expect(back.headers.get('content-type')).toBe('image/jpeg');
    expect(back.headers.get('cache-control')).toBe('no-store');
    expect(back.headers.get('x-content-type-options')).toBe('nosniff');
    for (const file of [pngFile, webpFile]) expect((await put(file)).status).toBe(200);
    for (const name of ['fibula.db', 'fibula.db-wal'])
      if (existsSync(join(running.data, name)))
        expect(readFileSync(join(running.data, name)).includes(SECRET)).toBe(false);
  });

  it('is taken from floor and bench, seen by the desk too, and by nobody else', async () => {
    const [bench, wall] = [await running.station(['bench']), await running.station(['wall'])];
    expect((await put(jpegFile, bench)).status).toBe(200);
    for (const by of [bench, floor, desk]) expect((await get(BARE, by)).status).toBe(200);
    for (const by of [wall, undefined]) {
      const status = by ? 403 : 401;
      expect((await ask('GET', `${session}/photos/${BARE}`, by)).status).toBe(status);
      expect((await ask('POST', `${session}/photos`, by, pngFile)).status).toBe(status);
      expect((await ask('DELETE', `${session}/photos/${BARE}`, by)).status).toBe(status);
    }
    expect((await put(pngFile, desk)).status).toBe(403);
    for (const method of ['POST', 'DELETE'])
      expect(
        await ask(
          method,
          `${session}/photos${method === 'POST' ? '' : `/${BARE}`}`,
          floor,
          pngFile,
          'http://elsewhere.example',
        ),
      ).toMatchObject({ status: 403, code: 'foreign-origin' });
    expect(stored()).toHaveLength(1);
  });

  it('is not of another session, nor of none', async () => {
    await put(jpegFile);
    const other = await opened('c2');
    expect((await get(BARE, floor, other)).status).toBe(404);
    expect(await put(jpegFile, floor, newSession())).toMatchObject({ status: 404, code: 'unknown-session' });
    expect((await put(jpegFile, floor, 'nowhere')).status).toBe(404);
  });

  it('is refused with its reason when it is none, not whole, or too much', async () => {
    expect(await put(Buffer.from('<svg/>'))).toMatchObject({ status: 415, code: 'no-photo' });
    expect(await put(jpegFile.slice(0, 300))).toMatchObject({ status: 400, code: 'broken-photo' });
    expect(await put(new Uint8Array(LIMIT.photoBytes + 1))).toMatchObject({ status: 413, code: 'too-large' });
    const wide = Uint8Array.from(barePngFile);
    wide.set([0, 1, 0, 0], 16);
    expect(await put(wide)).toMatchObject({ status: 413, code: 'too-many-pixels' });
    expect(stored()).toEqual([]);
  });

  it('is one too many past the number a session holds, and past what a station may send in a minute', async () => {
    const numbered = (n: number) => {
      const bytes = Uint8Array.from(bareJpegFile);
      bytes[10] = n;
      return bytes;
    };
    for (let n = 0; n < LIMIT.photosPerSession; n++) expect((await put(numbered(n))).status).toBe(200);
    expect(await put(numbered(200))).toMatchObject({ status: 409, code: 'photos-full' });
    expect((await put(numbered(0))).status).toBe(200);
    for (let n = LIMIT.photosPerSession + 2; n < BOUND.photosPerMinute; n++) await put(numbered(0));
    expect(await put(numbered(0))).toMatchObject({ status: 429 });
  });
});

describe('[PHO-7] a photo goes', () => {
  it('when it is taken back', async () => {
    await put(jpegFile);
    expect((await ask('DELETE', `${session}/photos/${BARE}`, floor)).status).toBe(200);
    expect((await get(BARE)).status).toBe(404);
    expect((await ask('DELETE', `${session}/photos/${BARE}`, floor)).status).toBe(404);
  });

  it('with the client’s personal data, and none comes after; another client’s stays', async () => {
    const other = await opened('c2');
    await put(jpegFile);
    await put(pngFile, floor, other);
    await running.server.keeper.erase('c1', false);
    expect(stored()).toEqual([{ session: other, sha256: hash(barePngFile), type: 'image/png' }]);
    expect(await get(BARE)).toMatchObject({ status: 410, code: 'erased' });
    expect(await put(jpegFile)).toMatchObject({ status: 410, code: 'erased' });
    const files = ['fibula.db', 'fibula.db-wal'].map((name) => join(running.data, name)).filter(existsSync);
    for (const file of files) expect(readFileSync(file).includes(Buffer.from(bareJpegFile))).toBe(false);
  });

  it('from backups that are rewritten; until then they hold it, and an export has it', async () => {
    await put(jpegFile);
    await running.server.keeper.check();
    const file = join(running.data, 'copy.db');
    await running.server.keeper.backup(file);
    const copy = new Database(file, { readonly: true });
    const row = copy.prepare('SELECT bytes FROM photos WHERE sha256 = ?').pluck().get(BARE) as Buffer;
    copy.close();
    expect(row.equals(Buffer.from(bareJpegFile))).toBe(true);
    const exported = running.server.keeper.export('c1');
    expect(exported?.sessions[0]?.photos).toEqual([
      { sha256: BARE, type: 'image/jpeg', base64: Buffer.from(bareJpegFile).toString('base64') },
    ]);
    const { rewritten } = (await running.server.keeper.erase('c1', true))!;
    for (const backup of rewritten)
      expect(readFileSync(backup).includes(Buffer.from(bareJpegFile))).toBe(false);
  });

  it('when its client’s data are kept long enough', async () => {
    await put(jpegFile);
    const room = await desk.enter(session);
    await room.add('desk', 'handed.over', { acknowledgedBy: 'owner' });
    room.close();
    await running.stop(); // boards write down on the way out which jobs are closed
    running = await run({ data: running.data });
    running.clock.aheadMs = 1_100 * 24 * 3_600_000;
    await running.server.keeper.check();
    expect(stored()).toEqual([]);
  });
});
