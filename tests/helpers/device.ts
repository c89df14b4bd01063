/** What a station's browser has kept on its device, read in the page. */
import type { Page } from 'playwright';
import type { Fact } from '../../core/index.ts';

export interface KeptEntry {
  readonly session: string;
  readonly id: string;
  readonly fact: Fact;
  readonly state: 'waiting' | 'saved' | 'refused';
  readonly order: number;
  readonly generation?: number;
  readonly savedMs?: number | null;
}

/** Own entries, in the order in which they were made. */
export async function keptEntries(page: Page): Promise<KeptEntry[]> {
  const entries = await page.evaluate(
    () =>
      new Promise<unknown[]>((resolve, reject) => {
        const open = indexedDB.open('fibula-outbox');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const all = open.result.transaction('entries').objectStore('entries').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            open.result.close();
            resolve(all.result);
          };
        };
      }),
  );
  return (entries as KeptEntry[]).sort((a, b) => a.order - b.order);
}

/** Writes into a store of its own until the device takes nothing more, not even little. */
export const fillDevice = (page: Page) =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const open = indexedDB.open('filler');
      open.onupgradeneeded = () => open.result.createObjectStore('bytes', { autoIncrement: true });
      open.onsuccess = () => resolve(open.result);
      open.onerror = () => reject(open.error);
    });
    const fits = (bytes: Uint8Array) =>
      new Promise<boolean>((resolve) => {
        const put = db.transaction('bytes', 'readwrite', { durability: 'strict' });
        put.objectStore('bytes').add(bytes);
        put.oncomplete = () => resolve(true);
        put.onabort = () => resolve(false);
      });
    for (let size = 65_536; size >= 64; size /= 4)
      for (let count = 0; count < 500; count += 1)
        // By chance, so that nothing is packed.
        if (!(await fits(crypto.getRandomValues(new Uint8Array(size))))) break;
    db.close();
  });

/** Resolves when the service worker has all pages of its build. */
export const pagesKept = (page: Page) =>
  page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

/** What is in the caches of this origin: for each cache its name and the paths. */
export const caches = (page: Page) =>
  page.evaluate(async () => {
    const names = await globalThis.caches.keys();
    return Promise.all(
      names.map(async (name) => {
        const requests = await (await globalThis.caches.open(name)).keys();
        return { name, paths: requests.map(({ url }) => new URL(url).pathname) };
      }),
    );
  });

/** Puts values into the device's store as entries that wait, in the place of an earlier version of the page. */
export const plant = (page: Page, session: string, facts: readonly { readonly id: string }[]) =>
  page.evaluate(
    ([id, values]) =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open('fibula-outbox');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const transaction = open.result.transaction('entries', 'readwrite');
          values.forEach((fact, i) =>
            transaction
              .objectStore('entries')
              .put({ session: id, id: fact.id, fact, state: 'waiting', order: i + 1 }),
          );
          transaction.onerror = () => reject(transaction.error);
          transaction.oncomplete = () => {
            open.result.close();
            resolve();
          };
        };
      }),
    [session, facts] as const,
  );

/** All that the device's store holds, as one text. */
export const allKept = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<string>((resolve, reject) => {
        const open = indexedDB.open('fibula-outbox');
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const names = [...open.result.objectStoreNames];
          const transaction = open.result.transaction(names);
          const all = names.map((name) => transaction.objectStore(name).getAll());
          transaction.oncomplete = () => {
            open.result.close();
            resolve(JSON.stringify(all.map(({ result }) => result as unknown[])));
          };
          transaction.onerror = () => reject(transaction.error);
        };
      }),
  );
