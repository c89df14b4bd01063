/**
 * Photos over HTTP, for the stations that work on a boot. A wall screen sees none.
 *
 * A photo may come before the entry that names it or after: both wait on a tablet that is away, and neither is of use
 * without the other.
 */
import type { Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import type { Logger } from 'pino';
import { LIMIT } from '../core/index.ts';
import { No, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import type { Env } from './env.ts';
import type { Hub } from './hub.ts';
import { BOUND, Rate } from './limits.ts';
import type { Stations } from './pair.ts';
import type { Photos, Put } from './photos.ts';

export interface PhotoDeps {
  readonly hub: Hub;
  readonly stations: Stations;
  readonly photos: Photos;
  readonly log: Logger;
  now(): number;
}

const WRONG: Readonly<Record<(Put & { ok: false })['why'], No>> = {
  unknown: new No(415, 'no-photo', 'A photo is a JPEG, PNG or still WebP; this is none.'),
  broken: new No(400, 'broken-photo', 'This picture is not whole.'),
  'too-large': new No(
    413,
    'too-many-pixels',
    `A photo has at most ${LIMIT.photoSidePx} pixels along its longer side.`,
  ),
  'session-full': new No(
    409,
    'photos-full',
    `A session holds ${LIMIT.photosPerSession} photos; take some of them back.`,
  ),
  full: new No(507, 'all-photos-full', 'The server holds as many photos as it may; erase old clients’ data.'),
};

/** Whether this path takes a photo, and so a larger body than the rest. */
export const takesPhoto = (path: string): boolean => /^\/api\/sessions\/[^/]+\/photos$/.test(path);

export const photoBody = bodyLimit({
  maxSize: LIMIT.photoBytes,
  onError: () => {
    throw new No(413, 'too-large', `A photo has at most ${LIMIT.photoBytes} bytes.`);
  },
});

export function photoRoutes(app: Hono<Env>, { hub, stations, photos, log, now }: PhotoDeps): void {
  const rates = new Map<number, Rate>();
  /** The session asked for, if it is there and its photos were not erased. */
  const sessionOf = (c: Context): string => {
    const session = c.req.param('id') ?? '';
    const { known, erased } = /^[0-9a-f]{32}$/.test(session)
      ? hub.roomOf(session)
      : { known: false, erased: false };
    if (erased) throw new No(410, 'erased', 'The photos of this session were erased.');
    if (!known) throw new No(404, 'unknown-session', 'There is no such session.');
    return session;
  };
  app.post('/api/sessions/:id/photos', async (c) => {
    const { number } = need({ stations }, c, ['measuring', 'bench']);
    const rate = rates.get(number) ?? new Rate(BOUND.photosPerMinute, 60_000);
    rates.set(number, rate);
    if (!rate.take(now())) throw new No(429, 'too-many', 'Too many photos; wait a minute.');
    sessionOf(c);
    const file = new Uint8Array(await c.req.arrayBuffer());
    // Asked again: an erasure may have come in between.
    const session = sessionOf(c);
    const put = photos.put(session, file);
    if (!put.ok) throw WRONG[put.why];
    log.info({ station: number, session, bytes: put.photo.length }, 'photo stored');
    return c.json(put.photo);
  });
  app.get('/api/sessions/:id/photos/:sha256', (c) => {
    need({ stations }, c, ['desk', 'measuring', 'bench']);
    const photo = photos.get(sessionOf(c), c.req.param('sha256'));
    if (!photo) throw NOT_FOUND;
    return c.body(new Uint8Array(photo.bytes), 200, { 'Content-Type': photo.type });
  });
  app.delete('/api/sessions/:id/photos/:sha256', (c) => {
    const { number } = need({ stations }, c, ['desk', 'measuring', 'bench']);
    const session = sessionOf(c);
    if (!photos.remove(session, c.req.param('sha256'))) throw NOT_FOUND;
    log.info({ station: number, session }, 'photo removed');
    return c.json({ ok: true });
  });
}
