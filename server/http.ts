/** Pages and the HTTP API. `docs/protocol.md` lists the routes. */
import { Hono } from 'hono';
import type { Context } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import type { Logger } from 'pino';
import { z } from 'zod';
import { CLOSE, PROTOCOL, STATION_ROLES } from '../core/index.ts';
import type { Archive } from './archive.ts';
import { archiveRoutes } from './archive-routes.ts';
import { body, No, NOT_FOUND, refusal } from './answer.ts';
import { keepCookie, me, need, tokenOf } from './asker.ts';
import type { Env } from './env.ts';
import type { Corner } from './corner.ts';
import { cornerRoutes, needOpen } from './corner-routes.ts';
import { cornerKeepingRoutes } from './corner-keeping-routes.ts';
import type { Health } from './health.ts';
import type { Hub } from './hub.ts';
import type { LetIn } from './let-in.ts';
import type { LearnedReport } from './learned-report.ts';
import { learnedRoutes } from './learned-routes.ts';
import type { Legs } from './legs.ts';
import type { Lessons } from './lessons.ts';
import { letInRoutes } from './let-in-routes.ts';
import type { Keeper } from './keeper.ts';
import { clientRoutes } from './client-routes.ts';
import type { Limits } from './limit-table.ts';
import { BOUND } from './limits.ts';
import type { Shop } from './meta.ts';
import { modelRoutes, tableBody, takesTable } from './model-routes.ts';
import type { Models } from './models.ts';
import { isOurHost, isSameOrigin } from './origins.ts';
import type { Origins } from './origins.ts';
import { secureHeaders, servePages } from './pages.ts';
import { photoBody, photoRoutes, takesPhoto } from './photo-routes.ts';
import type { Photos } from './photos.ts';
import type { Stations } from './pair.ts';
import type { People, Person } from './people.ts';
import type { Quarantine } from './quarantine.ts';
import { quarantineRoutes } from './quarantine-routes.ts';
import type { Openings } from './opening.ts';
import type { Numbers } from './numbers.ts';
import { numbersRoutes } from './numbers-routes.ts';
import type { Queue } from './queue.ts';
import { queueRoutes } from './queue-routes.ts';
import { siteRoutes } from './site-routes.ts';
import type { Site } from './site.ts';
import { TROUBLE_TEXT } from './trouble.ts';
import { studyRoutes } from './study-routes.ts';
import { settingsRoutes } from './settings-routes.ts';
import { SpoiltSession } from './spoilt.ts';
import type { Studies } from './studies.ts';
import type { ShopSettings } from './shop-settings.ts';
import { trustRoutes } from './trust.ts';
import type { Trust } from './trust.ts';

export interface HttpDeps {
  readonly hub: Hub;
  readonly health: Health;
  readonly stations: Stations;
  readonly people: People;
  readonly archive: Archive;
  readonly photos: Photos;
  readonly models: Models;
  readonly corner: Corner;
  readonly letIn: LetIn;
  readonly quarantine: Quarantine;
  readonly settings: ShopSettings;
  readonly studies: Studies;
  readonly queue: Queue;
  readonly numbers: Numbers;
  readonly openings: Openings;
  readonly keeper: Keeper;
  readonly lessons: Lessons;
  readonly legs: Legs;
  readonly report: LearnedReport;
  readonly origins: Origins;
  readonly shop: Shop;
  readonly boot: number;
  /** Of new sessions. */
  readonly generation: number;
  readonly log: Logger;
  readonly limits: Limits;
  /** The built pages: a directory with `index.html`, `measuring/index.html` and so on. */
  readonly pages: string;
  /** Null over plain http. */
  readonly trust: Trust | null;
  readonly site: Site;
  now(): number;
}

const key = z.string().regex(/^[A-Za-z0-9_-]{1,40}$/);
const PairBody = z.strictObject({
  code: z
    .string()
    .transform((text) => text.replace(/\s/g, ''))
    .pipe(z.string().regex(/^\d{6}$/, 'must be six digits')),
  name: z.string().trim().min(1).max(40).optional(),
  device: z.string().max(64).optional(),
});
const CodesBody = z.strictObject({ roles: z.array(z.enum(STATION_ROLES)).min(1).max(STATION_ROLES.length) });
const PersonBody = z.strictObject({
  name: z.string().trim().min(1).max(200),
  contact: z.string().trim().max(500).default(''),
  language: z.string().trim().max(35).default(''),
});

export function createApp(deps: HttpDeps): Hono<Env> {
  const app = new Hono<Env>();
  app.onError((error, c) => answerError(deps, error, c));
  app.notFound((c) =>
    c.req.path.startsWith('/api/') ? refusal(c, NOT_FOUND) : c.text('There is no such page.\n', 404),
  );
  app.use(secureHeaders(deps.origins));
  app.use(async (c, next) => {
    if (!isOurHost(deps.origins, c.req.header('host')))
      throw new No(421, 'unknown-host', 'This server does not answer to that name.');
    await next();
  });
  const short = bodyLimit({ maxSize: deps.limits.bodyBytes, onError: tooLarge(deps.limits.bodyBytes) });
  const handIn = bodyLimit({ maxSize: BOUND.handInBytes, onError: tooLarge(BOUND.handInBytes) });
  app.use('/api/*', (c, next) =>
    (c.req.path === '/api/quarantine'
      ? handIn
      : takesPhoto(c.req.path)
        ? photoBody
        : takesTable(c.req.path)
          ? tableBody
          : short)(c, next),
  );
  app.use('/api/*', async (c, next) => {
    const reads = c.req.method === 'GET' || c.req.method === 'HEAD';
    if (!reads && !isSameOrigin(deps.origins, (name) => c.req.header(name)))
      throw new No(403, 'foreign-origin', 'Changes are taken from this server’s own pages only.');
    await next();
    c.header('Cache-Control', 'no-store');
  });
  const startedMs = deps.now();
  app.get('/healthz', (c) =>
    c.json({
      ok: true,
      protocol: PROTOCOL,
      uptimeSeconds: Math.max(0, Math.floor((deps.now() - startedMs) / 1000)),
    }),
  );
  stationRoutes(app, deps);
  peopleRoutes(app, deps);
  clientRoutes(app, deps);
  archiveRoutes(app, deps);
  sessionRoutes(app, deps);
  photoRoutes(app, deps);
  modelRoutes(app, deps);
  learnedRoutes(app, deps);
  cornerRoutes(app, deps);
  cornerKeepingRoutes(app, deps);
  letInRoutes(app, deps);
  quarantineRoutes(app, deps);
  settingsRoutes(app, deps);
  studyRoutes(app, deps);
  queueRoutes(app, deps);
  numbersRoutes(app, deps);
  siteRoutes(app, deps);
  if (deps.trust) trustRoutes(app, deps.trust);
  servePages(app, deps.pages);
  return app;
}

const tooLarge = (bytes: number) => (): never => {
  throw new No(413, 'too-large', `A request has at most ${bytes} bytes.`);
};

const ENDED_EARLY = new No(400, 'ended-early', 'The request ended before it was whole.');

function answerError({ log, health }: HttpDeps, error: Error, c: Context<Env>) {
  if (error instanceof No) return refusal(c, error);
  // Whoever asked went away in the middle of it: nobody failed, and nobody hears the answer.
  const { incoming } = c.env;
  if (incoming.destroyed && !incoming.complete) return refusal(c, ENDED_EARLY);
  if (error instanceof SpoiltSession)
    return refusal(c, new No(503, 'damaged', `${error.message} The server’s console says what to do.`));
  const trouble = health.failed(error);
  if (trouble !== null) return refusal(c, new No(503, 'read-only', TROUBLE_TEXT[trouble]));
  log.error({ err: error, method: c.req.method, path: c.req.path.slice(0, 80) }, 'request failed');
  return refusal(c, new No(500, 'failed', 'The server failed on this; its log says how.'));
}

const PAIR_ERRORS = {
  wrong: new No(403, 'wrong-code', 'This code is not known; a code works once.'),
  expired: new No(403, 'expired-code', 'This code has expired; ask for a new one.'),
  'too-many': new No(429, 'too-many', 'Too many wrong codes; wait ten minutes.'),
} as const;

function stationRoutes(app: Hono<Env>, deps: HttpDeps): void {
  const { stations, log } = deps;
  app.post('/api/pair', async (c) => {
    const asked = await body(c, PairBody);
    const address = c.env.incoming.socket.remoteAddress ?? '';
    const paired = stations.pair({ ...asked, address });
    if (!paired.ok) {
      log.warn({ address, why: paired.why }, 'pairing refused');
      throw PAIR_ERRORS[paired.why];
    }
    const { station, token } = paired;
    log.info({ station: station.number, device: station.device, roles: station.roles }, 'paired');
    deps.hub.disconnect(station.number, CLOSE.again, 'This station was paired anew.');
    keepCookie(deps, c, token);
    return c.json(me(deps, station));
  });
  app.get('/api/me', (c) => {
    const station = need(deps, c);
    keepCookie(deps, c, tokenOf(c)!);
    return c.json(me(deps, station));
  });
  app.post('/api/codes', async (c) => {
    // A shop that has locked its corner gives codes there; one that has set no PIN has nothing locked yet.
    const station = deps.corner.pinSet ? needOpen(deps, c) : need(deps, c, ['desk']);
    deps.corner.used(station);
    const { roles } = await body(c, CodesBody);
    const code = stations.createCode([...new Set(roles)]);
    if (!code)
      throw new No(429, 'too-many', 'Too many codes are waiting to be used; wait until some expire.');
    log.info({ station: station.number, roles }, 'code made');
    return c.json({ code: code.code, roles: code.roles, expiresAt: new Date(code.expiresMs).toISOString() });
  });
}

function peopleRoutes(app: Hono<Env>, deps: HttpDeps): void {
  const { people } = deps;
  app.get('/api/people', (c) => {
    need(deps, c, ['desk', 'measuring']);
    return c.json({ people: people.search((c.req.query('q') ?? '').slice(0, 200)) });
  });
  app.get('/api/people/:ref', (c) => {
    const station = need(deps, c, ['desk', 'measuring', 'bench']);
    const person = people.get(c.req.param('ref'));
    if (!person) throw NOT_FOUND;
    const mayContact = station.roles.some((role) => role === 'desk' || role === 'measuring');
    return c.json<Person>(mayContact ? person : { ...person, contact: '' });
  });
  app.put('/api/people/:ref', async (c) => {
    need(deps, c, ['desk']);
    const ref = key.safeParse(c.req.param('ref'));
    if (!ref.success) throw new No(400, 'shape', 'ref: must be 1 to 40 letters, digits, _ or -.');
    return c.json<Person>(people.put({ ref: ref.data, ...(await body(c, PersonBody)) }));
  });
}

function sessionRoutes(app: Hono<Env>, deps: HttpDeps): void {
  const { hub, people } = deps;
  const find = (session: string) => {
    const read = hub.read(session);
    if (!read) throw new No(404, 'unknown-session', 'There is no such session.');
    return read;
  };
  app.get('/api/sessions/:id/room', (c) => {
    need(deps, c, ['desk', 'measuring', 'bench']);
    const session = c.req.param('id');
    if (!/^[0-9a-f]{32}$/.test(session)) throw new No(404, 'unknown-session', 'There is no such session.');
    return c.json(hub.roomOf(session));
  });
  app.get('/api/sessions/:id/export', (c) => {
    need(deps, c, ['desk']);
    const { facts } = find(c.req.param('id'));
    const opened = facts.find((fact) => fact.kind === 'session.opened');
    const person = opened?.kind === 'session.opened' ? people.get(opened.clientRef) : undefined;
    const { name, contact, language } = person ?? {};
    return c.json({
      format: 'fibula-session/1',
      ...(person ? { person: { name, contact, language } } : {}),
      facts,
    });
  });
}
