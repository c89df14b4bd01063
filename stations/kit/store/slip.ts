/**
 * Entries on their way into the device's database, written down at once where a page can: a browser throws an
 * unfinished transaction away with its page, and a tablet may be put to sleep a moment after the tap.
 */
import type { Fact } from '../../../core/index.ts';

export interface Entered {
  readonly session: string;
  readonly fact: Fact;
}

/** As `localStorage` has them. */
export type SlipStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const KEY = 'fibula.slip';

export class Slip {
  readonly #storage: SlipStorage;
  readonly #entered = new Map<string, Entered>();

  constructor(storage: SlipStorage) {
    this.#storage = storage;
  }

  hold(entered: readonly Entered[]): void {
    for (const each of entered) this.#entered.set(each.fact.id, each);
    this.#write();
  }

  /** The database or the shop has them now. */
  release(ids: readonly string[]): void {
    let gone = 0;
    for (const id of ids) gone += this.#entered.delete(id) ? 1 : 0;
    if (gone > 0) this.#write();
  }

  /** What an earlier page was writing when it went away. */
  left(): readonly Entered[] {
    try {
      const left = JSON.parse(this.#storage.getItem(KEY) ?? '[]') as readonly Entered[];
      return left.filter(({ fact }) => !this.#entered.has(fact.id));
    } catch {
      return [];
    }
  }

  #write(): void {
    try {
      if (this.#entered.size === 0) this.#storage.removeItem(KEY);
      else this.#storage.setItem(KEY, JSON.stringify([...this.#entered.values()]));
    } catch {
      // No room, or a browser that keeps nothing: the database is the one that says so.
    }
  }
}
