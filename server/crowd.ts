/**
 * Who is at the door, by address, before it is known who they are: how many connections each holds, and how often
 * each asks. One device that asks without end must not take the server from the others.
 */
import type { RequestListener } from 'node:http';
import type { Socket } from 'node:net';
import type { Logger } from 'pino';
import type { NoCode } from '../core/index.ts';
import type { Limits } from './limit-table.ts';
import { Rate } from './limits.ts';

const WINDOW_MS = 10_000;
/** Addresses that are remembered; past that, the one that has been known longest and holds no connection is forgotten. */
const ADDRESSES = 2_000;

interface Caller {
  connections: number;
  readonly told: Rate;
  readonly requests: Rate;
  readonly upgrades: Rate;
}

/** An IPv4 address that came in by an IPv6 socket is the same device. */
const plainAddress = (address: string | undefined): string => (address ?? '').replace(/^::ffff:(?=\d)/, '');

export class Crowd {
  readonly #limits: Limits;
  readonly #now: () => number;
  readonly #log: Logger;
  readonly #callers = new Map<string, Caller>();

  constructor(limits: Limits, now: () => number, log: Logger) {
    this.#limits = limits;
    this.#now = now;
    this.#log = log;
  }

  /** Counts a connection until it closes; ends it at once when its address holds too many. */
  enter(socket: Socket): void {
    const address = plainAddress(socket.remoteAddress);
    const caller = this.#caller(address);
    if (caller.connections >= this.#limits.connectionsPerAddress) {
      // Counted only so that the log has one line of it in ten seconds, not thousands.
      if (caller.told.take(this.#now())) this.#log.warn({ address }, 'too many connections');
      socket.destroy();
      return;
    }
    caller.connections += 1;
    socket.once('close', () => (caller.connections -= 1));
  }

  mayUpgrade(address: string | undefined): boolean {
    return this.#within(plainAddress(address), 'upgrades');
  }

  /** Answers with 429 in the place of `listener` to an address that asks too often. */
  slow(listener: RequestListener): RequestListener {
    return (request, response) => {
      if (this.#within(plainAddress(request.socket.remoteAddress), 'requests'))
        return listener(request, response);
      const text = `Too many requests: at most ${this.#limits.requestsPer10s} in ten seconds.`;
      response.writeHead(429, {
        'Content-Type': 'application/json',
        'Retry-After': '10',
        'Cache-Control': 'no-store',
        Connection: 'close',
      });
      response.end(JSON.stringify({ error: { code: 'too-many' satisfies NoCode, text } }));
    };
  }

  #within(address: string, what: 'requests' | 'upgrades'): boolean {
    const rate = this.#caller(address)[what];
    if (rate.take(this.#now())) return true;
    if (rate.over === 1) this.#log.warn({ address, limit: rate.limit }, `too many ${what}`);
    return false;
  }

  #caller(address: string): Caller {
    const known = this.#callers.get(address);
    if (known) return known;
    if (this.#callers.size >= ADDRESSES) this.#forgetOne();
    const caller = {
      connections: 0,
      told: new Rate(1, WINDOW_MS),
      requests: new Rate(this.#limits.requestsPer10s, WINDOW_MS),
      upgrades: new Rate(this.#limits.upgradesPer10s, WINDOW_MS),
    };
    this.#callers.set(address, caller);
    return caller;
  }

  #forgetOne(): void {
    for (const [address, { connections }] of this.#callers)
      if (connections === 0) {
        this.#callers.delete(address);
        return;
      }
  }
}
