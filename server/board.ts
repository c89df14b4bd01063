/**
 * The two boards: every open job for the desk, ticket numbers for the wall. Only the server writes them; they
 * follow from the facts on disk, and nothing else depends on them.
 */
import type { Logger } from 'pino';
import * as Y from 'yjs';
import { CLOSE, course, jobOf, Log, sameJson, wallOf } from '../core/index.ts';
import type { Fact, JobFacts, JobRow, WallRow } from '../core/index.ts';
import { durableFrame, step2Frame, updateFrame } from './frames.ts';
import type { Frame } from './frames.ts';
import { gate } from './gate.ts';
import { Paced } from './paced.ts';
import type { Peer } from './peer.ts';
import type { Room } from './room.ts';
import { BOUND } from './limits.ts';
import { shownOf } from './session-words.ts';
import type { Shown } from './session-words.ts';
import type { JobToKeep, OpenJob, StoredDocument } from './store.ts';

const NOBODY = { clockOf: () => 0, clientsOf: () => 0, facts: new Map<string, Fact>() };

/** A document that stations read and only the server writes. */
export class BoardRoom implements Room {
  readonly name: string;
  readonly #doc = new Y.Doc();
  readonly #peers = new Set<Peer>();

  constructor(name: string) {
    this.name = name;
    this.#doc.on('update', (bytes: Uint8Array) => {
      const frame = updateFrame(bytes);
      for (const peer of this.#peers) peer.send(frame);
    });
  }

  get peers(): ReadonlySet<Peer> {
    return this.#peers;
  }

  map<Row>(key: string): Y.Map<Row> {
    return this.#doc.getMap<Row>(key);
  }

  join(peer: Peer): void {
    this.#peers.add(peer);
    peer.send(durableFrame(new Map()));
  }

  leave(peer: Peer): void {
    this.#peers.delete(peer);
  }

  receive(peer: Peer, frame: Frame): void {
    switch (frame.type) {
      case 'step1':
        if (peer.maySync()) peer.send(step2Frame(Y.encodeStateAsUpdate(this.#doc, frame.stateVector)));
        return;
      case 'update': {
        const { number, device } = peer.station;
        const verdict = gate(frame.update, NOBODY, { number, device, roles: [], readOnly: true });
        if (verdict.do !== 'nothing') peer.close(CLOSE.forbidden, 'Only the server writes on the boards.');
        return;
      }
      case 'presence':
      case 'presence-wanted':
      case 'unknown':
        return;
      default:
        return frame satisfies never;
    }
  }
}

export interface BoardOutside {
  readonly log: Logger;
  /** The facts of a session as they are on disk; undefined when there is no such session. */
  read(session: string): { readonly document: StoredDocument; readonly facts: readonly Fact[] } | undefined;
  /** The row of a session was computed anew: what it teaches may be taken from it when there is time. */
  learn(session: string): void;
  /** False when the disk takes nothing for now. */
  keep(jobs: readonly JobToKeep[]): boolean;
}

/** Milliseconds between writes of computed rows: they can be computed again, so a lost one costs nothing. */
const KEEP_MS = 5_000;
/** The boards take at most one part in this many of the server's time, however fast facts come. */
const SHARE = 60;
/** What people do is shown at once, of many jobs too: whoever scans a tag that was just entered finds its job. */
const AT_ONCE_MS = 500;

export class Boards {
  readonly desk: BoardRoom;
  readonly wall: BoardRoom;
  readonly #outside: BoardOutside;
  readonly #jobs: Y.Map<JobRow>;
  readonly #tickets: Y.Map<WallRow>;
  readonly #due: Paced;
  readonly #toKeep = new Map<string, { readonly job: JobRow; readonly shown: Shown | null }>();
  readonly #keepTimer: NodeJS.Timeout;

  /** Shows `open` at once as last computed, then computes each afresh: the program may be newer than the rows. */
  constructor(boot: number, open: readonly OpenJob[], outside: BoardOutside) {
    this.desk = new BoardRoom(`board/desk/${boot}`);
    this.wall = new BoardRoom(`board/wall/${boot}`);
    this.#outside = outside;
    this.#jobs = this.desk.map('jobs');
    this.#tickets = this.wall.map('tickets');
    this.#due = new Paced({
      share: SHARE,
      atOnceMs: AT_ONCE_MS,
      dueMs: ({ firstMs }) => firstMs,
      work: (session) => this.#compute(session),
    });
    for (const { session, job } of open) {
      if (job !== null) this.#show(JSON.parse(job) as JobRow);
      this.#due.add(session);
    }
    this.#keepTimer = setInterval(() => this.#keep(), KEEP_MS).unref();
  }

  rows(): Iterable<JobRow> {
    return this.#jobs.values();
  }

  /** The ticket of a session that the board knows. */
  ticketOf(session: string): string | null {
    return this.#jobs.get(session)?.ticket ?? null;
  }

  /** Facts of this session were committed. */
  changed(session: string): void {
    this.#due.add(session);
  }

  /** The session has another generation now: its row says so, if there is one. */
  regenerated(session: string): void {
    if (this.#jobs.has(session)) this.changed(session);
  }

  /** Computes what is due and writes the rows down. */
  stop(): void {
    clearInterval(this.#keepTimer);
    this.#due.stop();
    this.#keep();
  }

  /** A bug in what follows from the facts must not stop the facts: it is logged, and the row says so. */
  #compute(session: string): void {
    const { log } = this.#outside;
    try {
      const read = this.#outside.read(session);
      if (!read) return;
      this.#outside.learn(session);
      const facts = new Log(read.facts);
      const job = jobRow(read.document, facts, log, this.#jobs.get(session));
      if (!job) return;
      this.#toKeep.set(session, { job, shown: shownOf(facts) });
      if (!sameJson(job, this.#jobs.get(session))) this.#show(job);
    } catch (error) {
      log.error({ session, err: error }, 'a board row could not be computed');
    }
  }

  #show(job: JobRow): void {
    this.#jobs.set(job.session, job);
    if (job.closed) this.#putAway();
    // A second pair has a session of its own under the same ticket: the wall shows the one opened first.
    // The map keeps the order in which they came, which no clock changes.
    const open = [...this.#jobs.values()].find(({ ticket, closed }) => ticket === job.ticket && !closed);
    const shown = this.#tickets.get(job.ticket);
    if (!open) {
      if (shown) this.#tickets.delete(job.ticket);
      return;
    }
    const row = wallOf(open);
    if (!shown || !sameJson(row, shown)) this.#tickets.set(job.ticket, row);
  }

  /** A season's finished jobs are the archive's; here stay the latest. */
  #putAway(): void {
    const closed = [...this.#jobs.values()].filter((job) => job.closed);
    const over = closed.length - BOUND.closedOnBoard;
    if (over <= 0) return;
    for (const { session } of closed.toSorted((a, b) => a.lastMs - b.lastMs).slice(0, over))
      this.#jobs.delete(session);
  }

  #keep(): void {
    if (this.#toKeep.size === 0) return;
    const jobs = [...this.#toKeep.values()].map(({ job, shown }) => ({
      shown,
      session: job.session,
      generation: job.generation,
      job: JSON.stringify(job),
      closed: job.closed,
    }));
    try {
      if (this.#outside.keep(jobs)) this.#toKeep.clear();
    } catch (error) {
      this.#outside.log.warn({ err: error }, 'board rows could not be written; they are kept in memory');
    }
  }
}

/** The row of a session, or null before it is opened. */
function jobRow(
  { session, generation, openedMs, lastMs }: StoredDocument,
  facts: Log,
  log: Logger,
  before: JobRow | undefined,
): JobRow | null {
  const job = jobFacts(facts, (error) =>
    log.error({ session, err: error }, 'the plan could not be computed'),
  );
  if (!job) return null;
  const sinceMs = !before
    ? facts.facts.length === 1
      ? openedMs
      : lastMs
    : before.stage === job.stage
      ? before.sinceMs
      : lastMs;
  return { ...job, session, generation, openedMs, lastMs, sinceMs };
}

function jobFacts(facts: Log, failed: (error: unknown) => void): JobFacts | null {
  try {
    return jobOf(facts, course(facts));
  } catch (error) {
    failed(error);
    const text = 'What to do next could not be worked out; the server’s log says why.';
    return jobOf(facts, { steps: [], next: [], problems: [{ code: 'plan-failed', text }] });
  }
}
