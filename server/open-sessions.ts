/**
 * The rooms of the sessions that are open: whose documents are in memory, and what is done while nobody enters anything.
 * Rows are joined, rooms that nobody is in are put down, and their memory is given back.
 */
import type { Logger } from 'pino';
import { collect } from './collect.ts';
import { BOUND } from './limits.ts';
import type { SessionRoom } from './room.ts';

export interface OpenSessionsOutside {
  readonly log: Logger;
  /** How long a room that nobody is in is kept, ms. */
  readonly idleMs: number;
  now(): number;
  /** Joins the rows of a room into one. Throws nothing. */
  join(room: SessionRoom): void;
}

export class OpenSessions implements Iterable<SessionRoom> {
  readonly #outside: OpenSessionsOutside;
  readonly #rooms = new Map<string, SessionRoom>();
  /** Those whose document is in memory, the one used longest ago first. */
  readonly #awake = new Set<SessionRoom>();
  /** Documents put to rest and sessions put down since memory was given back. */
  #letGo = 0;

  constructor(outside: OpenSessionsOutside) {
    this.#outside = outside;
  }

  get(session: string): SessionRoom | undefined {
    return this.#rooms.get(session);
  }

  [Symbol.iterator](): Iterator<SessionRoom> {
    return this.#rooms.values();
  }

  add(room: SessionRoom): void {
    this.#rooms.set(room.session, room);
    this.use(room);
  }

  /** Its document is in memory and in use. Those used longest ago are put to rest when there are many. */
  use(room: SessionRoom): void {
    if (this.#rooms.get(room.session) !== room) return;
    this.#awake.delete(room);
    this.#awake.add(room);
    for (const old of this.#awake) {
      if (this.#awake.size <= BOUND.documentsAwake) return;
      if (old === room || !old.rest()) continue;
      this.#awake.delete(old);
      this.#letGo += 1;
    }
  }

  forget(room: SessionRoom): void {
    this.#rooms.delete(room.session);
    this.#awake.delete(room);
    room.rest();
  }

  /** What can be done while it is quiet. @param mayJoin whether the disk takes anything */
  tidy(mayJoin: boolean): void {
    const now = this.#outside.now();
    const quietMs = (room: SessionRoom) => {
      room.quietSince = Math.min(room.quietSince, now); // the clock was set back
      return room.isPending ? 0 : now - room.quietSince;
    };
    const quiet = [...this].filter((room) => quietMs(room) >= BOUND.heartbeatMs);
    // One at a time: joining rows holds up everybody for as long as the disk takes.
    const long = mayJoin && quiet.find(({ rows }) => rows >= BOUND.rowsBeforeCompaction);
    if (long) this.#outside.join(long);
    const allQuiet = quiet.length === this.#rooms.size;
    for (const room of quiet)
      if (room.peers.size === 0 && quietMs(room) >= this.#outside.idleMs) this.#putAway(room);
    if (allQuiet) this.#giveBack();
  }

  #putAway(room: SessionRoom): void {
    this.forget(room);
    this.#letGo += 1;
    this.#outside.log.debug({ session: room.session }, 'session put down');
  }

  #giveBack(): void {
    if (this.#letGo < BOUND.letGoBeforeCollection) return;
    this.#letGo = 0;
    collect();
  }
}
