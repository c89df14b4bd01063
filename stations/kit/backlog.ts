/**
 * Sessions that nobody looks at and that still have something to send: opened a few at a time, since a station may
 * hold a dozen sockets and a tablet can come back with a week of jobs. One that gets nowhere makes room for others.
 */
const AT_ONCE = 4;
const PATIENCE_MS = 10_000;

export interface BacklogDeps {
  open(id: string): void;
  /** Closes it unless somebody looks at it. */
  putDown(id: string): void;
}

export class Backlog {
  readonly #deps: BacklogDeps;
  readonly #open = new Map<string, ReturnType<typeof setTimeout>>();
  #queue: string[] = [];

  constructor(deps: BacklogDeps) {
    this.#deps = deps;
  }

  add(ids: readonly string[]): void {
    const known = new Set([...this.#open.keys(), ...this.#queue]);
    this.#queue.push(...ids.filter((id) => !known.has(id)));
    this.#fill();
  }

  /** This session has nothing to send any more. */
  settled(id: string): void {
    clearTimeout(this.#open.get(id));
    if (!this.#open.delete(id)) this.#queue = this.#queue.filter((each) => each !== id);
    this.#fill();
  }

  stop(): void {
    for (const timer of this.#open.values()) clearTimeout(timer);
    this.#open.clear();
    this.#queue = [];
  }

  #fill(): void {
    while (this.#open.size < AT_ONCE) {
      const id = this.#queue.shift();
      if (id === undefined) return;
      this.#open.set(
        id,
        setTimeout(() => this.#giveWay(id), PATIENCE_MS),
      );
      this.#deps.open(id);
    }
  }

  #giveWay(id: string): void {
    if (this.#queue.length === 0) {
      this.#open.set(
        id,
        setTimeout(() => this.#giveWay(id), PATIENCE_MS),
      );
      return;
    }
    this.#open.delete(id);
    this.#queue.push(id);
    this.#deps.putDown(id);
    this.#fill();
  }
}
