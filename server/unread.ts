/** Reads in idle time what was there before it could be found: people and sessions of an older program. */
import type { Logger } from 'pino';
import type { Health } from './health.ts';
import type { People } from './people.ts';
import type { Db } from './schema.ts';
import { noteSome, wordWriter } from './session-words.ts';

export interface UnreadDeps {
  readonly db: Db;
  readonly people: People;
  readonly health: Health;
  readonly log: Logger;
  readonly timeZone: string;
}

/** Sessions in one go: some hundredths of a second, behind which everybody waits. */
const AT_ONCE = 5;
/** Between two: at most a part of the server's time goes into it. */
const PAUSE_MS = 200;
/** How often it is looked whether there are any, once there are none. */
const LOOK_MS = 60_000;

export class Unread {
  readonly #deps: UnreadDeps;
  readonly #step: () => number;
  #timer: NodeJS.Timeout;

  constructor(deps: UnreadDeps) {
    this.#deps = deps;
    const write = wordWriter(deps.db, deps.timeZone);
    this.#step = () => deps.people.noteSome() || noteSome(deps.db, write, AT_ONCE);
    this.#timer = this.#after(PAUSE_MS);
  }

  stop(): void {
    clearTimeout(this.#timer);
  }

  #after(ms: number): NodeJS.Timeout {
    return setTimeout(() => (this.#timer = this.#after(this.#some() > 0 ? PAUSE_MS : LOOK_MS)), ms).unref();
  }

  /** On a disk that takes nothing they stay unread: it is tried again. */
  #some(): number {
    const { health, log } = this.#deps;
    if (health.readOnly !== null) return 0;
    try {
      return this.#step();
    } catch (error) {
      log.warn({ err: error }, 'sessions could not be read for the archive; it is tried again');
      health.failed(error);
      return 0;
    }
  }
}
