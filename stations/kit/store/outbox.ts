/**
 * This device's own entries, kept until the shop has them and for a week after: small, strict, in plain JSON.
 *
 * An entry is `waiting` until the server's disk has it, then `saved`, or `refused` and kept until a person has dealt
 * with it. Entries are kept as JSON, not as document updates, so that they can be offered again under another
 * client id, to another generation of the session, or after a re-pairing.
 */
import type { Fact, Refusal } from '../../../core/index.ts';
import { done } from './device.ts';
import type { DeviceStore } from './device.ts';
import type { Entered, Slip } from './slip.ts';

export interface OutboxEntry {
  readonly session: string;
  readonly id: string;
  readonly fact: Fact;
  readonly state: 'waiting' | 'saved' | 'refused';
  readonly refusal?: Refusal;
  /** Counts up as entries are written here, whatever the clock says. */
  readonly order: number;
  /** Of a saved entry: the generation of the session that has it. */
  readonly generation?: number;
  /** When it was saved, by the shop's clock in ms since 1970; null where that was not known. */
  readonly savedMs?: number | null;
}

/** A restore from last night's copy can lose a day; a week leaves room for a closed weekend. */
const KEEP_SAVED_MS = 7 * 24 * 3600 * 1000;
/** How long a full device gets until it is tried again. */
const AGAIN_MS = 5_000;

const ofSession = (session: string) => IDBKeyRange.bound([session], [session, []]);
const orderOf = (newest: IDBCursorWithValue | null): number =>
  (newest?.value as OutboxEntry | undefined)?.order ?? 0;
const inOrder = (entries: OutboxEntry[]) => entries.sort((a, b) => a.order - b.order);

export class Outbox {
  readonly #device: DeviceStore;
  /** Entries that the device could not keep: they live in this page, and are tried again. */
  readonly #homeless = new Map<string, Entered>();
  readonly #slip: Slip;
  #again: ReturnType<typeof setTimeout> | undefined;
  /** The last entry's order; null until it has been read, and whenever another tab may have written since. */
  #last: number | null = null;

  constructor(device: DeviceStore, slip: Slip) {
    this.#device = device;
    this.#slip = slip;
  }

  /** Entries that only this page holds, since the device could not keep them. */
  get homeless(): number {
    return this.#homeless.size;
  }

  /**
   * This tab is the one that writes from now on: what an earlier one has written comes before its own, also what it
   * was writing when it went away. Resolves once that is in.
   */
  async begin(): Promise<void> {
    this.#last = null;
    const left = this.#slip.left();
    this.#slip.hold(left);
    if (left.length > 0) return this.#write(left);
    const newest = (await this.#device.read('entries', (store) =>
      done(store.index('order').openCursor(null, 'prev')),
    )) as IDBCursorWithValue | null;
    this.#last ??= orderOf(newest);
  }

  /**
   * Resolves once the entries are on this device's disk. The slip has them at once, and the whole transaction is
   * handed to the browser at once too, so that they outlive a page that is left in the same moment.
   */
  put(session: string, facts: readonly Fact[]): Promise<void> {
    const entered = facts.map((fact) => ({ session, fact }));
    this.#slip.hold(entered);
    return this.#write(entered);
  }

  async #write(entered: readonly Entered[]): Promise<void> {
    const all = [...this.#homeless.values(), ...entered];
    try {
      await this.#device.write('entries', (store) => {
        const putAfter = (last: number) => {
          all.forEach(({ session, fact }, i) => {
            const entry: OutboxEntry = { session, id: fact.id, fact, state: 'waiting', order: last + 1 + i };
            store.put(entry);
          });
          this.#last = last + all.length;
          store.transaction.commit();
        };
        if (this.#last !== null) return putAfter(this.#last);
        const newest = store.index('order').openCursor(null, 'prev');
        newest.onsuccess = () => putAfter(this.#last ?? orderOf(newest.result));
      });
      this.#settle(all.map(({ fact }) => fact.id));
    } catch (error) {
      for (const entry of all) this.#homeless.set(entry.fact.id, entry);
      this.#tryAgain();
      throw error;
    }
  }

  /** The database or the shop has them, or nobody wants them any more. */
  #settle(ids: readonly string[]): void {
    for (const id of ids) this.#homeless.delete(id);
    this.#slip.release(ids);
  }

  markSaved(
    session: string,
    ids: readonly string[],
    generation: number,
    nowMs: number | null,
  ): Promise<void> {
    this.#settle(ids);
    return this.#change(session, ids, ({ refusal: _settled, ...entry }) => ({
      ...entry,
      state: 'saved',
      generation,
      savedMs: nowMs,
    }));
  }

  /** Offered again: to a new generation of the session, or because a person wants it. */
  markWaiting(session: string, ids: readonly string[]): Promise<void> {
    return this.#change(session, ids, ({ refusal: _settled, ...entry }) => ({ ...entry, state: 'waiting' }));
  }

  markRefused(session: string, id: string, refusal: Refusal): Promise<void> {
    return this.#change(session, [id], (entry) => ({ ...entry, state: 'refused', refusal }));
  }

  remove(session: string, ids: readonly string[]): Promise<void> {
    this.#settle(ids);
    return this.#device.write('entries', (store) => ids.forEach((id) => store.delete([session, id])));
  }

  /** Puts the facts of a session through `change`, which keeps ids and order; what is refused as `erased` stays. */
  rewrite(session: string, change: (facts: readonly Fact[]) => readonly Fact[]): Promise<void> {
    return this.#device.write('entries', (store) => {
      const all = store.getAll(ofSession(session)) as IDBRequest<OutboxEntry[]>;
      all.onsuccess = () => {
        const entries = inOrder(all.result.filter(({ refusal }) => refusal?.code !== 'erased'));
        const facts = change(entries.map(({ fact }) => fact));
        entries.forEach((entry, i) => store.put({ ...entry, fact: facts[i] ?? entry.fact }));
      };
    });
  }

  /** This session's entries, in the order in which they were written. */
  async of(session: string): Promise<OutboxEntry[]> {
    return inOrder(
      (await this.#device.read('entries', (store) =>
        done(store.getAll(ofSession(session))),
      )) as OutboxEntry[],
    );
  }

  /** All entries in one state, in the order in which they were written. */
  async all(state: OutboxEntry['state']): Promise<OutboxEntry[]> {
    return inOrder(
      (await this.#device.read('entries', (store) =>
        done(store.index('state').getAll(state)),
      )) as OutboxEntry[],
    );
  }

  /** Drops what has been saved for a week; `nowMs` by the shop's clock. */
  async sweep(nowMs: number): Promise<void> {
    const saved = await this.all('saved');
    const old = saved.filter(({ savedMs }) => typeof savedMs === 'number' && nowMs - savedMs > KEEP_SAVED_MS);
    const undated = saved.filter(({ savedMs }) => typeof savedMs !== 'number');
    if (old.length + undated.length === 0) return;
    await this.#device.write('entries', (store) => {
      for (const { session, id } of old) store.delete([session, id]);
      for (const entry of undated) store.put({ ...entry, savedMs: nowMs } satisfies OutboxEntry);
    });
  }

  close(): void {
    clearTimeout(this.#again);
  }

  #tryAgain(): void {
    clearTimeout(this.#again);
    // Rejects when there is still no room; then it has set the next try itself.
    this.#again = setTimeout(() => void this.#write([]).catch(() => undefined), AGAIN_MS);
  }

  #change(session: string, ids: readonly string[], next: (entry: OutboxEntry) => OutboxEntry): Promise<void> {
    return this.#device.write('entries', (store) => {
      for (const id of ids) {
        const get = store.get([session, id]) as IDBRequest<OutboxEntry | undefined>;
        get.onsuccess = () => {
          if (get.result) store.put(next(get.result));
        };
      }
    });
  }
}
