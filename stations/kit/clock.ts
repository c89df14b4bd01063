/**
 * The shop's clock as a station knows it: the server's last word, run on by this device's steady clock. A tablet's
 * own wall clock may jump by an hour or by years, and nothing that is kept or dropped may hang on it.
 */
export class ShopClock {
  #atMs: number | null = null;
  #steadyMs = 0;
  readonly #steady: () => number;

  /** `steady` counts milliseconds from anywhere, and only forward. */
  constructor(steady: () => number = () => performance.now()) {
    this.#steady = steady;
  }

  /** An answer's `Date` header. */
  note(date: string | null): void {
    const atMs = date === null ? NaN : Date.parse(date);
    if (!Number.isFinite(atMs)) return;
    this.#atMs = atMs;
    this.#steadyMs = this.#steady();
  }

  /** Milliseconds since 1970; null while the server has not answered yet. */
  nowMs(): number | null {
    return this.#atMs === null ? null : this.#atMs + (this.#steady() - this.#steadyMs);
  }
}

export const shopClock = new ShopClock();
