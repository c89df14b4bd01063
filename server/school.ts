/**
 * When lessons are taken: soon after the board has looked at a session that was changed, and in idle time from sessions
 * that nobody has learned from yet, as after an update of the program or a restore. A trouble here stops no entry.
 */
import type { Logger } from 'pino';
import type { Fact } from '../core/index.ts';
import type { Health } from './health.ts';
import type { Lessons } from './lessons.ts';
import { Paced } from './paced.ts';
import { SpoiltSession } from './spoilt.ts';
import type { StoredDocument } from './store.ts';
import type { Turns } from './turns.ts';

export interface SchoolOutside {
  readonly log: Logger;
  readonly health: Health;
  /** A session as it is on disk; undefined when there is none. Throws when it cannot be read. */
  read(session: string): { readonly document: StoredDocument; readonly facts: readonly Fact[] } | undefined;
  /** In one commit. */
  together(writes: () => void): void;
}

/** Learning takes at most one part in this many of the server's time. */
const SHARE = 100;
const AT_ONCE_MS = 100;
/** A session that is being worked on is read when it rests, and once in a while where it does not. */
const [CALM_MS, PATIENCE_MS] = [3_000, 30_000];
/** Milliseconds between two sessions of the archive, and to the next look once all are done. */
const WAIT_MS = { next: 50, look: 600_000, first: 2_000 } as const;
/** Sessions asked for at once: what is held of the archive. */
const PART = 50;

export class School {
  readonly #lessons: Lessons;
  readonly #turns: Turns;
  readonly #outside: SchoolOutside;
  readonly #changed: Paced;
  #timer: NodeJS.Timeout | undefined;
  #flush: NodeJS.Timeout | undefined;
  #part: string[] = [];
  /** Could not be read in this run: not asked again before the next. */
  readonly #unreadable = new Set<string>();

  constructor(lessons: Lessons, turns: Turns, outside: SchoolOutside) {
    this.#lessons = lessons;
    this.#turns = turns;
    this.#outside = outside;
    this.#changed = new Paced({
      share: SHARE,
      atOnceMs: AT_ONCE_MS,
      dueMs: ({ firstMs, lastMs }) => Math.min(lastMs + CALM_MS, firstMs + PATIENCE_MS),
      work: (session) => this.#learn(session),
    });
  }

  /** Looks through the archive for what was missed. */
  begin(): void {
    const step = () => {
      const more = this.#step();
      this.#timer = setTimeout(step, more ? WAIT_MS.next : WAIT_MS.look).unref();
    };
    this.#timer = setTimeout(step, WAIT_MS.first).unref();
  }

  /** Takes a session's lessons soon; what the disk does not have now is taken at the next look. */
  learn(session: string): void {
    if (this.#outside.health.readOnly === null) this.#changed.add(session);
  }

  #learn(session: string): void {
    if (this.#outside.health.readOnly !== null) return;
    this.#try(session, () => void this.#take(session));
    this.#flush ??= setTimeout(() => this.#writeDown(), 5_000).unref();
  }

  /** The lessons last: they note how far the session was read. @returns whether there is such a session. */
  #take(session: string): boolean {
    const found = this.#outside.read(session);
    if (!found) return false;
    const { document, facts } = found;
    this.#outside.together(() => {
      this.#turns.keep(document, facts);
      this.#lessons.keep(document, facts);
    });
    return true;
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#changed.stop();
    this.#writeDown();
  }

  #writeDown(): void {
    clearTimeout(this.#flush);
    this.#flush = undefined;
    if (this.#outside.health.readOnly === null) this.#try('', () => this.#lessons.flush());
  }

  /** @returns whether there may be more. */
  #step(): boolean {
    if (this.#outside.health.readOnly !== null) return false;
    if (this.#part.length === 0)
      this.#try('', () => {
        // What is being worked on is taken when it rests: here it would be taken again and again, and never be all.
        const due = this.#lessons.due(PART + this.#unreadable.size + this.#changed.size);
        this.#part = due.filter((session) => !this.#unreadable.has(session) && !this.#changed.has(session));
      });
    const session = this.#part.pop();
    if (session === undefined) return false;
    this.#try(session, () => {
      if (!this.#take(session)) this.#unreadable.add(session);
    });
    return true;
  }

  /** What follows from the facts must not stop the facts: it is logged. */
  #try(session: string, work: () => void): void {
    const { log, health } = this.#outside;
    try {
      work();
    } catch (error) {
      if (session) this.#unreadable.add(session);
      if (error instanceof SpoiltSession || health.failed(error) !== null) return;
      log.error({ err: error, session }, 'no lessons could be taken from a session');
    }
  }
}
