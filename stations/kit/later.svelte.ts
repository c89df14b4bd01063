/**
 * A part of a page that its first picture does not need. It is fetched at once after that, not when it is asked for:
 * a page that is open a while needs nothing of a build that may be gone by then.
 */
export class Later<Part> {
  #part = $state.raw<Part | null>(null);
  #failed = $state(false);

  constructor(load: () => Promise<{ default: Part }>) {
    load().then(
      (module) => (this.#part = module.default),
      () => (this.#failed = true),
    );
  }

  /** Null until it is here. */
  get part(): Part | null {
    return this.#part;
  }

  /** It did not come: a browser does not ask for it twice, so the page must be loaded again. */
  get failed(): boolean {
    return this.#failed;
  }
}
