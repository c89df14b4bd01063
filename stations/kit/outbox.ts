/**
 * This device's own entries, kept until the shop has them: a small IndexedDB store with strict durability.
 *
 * An entry is `waiting` until the server's disk has it, then `saved` and dropped some days later, or `refused` and
 * kept until a person has dealt with it. Entries are kept as plain JSON, not as document updates, so that they can
 * be offered again under another client id, to another generation of the session, or after a re-pairing.
 */
import type { Fact, Refusal } from '../../core/index.ts';

export interface OutboxEntry {
  readonly session: string;
  readonly id: string;
  readonly fact: Fact;
  readonly state: 'waiting' | 'saved' | 'refused';
  readonly refusal?: Refusal;
  /** The order in which entries were written here. */
  readonly order: number;
  /** When its state last changed; ms since 1970. */
  readonly sinceMs: number;
}

const STORE = 'entries';
/** A restore from last night's copy can lose a day; a week leaves room for a closed weekend. */
const KEEP_SAVED_MS = 7 * 24 * 3600 * 1000;

const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the device store failed'));
  });

export class Outbox {
  readonly #db: Promise<IDBDatabase>;

  constructor(name = 'fibula-outbox', factory: IDBFactory = indexedDB) {
    const open = factory.open(name, 1);
    open.onupgradeneeded = () => {
      open.result.createObjectStore(STORE, { keyPath: ['session', 'id'] }).createIndex('state', 'state');
    };
    this.#db = done(open);
  }

  /** Resolves once the entries are on this device's disk. */
  put(session: string, facts: readonly Fact[], nowMs: number): Promise<void> {
    return this.#write((store) => {
      facts.forEach((fact, i) => {
        const order = nowMs + i / 1000;
        store.put({
          session,
          id: fact.id,
          fact,
          state: 'waiting',
          order,
          sinceMs: nowMs,
        } satisfies OutboxEntry);
      });
    });
  }

  markSaved(session: string, ids: readonly string[], nowMs: number): Promise<void> {
    return this.#change(session, ids, (entry) => ({ ...entry, state: 'saved', sinceMs: nowMs }));
  }

  markRefused(session: string, id: string, refusal: Refusal, nowMs: number): Promise<void> {
    return this.#change(session, [id], (entry) => ({ ...entry, state: 'refused', refusal, sinceMs: nowMs }));
  }

  remove(session: string, id: string): Promise<void> {
    return this.#write((store) => store.delete([session, id]));
  }

  /** This session's entries that are not saved, in the order in which they were written. */
  async unsaved(session: string): Promise<OutboxEntry[]> {
    const all = await this.#read((store) => done(store.getAll(IDBKeyRange.bound([session], [session, []]))));
    return (all as OutboxEntry[])
      .filter((entry) => entry.state !== 'saved')
      .sort((a, b) => a.order - b.order);
  }

  /** Sessions that still have something to send. */
  async waitingSessions(): Promise<string[]> {
    const waiting = await this.#read((store) => done(store.index('state').getAll('waiting')));
    return [...new Set((waiting as OutboxEntry[]).map((entry) => entry.session))];
  }

  /** Drops what has been saved for long. */
  async sweep(nowMs: number): Promise<void> {
    const saved = (await this.#read((store) => done(store.index('state').getAll('saved')))) as OutboxEntry[];
    const old = saved.filter((entry) => nowMs - entry.sinceMs > KEEP_SAVED_MS);
    if (old.length > 0)
      await this.#write((store) => old.forEach((entry) => store.delete([entry.session, entry.id])));
  }

  async #read<T>(ask: (store: IDBObjectStore) => Promise<T>): Promise<T> {
    const db = await this.#db;
    return ask(db.transaction(STORE, 'readonly').objectStore(STORE));
  }

  #change(session: string, ids: readonly string[], next: (entry: OutboxEntry) => OutboxEntry): Promise<void> {
    return this.#write((store) => {
      for (const id of ids) {
        const get = store.get([session, id]);
        get.onsuccess = () => {
          if (get.result) store.put(next(get.result as OutboxEntry));
        };
      }
    });
  }

  async #write(change: (store: IDBObjectStore) => void): Promise<void> {
    const db = await this.#db;
    const transaction = db.transaction(STORE, 'readwrite', { durability: 'strict' });
    change(transaction.objectStore(STORE));
    await new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error('the device store failed'));
    });
  }
}
