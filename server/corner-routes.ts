/** The desk's locked corner over HTTP: its lock, the shop's stations, and who asks to be let back in. */
import type { Hono } from 'hono';
import type { Logger } from 'pino';
import { z } from 'zod';
import { CLOSE, STATION_ROLES } from '../core/index.ts';
import { body, No, NOT_FOUND } from './answer.ts';
import { need } from './asker.ts';
import { tooEasy, waitWords } from './corner.ts';
import type { Corner, Opened } from './corner.ts';
import type { Context } from 'hono';
import type { Env } from './env.ts';
import type { Hub } from './hub.ts';
import type { Keeper } from './keeper.ts';
import type { LetIn } from './let-in.ts';
import type { ListedStation, Station, Stations } from './pair.ts';
import type { Quarantine } from './quarantine.ts';
import type { Site } from './site.ts';

export interface CornerDeps {
  readonly hub: Hub;
  readonly stations: Stations;
  readonly corner: Corner;
  readonly letIn: LetIn;
  readonly quarantine: Quarantine;
  readonly keeper: Keeper;
  readonly site: Site;
  readonly log: Logger;
}

const Pin = z.string().regex(/^\d{6,12}$/, 'must be 6 to 12 digits');
const BeginBody = z.strictObject({ pin: Pin, again: Pin, old: Pin.optional() });
const UnlockBody = z.strictObject({ pin: Pin });
const Roles = z.array(z.enum(STATION_ROLES)).min(1).max(STATION_ROLES.length);
const StationBody = z.strictObject({
  name: z.string().trim().min(1).max(40).optional(),
  roles: Roles.optional(),
});
const ApproveBody = z.strictObject({
  number: z.string().regex(/^\d{4}$/, 'must be four digits'),
  standing: z.enum(['known', 'revoked', 'unknown']),
  roles: z.array(z.enum(STATION_ROLES)).max(STATION_ROLES.length).default([]),
});

const LOCKED = new No(423, 'locked', 'The desk’s corner is locked; enter the PIN first.');
const GONE = new No(404, 'gone', 'This request is no longer there; the station may ask again.');

/** A desk that has the corner open; throws a `No` otherwise. */
export function needOpen(deps: Pick<CornerDeps, 'stations' | 'corner'>, c: Context): Station {
  const station = need(deps, c, ['desk']);
  if (deps.corner.unlockedUntil(station) === null) throw LOCKED;
  return station;
}

export function cornerRoutes(app: Hono<Env>, deps: CornerDeps): void {
  lockRoutes(app, deps);
  listRoutes(app, deps);
  requestRoutes(app, deps);
}

const isoOrNull = (ms: number | null): string | null => (ms === null ? null : new Date(ms).toISOString());

function stateOf({ corner, letIn, quarantine, keeper, site }: CornerDeps, station: Station) {
  return {
    pinSet: corner.pinSet,
    unlockedUntil: isoOrNull(corner.unlockedUntil(station)),
    waitSeconds: Math.ceil(corner.waitMs() / 1_000),
    waiting: {
      requests: letIn.waiting().length,
      entries: quarantine.waiting(),
      notices: site.notices().length + (keeper.lastBackup.ok ? 0 : 1),
    },
  };
}

function lockRoutes(app: Hono<Env>, deps: CornerDeps): void {
  const { corner, log } = deps;
  app.get('/api/corner', (c) => c.json(stateOf(deps, need(deps, c, ['desk']))));
  app.post('/api/corner/pin', async (c) => {
    const station = need(deps, c, ['desk']);
    const { pin, again, old } = await body(c, BeginBody);
    if (pin !== again) throw new No(400, 'differs', 'The two PINs differ; type the same one twice.');
    const easy = tooEasy(pin);
    if (easy !== null) throw new No(400, 'easy', `This PIN is ${easy}.`);
    if (!corner.pinSet) {
      if (!(await corner.begin(station, pin))) throw new No(409, 'set', 'Another desk has just set a PIN.');
      log.warn({ station: station.number }, 'corner PIN set');
    } else {
      needOpen(deps, c);
      if (old === undefined) throw new No(400, 'shape', 'old: the present PIN is needed.');
      heard(deps, station, await corner.change(station, old, pin));
      log.warn({ station: station.number }, 'corner PIN changed');
    }
    return c.json(stateOf(deps, station));
  });
  app.post('/api/corner/unlock', async (c) => {
    const station = need(deps, c, ['desk']);
    const { pin } = await body(c, UnlockBody);
    heard(deps, station, await corner.unlock(station, pin));
    log.info({ station: station.number }, 'corner unlocked');
    return c.json(stateOf(deps, station));
  });
  app.post('/api/corner/lock', (c) => {
    const station = need(deps, c, ['desk']);
    corner.lock(station);
    return c.json(stateOf(deps, station));
  });
}

/** Throws a `No` with the reason, unless the PIN was right. */
function heard({ corner, log }: CornerDeps, station: Station, opened: Opened): void {
  if (opened === 'open') return;
  log.warn({ station: station.number, why: opened }, 'corner not opened');
  const wait = corner.waitMs();
  const then = wait > 0 ? ` Wait ${waitWords(wait)} before the next try.` : '';
  switch (opened) {
    case 'wrong':
      throw new No(403, 'wrong-pin', `This is not the PIN.${then}`);
    case 'wait':
      throw new No(429, 'wait', `Too many wrong PINs.${then}`);
    case 'no-pin':
      throw new No(409, 'no-pin', 'No PIN is set yet; set one first.');
    default:
      opened satisfies never;
  }
}

function listRoutes(app: Hono<Env>, deps: CornerDeps): void {
  const { hub, stations, corner, log } = deps;
  const find = (c: Context): ListedStation => {
    const station = stations.find(Number(c.req.param('number')));
    if (!station) throw NOT_FOUND;
    return station;
  };
  const list = (asker: Station) => {
    const connected = hub.connected();
    return {
      stations: stations.list().map((station) => ({
        ...station,
        connected: connected.has(station.number),
        own: station.number === asker.number,
      })),
    };
  };
  app.get('/api/corner/stations', (c) => c.json(list(needOpen(deps, c))));
  app.patch('/api/corner/stations/:number', async (c) => {
    const asker = needOpen(deps, c);
    const { number } = find(c);
    const { name, roles } = await body(c, StationBody);
    if (roles && number === asker.number && !roles.includes('desk'))
      throw new No(409, 'own', 'This is the desk you are at; take its role away from another desk.');
    if (name !== undefined) stations.rename(number, name);
    if (roles) stations.regrant(number, [...new Set(roles)]);
    if (name !== undefined || roles) {
      log.warn({ by: asker.number, station: number, roles }, 'station changed');
      hub.disconnect(number, CLOSE.again, 'This station was changed at the desk.');
    }
    // With other roles its pairing is the same, so the desk that changes itself keeps the corner open.
    corner.used(asker);
    return c.json(list(asker));
  });
  app.post('/api/corner/stations/:number/revoke', (c) => {
    const asker = needOpen(deps, c);
    const { number } = find(c);
    if (number === asker.number)
      throw new No(409, 'own', 'This is the desk you are at; revoke it from another desk.');
    stations.revoke(number);
    log.warn({ by: asker.number, station: number }, 'station revoked');
    hub.disconnect(number, CLOSE.unpaired, 'This station was revoked at the desk.');
    corner.used(asker);
    return c.json(list(asker));
  });
}

function requestRoutes(app: Hono<Env>, deps: CornerDeps): void {
  const { corner, letIn, log } = deps;
  app.get('/api/corner/requests', (c) => {
    needOpen(deps, c);
    return c.json({ requests: letIn.waiting() });
  });
  app.post('/api/corner/requests/:id/approve', async (c) => {
    const asker = needOpen(deps, c);
    const seen = await body(c, ApproveBody);
    if (seen.standing === 'unknown' && seen.roles.length === 0)
      throw new No(400, 'shape', 'roles: a station that this shop does not know needs at least one.');
    const id = c.req.param('id');
    const done = letIn.approve(id, { ...seen, roles: [...new Set(seen.roles)] });
    log.warn({ by: asker.number, request: id, standing: seen.standing, done }, 'request to be let back in');
    if (done === 'gone') throw GONE;
    if (done === 'changed')
      throw new No(409, 'changed', 'This request is no longer as it was shown; look at it again.');
    corner.used(asker);
    return c.json({ requests: letIn.waiting() });
  });
  app.post('/api/corner/requests/:id/refuse', (c) => {
    const asker = needOpen(deps, c);
    if (!letIn.refuse(c.req.param('id'))) throw GONE;
    corner.used(asker);
    return c.json({ requests: letIn.waiting() });
  });
}
