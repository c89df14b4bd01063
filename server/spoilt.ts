/**
 * Sessions whose rows are not what was written, in a database that is whole otherwise. They are not opened and
 * nothing of them is written over; the shop goes on with all others.
 */
import { Said } from './said.ts';

/** One session cannot be used. The message is one sentence. */
export class SpoiltSession extends Said {
  constructor(
    readonly session: string,
    /** What is wrong, as the end of a sentence. */
    readonly what: string,
    options?: ErrorOptions,
  ) {
    super(`Session ${session} is damaged: ${what}.`, options);
  }
}

type Listener = (spoilt: SpoiltSession) => void;

export class Spoilt {
  readonly #sessions = new Set<string>();
  readonly #listeners: Listener[] = [];

  has(session: string): boolean {
    return this.#sessions.has(session);
  }

  /** Who is told of each, once. */
  onNew(listener: Listener): void {
    this.#listeners.push(listener);
  }

  mark(spoilt: SpoiltSession): void {
    if (this.#sessions.has(spoilt.session)) return;
    this.#sessions.add(spoilt.session);
    for (const tell of this.#listeners) tell(spoilt);
  }

  /** Marks what `error` says is spoilt. @returns whether it says so. */
  isIn(error: unknown): boolean {
    if (!(error instanceof SpoiltSession)) return false;
    this.mark(error);
    return true;
  }
}
