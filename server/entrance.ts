/** The upgrade to a sync connection: who is at the door, and why they may not come in. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { parse as parseCookies } from 'hono/utils/cookie';
import type { Logger } from 'pino';
import { WebSocketServer } from 'ws';
import type { ServerOptions, WebSocket } from 'ws';
import { CLOSE, PROTOCOL } from '../core/index.ts';
import type { Crowd } from './crowd.ts';
import type { Health } from './health.ts';
import type { Hub } from './hub.ts';
import { BOUND } from './limits.ts';
import { mayOpenSocket } from './origins.ts';
import type { Origins } from './origins.ts';
import type { Stations } from './pair.ts';

export const COOKIE = 'fibula';
const PATH = '/sync/';

export interface Entrance {
  readonly hub: Hub;
  readonly health: Health;
  readonly stations: Stations;
  readonly origins: Origins;
  readonly crowd: Crowd;
  readonly log: Logger;
}

export type Upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer) => void;

/**
 * A handler for a server's `upgrade` event. Whoever may not come in is let in and then closed with a 44xx code:
 * an HTTP error would make y-websocket try for ever.
 */
export function entrance(deps: Entrance): Upgrade {
  // `closeTimeout` is newer than the package's types.
  const options: ServerOptions & { closeTimeout: number } = {
    noServer: true,
    maxPayload: BOUND.frameBytesRead,
    perMessageDeflate: false,
    closeTimeout: BOUND.goodbyeMs,
  };
  const sockets = new WebSocketServer(options);
  return (request, socket, head) => {
    socket.on('error', (error) => deps.log.debug({ err: error }, 'upgrade failed'));
    const url = urlOf(request);
    // Not a close code, which an honest station would take for the last word: it shall come back later.
    if (!deps.crowd.mayUpgrade(request.socket.remoteAddress))
      return turnAway(socket, '429 Too Many Requests\r\nRetry-After: 10');
    if (!url?.pathname.startsWith(PATH)) return turnAway(socket, '404 Not Found');
    sockets.handleUpgrade(request, socket, head, (ws) => {
      ws.on('error', (error) => deps.log.debug({ err: error }, 'socket failed'));
      try {
        admit(deps, request, url, ws);
      } catch (error) {
        deps.log.error({ err: error }, 'a socket could not be let in');
        deps.health.failed(error);
        ws.close(CLOSE.again, 'The server failed on this; its log says how.');
      }
    });
  };
}

/** Answers an upgrade with a refusal and ends the connection, also when the other side never closes its half. */
export function turnAway(socket: Duplex, status: string): void {
  socket.once('finish', () => socket.destroy());
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

function admit(
  { hub, stations, origins, log }: Entrance,
  request: IncomingMessage,
  url: URL,
  ws: WebSocket,
): void {
  const header = (name: string) => {
    const value = request.headers[name];
    return Array.isArray(value) ? value[0] : value;
  };
  const refuse = (code: number, reason: string) => {
    log.info({ code, address: request.socket.remoteAddress }, 'socket refused');
    ws.close(code, reason);
  };
  if (!mayOpenSocket(origins, header))
    return refuse(CLOSE.forbidden, 'Only this server’s own pages may connect.');
  const token = parseCookies(header('cookie') ?? '', COOKIE)[COOKIE];
  const station = stations.authenticate(token);
  if (!station && stations.revoked(token))
    return refuse(CLOSE.unpaired, 'This station was revoked at the desk.');
  if (!station) return refuse(CLOSE.unpaired, 'This station is not paired, or no longer.');
  const protocol = url.searchParams.get('protocol');
  if (protocol !== String(PROTOCOL))
    return refuse(CLOSE.version, `This server speaks protocol ${PROTOCOL}; load the page again.`);
  hub.connect(ws, station, decodeRoom(url.pathname.slice(PATH.length)));
}

/** Null where the request names no path that can be read. */
function urlOf(request: IncomingMessage): URL | null {
  const [target, base] = [request.url ?? '', 'http://here'];
  return URL.canParse(target, base) ? new URL(target, base) : null;
}

/** An undecodable name is no room's name. */
function decodeRoom(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return '';
  }
}
