/** Pairing codes: made, guessed at, used once. */
import { LIMIT } from '../core/index.ts';
import type { StationRole } from '../core/index.ts';
import { BOUND, Rate } from './limits.ts';
import type { Outside } from './outside.ts';
import type { Db } from './schema.ts';

export interface Code {
  readonly code: string;
  readonly roles: readonly StationRole[];
  /** Milliseconds since 1970. */
  readonly expiresMs: number;
}

export type WhyNot = 'wrong' | 'expired' | 'too-many';

const WINDOW_MS = LIMIT.codeMinutes * 60_000;
/** Milliseconds that a clock may be set back without ending a code. Farther, and it would live for longer than it may. */
const SET_BACK_MS = 60_000;
/** Addresses whose wrong guesses are remembered; past that, only the count of all guesses protects. */
const ADDRESSES = 1_000;

const statements = (db: Db) => ({
  add: db.prepare<[string, string, number]>('INSERT INTO codes (code, roles, expires_ms) VALUES (?, ?, ?)'),
  find: db.prepare<[string], { roles: string; expiresMs: number }>(
    'SELECT roles, expires_ms AS expiresMs FROM codes WHERE code = ?',
  ),
  drop: db.prepare<[string]>('DELETE FROM codes WHERE code = ?'),
  dropOld: db.prepare<[number]>('DELETE FROM codes WHERE expires_ms <= ?'),
  alive: db
    .prepare<[number, number], number>('SELECT count(*) FROM codes WHERE expires_ms > ? AND expires_ms <= ?')
    .pluck(),
});

export class Codes {
  readonly #outside: Outside;
  readonly #sql: ReturnType<typeof statements>;
  readonly #wrongByAddress = new Map<string, Rate>();
  readonly #wrongInAll = new Rate(LIMIT.guessesInAll, WINDOW_MS);

  constructor(db: Db, outside: Outside) {
    this.#outside = outside;
    this.#sql = statements(db);
  }

  alive(): boolean {
    return this.#countAlive(this.#outside.now()) > 0;
  }

  /** A new code, or null when too many live already. */
  create(roles: readonly StationRole[]): Code | null {
    const now = this.#outside.now();
    this.#sql.dropOld.run(now - WINDOW_MS); // kept a while, so that a late one hears "expired" and not "wrong"
    if (this.#countAlive(now) >= BOUND.codes) return null;
    for (;;) {
      const code = String(this.#outside.randomInt(1_000_000)).padStart(6, '0');
      if (this.#sql.find.get(code)) continue;
      const expiresMs = now + WINDOW_MS;
      this.#sql.add.run(code, JSON.stringify(roles), expiresMs);
      return { code, roles, expiresMs };
    }
  }

  /** The roles that a code grants, as stored. `address` is where the guess comes from. */
  check(code: string, address: string): { ok: true; roles: string } | { ok: false; why: WhyNot } {
    const now = this.#outside.now();
    if (this.#guessedTooOften(address, now)) return { ok: false, why: 'too-many' };
    const found = this.#sql.find.get(code);
    if (found && found.expiresMs > now && found.expiresMs <= latest(now))
      return { ok: true, roles: found.roles };
    this.#countWrong(address, now);
    return { ok: false, why: found ? 'expired' : 'wrong' };
  }

  use(code: string): void {
    this.#sql.drop.run(code);
  }

  #countAlive(now: number): number {
    return this.#sql.alive.get(now, latest(now)) ?? 0;
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

/** The latest end of a code that can have been made by now. */
const latest = (now: number): number => now + WINDOW_MS + SET_BACK_MS;
