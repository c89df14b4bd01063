/** Bare sockets: bytes out, and what comes back. */
import { connect } from 'node:net';
import type { Route } from './routes.ts';

/** Characters of an answer that are looked at. */
const KEPT = 4_000;

export interface HttpTarget {
  readonly url: string;
  readonly routes: readonly Route[];
  /** Cookie headers of stations that may not change anything that matters, made-up ones, and none. */
  readonly cookies: readonly string[];
  /** Of a station that may: only asked with, or from a foreign page. */
  readonly desk: string;
  readonly session: string;
  readonly address: string;
}

export interface HttpTally {
  requests: number;
  /** How often each status was answered; 0: none, the connection was ended. */
  readonly statuses: Map<number, number>;
  readonly faults: string[];
}

export const newHttpTally = (): HttpTally => ({ requests: 0, statuses: new Map(), faults: [] });

/** Milliseconds after which a server that has to answer and does not has a fault. */
export const PATIENCE_MS = 30_000;

/**
 * What comes back for these bytes: until the other side closes, or `limitMs` after the first of it, or after the bytes
 * went out where `answered` is false.
 */
export function exchange(
  { url, address }: HttpTarget,
  bytes: Buffer,
  { answered, limitMs }: { readonly answered: boolean; readonly limitMs: number },
): Promise<string> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve) => {
    let said = '';
    const socket = connect({ host: hostname, port: Number(port), localAddress: address }, () =>
      socket.write(bytes),
    );
    const end = () => {
      clearTimeout(timer);
      socket.destroy();
      resolve(said);
    };
    let timer = setTimeout(end, answered ? PATIENCE_MS : limitMs);
    socket.on('data', (part) => {
      if (said === '') {
        clearTimeout(timer);
        timer = setTimeout(end, limitMs);
      }
      if (said.length < KEPT) said += part.toString('latin1');
    });
    socket.on('error', end);
    socket.on('close', end);
  });
}
