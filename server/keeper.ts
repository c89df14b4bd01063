/**
 * Keeps the data and lets it go: backups, exports, erasures, and what is done every day. One thing after the
 * other, since a copy that is being made holds up an erasure's cleaning.
 */
import { copyFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Logger } from 'pino';
import { backUp, discard, finish } from './backup.ts';
import { clientFile, dueClients, sessionsOf } from './clients.ts';
import type { ClientFile } from './clients.ts';
import type { BackupStatus } from '../core/index.ts';
import { DailyBackups, dailyBackups } from './daily.ts';
import type { Keep } from './days.ts';
import { catchUp, scrub, watchTokens } from './erase.ts';
import type { Examined } from './examine.ts';
import { nameClients } from './generation.ts';
import { hashOf } from './ledger.ts';
import type { Ledger } from './ledger.ts';
import { openDatabaseFile } from './schema.ts';
import type { Db } from './schema.ts';
import { SpoiltSession } from './spoilt.ts';

export interface KeepingOptions {
  /** Where the daily copies go; undefined for `backups` in the data directory. */
  readonly backups?: string | undefined;
  /** Time of day from which the day's copy is due, `03:00`; null for none. */
  readonly backupAt: string | null;
  readonly keepBackups: Keep;
  /** Days that personal data are kept after the last session was closed; null for ever. */
  readonly keepDays: number | null;
}

export const DEFAULT_KEEPING: KeepingOptions = {
  backupAt: '03:00',
  keepBackups: { days: 14, weeks: 8, months: 12 },
  keepDays: 1_095,
};

export interface KeeperDeps {
  readonly db: Db;
  readonly ledger: Ledger;
  readonly data: string;
  readonly timeZone: string;
  readonly log: Logger;
  now(): number;
  /**
   * Lets `change` put other generations of some sessions on the disk, with nothing pending, and sends whoever has
   * one of these open away.
   */
  regenerate(change: () => readonly string[], reason: string): void;
  /** Does something that writes; what the disk will not take is left for later. */
  attempt(write: () => void): void;
  /** Told how the backups are, after each look. */
  onBackup?(state: BackupStatus): void;
}

export interface Backups {
  /** Time of day in the shop's zone, `03:00`; null when none are made by themselves. */
  readonly due: string | null;
  readonly directory: string;
  /** Newest first. */
  readonly copies: readonly { readonly day: string; readonly bytes: number }[];
  readonly state: BackupStatus;
}

export interface Erased {
  readonly sessions: number;
  /** Daily copies that were rewritten, and the ones that could not be, with the reason. */
  readonly rewritten: readonly string[];
  readonly failed: readonly string[];
}

const CHECK_MS = 60_000;
const DAY_MS = 24 * 3_600_000;
const REASON = 'Personal data of this session were erased; ask the server for today’s room.';

export class Keeper {
  readonly #deps: KeeperDeps;
  readonly #options: KeepingOptions;
  readonly #directory: string;
  readonly #daily: DailyBackups;
  #timer: NodeJS.Timeout | undefined;
  #last: Promise<unknown> = Promise.resolve();
  #stopped = false;

  /** Does what the ledger says and the database has not done yet. */
  constructor(deps: KeeperDeps, options: KeepingOptions) {
    const { db, ledger, data, timeZone, log } = deps;
    this.#deps = deps;
    this.#options = options;
    this.#directory = options.backups ?? join(data, 'backups');
    const { backupAt: at, keepBackups: keep } = options;
    this.#daily = new DailyBackups(
      db,
      { directory: this.#directory, at, keep },
      timeZone,
      () => deps.now(),
      log,
    );
    deps.attempt(() => {
      nameClients(db);
      catchUp(db, ledger);
      scrub(db);
    });
    watchTokens(db, ledger);
    deps.onBackup?.(this.lastBackup);
  }

  get lastBackup(): BackupStatus {
    return this.#daily.state;
  }

  /** The daily copies there are, when they are due and where they go. */
  backups(): Backups {
    const { backupAt } = this.#options;
    const copies = dailyBackups(this.#directory).map(({ day, file }) => ({
      day,
      bytes: statSync(file).size,
    }));
    return { due: backupAt, directory: this.#directory, copies, state: this.lastBackup };
  }

  /** Looks every minute for what is due. */
  start(): void {
    this.#timer = setInterval(() => void this.check(), CHECK_MS).unref();
  }

  /** Takes on nothing more, and settles when what is under way has come to its end. */
  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#stopped = true;
    await this.#last;
  }

  /** Does what is due now. Never rejects: what fails is logged, and tried again. */
  check(): Promise<void> {
    return this.#turn(async () => {
      if (this.#daily.due()) await this.#daily.make();
      this.#deps.onBackup?.(this.lastBackup);
      this.#catchUp(); // with an erasure that could not be finished
      this.#eraseDue();
    }).catch((error: unknown) => this.#deps.log.error({ err: error }, 'what is due could not be done'));
  }

  /** A verified copy in `file`. Rejects with `NoBackup` or `BadBackup`. */
  backup(file: string): Promise<Examined> {
    return this.#turn(() => backUp(this.#deps.db, file));
  }

  /** Null when nobody has this reference. */
  export(ref: string): ClientFile | null {
    this.#deps.regenerate(() => [], ''); // what is pending goes to the disk first
    return clientFile(this.#deps.db, ref);
  }

  /**
   * Erases a client's personal data: the person, and the personal texts of all sessions. Null when nobody has
   * this reference. Rejects when it could not be written down; then nothing was erased. What fails after that is
   * done at the next start.
   */
  erase(ref: string, alsoBackups: boolean): Promise<Erased | null> {
    return this.#turn(async () => {
      this.#deps.regenerate(() => [], '');
      if (!clientFile(this.#deps.db, ref)) return null;
      const sessions = this.#erase([ref]);
      const { rewritten, failed } = alsoBackups
        ? await this.#rewriteBackups()
        : { rewritten: [], failed: [] };
      return { sessions, rewritten, failed };
    });
  }

  #eraseDue(): void {
    const { keepDays } = this.#options;
    if (keepDays === null) return;
    const due = dueClients(this.#deps.db, this.#deps.now() - keepDays * DAY_MS);
    const readable = due.filter((ref) => this.#canRead(ref));
    if (readable.length > 0) this.#erase(readable);
  }

  /** What is damaged cannot be written anew without its texts; it waits until it was mended. */
  #canRead(ref: string): boolean {
    try {
      clientFile(this.#deps.db, ref);
      return true;
    } catch (error) {
      if (!(error instanceof SpoiltSession)) throw error;
      this.#deps.log.warn({ session: error.session }, 'not erased in its time: the session is damaged');
      return false;
    }
  }

  /** @returns how many sessions were rebuilt. */
  #erase(refs: readonly string[]): number {
    const { db, ledger, log } = this.#deps;
    for (const ref of refs)
      ledger.append({ do: 'erase', client: hashOf(ref), sessions: sessionsOf(db, ref) });
    const count = this.#catchUp();
    log.info({ clients: refs.length, sessions: count }, 'personal data erased');
    return count;
  }

  /** Does what the ledger says. @returns how many sessions were rebuilt. */
  #catchUp(): number {
    const { db, ledger } = this.#deps;
    let count = 0;
    this.#deps.regenerate(() => {
      const sessions = catchUp(db, ledger);
      count = sessions.length;
      return sessions;
    }, REASON);
    scrub(db);
    return count;
  }

  /** Brings every daily copy up to the ledger: a copy of it is changed, read again, and put in its place. */
  async #rewriteBackups(): Promise<Pick<Erased, 'rewritten' | 'failed'>> {
    const [rewritten, failed]: [string[], string[]] = [[], []];
    for (const { file } of dailyBackups(this.#directory)) {
      const partial = `${file}.partial`;
      try {
        discard(partial);
        copyFileSync(file, partial);
        const copy = openDatabaseFile(partial);
        try {
          nameClients(copy);
          catchUp(copy, this.#deps.ledger);
          scrub(copy);
        } finally {
          copy.close();
        }
        await finish(partial, file, true);
        rewritten.push(file);
      } catch (error) {
        discard(partial);
        failed.push(`${file}: ${(error as Error).message}`);
        this.#deps.log.error({ err: error, file }, 'a backup could not be rewritten');
      }
    }
    return { rewritten, failed };
  }

  #turn<T>(work: () => Promise<T>): Promise<T> {
    if (this.#stopped) return Promise.reject(new Error('The server is stopping.'));
    const turn = this.#last.then(work);
    this.#last = turn.catch(() => undefined);
    return turn;
  }
}
