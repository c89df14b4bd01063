/**
 * Work that can wait: for named things, one at a time, each when its user says that it is due. Where much comes, it takes
 * one part in `share` of the server's time and no more.
 */

/** When a name was first and last asked for since it was done; ms of a clock that nobody sets. */
export interface Asked {
  readonly firstMs: number;
  readonly lastMs: number;
}

export interface PacedOptions {
  readonly share: number;
  /** What may be done at once after a rest, ms of work. */
  readonly atOnceMs: number;
  /** The moment from which the work may be done. */
  readonly dueMs: (asked: Asked) => number;
  /** Does it for one of them. Throws nothing. */
  readonly work: (name: string) => void;
  /** Milliseconds of a clock that is never set; only a test has one of its own. */
  readonly now?: () => number;
}

export class Paced {
  readonly #options: PacedOptions;
  readonly #now: () => number;
  readonly #asked = new Map<string, Asked>();
  #timer: NodeJS.Timeout | undefined;
  #wakesMs = Infinity;
  #stopped = false;
  /** Milliseconds of work that may be done now; at or below zero, none. */
  #credit: number;
  #creditedMs: number;

  constructor(options: PacedOptions) {
    this.#options = options;
    this.#now = options.now ?? (() => performance.now());
    this.#credit = options.atOnceMs;
    this.#creditedMs = this.#now();
  }

  add(name: string): void {
    const now = this.#now();
    const firstMs = this.#asked.get(name)?.firstMs ?? now;
    const asked = { firstMs, lastMs: now };
    this.#asked.set(name, asked);
    this.#wake(this.#options.dueMs(asked));
  }

  /** How many were asked for and are not done yet. */
  get size(): number {
    return this.#asked.size;
  }

  /** Whether it was asked for and is not done yet. */
  has(name: string): boolean {
    return this.#asked.has(name);
  }

  /** Does at once what was asked for, and nothing more by itself. */
  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
    const names = [...this.#asked.keys()];
    this.#asked.clear();
    for (const name of names) this.#options.work(name);
  }

  /** At `dueMs`, or when there is time for it again. */
  #wake(dueMs: number): void {
    if (this.#stopped) return;
    const now = this.#now();
    this.#earn(now);
    const wakesMs = Math.max(dueMs, this.#credit > 0 ? now : now + (1 - this.#credit) * this.#options.share);
    if (this.#timer && this.#wakesMs <= wakesMs) return;
    clearTimeout(this.#timer);
    this.#wakesMs = wakesMs;
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      this.#next();
    }, wakesMs - now);
  }

  /** The one that is due first, if it is; looks again when the next one is. */
  #next(): void {
    const [first, second] = this.#firstTwo();
    if (!first) return;
    if (first.dueMs > this.#now()) return this.#wake(first.dueMs);
    this.#asked.delete(first.name);
    const start = this.#now();
    this.#options.work(first.name);
    this.#credit -= this.#now() - start;
    if (second) this.#wake(second.dueMs);
  }

  #firstTwo(): { readonly name: string; readonly dueMs: number }[] {
    return [...this.#asked]
      .map(([name, asked]) => ({ name, dueMs: this.#options.dueMs(asked) }))
      .sort((a, b) => a.dueMs - b.dueMs)
      .slice(0, 2);
  }

  #earn(now: number): void {
    const { atOnceMs, share } = this.#options;
    this.#credit = Math.min(atOnceMs, this.#credit + (now - this.#creditedMs) / share);
    this.#creditedMs = now;
  }
}
