/**
 * Work that can wait: for named things, one at a time in the order in which they came due. It is done at once while little
 * of it comes; where much comes, it takes one part in `share` of the server's time and no more.
 */

/** What may be done at once after a rest, ms of work. */
const AT_ONCE_MS = 500;
/** Milliseconds that anything waits at most: a clock set forward makes a moment look like a year. */
const MOST_WAIT_MS = 5_000;

export interface PacedOptions {
  readonly share: number;
  /** Does it for one of them. Throws nothing. */
  readonly work: (name: string) => void;
  now(): number;
}

export class Paced {
  readonly #options: PacedOptions;
  readonly #due = new Set<string>();
  #timer: NodeJS.Timeout | undefined;
  #stopped = false;
  /** Milliseconds of work that may be done now; at or below zero, none. */
  #credit = AT_ONCE_MS;
  #creditedAt: number;

  constructor(options: PacedOptions) {
    this.#options = options;
    this.#creditedAt = options.now();
  }

  add(name: string): void {
    this.#due.add(name);
    this.#wake();
  }

  /** Does at once what is due, and nothing more by itself. */
  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
    const due = [...this.#due];
    this.#due.clear();
    for (const name of due) this.#options.work(name);
  }

  #wake(): void {
    if (this.#stopped || this.#timer || this.#due.size === 0) return;
    this.#earn();
    const waitMs = this.#credit > 0 ? 0 : Math.min((1 - this.#credit) * this.#options.share, MOST_WAIT_MS);
    this.#timer = setTimeout(() => {
      this.#timer = undefined;
      this.#next();
      this.#wake();
    }, waitMs);
  }

  #next(): void {
    const [name] = this.#due;
    if (name === undefined) return;
    this.#due.delete(name);
    const start = performance.now();
    this.#options.work(name);
    this.#credit -= performance.now() - start;
  }

  #earn(): void {
    const now = this.#options.now();
    const earned = Math.max(0, now - this.#creditedAt) / this.#options.share;
    this.#credit = Math.min(AT_ONCE_MS, this.#credit + earned);
    this.#creditedAt = now;
  }
}
