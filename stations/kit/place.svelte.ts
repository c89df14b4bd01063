/** Which session this page shows: kept in the address after `#`, so that a reload and the back button keep it. */
import { afterPaint } from './after-paint.ts';

export class Place {
  #session = $state<string | null>(null);
  readonly #turn = () =>
    afterPaint(() => {
      const left = this.#session;
      this.#read();
      // Another session is another page, and begins at its top.
      if (this.#session !== left) scrollTo(0, 0);
    });

  constructor() {
    this.#read();
    addEventListener('hashchange', this.#turn);
  }

  get session(): string | null {
    return this.#session;
  }

  go(session: string | null): void {
    location.hash = session ?? '';
    // The browser tells of it a while later; what is scanned until then is scanned on the page that was asked for.
    this.#turn();
  }

  close(): void {
    removeEventListener('hashchange', this.#turn);
  }

  #read(): void {
    const id = location.hash.slice(1);
    this.#session = /^[0-9a-f]{32}$/.test(id) ? id : null;
  }
}
