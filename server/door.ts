/**
 * The one port. Over TLS it is the whole server; a plain connection to it is for devices that do not trust the
 * server yet: they may load the shop's certificate authority, and are sent to the real address for all else.
 */
import { createServer as createHttpServer } from 'node:http';
import type { Server as HttpServer, RequestListener } from 'node:http';
import { createServer as createHttpsServer } from 'node:https';
import type { Server as HttpsServer } from 'node:https';
import { createServer } from 'node:net';
import type { Server, Socket } from 'node:net';
import { Hono } from 'hono';
import { PROTOCOL } from '../core/index.ts';
import type { Crowd } from './crowd.ts';
import { turnAway } from './entrance.ts';
import type { Env } from './env.ts';
import type { Limits } from './limit-table.ts';
import { secureHeaders } from './pages.ts';
import { trustRoutes } from './trust.ts';
import type { Trust } from './trust.ts';
import type { Upgrade } from './entrance.ts';

/** First byte of a TLS handshake record. */
const TLS_HANDSHAKE = 0x16;

export interface Door {
  /** The listening server. */
  readonly server: Server;
  /** Takes a renewed certificate into use for new connections. */
  renew(tls: { cert: string; key: string }): void;
  /** Takes no more connections, and ends those still open. */
  close(): Promise<void>;
}

/** What holds for every connection, before it is known who it is. */
export interface Watch {
  readonly limits: Limits;
  readonly crowd: Crowd;
}

/** Milliseconds between looks at requests that are too slow. */
const SLOW_CHECK_MS = 1_000;
/** Headers a request may have; no browser sends half as many. */
const HEADERS = 100;

const serverOptions = ({ headerSeconds, requestSeconds, headerBytes }: Limits) => ({
  headersTimeout: headerSeconds * 1000,
  requestTimeout: requestSeconds * 1000,
  connectionsCheckingInterval: SLOW_CHECK_MS,
  maxHeaderSize: headerBytes,
});

function watched<S extends HttpServer | HttpsServer>(server: S, { stalledSeconds }: Limits): S {
  server.timeout = stalledSeconds * 1000;
  server.maxHeadersCount = HEADERS;
  return server;
}

export interface DoorTls {
  readonly cert: string;
  readonly key: string;
  /** Asked before each connection: settles when the certificate may be shown; undefined when it may at once. */
  fresh(): Promise<void> | undefined;
}

/** One port for https, and for the few pages in `plainListener`. */
export function secureDoor(
  tls: DoorTls,
  listener: RequestListener,
  upgrade: Upgrade,
  plainListener: RequestListener,
  { limits, crowd }: Watch,
): Door {
  const handshakeTimeout = limits.handshakeSeconds * 1000;
  const options = serverOptions(limits);
  const secure = watched(
    createHttpsServer({ ...tls, ...options, handshakeTimeout }, crowd.slow(listener)).on('upgrade', upgrade),
    limits,
  );
  const plain = watched(
    createHttpServer(options, crowd.slow(plainListener)).on('upgrade', (_request, socket) => {
      socket.on('error', () => undefined); // it has gone: nothing to say to it
      turnAway(socket, '426 Upgrade Required');
    }),
    limits,
  );
  const server = createServer((socket) => sortByFirstByte(socket, secure, plain, tls, handshakeTimeout));
  counted(server, { limits, crowd });
  return {
    server,
    renew: (renewed) => secure.setSecureContext(renewed),
    close: closing(server, [secure, plain]),
  };
}

/** One port for plain http. */
export function plainDoor(listener: RequestListener, upgrade: Upgrade, { limits, crowd }: Watch): Door {
  const server = watched(
    createHttpServer(serverOptions(limits), crowd.slow(listener)).on('upgrade', upgrade),
    limits,
  );
  counted(server, { limits, crowd });
  return { server, renew: () => undefined, close: closing(server, [server]) };
}

function counted(server: Server, { limits, crowd }: Watch): void {
  server.maxConnections = limits.connections;
  server.on('connection', (socket: Socket) => crowd.enter(socket));
}

function sortByFirstByte(
  socket: Socket,
  secure: HttpsServer,
  plain: HttpServer,
  { fresh }: DoorTls,
  patienceMs: number,
): void {
  const giveUp = () => socket.destroy();
  socket.setTimeout(patienceMs, giveUp);
  socket.on('error', giveUp);
  socket.once('data', (data) => {
    socket.pause();
    socket.setTimeout(0);
    socket.off('timeout', giveUp);
    socket.unshift(data);
    if (data[0] === TLS_HANDSHAKE) {
      const waits = fresh();
      const shake = () => secure.emit('connection', socket);
      if (waits) void waits.then(shake);
      else shake();
    } else {
      plain.emit('connection', socket);
      socket.resume();
    }
  });
}

function closing(server: Server, servers: readonly (HttpServer | HttpsServer)[]): () => Promise<void> {
  const sockets = new Set<Socket>();
  server.on('connection', (socket: Socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
  });
  // Servers that are handed their connections never listen; this starts their watch over slow requests.
  for (const inner of servers) if (inner !== server) inner.emit('listening');
  return () =>
    new Promise((resolve) => {
      server.close(() => resolve());
      for (const inner of servers) if (inner !== server) inner.close();
      for (const socket of sockets) socket.destroy();
    });
}

/** What an untrusting device may see over plain http. */
export function plainPages(trust: Trust): Hono<Env> {
  const app = new Hono<Env>();
  app.use(secureHeaders({ scheme: 'http', names: new Set() }));
  app.get('/healthz', (c) => c.json({ ok: true, protocol: PROTOCOL }));
  trustRoutes(app, trust);
  app.all('*', (c) => {
    const { pathname, search } = new URL(c.req.url);
    return c.redirect(`${trust.address}${pathname}${search}`, 307);
  });
  return app;
}
