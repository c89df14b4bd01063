/**
 * This device's own database: one small IndexedDB, strict where a person's entries are written, and its health
 * said at once, since a tablet that is full looks like any other.
 */

/** `full`: no room left. `failed`: anything else, such as a browser that keeps nothing. */
export type Health = 'well' | 'full' | 'failed';
export type StoreName = 'entries' | 'sessions' | 'boards' | 'tab' | 'photos';

const NAME = 'fibula-outbox';
const VERSION = 3;

export const done = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the device store failed'));
  });

/** Version 1 had the entries alone, version 2 no photos. */
function upgrade(db: IDBDatabase, transaction: IDBTransaction, from: number): void {
  if (from < 1) db.createObjectStore('entries', { keyPath: ['session', 'id'] }).createIndex('state', 'state');
  if (from < 2) {
    transaction.objectStore('entries').createIndex('order', 'order');
    db.createObjectStore('sessions', { keyPath: 'session' }).createIndex('order', 'order');
    db.createObjectStore('boards', { keyPath: 'board' });
    db.createObjectStore('tab', { keyPath: 'name' });
  }
  if (from < 3) db.createObjectStore('photos', { keyPath: ['session', 'sha256'] });
}

export class DeviceStore {
  readonly #factory: () => IDBFactory;
  #db: Promise<IDBDatabase> | null = null;
  /** The same once it is open, so that a write begins in the very moment of the tap. */
  #opened: IDBDatabase | null = null;
  #health: Health = 'well';
  readonly #onHealth: (health: Health) => void;
  /** Writes under way. */
  readonly #writing = new Set<Promise<void>>();

  /** `factory`: where databases are; the browser's own unless another is given. */
  constructor(
    onHealth: (health: Health) => void = () => undefined,
    factory: () => IDBFactory = () => indexedDB,
  ) {
    this.#onHealth = onHealth;
    this.#factory = factory;
  }

  get health(): Health {
    return this.#health;
  }

  async read<T>(name: StoreName, ask: (store: IDBObjectStore) => Promise<T>): Promise<T> {
    try {
      const db = await this.#open();
      return await ask(db.transaction(name, 'readonly').objectStore(name));
    } catch (error) {
      throw this.#ill(error);
    }
  }

  /**
   * One transaction. Resolves once it is done: on the disk when strict, as everything is that exists nowhere else.
   * Rejects when nothing of it was kept, and the health says so.
   */
  write(
    name: StoreName,
    change: (store: IDBObjectStore) => void,
    durability: 'strict' | 'relaxed' = 'strict',
  ): Promise<void> {
    const work = this.#write(name, change, durability).finally(() => this.#writing.delete(work));
    this.#writing.add(work);
    return work;
  }

  /** Settles when every write begun so far has ended, well or not. */
  async settled(): Promise<void> {
    await Promise.allSettled(this.#writing);
  }

  async #write(
    name: StoreName,
    change: (store: IDBObjectStore) => void,
    durability: 'strict' | 'relaxed',
  ): Promise<void> {
    try {
      const db = this.#opened ?? (await this.#open());
      const transaction = db.transaction(name, 'readwrite', { durability });
      const end = new Promise<void>((resolve, reject) => {
        transaction.oncomplete = () => resolve();
        transaction.onabort = () => reject(transaction.error ?? new Error('the device store failed'));
      });
      change(transaction.objectStore(name));
      await end;
    } catch (error) {
      throw this.#ill(error);
    }
    if (durability === 'strict') this.#say('well');
  }

  #open(): Promise<IDBDatabase> {
    this.#db ??= this.#begin().catch((error: unknown) => {
      this.#db = null; // the next one who asks tries again
      throw error;
    });
    return this.#db;
  }

  async #begin(): Promise<IDBDatabase> {
    const request = this.#factory().open(NAME, VERSION);
    request.onupgradeneeded = ({ oldVersion }) => upgrade(request.result, request.transaction!, oldVersion);
    request.onblocked = () => this.#say('failed'); // an older page holds it open, and says nothing
    const db = await done(request);
    const forget = () => {
      this.#db = null;
      this.#opened = null;
    };
    // A newer page wants to change the layout: it must not wait for this one.
    db.onversionchange = () => {
      db.close();
      forget();
    };
    db.onclose = forget;
    this.#opened = db;
    return db;
  }

  #ill(error: unknown): Error {
    const full = (error as { name?: unknown } | null)?.name === 'QuotaExceededError';
    this.#say(full ? 'full' : 'failed');
    return error instanceof Error ? error : new Error(String(error));
  }

  #say(health: Health): void {
    if (health === this.#health) return;
    this.#health = health;
    this.#onHealth(health);
  }
}
