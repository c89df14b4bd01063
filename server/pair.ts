/** Who may speak to this server: stations, their tokens, and the codes that make new ones. */
import { createHash } from 'node:crypto';
import { LIMIT, STATION_ROLES } from '../core/index.ts';
import type { Role, StationRole } from '../core/index.ts';
import { BOUND, Rate } from './limits.ts';
import type { Outside } from './outside.ts';
import type { Db } from './schema.ts';

export interface Station {
  /** Never reused; the upper part of its Yjs client ids. */
  readonly number: number;
  /** Appears in facts as `by.station`; survives re-pairing. */
  readonly device: string;
  readonly name: string;
  readonly roles: readonly StationRole[];
}

export interface Code {
  readonly code: string;
  readonly roles: readonly StationRole[];
  /** Milliseconds since 1970. */
  readonly expiresMs: number;
}

export type Pairing =
  | { readonly ok: true; readonly station: Station; readonly token: string }
  | { readonly ok: false; readonly why: 'wrong' | 'expired' | 'too-many' };

interface StationRow {
  number: number;
  device: string;
  name: string;
  roles: string;
}

const COLUMNS = 'number, device, name, roles';
const TOKEN_BYTES = 32;
const WINDOW_MS = LIMIT.codeMinutes * 60_000;
/** Addresses whose wrong guesses are remembered; past that, only the count of all guesses protects. */
const ADDRESSES = 1_000;

const statements = (db: Db) => ({
  byHash: db.prepare<[Uint8Array], StationRow>(`SELECT ${COLUMNS} FROM stations WHERE token_hash = ?`),
  byDevice: db.prepare<[string], StationRow>(`SELECT ${COLUMNS} FROM stations WHERE device = ?`),
  add: db.prepare<[string, string, Uint8Array, number]>(
    'INSERT INTO stations (name, roles, token_hash, paired_ms) VALUES (?, ?, ?, ?)',
  ),
  name: db.prepare<[string, string, number]>('UPDATE stations SET device = ?, name = ? WHERE number = ?'),
  again: db.prepare<[string, string, Uint8Array, number, number]>(
    'UPDATE stations SET name = ?, roles = ?, token_hash = ?, paired_ms = ? WHERE number = ?',
  ),
  roles: db.prepare<[], string>('SELECT roles FROM stations WHERE token_hash IS NOT NULL').pluck(),
  addCode: db.prepare<[string, string, number]>(
    'INSERT INTO codes (code, roles, expires_ms) VALUES (?, ?, ?)',
  ),
  code: db.prepare<[string], { roles: string; expiresMs: number }>(
    'SELECT roles, expires_ms AS expiresMs FROM codes WHERE code = ?',
  ),
  dropCode: db.prepare<[string]>('DELETE FROM codes WHERE code = ?'),
  dropOld: db.prepare<[number]>('DELETE FROM codes WHERE expires_ms <= ?'),
  alive: db.prepare<[number], number>('SELECT count(*) FROM codes WHERE expires_ms > ?').pluck(),
});

export const isStationRole = (value: unknown): value is StationRole =>
  (STATION_ROLES as readonly unknown[]).includes(value);

/** The roles a station may write facts under: a wall screen has none. */
export const writingRoles = (station: Station): Role[] =>
  station.roles.filter((role): role is Exclude<StationRole, 'wall'> => role !== 'wall');

export class Stations {
  readonly #db: Db;
  readonly #outside: Outside;
  readonly #sql: ReturnType<typeof statements>;
  readonly #wrongByAddress = new Map<string, Rate>();
  readonly #wrongInAll = new Rate(LIMIT.guessesInAll, WINDOW_MS);

  constructor(db: Db, outside: Outside) {
    this.#db = db;
    this.#outside = outside;
    this.#sql = statements(db);
  }

  /** Whose token it is; null for nobody's. */
  authenticate(token: string | undefined): Station | null {
    const row = token ? this.#sql.byHash.get(hash(token)) : undefined;
    return row ? stationOf(row) : null;
  }

  /** Whether some station holds the desk's role, and so can make codes. */
  hasDesk(): boolean {
    return this.#sql.roles.all().some((roles) => (JSON.parse(roles) as string[]).includes('desk'));
  }

  codeAlive(): boolean {
    return (this.#sql.alive.get(this.#outside.now()) ?? 0) > 0;
  }

  /** A new code, or null when too many live already. */
  createCode(roles: readonly StationRole[]): Code | null {
    const now = this.#outside.now();
    this.#sql.dropOld.run(now - WINDOW_MS); // kept a while, so that a late one hears "expired" and not "wrong"
    if ((this.#sql.alive.get(now) ?? 0) >= BOUND.codes) return null;
    for (;;) {
      const code = String(this.#outside.randomInt(1_000_000)).padStart(6, '0');
      if (this.#sql.code.get(code)) continue;
      const expiresMs = now + WINDOW_MS;
      this.#sql.addCode.run(code, JSON.stringify(roles), expiresMs);
      return { code, roles, expiresMs };
    }
  }

  /**
   * Turns a code into a station. `device` is the id this browser had before: a known one keeps its number, and
   * its older token ends. `address` is where the guess comes from.
   */
  pair(asked: { code: string; name?: string; device?: string; address: string }): Pairing {
    const now = this.#outside.now();
    if (this.#guessedTooOften(asked.address, now)) return { ok: false, why: 'too-many' };
    const found = this.#sql.code.get(asked.code);
    if (!found || found.expiresMs <= now) {
      this.#countWrong(asked.address, now);
      return { ok: false, why: found ? 'expired' : 'wrong' };
    }
    const token = Buffer.from(this.#outside.randomBytes(TOKEN_BYTES)).toString('base64url');
    const station = this.#db
      .transaction(() => {
        this.#sql.dropCode.run(asked.code);
        return this.#keep(found.roles, asked, token, now);
      })
      .immediate();
    return { ok: true, station, token };
  }

  #keep(roles: string, asked: { name?: string; device?: string }, token: string, now: number): Station {
    const known = asked.device ? this.#sql.byDevice.get(asked.device) : undefined;
    if (known) {
      const name = asked.name ?? known.name;
      this.#sql.again.run(name, roles, hash(token), now, known.number);
      return stationOf({ ...known, name, roles });
    }
    const number = Number(this.#sql.add.run(asked.name ?? '', roles, hash(token), now).lastInsertRowid);
    const device = `${(JSON.parse(roles) as string[])[0]}-${number}`;
    const name = asked.name ?? device;
    this.#sql.name.run(device, name, number);
    return stationOf({ number, device, name, roles });
  }

  #guessedTooOften(address: string, now: number): boolean {
    return this.#wrongInAll.full(now) || (this.#wrongByAddress.get(address)?.full(now) ?? false);
  }

  #countWrong(address: string, now: number): void {
    if (this.#wrongByAddress.size >= ADDRESSES) this.#wrongByAddress.clear();
    const rate = this.#wrongByAddress.get(address) ?? new Rate(LIMIT.guesses, WINDOW_MS);
    this.#wrongByAddress.set(address, rate);
    rate.take(now);
    this.#wrongInAll.take(now);
  }
}

const stationOf = (row: StationRow): Station => ({ ...row, roles: JSON.parse(row.roles) as StationRole[] });

const hash = (token: string): Uint8Array => createHash('sha256').update(token).digest();
