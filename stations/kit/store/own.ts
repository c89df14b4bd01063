/** This device's own entries of one session: which wait, which are saved, which were refused; and their store. */
import { sameJson, withoutPersonal } from '../../../core/index.ts';
import type { Fact, Refusal } from '../../../core/index.ts';
import { shopClock } from '../clock.ts';
import type { Outbox } from './outbox.ts';

export interface RefusedEntry {
  readonly fact: Fact;
  readonly refusal: Refusal;
}

export class OwnEntries {
  readonly #session: string;
  readonly #outbox: Outbox;
  readonly #mine = new Set<string>();
  readonly #saved = new Set<string>();
  /** Saved before this page was loaded: shown where the shop's list cannot be fetched. */
  #kept: readonly Fact[] = [];
  #pending: readonly Fact[] = [];
  #refused: readonly RefusedEntry[] = [];

  constructor(session: string, outbox: Outbox) {
    this.#session = session;
    this.#outbox = outbox;
  }

  /** Not in the session's document yet: it has not been fetched, or a new one was begun. */
  get pending(): readonly Fact[] {
    return this.#pending;
  }

  /** Own entries that were saved, as far as this device still holds them. */
  get kept(): readonly Fact[] {
    return this.#kept;
  }

  get refused(): readonly RefusedEntry[] {
    return this.#refused;
  }

  /** Ids of entries made here that are not known to be saved. */
  get unsaved(): readonly string[] {
    return [...this.#mine].filter((id) => !this.#saved.has(id));
  }

  has(id: string): boolean {
    return this.#mine.has(id);
  }

  isUnsaved(id: string): boolean {
    return this.#mine.has(id) && !this.#saved.has(id);
  }

  /** Takes new entries into the store; `pending` when they cannot go into the document yet. */
  keep(facts: readonly Fact[], pending: boolean): void {
    for (const fact of facts) this.#mine.add(fact.id);
    if (pending) this.#pending = [...this.#pending, ...facts];
    void settle(this.#outbox.put(this.#session, facts));
  }

  /** Takes out of what waits whatever `goes` now; the document takes it over. */
  takePending(goes: (fact: Fact) => boolean): readonly Fact[] {
    const taken = this.#pending.filter(goes);
    this.#pending = this.#pending.filter((fact) => !taken.includes(fact));
    return taken;
  }

  /** A new document is begun: these come first, in the order in which they were made. */
  offerAgain(facts: readonly Fact[]): void {
    this.#pending = [...facts, ...this.#pending.filter((p) => !facts.some((fact) => sameJson(fact, p)))];
  }

  markSaved(ids: readonly string[], generation: number): void {
    for (const id of ids) this.#saved.add(id);
    if (ids.length > 0)
      void settle(this.#outbox.markSaved(this.#session, ids, generation, shopClock.nowMs()));
  }

  /** Resolves when the device knows it too, or cannot. */
  refuse(fact: Fact, refusal: Refusal): Promise<void> {
    this.#mine.delete(fact.id);
    this.#refused = [...this.#refused.filter((entry) => entry.fact.id !== fact.id), { fact, refusal }];
    return settle(this.#outbox.markRefused(this.#session, fact.id, refusal));
  }

  /** A person lets a refused entry go: it is forgotten here. */
  dismiss(id: string): Promise<void> {
    this.#refused = this.#refused.filter((entry) => entry.fact.id !== id);
    return settle(this.#outbox.remove(this.#session, [id]));
  }

  /** A person wants a refused entry offered once more. */
  tryAgain(fact: Fact): void {
    this.#refused = this.#refused.filter((entry) => entry.fact.id !== fact.id);
    this.keep([fact], true);
  }

  /**
   * After a reload: what this device had written, and the shop may not have, waits again: also what was saved in a
   * generation of the session before `generation`. @returns whether there was such.
   */
  async recall(generation: number): Promise<boolean> {
    const entries = await this.#outbox.of(this.#session).catch(() => []);
    const older = entries.filter((each) => each.state === 'saved' && (each.generation ?? 1) < generation);
    this.#kept = entries.filter(({ state }) => state === 'saved').map(({ fact }) => fact);
    for (const entry of entries) {
      const { fact, state, refusal } = entry;
      const refused = this.#refused.some((each) => each.fact.id === fact.id);
      if (state === 'refused' && refusal && !refused) this.#refused = [...this.#refused, { fact, refusal }];
      if ((state !== 'waiting' && !older.includes(entry)) || this.#mine.has(fact.id)) continue;
      this.#mine.add(fact.id);
      this.#pending = [...this.#pending, fact];
    }
    if (older.length > 0)
      void settle(
        this.#outbox.markWaiting(
          this.#session,
          older.map(({ id }) => id),
        ),
      );
    return older.length > 0;
  }

  /**
   * The session has a new generation, so that saved may not be saved any more: all that this device still holds
   * waits again, in the order in which it was made.
   */
  async recallAll(): Promise<void> {
    const entries = await this.#outbox.of(this.#session).catch(() => []);
    const held = entries.filter(({ state }) => state !== 'refused').map(({ fact }) => fact);
    const ids = new Set(held.map(({ id }) => id));
    this.#pending = [...held, ...this.#pending.filter(({ id }) => !ids.has(id))];
    this.#saved.clear();
    this.#kept = [];
    for (const { id } of this.#pending) this.#mine.add(id);
    void settle(this.#outbox.markWaiting(this.#session, [...ids]));
  }

  /**
   * The personal texts of this session were erased: here they go too, from this page and from the device. A text
   * that is refused for it is shown once more to whoever typed it.
   */
  erase(): void {
    this.#pending = withoutPersonal(this.#pending);
    this.#kept = withoutPersonal(this.#kept);
    this.#refused = this.#refused.map((entry) =>
      entry.refusal.code === 'erased' ? entry : { ...entry, fact: withoutPersonal([entry.fact])[0]! },
    );
    void settle(this.#outbox.rewrite(this.#session, withoutPersonal));
  }
}

/** A store that fails says so by itself: see `Health`. */
const settle = (work: Promise<void>): Promise<void> => work.catch(() => undefined);
