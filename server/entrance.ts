/** The upgrade to a sync connection: who is at the door, and why they may not come in. */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { parse as parseCookies } from 'hono/utils/cookie';
import type { Logger } from 'pino';
import { WebSocketServer } from 'ws';
import type { WebSocket } from 'ws';
import { CLOSE, PROTOCOL } from '../core/index.ts';
import type { Hub } from './hub.ts';
import { BOUND } from './limits.ts';
import { mayOpenSocket } from './origins.ts';
import type { Origins } from './origins.ts';
import type { Stations } from './pair.ts';

export const COOKIE = 'fibula';
const PATH = '/sync/';

export interface Entrance {
  readonly hub: Hub;
  readonly stations: Stations;
  readonly origins: Origins;
  readonly log: Logger;
}

export type Upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer) => void;

/**
 * A handler for a server's `upgrade` event. Whoever may not come in is let in and then closed with a 44xx code:
 * an HTTP error would make y-websocket try for ever.
 */
export function entrance(deps: Entrance): Upgrade {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: BOUND.frameBytesRead,
    perMessageDeflate: false,
  });
  return (request, socket, head) => {
    socket.on('error', (error) => deps.log.debug({ err: error }, 'upgrade failed'));
    const url = urlOf(request);
    if (!url?.pathname.startsWith(PATH)) {
      socket.end('HTTP/1.1 404 Not Found\r\nConnection: close\r\nContent-Length: 0\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(request, socket, head, (ws) => {
      ws.on('error', (error) => deps.log.debug({ err: error }, 'socket failed'));
      admit(deps, request, url, ws);
    });
  };
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
  const station = stations.authenticate(parseCookies(header('cookie') ?? '', COOKIE)[COOKIE]);
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
