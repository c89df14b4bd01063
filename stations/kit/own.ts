/** This device's own entries of one session: which wait, which are saved, which were refused; and their store. */
import { sameJson } from '../../core/index.ts';
import type { Fact, Refusal } from '../../core/index.ts';
import type { Outbox } from './outbox.ts';

export interface RefusedEntry {
  readonly fact: Fact;
  readonly refusal: Refusal;
}

export class OwnEntries {
  readonly #session: string;
  readonly #outbox: Outbox;
  readonly #onChange: () => void;
  readonly #mine = new Set<string>();
  readonly #saved = new Set<string>();
  #pending: readonly Fact[] = [];
  #refused: readonly RefusedEntry[] = [];
  #storeFailed = false;

  constructor(session: string, outbox: Outbox, onChange: () => void) {
    this.#session = session;
    this.#outbox = outbox;
    this.#onChange = onChange;
  }

  /** Not in the session's document yet: it has not been fetched, or a new one was begun. */
  get pending(): readonly Fact[] {
    return this.#pending;
  }

  get refused(): readonly RefusedEntry[] {
    return this.#refused;
  }

  /** The device's store failed: entries live only in this page until they are saved. */
  get storeFailed(): boolean {
    return this.#storeFailed;
  }

  /** Ids of entries made here that are not known to be saved. */
  get unsaved(): readonly string[] {
    return [...this.#mine].filter((id) => !this.#saved.has(id));
  }

  has(id: string): boolean {
    return this.#mine.has(id);
  }

  /** Takes new entries into the store; `pending` when they cannot go into the document yet. */
  keep(facts: readonly Fact[], pending: boolean): void {
    for (const fact of facts) this.#mine.add(fact.id);
    if (pending) this.#pending = [...this.#pending, ...facts];
    this.#try(this.#outbox.put(this.#session, facts, Date.now()));
  }

  /** What waits for a document, which then takes it over. */
  takePending(): readonly Fact[] {
    const taken = this.#pending;
    this.#pending = [];
    return taken;
  }

  /** A new document is begun: these come first, in the order in which they were made. */
  offerAgain(facts: readonly Fact[]): void {
    this.#pending = [...facts, ...this.#pending.filter((p) => !facts.some((fact) => sameJson(fact, p)))];
  }

  markSaved(ids: readonly string[]): void {
    for (const id of ids) this.#saved.add(id);
    if (ids.length > 0) this.#try(this.#outbox.markSaved(this.#session, ids, Date.now()));
  }

  refuse(fact: Fact, refusal: Refusal): void {
    this.#mine.delete(fact.id);
    this.#refused = [...this.#refused, { fact, refusal }];
    this.#try(this.#outbox.markRefused(this.#session, fact.id, refusal, Date.now()));
  }

  /** A person has dealt with a refused entry: it is forgotten here. */
  dismiss(id: string): void {
    this.#refused = this.#refused.filter((entry) => entry.fact.id !== id);
    this.#try(this.#outbox.remove(this.#session, id));
  }

  /** After a reload: what this device had written, and the shop may not have, waits again. */
  async recall(): Promise<void> {
    try {
      for (const { fact, state, refusal } of await this.#outbox.unsaved(this.#session)) {
        if (state === 'refused' && refusal) this.#refused = [...this.#refused, { fact, refusal }];
        if (state !== 'waiting' || this.#mine.has(fact.id)) continue;
        this.#mine.add(fact.id);
        this.#pending = [...this.#pending, fact];
      }
    } catch {
      this.#storeFailed = true;
    }
    this.#onChange();
  }

  #try(work: Promise<void>): void {
    work.catch(() => {
      this.#storeFailed = true;
      this.#onChange();
    });
  }
}
