/** The quarantine over HTTP: a revoked station hands in what it holds, and the desk decides on it. */
import type { Context, Hono } from 'hono';
import type { Logger } from 'pino';
import { z } from 'zod';
import { body, No, NOT_FOUND } from './answer.ts';
import { tokenOf } from './asker.ts';
import type { Corner } from './corner.ts';
import { needOpen } from './corner-routes.ts';
import type { Env } from './env.ts';
import type { Hub } from './hub.ts';
import { BOUND, Rate } from './limits.ts';
import { writingRoles } from './pair.ts';
import type { Station, Stations } from './pair.ts';
import type { Backlog, Quarantine } from './quarantine.ts';

export interface QuarantineDeps {
  readonly hub: Hub;
  readonly stations: Stations;
  readonly corner: Corner;
  readonly quarantine: Quarantine;
  readonly log: Logger;
  now(): number;
}

const HandInBody = z.strictObject({
  session: z.string().regex(/^[0-9a-f]{32}$/, 'must be a session id'),
  facts: z.array(z.unknown()).min(1).max(BOUND.handInFacts),
});
const ThrowBody = z.strictObject({ count: z.int().positive() });
/** Facts that are taken in by one update: well under what one update may hold. */
const AT_ONCE = 50;

export function quarantineRoutes(app: Hono<Env>, deps: QuarantineDeps): void {
  stationRoutes(app, deps);
  deskRoutes(app, deps);
}

function stationRoutes(app: Hono<Env>, deps: QuarantineDeps): void {
  const { stations, quarantine, log } = deps;
  const rates = new Map<number, Rate>();
  /** A revoked station; throws a `No` for any other. */
  const revoked = (c: Context): Station => {
    const station = stations.revoked(tokenOf(c));
    if (!station) throw new No(401, 'unpaired', 'Only a revoked station hands its entries in here.');
    const rate = rates.get(station.number) ?? new Rate(BOUND.handInsPerMinute, 60_000);
    rates.set(station.number, rate);
    if (!rate.take(deps.now())) throw new No(429, 'too-many', 'Too many requests; wait a minute.');
    return station;
  };
  app.post('/api/quarantine', async (c) => {
    const station = revoked(c);
    const { session, facts } = await body(c, HandInBody);
    const { kept, refused, full } = quarantine.handIn(station, session, facts);
    log.warn(
      { station: station.number, session, kept: kept.length, refused: refused.length, full },
      'handed in to quarantine',
    );
    return c.json({ kept, refused, full });
  });
  // A station that was let back in asks too: what the desk threw away must not come again by itself.
  app.get('/api/quarantine', (c) => {
    const station = stations.authenticate(tokenOf(c)) ?? revoked(c);
    return c.json({ entries: quarantine.told(station.number) });
  });
}

function deskRoutes(app: Hono<Env>, deps: QuarantineDeps): void {
  const { hub, stations, corner, quarantine, log } = deps;
  const ticketOf = (session: string): string | null => {
    const opened = hub.read(session)?.facts.find((fact) => fact.kind === 'session.opened');
    return opened?.kind === 'session.opened' ? opened.ticket : null;
  };
  const said = (backlog: Backlog) => {
    const station = stations.find(backlog.station);
    const { device = '', name = '', revokedMs = null } = station ?? {};
    return { ...backlog, device, name, revokedMs, ticket: ticketOf(backlog.session) };
  };
  const at = '/api/corner/quarantine/:station/:session' as const;
  const named = (c: Context) => {
    const [number, session] = [Number(c.req.param('station')), c.req.param('session') ?? ''];
    const backlog = quarantine.backlogs().find((one) => one.station === number && one.session === session);
    const station = stations.find(number);
    if (!backlog || !station) throw NOT_FOUND;
    return { backlog, station, session, entries: quarantine.entries(number, session) };
  };
  app.get('/api/corner/quarantine', (c) => {
    needOpen(deps, c);
    return c.json({ backlogs: quarantine.backlogs().map(said) });
  });
  app.get(at, (c) => {
    needOpen(deps, c);
    const { backlog, entries } = named(c);
    return c.json({ backlog: said(backlog), entries });
  });
  app.get(`${at}/export`, (c) => {
    const asker = needOpen(deps, c);
    const { backlog, station, session, entries } = named(c);
    corner.used(asker);
    c.header('Content-Disposition', `attachment; filename="quarantine-${station.device}-${session}.json"`);
    return c.json({ format: 'fibula-quarantine/1', ...said(backlog), entries });
  });
  app.post(`${at}/take`, (c) => {
    const asker = needOpen(deps, c);
    const { station, session } = named(c);
    takeIn(deps, station.number, session);
    log.warn({ by: asker.number, station: station.number, session }, 'quarantine taken in');
    corner.used(asker);
    const { backlog, entries } = named(c);
    return c.json({ backlog: said(backlog), entries });
  });
  app.post(`${at}/throw-away`, async (c) => {
    const asker = needOpen(deps, c);
    const { count } = await body(c, ThrowBody);
    const { backlog, station, session } = named(c);
    if (count !== backlog.waiting)
      throw new No(409, 'changed', 'There are more or fewer entries than were shown; look again.');
    quarantine.throwAway(station.number, session);
    log.warn({ by: asker.number, station: station.number, session, count }, 'quarantine thrown away');
    corner.used(asker);
    const after = named(c);
    return c.json({ backlog: said(after.backlog), entries: after.entries });
  });
}

/** In parts, each on disk before it is written down as taken: a part taken twice is there already, and does no harm. */
function takeIn({ hub, stations, quarantine }: QuarantineDeps, number: number, session: string): void {
  const station = stations.find(number)!;
  const author = { station: station.device, roles: writingRoles(station) };
  const facts = quarantine.undecided(number, session);
  for (let i = 0; i < facts.length; i += AT_ONCE) {
    const taken = hub.takeIn(session, facts.slice(i, i + AT_ONCE), author);
    if (!taken)
      throw new No(
        409,
        'no-session',
        'There is no such session, and these entries do not open it; or the disk did not take them. They stay here.',
      );
    quarantine.decided(number, session, taken);
  }
}
