/** The copy of every day: when it is due, where it goes, which old ones go for it, and how it went. */
import { existsSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { BackupStatus } from '../core/index.ts';
import { backUp } from './backup.ts';
import { daysToDrop, shopTime } from './days.ts';
import type { Keep } from './days.ts';
import type { Db } from './schema.ts';

export interface DailyOptions {
  readonly directory: string;
  /** Time of day in the shop's zone from which the day's copy is due; null: none is made. */
  readonly at: string | null;
  readonly keep: Keep;
}

const NAME = /^fibula-(\d{4}-\d{2}-\d{2})\.db$/;
/** Milliseconds after which a missing backup is a matter for a person. */
const LATE_MS = 2 * 24 * 3_600_000;
/** Milliseconds before another try after one that failed. */
const RETRY_MS = 15 * 60_000;

/** Days of which a directory holds a copy, with the file, newest first. Copies are verified before they are named. */
export function dailyBackups(directory: string): { day: string; file: string }[] {
  if (!statSync(directory, { throwIfNoEntry: false })?.isDirectory()) return [];
  return readdirSync(directory)
    .flatMap((name) => {
      const day = NAME.exec(name)?.[1];
      return day === undefined ? [] : [{ day, file: join(directory, name) }];
    })
    .sort((a, b) => b.day.localeCompare(a.day));
}

export class DailyBackups {
  readonly #db: Db;
  readonly #options: DailyOptions;
  readonly #zone: string;
  readonly #now: () => number;
  readonly #log: Logger;
  readonly #startedMs: number;
  #good: { readonly atMs: number; readonly bytes: number } | null;
  #failed: { readonly ms: number; readonly reason: string } | null = null;

  constructor(db: Db, options: DailyOptions, timeZone: string, now: () => number, log: Logger) {
    this.#db = db;
    this.#options = options;
    this.#zone = timeZone;
    this.#now = now;
    this.#log = log;
    this.#startedMs = now();
    const newest = dailyBackups(options.directory)[0];
    if (newest) {
      const { mtimeMs: atMs, size: bytes } = statSync(newest.file);
      this.#good = { atMs, bytes };
    } else this.#good = null;
  }

  get state(): BackupStatus {
    const { atMs, bytes } = this.#good ?? { atMs: null, bytes: null };
    if (this.#failed) return { ok: false, atMs, bytes, reason: this.#failed.reason };
    const late =
      this.#options.at !== null && this.#hasWork() && this.#now() - (atMs ?? this.#startedMs) > LATE_MS;
    return late
      ? { ok: false, atMs, bytes, reason: 'There has been no backup for two days.' }
      : { ok: true, atMs, bytes, reason: null };
  }

  /** Whether today's copy is to be made now. An empty shop has nothing to lose. */
  due(): boolean {
    const { at, directory } = this.#options;
    const now = this.#now();
    const { day, time } = shopTime(now, this.#zone);
    if (at === null || time < at || !this.#hasWork()) return false;
    const failedMs = this.#failed?.ms;
    // A clock that was set back must not put the next try off for years.
    if (failedMs !== undefined && now >= failedMs && now - failedMs < RETRY_MS) return false;
    return !existsSync(this.#file(directory, day));
  }

  /** Makes today's copy, then lets old ones go. A failure is logged and kept as the state. */
  async make(): Promise<void> {
    const { directory, keep } = this.#options;
    const { day } = shopTime(this.#now(), this.#zone);
    try {
      const { bytes, sessions, facts } = await backUp(this.#db, this.#file(directory, day));
      this.#good = { atMs: this.#now(), bytes };
      this.#failed = null;
      this.#log.info({ day, bytes, sessions, facts }, 'daily backup made');
      for (const old of daysToDrop(
        dailyBackups(directory).map((copy) => copy.day),
        keep,
      )) {
        rmSync(this.#file(directory, old));
        this.#log.info({ day: old }, 'old daily backup removed');
      }
    } catch (error) {
      this.#failed = { ms: this.#now(), reason: `The daily backup failed: ${(error as Error).message}` };
      this.#log.error({ err: error, day }, 'daily backup failed');
    }
  }

  #file(directory: string, day: string): string {
    return join(directory, `fibula-${day}.db`);
  }

  #hasWork(): boolean {
    return (
      this.#db
        .prepare('SELECT EXISTS (SELECT 1 FROM documents) OR EXISTS (SELECT 1 FROM people)')
        .pluck()
        .get() === 1
    );
  }
}
