/**
 * What this device last saw of the shop, for a page that is loaded while there is no connection: the facts of the
 * sessions that were open here, and the rows of the board. Only shown, never offered: the shop has all of it.
 */
import { done } from './device.ts';
import type { DeviceStore } from './device.ts';

export interface KnownSession {
  readonly session: string;
  readonly generation: number;
  /** As they stood in the shop's list, unread: a later version of this page may know more kinds. */
  readonly facts: readonly unknown[];
  /** Counts up with each session that is seen, whatever the clock says. */
  readonly order: number;
}

/** Sessions kept; those seen longest ago go first. A floor station opens some thirty a day. */
const KEPT = 60;

function dropOldest(store: IDBObjectStore): void {
  const count = store.count();
  count.onsuccess = () => {
    let tooMany = count.result - KEPT;
    if (tooMany <= 0) return;
    const oldest = store.index('order').openCursor();
    oldest.onsuccess = () => {
      if (!oldest.result || tooMany === 0) return;
      tooMany -= 1;
      oldest.result.delete();
      oldest.result.continue();
    };
  };
}

export class LastKnown {
  readonly #device: DeviceStore;

  constructor(device: DeviceStore) {
    this.#device = device;
  }

  async session(session: string): Promise<KnownSession | null> {
    const known: unknown = await this.#device
      .read('sessions', (store) => done(store.get(session)))
      .catch(() => undefined);
    return (known as KnownSession | undefined) ?? null;
  }

  keepSession(session: string, generation: number, facts: readonly unknown[]): Promise<void> {
    return this.#write('sessions', (store) => {
      const newest = store.index('order').openCursor(null, 'prev');
      newest.onsuccess = () => {
        const last = newest.result?.value as KnownSession | undefined;
        const order = last?.session === session ? last.order : (last?.order ?? 0) + 1;
        store.put({ session, generation, facts, order } satisfies KnownSession);
        dropOldest(store);
      };
    });
  }

  dropSession(session: string): Promise<void> {
    return this.#write('sessions', (store) => store.delete(session));
  }

  async rows<Row>(board: string): Promise<readonly Row[] | null> {
    const known: unknown = await this.#device
      .read('boards', (store) => done(store.get(board)))
      .catch(() => undefined);
    return (known as { rows: readonly Row[] } | undefined)?.rows ?? null;
  }

  keepRows(board: string, rows: readonly unknown[]): Promise<void> {
    return this.#write('boards', (store) => store.put({ board, rows }));
  }

  /** This browser is no station of the shop any more. */
  async forget(): Promise<void> {
    await this.#write('sessions', (store) => store.clear());
    await this.#write('boards', (store) => store.clear());
  }

  /** Nothing that is lost here is lost: the health of the store is told by itself. */
  #write(name: 'sessions' | 'boards', change: (store: IDBObjectStore) => void): Promise<void> {
    return this.#device.write(name, change, 'relaxed').catch(() => undefined);
  }
}
