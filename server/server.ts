/** The server, put together: data, hub, pages and door. Everything of the world comes in as an argument. */
import type { RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { resolve } from 'node:path';
import { getRequestListener } from '@hono/node-server';
import type { Logger } from 'pino';
import { Archive } from './archive.ts';
import { Corner } from './corner.ts';
import { authorityCommands } from './authority-commands.ts';
import { openData, takeDirectory } from './data.ts';
import { plainDoor, plainPages, secureDoor } from './door.ts';
import type { Door, Watch } from './door.ts';
import { entrance } from './entrance.ts';
import type { Upgrade } from './entrance.ts';
import { Crowd } from './crowd.ts';
import { gate } from './gate.ts';
import type { Health } from './health.ts';
import { DEFAULT_KEEPING, Keeper } from './keeper.ts';
import type { KeepingOptions } from './keeper.ts';
import { Ledger } from './ledger.ts';
import { createApp } from './http.ts';
import { Hub } from './hub.ts';
import { LetIn } from './let-in.ts';
import { countBoot, keepShop, remember, remembered, shopOf } from './meta.ts';
import type { Shop } from './meta.ts';
import type { Limits } from './limit-table.ts';
import { LearnedReport } from './learned-report.ts';
import { Learned } from './learned.ts';
import { Legs } from './legs.ts';
import { Lessons } from './lessons.ts';
import { keepingCommands, stationCommands } from './operator-commands.ts';
import { Numbers } from './numbers.ts';
import { Openings } from './opening.ts';
import { listenToOperator } from './operator.ts';
import type { Outside } from './outside.ts';
import { Stations } from './pair.ts';
import type { Station } from './pair.ts';
import { Models } from './models.ts';
import { OwnFacts } from './own-facts.ts';
import { People } from './people.ts';
import { Photos } from './photos.ts';
import { Quarantine } from './quarantine.ts';
import { Queue } from './queue.ts';
import type { Db } from './schema.ts';
import { School } from './school.ts';
import { ShopSettings } from './shop-settings.ts';
import type { Notice } from './notices.ts';
import { Site } from './site.ts';
import type { Memory, SiteOptions } from './site.ts';
import { Store } from './store.ts';
import { Studies } from './studies.ts';
import type { Thorough } from './thorough.ts';
import { Unread } from './unread.ts';
import type { Trust } from './trust.ts';
import { Turns } from './turns.ts';

export interface ServerOptions extends SiteOptions {
  /** Where to listen; undefined for every interface. */
  readonly host: string | undefined;
  readonly pages: string;
  readonly shop: Partial<Shop>;
  readonly firstShop: Shop;
  readonly keeping?: KeepingOptions;
  readonly limits: Limits;
  /** Millions of bytes free on the disk under which people are warned. */
  readonly lowSpaceMb?: number | undefined;
  /** For the person at the console. */
  readonly say?: (text: string) => void;
  /** Whether the lock on the data directory, a file, keeps other processes out; not asked where this is missing. */
  readonly keepsOthersOut?: (lock: string) => boolean;
}

export interface RunningServer {
  readonly port: number;
  /** The one address that stations use. */
  readonly address: string;
  readonly shop: Shop;
  /** What its pages and API answer to, methods in capitals; `ALL` for what looks at every request. */
  readonly routes: readonly { readonly method: string; readonly path: string }[];
  readonly stations: Stations;
  readonly letIn: LetIn;
  /** The open database and how its disk does. */
  readonly db: Db;
  readonly health: Health;
  readonly thorough: Thorough;
  readonly keeper: Keeper;
  /** SHA-256 of the shop's authority; null over plain http. */
  readonly fingerprint: string | null;
  /** What the shop should know or do about address and certificates now. */
  notices(): readonly Notice[];
  /** Looks at clock, names and certificates at once, as it does each minute by itself. */
  look(): Promise<void>;
  /** @returns the sessions of which something could not be stored. */
  stop(): Promise<readonly string[]>;
}

/** Above every count of starts, and twice it is still a whole number that JSON keeps. */
const UNCOUNTED = 2 ** 40;

/** Throws `UnusableData` when `data` cannot be used, and the system's error when the port cannot. */
export async function startServer(
  options: ServerOptions,
  outside: Outside,
  log: Logger,
): Promise<RunningServer> {
  const opened = new Opened();
  try {
    return await run({ ...options, data: resolve(options.data) }, outside, log, opened);
  } catch (error) {
    await opened.close();
    throw error;
  }
}

/** What was opened, to be closed the other way round, once. */
class Opened {
  readonly #closers: (() => unknown)[] = [];

  /** Remembers how to close what was just opened. */
  onClose(close: () => unknown): void {
    this.#closers.push(close);
  }

  async close(): Promise<void> {
    for (let close = this.#closers.pop(); close; close = this.#closers.pop()) await close();
  }
}

async function run(
  options: ServerOptions,
  outside: Outside,
  log: Logger,
  opened: Opened,
): Promise<RunningServer> {
  const { data, limits } = options;
  const onClose = (close: () => unknown) => opened.onClose(close);
  takeDirectory(data, onClose, options.keepsOthersOut);
  const site = await Site.open(options, outside, log);
  const { origins } = site;
  const { db, health, thorough, spoilt } = openData(
    { ...options, backups: options.keeping?.backups },
    log,
    onClose,
  );
  const now = () => outside.now();
  // A number that no start has counted to: on a full disk this run is not counted.
  const boot = health.attempt(
    () => countBoot(db),
    () => UNCOUNTED + outside.randomInt(UNCOUNTED),
  );
  const shop = shopOf(db, options.shop, options.firstShop);
  health.attempt(
    () => keepShop(db, shop),
    () => undefined,
  );
  const stations = new Stations(db, outside);
  const people = new People(db, now);
  const photos = new Photos(db, now);
  const models = new Models(db, now);
  const studies = new Studies(db, now);
  const ledger = new Ledger(data, now);
  opened.onClose(() => ledger.close());
  const keeper = new Keeper(
    {
      db,
      ledger,
      data,
      timeZone: shop.timeZone,
      log,
      now,
      regenerate: (change, reason) => hub.regenerate(change, reason),
      attempt: (write) => health.attempt(write, () => undefined),
      onBackup: (state) => health.noteBackup(state),
    },
    options.keeping ?? DEFAULT_KEEPING,
  );
  opened.onClose(() => keeper.stop());
  const store = new Store(db, now, shop.timeZone);
  const isCurrent = (station: Station) => stations.isCurrent(station);
  const settings = new ShopSettings(db, outside);
  const lessons = new Lessons(db, now);
  const learned = new Learned(db);
  const legs = new Legs(db);
  const ownFacts = new OwnFacts({
    settings,
    learned,
    legs,
    now,
    failed: (error) => {
      if (health.failed(error) === null) log.error({ err: error }, 'what was learned could not be read');
    },
  });
  const turns = new Turns(db, (document) => store.factTimes(document));
  const openings = new Openings(db, shop.timeZone);
  const school: School = new School(lessons, turns, {
    log,
    health,
    read: (session) => hub.read(session),
    together: (writes) => db.transaction(writes).immediate(),
  });
  const hub: Hub = new Hub({
    store,
    log,
    gate,
    isCurrent,
    health,
    spoilt,
    own: (...of) => ownFacts.behind(...of),
    learn: (session) => school.learn(session),
    boot,
    limits,
    now,
  });
  opened.onClose(() => school.stop());
  opened.onClose(() => hub.stop());
  school.begin();

  const unread = new Unread({ db, people, health, log, timeZone: shop.timeZone });
  opened.onClose(() => unread.stop());

  const queue = new Queue({ turns, openings, rows: () => hub.jobs(), now });
  const numbers = new Numbers(db, {
    turns,
    openings,
    lessons,
    timeZone: shop.timeZone,
    rows: () => hub.jobs(),
    now,
  });
  const corner = new Corner(db, outside);
  const letIn = new LetIn(stations, outside);
  const quarantine = new Quarantine(db, now);

  const trust = site.trust(() => stations.codeAlive());
  const app = createApp({
    hub,
    health,
    settings,
    queue,
    numbers,
    openings,
    stations,
    people,
    archive: new Archive(db),
    photos,
    models,
    studies,
    corner,
    letIn,
    quarantine,
    keeper,
    lessons,
    legs,
    report: new LearnedReport(db, learned),
    origins,
    shop,
    boot,
    generation: store.base,
    log,
    limits,
    trust,
    site,
    now,
    pages: options.pages,
  });
  const crowd = new Crowd(limits, now, log);
  const door = doorOf(
    site,
    trust,
    getRequestListener(app.fetch),
    entrance({ hub, health, stations, origins, crowd, log }),
    { limits, crowd },
  );
  const port = await listen(door, options);
  opened.onClose(() => door.close());
  site.begin(port, memoryOf(db, health), shop.timeZone, (certificate) => door.renew(certificate));
  opened.onClose(() => site.close());
  const operator = await listenToOperator(data, {
    ...stationCommands({ stations, corner, health, log }),
    ...keepingCommands(keeper),
    ...authorityCommands(site),
  });
  opened.onClose(() => operator.close());

  keeper.start();

  log.info({ address: site.address, boot, data }, 'listening');
  return {
    port,
    get address() {
      return site.address;
    },
    shop,
    routes: app.routes.map(({ method, path }) => ({ method, path })),
    stations,
    letIn,
    db,
    health,
    thorough,
    keeper,
    get fingerprint() {
      return site.certificate?.fingerprint ?? null;
    },
    notices: () => site.notices(),
    look: () => site.look(),
    stop: once(() => stop(hub, opened, log)),
  };
}

const memoryOf = (db: Db, health: Health): Memory => ({
  get: (key) => remembered(db, key),
  set: (key, value) =>
    health.attempt(
      () => remember(db, key, value),
      () => undefined,
    ),
});

const doorOf = (
  { tls }: Site,
  trust: Trust | null,
  listener: RequestListener,
  upgrade: Upgrade,
  watch: Watch,
): Door =>
  tls && trust
    ? secureDoor(tls, listener, upgrade, getRequestListener(plainPages(trust).fetch), watch)
    : plainDoor(listener, upgrade, watch);

function listen({ server }: Door, { port, host }: ServerOptions): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, host }, () => {
      server.off('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });
}

/** Milliseconds that stations get to answer a close before their sockets are ended. */
const GOODBYE_MS = 500;

async function stop(hub: Hub, opened: Opened, log: Logger): Promise<readonly string[]> {
  const unsaved = hub.stop();
  await hub.gone(GOODBYE_MS);
  hub.terminate();
  await opened.close();
  log.info({ unsaved }, 'stopped');
  return unsaved;
}

const once = <T>(work: () => Promise<T>): (() => Promise<T>) => {
  let result: Promise<T> | undefined;
  return () => (result ??= work());
};
