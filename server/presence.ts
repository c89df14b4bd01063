/** Who is in a room. Each socket speaks for itself only, and the server says who it is. */
import { stationOf } from '../core/index.ts';
import { presenceFrame } from './frames.ts';
import type { PresenceEntry } from './frames.ts';
import type { Peer } from './peer.ts';

interface Present extends PresenceEntry {
  readonly peer: Peer;
}

export class Presence {
  readonly #now: () => number;
  readonly #present = new Map<number, Present>();
  #lastClock = 0;

  constructor(now: () => number) {
    this.#now = now;
  }

  /**
   * Takes a socket's own entry, checked and overwritten, and returns the frame that tells the others; null when
   * there is nothing to tell.
   */
  hear(peer: Peer, entries: readonly PresenceEntry[]): Uint8Array | null {
    const own = entries.find(({ client }) => this.#isOwn(peer, client));
    if (!own) return null;
    if (own.state === null) return this.leave(peer);
    const state = checked(peer, own.state);
    if (state === null) return null;
    const told = peer.presence !== null && peer.presence !== own.client ? this.#remove(peer.presence) : [];
    peer.presence = own.client;
    const entry = { client: own.client, clock: this.#tick(), state, peer };
    this.#present.set(own.client, entry);
    return presenceFrame([...told, entry]);
  }

  /** Everybody but `peer`; null when nobody is. */
  others(peer: Peer): Uint8Array | null {
    const others = [...this.#present.values()].filter((entry) => entry.peer !== peer);
    return others.length > 0 ? presenceFrame(others) : null;
  }

  /** Forgets a socket, and returns the frame that tells the others. */
  leave(peer: Peer): Uint8Array | null {
    const gone = peer.presence === null ? [] : this.#remove(peer.presence);
    peer.presence = null;
    return gone.length > 0 ? presenceFrame(gone) : null;
  }

  /** A client id of this station, not held by another live socket. */
  #isOwn(peer: Peer, client: number): boolean {
    const holder = this.#present.get(client);
    return (
      stationOf(client) === peer.station.number && (!holder || holder.peer === peer || !holder.peer.open)
    );
  }

  #remove(client: number): PresenceEntry[] {
    return this.#present.delete(client) ? [{ client, clock: this.#tick(), state: null }] : [];
  }

  /**
   * The server's time as the clock of every entry: the others keep the last clock they saw of a client, and one
   * that comes back, or a server that starts again, must not be taken for old news.
   */
  #tick(): number {
    this.#lastClock = Math.max(this.#lastClock + 1, this.#now());
    return this.#lastClock;
  }
}

const shortText = (value: unknown, max: number): string | undefined =>
  typeof value === 'string' && value.length <= max ? value : undefined;

/** What others may see of a state, or null when it is none of ours. */
function checked({ station }: Peer, state: unknown): Record<string, unknown> | null {
  if (typeof state !== 'object' || state === null) return null;
  const { role, initials, doing } = state as Record<string, unknown>;
  if (!(station.roles as readonly unknown[]).includes(role)) return null;
  const { side, act } = typeof doing === 'object' && doing !== null ? (doing as Record<string, unknown>) : {};
  return {
    device: station.device,
    name: station.name,
    role,
    ...optional('initials', shortText(initials, 8)),
    ...optional(
      'doing',
      doing === undefined
        ? undefined
        : { ...optional('side', shortText(side, 8)), ...optional('act', shortText(act, 40)) },
    ),
  };
}

const optional = (key: string, value: unknown): Record<string, unknown> =>
  value === undefined ? {} : { [key]: value };
