/**
 * What a browser gives to a page and Node does not, so that the stations' own session code runs here as it is: a
 * WebSocket that carries the page's cookie, a fetch that knows where the page came from, and IndexedDB.
 *
 * Each station is a page of its own; which one is asking follows from where its code was started (`inPage`).
 */
import { AsyncLocalStorage } from 'node:async_hooks';
import { IDBKeyRange } from 'fake-indexeddb';
import { WebSocket } from 'ws';
import type { Witness } from './witness.ts';

export interface Page {
  /** Where the page was loaded from: `http://127.0.0.1:port`. */
  readonly origin: string;
  readonly cookie: string;
  /** Hears every frame that comes to this page. */
  readonly witness: Witness;
  /** Its sockets that are not closed yet. */
  readonly sockets: Set<WebSocket>;
}

const pages = new AsyncLocalStorage<Page>();

/** Runs `work`, and whatever it sets off, as this page. */
export const inPage = <T>(page: Page, work: () => T): T => pages.run(page, work);

function current(): Page {
  const page = pages.getStore();
  if (!page) throw new Error('a station’s code ran outside any page');
  return page;
}

class PageSocket extends WebSocket {
  constructor(address: string | URL, protocols: string | string[] = []) {
    const page = current();
    super(address, protocols, { headers: { cookie: page.cookie, origin: page.origin } });
    page.sockets.add(this);
    this.on('close', () => page.sockets.delete(this));
    const room = new URL(address).pathname.slice('/sync/'.length);
    // First in line: what has come to the station counts as shown, whatever its code then does with it.
    this.on('message', (data: Buffer | ArrayBuffer) => page.witness.hear(room, new Uint8Array(data)));
  }
}

const plainFetch = globalThis.fetch;
/** Relative addresses, as a page's own code gives them; any other goes out as it is. */
const pageFetch: typeof fetch = (target, init) => {
  if (typeof target !== 'string' || !target.startsWith('/')) return plainFetch(target, init);
  const { origin, cookie } = current();
  const headers = { ...(init?.headers as Record<string, string> | undefined), origin, cookie };
  return plainFetch(new URL(target, origin), { ...init, headers });
};

/** Puts them where the stations' code looks. Once, before the first page. */
export function becomeBrowser(): void {
  process.setMaxListeners(0); // y-websocket listens for the end of the process, once for each session of each page
  Object.assign(globalThis, { WebSocket: PageSocket, fetch: pageFetch, IDBKeyRange });
}
