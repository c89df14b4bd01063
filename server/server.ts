/** The server, put together: data, hub, pages and door. Everything of the world comes in as an argument. */
import { existsSync, mkdirSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { dirname, join, resolve } from 'node:path';
import { getRequestListener } from '@hono/node-server';
import type { Logger } from 'pino';
import { serverCertificate } from './certificates.ts';
import type { ServerCertificate } from './certificates.ts';
import { plainDoor, plainPages, secureDoor } from './door.ts';
import type { Door } from './door.ts';
import { entrance } from './entrance.ts';
import { gate } from './gate.ts';
import { createApp } from './http.ts';
import { Hub } from './hub.ts';
import { lockDirectory } from './lock.ts';
import { countBoot, shopOf } from './meta.ts';
import type { Shop } from './meta.ts';
import { listenToOperator } from './operator.ts';
import type { Operator } from './operator.ts';
import type { Origins } from './origins.ts';
import type { Outside } from './outside.ts';
import { Stations } from './pair.ts';
import { People } from './people.ts';
import { openDatabase, syncDirectory, UnusableData } from './schema.ts';
import { Store } from './store.ts';
import type { Trust } from './trust.ts';

export interface ServerOptions {
  /** 0 for any free one. */
  readonly port: number;
  /** Where to listen; undefined for every interface. */
  readonly host: string | undefined;
  /** Data directory; made when missing. */
  readonly data: string;
  /** Plain http in the place of https. */
  readonly plain: boolean;
  /** The name or address that stations use. */
  readonly canonical: string;
  /** This machine's names and addresses, asked again before a renewal. */
  names(): readonly string[];
  readonly pages: string;
  readonly shop: Partial<Shop>;
  readonly firstShop: Shop;
}

export interface RunningServer {
  readonly port: number;
  /** The one address that stations use. */
  readonly address: string;
  readonly shop: Shop;
  readonly stations: Stations;
  /** SHA-256 of the shop's authority; null over plain http. */
  readonly fingerprint: string | null;
  /** Names that need a new authority. */
  readonly uncovered: readonly string[];
  /** Does `work` when the server begins to stop. */
  whenStopped(work: () => void): void;
  /** @returns the sessions of which something could not be stored. */
  stop(): Promise<readonly string[]>;
}

const RENEWAL_CHECK_MS = 6 * 3_600_000;

export async function startServer(
  options: ServerOptions,
  outside: Outside,
  log: Logger,
): Promise<RunningServer> {
  const data = resolve(options.data);
  makeDirectory(data);
  const lock = lockDirectory(data);
  try {
    return await run({ ...options, data }, outside, log, () => lock.release());
  } catch (error) {
    lock.release();
    throw error;
  }
}

function makeDirectory(directory: string): void {
  if (existsSync(directory)) return;
  try {
    mkdirSync(directory, { recursive: true, mode: 0o700 });
    syncDirectory(dirname(directory));
  } catch (error) {
    throw new UnusableData(`${directory} cannot be made: ${String(error)}.`, { cause: error });
  }
}

async function run(
  options: ServerOptions,
  outside: Outside,
  log: Logger,
  release: () => void,
): Promise<RunningServer> {
  const { data, plain } = options;
  const certificate = plain ? null : await serverCertificate(join(data, 'tls'), options.names(), outside);
  const db = openDatabase(data);
  const boot = countBoot(db);
  const now = () => outside.now();
  const shop = shopOf(db, options.shop, options.firstShop);
  const atStop: (() => void)[] = [];
  const stations = new Stations(db, outside);
  const hub = new Hub({ store: new Store(db, now), log, gate, boot, now });
  const origins: Origins = {
    scheme: plain ? 'http' : 'https',
    names: new Set([...options.names(), options.canonical]),
  };
  const door: { address: string } = { address: '' };
  const trust = certificate && trustOf(certificate, stations, door);
  const app = createApp({
    hub,
    stations,
    people: new People(db, now),
    origins,
    boot,
    log,
    trust,
    now,
    shop,
    pages: options.pages,
  });
  const listener = getRequestListener(app.fetch);
  const upgrade = entrance({ hub, stations, origins, log });
  const open: Door =
    certificate && trust
      ? secureDoor(certificate, listener, upgrade, getRequestListener(plainPages(trust).fetch))
      : plainDoor(listener, upgrade);
  const port = await listen(open, options);
  door.address = `${origins.scheme}://${bracketed(options.canonical)}:${port}`;
  const operator = await listenToOperator(data, stations);
  const renewal = setInterval(() => void renew(options, outside, log, open), RENEWAL_CHECK_MS).unref();
  log.info({ address: door.address, boot, data }, 'listening');
  return {
    port,
    address: door.address,
    shop,
    stations,
    fingerprint: certificate?.fingerprint ?? null,
    uncovered: certificate?.uncovered ?? [],
    whenStopped: (work) => void atStop.push(work),
    stop: once(async () => {
      clearInterval(renewal);
      for (const work of atStop) work();
      return stop(hub, open, operator, log, () => {
        db.close();
        release();
      });
    }),
  };
}

const trustOf = (certificate: ServerCertificate, stations: Stations, door: { address: string }): Trust => ({
  certificate: certificate.authority,
  fingerprint: certificate.fingerprint,
  get address() {
    return door.address;
  },
  isOpen: () => stations.codeAlive(),
});

function listen({ server }: Door, { port, host }: ServerOptions): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ port, host }, () => {
      server.off('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });
}

/** A server that runs for months outlives its certificate, and a router gives it new addresses. */
async function renew(
  { data, names, plain }: ServerOptions,
  outside: Outside,
  log: Logger,
  door: Door,
): Promise<void> {
  if (plain) return;
  try {
    door.renew(await serverCertificate(join(data, 'tls'), names(), outside));
  } catch (error) {
    log.error({ err: error }, 'the certificate could not be renewed');
  }
}

/** Milliseconds that stations get to answer a close before their sockets are ended. */
const GOODBYE_MS = 500;

async function stop(
  hub: Hub,
  door: Door,
  operator: Operator,
  log: Logger,
  release: () => void,
): Promise<readonly string[]> {
  const unsaved = hub.stop();
  await hub.gone(GOODBYE_MS);
  hub.terminate();
  await Promise.all([door.close(), operator.close()]);
  release();
  log.info({ unsaved }, 'stopped');
  return unsaved;
}

const bracketed = (name: string): string => (name.includes(':') ? `[${name}]` : name);

const once = <T>(work: () => Promise<T>): (() => Promise<T>) => {
  let result: Promise<T> | undefined;
  return () => (result ??= work());
};
