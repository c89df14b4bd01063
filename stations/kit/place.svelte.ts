/** Which session this page shows: kept in the address after `#`, so that a reload and the back button keep it. */

export class Place {
  #session = $state<string | null>(null);
  readonly #read = () => {
    const id = location.hash.slice(1);
    this.#session = /^[0-9a-f]{32}$/.test(id) ? id : null;
  };

  constructor() {
    this.#read();
    addEventListener('hashchange', this.#read);
  }

  get session(): string | null {
    return this.#session;
  }

  go(session: string | null): void {
    location.hash = session ?? '';
    // Another session is another page, and begins at its top.
    scrollTo(0, 0);
    this.#read();
  }

  close(): void {
    removeEventListener('hashchange', this.#read);
  }
}
