/** What is being typed and not yet entered: survives a lost connection and a reload of this tab. */

const keyOf = (name: string): string => `fibula.draft.${name}`;

/** For a form that is not open: what it will begin with. */
export const keepDraft = (name: string, value: object): void =>
  sessionStorage.setItem(keyOf(name), JSON.stringify(value));

export class Draft<T extends object> {
  readonly #key: string;
  readonly #empty: () => T;
  value: T = $state() as T;

  constructor(key: string, empty: () => T) {
    this.#key = keyOf(key);
    this.#empty = empty;
    const kept = sessionStorage.getItem(this.#key);
    this.value = kept ? { ...empty(), ...(JSON.parse(kept) as Partial<T>) } : empty();
  }

  /** Keeps the draft; call it from an effect, so that it follows every change. */
  keep(): void {
    sessionStorage.setItem(this.#key, JSON.stringify(this.value));
  }

  clear(): void {
    this.value = this.#empty();
    sessionStorage.removeItem(this.#key);
  }
}
