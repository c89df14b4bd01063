/**
 * Letting a station back in that has lost its token but still knows who it is: it asks, a person at the desk
 * compares a number on both screens, and the station that asked, and no other, gets a token.
 *
 * Requests live in memory, few and for minutes. Whoever asked holds a secret; the number is for people.
 */
import { createHash } from 'node:crypto';
import type { StationRole } from '../core/index.ts';
import { BOUND, Rate } from './limits.ts';
import type { Outside } from './outside.ts';
import type { Standing, Station, Stations } from './pair.ts';

interface Request {
  readonly id: string;
  /** Four digits, shown on both screens; no two waiting requests have the same. */
  readonly number: string;
  readonly device: string;
  readonly address: string;
  readonly askedMs: number;
  readonly expiresMs: number;
  decision: null | 'refused' | { readonly standing: Standing; readonly roles: readonly StationRole[] };
}

export interface WaitingRequest extends Pick<
  Request,
  'id' | 'number' | 'device' | 'address' | 'askedMs' | 'expiresMs'
> {
  /** What this server knows of the device now. */
  readonly standing: Standing;
  /** As this server has it; null for an unknown one. */
  readonly name: string | null;
  readonly roles: readonly StationRole[];
  readonly revokedMs: number | null;
}

export type Asked =
  | { readonly ok: true; readonly secret: string; readonly number: string; readonly expiresMs: number }
  | { readonly ok: false };

export type Claim =
  | { readonly state: 'waiting' | 'refused' | 'gone' }
  | { readonly state: 'in'; readonly station: Station; readonly token: string };

/** `changed`: the device no longer stands as the desk saw it. */
export type Approved = 'ok' | 'gone' | 'changed';

const SECRET_BYTES = 32;
const WINDOW_MS = BOUND.letInMinutes * 60_000;
/** Addresses whose requests are counted; past that, only the number of requests protects. */
const ADDRESSES = 1_000;

export class LetIn {
  readonly #stations: Stations;
  readonly #outside: Outside;
  readonly #bySecret = new Map<string, Request>();
  readonly #byAddress = new Map<string, Rate>();

  constructor(stations: Stations, outside: Outside) {
    this.#stations = stations;
    this.#outside = outside;
  }

  /** A second request of one device from one address takes the place of the first: its page was loaded again. */
  ask({ device, address }: { device: string; address: string }): Asked {
    const now = this.#outside.now();
    this.#dropOld(now);
    if (!this.#mayAsk(address, now)) return { ok: false };
    for (const [secret, one] of this.#bySecret)
      if (one.device === device && one.address === address) this.#bySecret.delete(secret);
    const all = [...this.#bySecret.values()];
    const same = all.filter((one) => one.device === device).length;
    if (all.length >= BOUND.letIns || same >= BOUND.letInsPerDevice) return { ok: false };
    const secret = Buffer.from(this.#outside.randomBytes(SECRET_BYTES)).toString('base64url');
    const taken = new Set(all.map(({ number }) => number));
    let number: string;
    do number = String(this.#outside.randomInt(10_000)).padStart(4, '0');
    while (taken.has(number));
    const id = Buffer.from(this.#outside.randomBytes(8)).toString('hex');
    const expiresMs = now + WINDOW_MS;
    this.#bySecret.set(hash(secret), {
      id,
      number,
      device,
      address,
      askedMs: now,
      expiresMs,
      decision: null,
    });
    return { ok: true, secret, number, expiresMs };
  }

  /** What waits for the desk, the oldest first. */
  waiting(): WaitingRequest[] {
    this.#dropOld(this.#outside.now());
    return [...this.#bySecret.values()]
      .filter(({ decision }) => decision === null)
      .map(({ decision: _none, ...request }) => {
        const known = this.#stations.findDevice(request.device);
        return {
          ...request,
          standing: this.#stations.standing(request.device),
          name: known?.name ?? null,
          roles: known?.roles ?? [],
          revokedMs: known?.revokedMs ?? null,
        };
      });
  }

  /**
   * `number` and `standing` are what the person at the desk saw; `roles` are for a device this server does not
   * know, and count for no other.
   */
  approve(id: string, seen: { number: string; standing: Standing; roles: readonly StationRole[] }): Approved {
    const request = this.#find(id);
    if (!request || request.decision !== null) return 'gone';
    const { standing, roles, number } = seen;
    if (number !== request.number || standing !== this.#stations.standing(request.device)) return 'changed';
    request.decision = { standing, roles };
    return 'ok';
  }

  /** False when there is no such request any more. */
  refuse(id: string): boolean {
    const request = this.#find(id);
    if (!request || request.decision !== null) return false;
    request.decision = 'refused';
    return true;
  }

  /** Asked again and again by the station that holds the secret. A token is given once. */
  claim(secret: string): Claim {
    this.#dropOld(this.#outside.now());
    const key = hash(secret);
    const request = this.#bySecret.get(key);
    if (!request) return { state: 'gone' };
    const { decision, device } = request;
    if (decision === null) return { state: 'waiting' };
    this.#bySecret.delete(key);
    if (decision === 'refused') return { state: 'refused' };
    // Revoked since the desk said yes, or let in by another request: that yes was for something else.
    if (this.#stations.standing(device) !== decision.standing) return { state: 'gone' };
    return { state: 'in', ...this.#stations.letIn(device, decision.roles) };
  }

  #find(id: string): Request | undefined {
    this.#dropOld(this.#outside.now());
    return [...this.#bySecret.values()].find((one) => one.id === id);
  }

  /** A clock set back ends requests too: what was asked later than now cannot be told apart from old. */
  #dropOld(now: number): void {
    for (const [key, { askedMs, expiresMs }] of this.#bySecret)
      if (now >= expiresMs || now < askedMs) this.#bySecret.delete(key);
  }

  #mayAsk(address: string, now: number): boolean {
    if (this.#byAddress.size >= ADDRESSES) this.#byAddress.clear();
    const rate = this.#byAddress.get(address) ?? new Rate(BOUND.letInsPerAddress, WINDOW_MS);
    this.#byAddress.set(address, rate);
    return rate.take(now);
  }
}

const hash = (secret: string): string => createHash('sha256').update(secret).digest('base64');
