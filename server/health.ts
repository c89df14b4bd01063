/**
 * Whether the server can keep what is entered. When its disk will not take a commit it goes read-only: what is
 * on disk is still read, entries wait at the stations, and a tiny write tells now and then whether it works again.
 */
import type { Logger } from 'pino';
import { ALL_WELL } from '../core/index.ts';
import type { BackupStatus, ReadOnly, ServerStatus } from '../core/index.ts';
import { troubleOf } from './trouble.ts';

export interface HealthOutside {
  readonly log: Logger;
  /** Writes about `bytes` as a commit would, and takes them away again. Throws when the disk will not have it. */
  probe(bytes: number): void;
  /** Bytes left for this server on the disk of its data. */
  freeBytes(): number;
  /** Bytes under which a warning is due. */
  readonly lowSpaceBytes: number;
}

type Listener = (now: ServerStatus, before: ServerStatus) => void;

/** Milliseconds to the first try, doubled with each that fails, up to the last. */
const TRY_MS = { first: 1_000, last: 10_000 } as const;
const SPACE_CHECK_MS = 60_000;
/** What a try writes at least, and at most: as much as the commit that failed, so that it does not fail again. */
const PROBE_BYTES = { least: 65_536, most: 4_194_304 } as const;
/** An input or output error on a disk with less than this is a full disk in other words. */
const FULL_BYTES = 1_048_576;
/** A warning is taken back once there is this much more than the threshold. */
const RELIEF = 1.1;

export class Health {
  readonly #outside: HealthOutside;
  readonly #space: NodeJS.Timeout;
  #status: ServerStatus = ALL_WELL;
  readonly #listeners: Listener[] = [];
  #retry: NodeJS.Timeout | undefined;
  #delayMs: number = TRY_MS.first;
  #probeBytes: number = PROBE_BYTES.least;
  #stopped = false;

  constructor(outside: HealthOutside) {
    this.#outside = outside;
    this.checkSpace();
    this.#space = setInterval(() => this.checkSpace(), SPACE_CHECK_MS).unref();
  }

  get status(): ServerStatus {
    return this.#status;
  }

  get readOnly(): ReadOnly | null {
    return this.#status.readOnly;
  }

  /** Who is told of every change. */
  onChange(listener: Listener): void {
    this.#listeners.push(listener);
  }

  /** Does something that writes, or, when the disk will not have it, `otherwise`. Throws what is no trouble of the disk. */
  attempt<T>(write: () => T, otherwise: () => T): T {
    try {
      return write();
    } catch (error) {
      if (this.failed(error) === null) throw error;
      return otherwise();
    }
  }

  /**
   * Something of the disk's failed. @param bytes what was to be written.
   * @returns what it says of the disk, or null when the error is not the disk's: a bug.
   */
  failed(error: unknown, bytes = 0): ReadOnly | null {
    const trouble = this.#name(error);
    if (trouble === null || this.readOnly === 'damaged') return trouble;
    const wanted = Math.min(2 * bytes, PROBE_BYTES.most);
    this.#probeBytes = Math.max(this.#probeBytes, wanted);
    if (this.readOnly !== trouble) {
      this.#outside.log.error({ err: error, readOnly: trouble }, 'read-only: the disk takes no entries');
      this.#set({ ...this.#status, readOnly: trouble });
    }
    this.#tryLater();
    return trouble;
  }

  /** Something was committed: the disk works. */
  worked(): void {
    this.#delayMs = TRY_MS.first;
    this.#probeBytes = PROBE_BYTES.least;
  }

  checkSpace(): void {
    const { lowSpaceBytes, log } = this.#outside;
    const free = this.#freeBytes();
    if (free === null) return;
    const { lowSpace } = this.#status;
    const isLow = free < (lowSpace ? lowSpaceBytes * RELIEF : lowSpaceBytes);
    const now = isLow ? { freeMb: Number((free / 1e6).toPrecision(2)) } : null;
    if (now?.freeMb === lowSpace?.freeMb) return;
    if (!lowSpace) log.warn({ freeMb: now?.freeMb }, 'little space is left on the disk');
    this.#set({ ...this.#status, lowSpace: now });
  }

  /** How the backups are now; stations are told when that has changed. */
  noteBackup(backup: BackupStatus): void {
    const { backup: was } = this.#status;
    const same =
      was?.ok === backup.ok &&
      was.atMs === backup.atMs &&
      was.bytes === backup.bytes &&
      was.reason === backup.reason;
    if (!same) this.#set({ ...this.#status, backup });
  }

  stop(): void {
    this.#stopped = true;
    clearInterval(this.#space);
    clearTimeout(this.#retry);
  }

  #name(error: unknown): ReadOnly | null {
    const trouble = troubleOf(error);
    if (trouble !== 'failing') return trouble;
    return (this.#freeBytes() ?? Infinity) < FULL_BYTES ? 'full' : trouble;
  }

  #freeBytes(): number | null {
    try {
      return this.#outside.freeBytes();
    } catch {
      return null; // not every file system tells
    }
  }

  /** The delay grows until a commit has worked: a probe that goes through proves less than a commit. */
  #tryLater(): void {
    if (this.#retry || this.#stopped || this.readOnly === 'damaged') return;
    this.#retry = setTimeout(() => this.#try(), this.#delayMs).unref();
    this.#delayMs = Math.min(2 * this.#delayMs, TRY_MS.last);
  }

  #try(): void {
    this.#retry = undefined;
    try {
      this.#outside.probe(this.#probeBytes);
    } catch (error) {
      if (this.failed(error) === null) {
        this.#outside.log.error({ err: error }, 'the disk could not be tried');
        this.#tryLater();
      }
      return;
    }
    this.#outside.log.info({ was: this.readOnly }, 'the disk takes entries again');
    this.#set({ ...this.#status, readOnly: null });
    this.checkSpace();
  }

  #set(now: ServerStatus): void {
    const before = this.#status;
    this.#status = now;
    for (const tell of this.#listeners) tell(now, before);
  }
}
