/** Who may speak to this server: stations, their tokens, and how a token begins and ends. */
import { createHash } from 'node:crypto';
import { STATION_ROLES } from '../core/index.ts';
import type { Role, StationRole } from '../core/index.ts';
import { Codes } from './codes.ts';
import type { Code, WhyNot } from './codes.ts';
import type { Outside } from './outside.ts';
import type { Db } from './schema.ts';

export interface Station {
  /** Never reused; the upper part of its Yjs client ids. */
  readonly number: number;
  /** Appears in facts as `by.station`; survives re-pairing. */
  readonly device: string;
  readonly name: string;
  readonly roles: readonly StationRole[];
  /** Names this pairing, another after every new token. Never told to anybody. */
  readonly pairing: string;
}

/** A station as the desk's corner lists it. Times are ms since 1970; null for never. */
export interface ListedStation extends Omit<Station, 'pairing'> {
  readonly pairedMs: number;
  readonly seenMs: number | null;
  readonly revokedMs: number | null;
}

export type Pairing =
  | { readonly ok: true; readonly station: Station; readonly token: string }
  | { readonly ok: false; readonly why: WhyNot };

/** `unknown`: this server has no such device, as after a restore from before it was paired. */
export type Standing = 'known' | 'revoked' | 'unknown';

interface Row {
  number: number;
  device: string;
  name: string;
  roles: string;
  hash: Uint8Array | null;
  pairedMs: number;
  seenMs: number | null;
  revokedMs: number | null;
}

const COLUMNS = `number, device, name, roles, token_hash AS hash, paired_ms AS pairedMs, seen_ms AS seenMs,
  revoked_ms AS revokedMs`;
const TOKEN_BYTES = 32;
/** When a station was last seen is written down at most this often. */
const SEEN_EVERY_MS = 60_000;

const statements = (db: Db) => ({
  byHash: db.prepare<[Uint8Array], Row>(`SELECT ${COLUMNS} FROM stations WHERE token_hash = ?`),
  byDevice: db.prepare<[string], Row>(`SELECT ${COLUMNS} FROM stations WHERE device = ?`),
  byNumber: db.prepare<[number], Row>(`SELECT ${COLUMNS} FROM stations WHERE number = ?`),
  /** Says whether a station is still the one that came in. Asked at every commit. */
  current: db.prepare<[number], { pairing: string; roles: string }>(
    `SELECT lower(hex(token_hash)) AS pairing, roles FROM stations WHERE number = ? AND revoked_ms IS NULL`,
  ),
  all: db.prepare<[], Row>(`SELECT ${COLUMNS} FROM stations ORDER BY number`),
  add: db.prepare<[string, string, Uint8Array, number]>(
    'INSERT INTO stations (name, roles, token_hash, paired_ms) VALUES (?, ?, ?, ?)',
  ),
  forget: db.prepare<[number]>('DELETE FROM stations WHERE number = ?'),
  name: db.prepare<[string, string, number]>('UPDATE stations SET device = ?, name = ? WHERE number = ?'),
  again: db.prepare<[string, string, Uint8Array, number, number]>(
    'UPDATE stations SET name = ?, roles = ?, token_hash = ?, paired_ms = ?, revoked_ms = NULL WHERE number = ?',
  ),
  rename: db.prepare<[string, number]>('UPDATE stations SET name = ? WHERE number = ?'),
  regrant: db.prepare<[string, number]>('UPDATE stations SET roles = ? WHERE number = ?'),
  revoke: db.prepare<[number, number]>(
    'UPDATE stations SET revoked_ms = ? WHERE number = ? AND revoked_ms IS NULL',
  ),
  seen: db.prepare<[number, number]>('UPDATE stations SET seen_ms = ? WHERE number = ?'),
  roles: db
    .prepare<[], string>('SELECT roles FROM stations WHERE token_hash IS NOT NULL AND revoked_ms IS NULL')
    .pluck(),
});

export const isStationRole = (value: unknown): value is StationRole =>
  (STATION_ROLES as readonly unknown[]).includes(value);

/** The roles a station may write facts under: a wall screen has none. */
export const writingRoles = (station: Pick<Station, 'roles'>): Role[] =>
  station.roles.filter((role): role is Exclude<StationRole, 'wall'> => role !== 'wall');

export class Stations {
  readonly #db: Db;
  readonly #outside: Outside;
  readonly #sql: ReturnType<typeof statements>;
  readonly #codes: Codes;
  readonly #seen = new Map<number, number>();

  constructor(db: Db, outside: Outside) {
    this.#db = db;
    this.#outside = outside;
    this.#sql = statements(db);
    this.#codes = new Codes(db, outside);
  }

  /** Whose token it is; null for nobody's, and for a revoked one. */
  authenticate(token: string | undefined): Station | null {
    const row = token ? this.#sql.byHash.get(hash(token)) : undefined;
    if (!row || row.revokedMs !== null) return null;
    this.#see(row);
    return stationOf(row);
  }

  /** Whose token it was before the desk revoked it; null for any other. */
  revoked(token: string | undefined): Station | null {
    const row = token ? this.#sql.byHash.get(hash(token)) : undefined;
    return row && row.revokedMs !== null ? stationOf(row) : null;
  }

  /** Whether the station is what it was when it came in: not revoked, not paired anew, with the same roles. */
  isCurrent({ number, pairing, roles }: Station): boolean {
    const row = this.#sql.current.get(number);
    return row !== undefined && row.pairing === pairing && row.roles === JSON.stringify(roles);
  }

  /** Whether some station holds the desk's role, and so can make codes. */
  hasDesk(): boolean {
    return this.#sql.roles.all().some((roles) => (JSON.parse(roles) as string[]).includes('desk'));
  }

  codeAlive(): boolean {
    return this.#codes.alive();
  }

  /** A new code, or null when too many live already. */
  createCode(roles: readonly StationRole[]): Code | null {
    return this.#codes.create(roles);
  }

  /**
   * Turns a code into a station. `device` is the id this browser had before: a known one keeps its number, and
   * its older token ends; a revoked one is revoked no longer. `address` is where the guess comes from.
   */
  pair(asked: { code: string; name?: string; device?: string; address: string }): Pairing {
    const checked = this.#codes.check(asked.code, asked.address);
    if (!checked.ok) return checked;
    return this.#withToken((token) => {
      this.#codes.use(asked.code);
      const known = asked.device ? this.#sql.byDevice.get(asked.device) : undefined;
      return known
        ? this.#again(known, asked.name ?? known.name, checked.roles, token)
        : this.#add(asked.name, checked.roles, token);
    });
  }

  standing(device: string): Standing {
    const row = this.#sql.byDevice.get(device);
    return !row ? 'unknown' : row.revokedMs === null ? 'known' : 'revoked';
  }

  /**
   * A new token for a device that the desk lets back in. A device this server has keeps its number, name and
   * roles; another becomes a station with `roles`, under the id it had.
   */
  letIn(device: string, roles: readonly StationRole[]): { station: Station; token: string } {
    return this.#withToken((token) => {
      const known = this.#sql.byDevice.get(device);
      return known
        ? this.#again(known, known.name, known.roles, token)
        : this.#add(undefined, JSON.stringify(roles), token, device);
    });
  }

  list(): ListedStation[] {
    return this.#sql.all.all().map((row) => this.#listed(row));
  }

  find(number: number): ListedStation | undefined {
    const row = this.#sql.byNumber.get(number);
    return row && this.#listed(row);
  }

  findDevice(device: string): ListedStation | undefined {
    const row = this.#sql.byDevice.get(device);
    return row && this.#listed(row);
  }

  rename(number: number, name: string): void {
    this.#sql.rename.run(name, number);
  }

  /** Its sockets must be closed afterwards, so that they come back with these roles. */
  regrant(number: number, roles: readonly StationRole[]): void {
    this.#sql.regrant.run(JSON.stringify(roles), number);
  }

  /** Ends the token, on disk when it returns. Its sockets must be closed afterwards. @returns when, ms. */
  revoke(number: number): number {
    const now = this.#outside.now();
    this.#sql.revoke.run(now, number);
    return this.#sql.byNumber.get(number)?.revokedMs ?? now;
  }

  #withToken(keep: (token: Uint8Array) => Row): { ok: true; station: Station; token: string } {
    const token = Buffer.from(this.#outside.randomBytes(TOKEN_BYTES)).toString('base64url');
    const row = this.#db.transaction(() => keep(hash(token))).immediate();
    return { ok: true, station: stationOf(row), token };
  }

  /** Later than a revocation even where the clock was set back: a ledger of revocations compares the two. */
  #again({ number, revokedMs }: Row, name: string, roles: string, token: Uint8Array): Row {
    const pairedMs = Math.max(this.#outside.now(), (revokedMs ?? 0) + 1);
    this.#sql.again.run(name, roles, token, pairedMs, number);
    return this.#sql.byNumber.get(number)!;
  }

  /** `asked` is the device id it had; otherwise one is made of its first role and its number. */
  #add(name: string | undefined, roles: string, token: Uint8Array, asked?: string): Row {
    for (;;) {
      const number = Number(this.#sql.add.run(name ?? '', roles, token, this.#outside.now()).lastInsertRowid);
      const device = asked ?? `${(JSON.parse(roles) as string[])[0]}-${number}`;
      if (!this.#sql.byDevice.get(device)) {
        this.#sql.name.run(device, name ?? device, number);
        return this.#sql.byNumber.get(number)!;
      }
      this.#sql.forget.run(number); // a station let in under an older number has that id; the next is free
    }
  }

  #listed({ hash: _hash, roles, seenMs, ...row }: Row): ListedStation {
    return {
      ...row,
      roles: JSON.parse(roles) as StationRole[],
      seenMs: this.#seen.get(row.number) ?? seenMs,
    };
  }

  #see({ number, seenMs }: Row): void {
    const now = this.#outside.now();
    const last = this.#seen.get(number) ?? seenMs ?? 0;
    if (Math.abs(now - last) < SEEN_EVERY_MS) return;
    this.#seen.set(number, now);
    try {
      this.#sql.seen.run(now, number);
    } catch {
      // A disk that takes no more must not keep stations out; the time is kept in memory.
    }
  }
}

const pairingOf = ({ hash }: Row): string => Buffer.from(hash ?? []).toString('hex');

const stationOf = (row: Row): Station => ({
  number: row.number,
  device: row.device,
  name: row.name,
  roles: JSON.parse(row.roles) as StationRole[],
  pairing: pairingOf(row),
});

const hash = (token: string): Uint8Array => createHash('sha256').update(token).digest();
