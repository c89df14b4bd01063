/**
 * The desk's locked corner: one PIN for the shop, who has it open, and how often it may be guessed.
 *
 * Six digits are few, so the guesses are what is limited: a growing wait, kept over restarts. The hash is slow and
 * takes memory, so that a copied database does not give the PIN away for nothing.
 */
import { scrypt, timingSafeEqual } from 'node:crypto';
import { z } from 'zod';
import { BOUND } from './limits.ts';
import type { Outside } from './outside.ts';
import type { Station } from './pair.ts';
import type { Db } from './schema.ts';

/** scrypt's cost (RFC 7914): 128·N·r bytes, 32 MiB here, gone through p times; about a quarter of a second. */
export const COST = { N: 32_768, r: 8, p: 3 } as const;
const SALT_BYTES = 16;
const KEY_BYTES = 32;
const MAX_MEMORY = 64 * 1024 * 1024;

const Kept = z.strictObject({
  kdf: z.literal('scrypt'),
  N: z.int().positive(),
  r: z.int().positive(),
  p: z.int().positive(),
  salt: z.base64(),
  key: z.base64(),
});
type Kept = z.infer<typeof Kept>;
const Guesses = z.strictObject({ wrong: z.int().nonnegative(), lastMs: z.number() });

export type Opened = 'open' | 'wrong' | 'wait' | 'no-pin';

const PIN = 'corner.pin';
const GUESSES = 'corner.guesses';

/** Why digits are no PIN for a lock: all alike, or a run. Null when they will do. */
export function tooEasy(pin: string): string | null {
  const steps = [...pin].slice(1).map((digit, i) => Number(digit) - Number(pin[i]));
  const first = steps[0] ?? 0;
  const isRun = Math.abs(first) <= 1 && steps.every((step) => step === first);
  return isRun ? 'too easy to guess: not all digits alike, and no run like 123456' : null;
}

export class Corner {
  readonly #outside: Outside;
  readonly #get;
  readonly #set;
  readonly #drop;
  /** Pairing → when it was unlocked or last used, and by whom; gone with the server's run. */
  readonly #unlocked = new Map<string, number>();
  /** One hash at a time: each takes 32 MiB. */
  #turn: Promise<unknown> = Promise.resolve();

  constructor(db: Db, outside: Outside) {
    this.#outside = outside;
    this.#get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
    this.#set = db.prepare<[string, string]>(
      'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    );
    this.#drop = db.prepare<[string]>('DELETE FROM meta WHERE key = ?');
  }

  get pinSet(): boolean {
    return this.#get.get(PIN) !== undefined;
  }

  /** Milliseconds until the next guess is heard; 0 when it is now. A clock set back never makes the wait longer. */
  waitMs(): number {
    const { wrong, lastMs } = this.#guesses();
    const waits = BOUND.pinWaitSeconds;
    const over = wrong - BOUND.pinFree;
    if (over <= 0) return 0;
    const wait = waits[Math.min(over, waits.length) - 1]! * 1_000;
    return Math.max(0, Math.min(wait, lastMs + wait - this.#outside.now()));
  }

  /** Until when this station has the corner open, ms since 1970; null when it is locked. */
  unlockedUntil({ pairing }: Station): number | null {
    const since = this.#unlocked.get(pairing);
    if (since === undefined) return null;
    const now = this.#outside.now();
    const until = since + BOUND.cornerMinutes * 60_000;
    if (now < until && now >= since) return until;
    this.#unlocked.delete(pairing);
    return null;
  }

  /** Something was done in it: it stays open for as long again. */
  used(station: Station): void {
    if (this.unlockedUntil(station) !== null) this.#unlocked.set(station.pairing, this.#outside.now());
  }

  lock({ pairing }: Station): void {
    this.#unlocked.delete(pairing);
  }

  /** Sets the first PIN and opens the corner to who set it. False when there is one already. */
  async begin(station: Station, pin: string): Promise<boolean> {
    if (this.pinSet) return false;
    const kept = await this.#hash(pin);
    if (this.pinSet) return false; // another desk was quicker
    this.#keep(kept);
    this.#open(station);
    return true;
  }

  /** Another PIN in the place of `old`, which counts as a guess. Everybody else's corner is locked. */
  async change(station: Station, old: string, pin: string): Promise<Opened> {
    const opened = await this.unlock(station, old);
    if (opened !== 'open') return opened;
    this.#keep(await this.#hash(pin));
    this.#unlocked.clear();
    this.#open(station);
    return 'open';
  }

  /** Opens the corner to a station. A guess is counted before it is looked at, so that many at once gain nothing. */
  async unlock(station: Station, pin: string): Promise<Opened> {
    if (!this.pinSet) return 'no-pin';
    if (this.waitMs() > 0) return 'wait';
    this.#set.run(GUESSES, JSON.stringify({ wrong: this.#guesses().wrong + 1, lastMs: this.#outside.now() }));
    const stored = this.#get.get(PIN)!;
    const kept = Kept.parse(JSON.parse(stored));
    const key = Buffer.from(kept.key, 'base64');
    const given = await this.#derive(pin, kept);
    const isSame = timingSafeEqual(key, given);
    if (!isSame || this.#get.get(PIN) !== stored) return 'wrong'; // or forgotten by the operator meanwhile
    this.#drop.run(GUESSES);
    this.#open(station);
    return 'open';
  }

  /** The operator's way out: no PIN, nothing open; the next desk sets a new one. */
  reset(): void {
    this.#drop.run(PIN);
    this.#drop.run(GUESSES);
    this.#unlocked.clear();
  }

  #open({ pairing }: Station): void {
    const now = this.#outside.now();
    for (const [other, since] of this.#unlocked)
      if (Math.abs(now - since) >= BOUND.cornerMinutes * 60_000) this.#unlocked.delete(other);
    this.#unlocked.set(pairing, now);
  }

  #guesses(): z.infer<typeof Guesses> {
    const text = this.#get.get(GUESSES);
    return text === undefined ? { wrong: 0, lastMs: 0 } : Guesses.parse(JSON.parse(text));
  }

  #keep(kept: Kept): void {
    this.#set.run(PIN, JSON.stringify(kept));
    this.#drop.run(GUESSES);
  }

  async #hash(pin: string): Promise<Kept> {
    const salt = Buffer.from(this.#outside.randomBytes(SALT_BYTES)).toString('base64');
    const cost = { kdf: 'scrypt' as const, ...COST, salt };
    return { ...cost, key: (await this.#derive(pin, cost)).toString('base64') };
  }

  /** On a thread of libuv's pool: the event loop goes on serving. */
  #derive(pin: string, { N, r, p, salt }: Omit<Kept, 'key'>): Promise<Buffer> {
    const work = (): Promise<Buffer> =>
      new Promise((resolve, reject) =>
        scrypt(pin, Buffer.from(salt, 'base64'), KEY_BYTES, { N, r, p, maxmem: MAX_MEMORY }, (error, key) =>
          error ? reject(error) : resolve(key),
        ),
      );
    const mine = this.#turn.then(work, work);
    this.#turn = mine.catch(() => undefined);
    return mine;
  }
}

/** `30 seconds`, `2 minutes`: whole minutes above one, rounded up. */
export function waitWords(ms: number): string {
  const seconds = Math.ceil(ms / 1_000);
  const say = (n: number, unit: string) => `${n} ${unit}${n === 1 ? '' : 's'}`;
  return seconds <= 60 ? say(seconds, 'second') : say(Math.ceil(seconds / 60), 'minute');
}
