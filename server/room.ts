/**
 * One open session: its live document, the sockets in it, and the order in which an entry travels:
 * gate, commit, then relay and acknowledge.
 *
 * Between applying and committing, the live document runs ahead of the disk. Nothing that shows its content
 * leaves the room in that time: answers wait in `#waiting` until the commit has come back.
 */
import type { Logger } from 'pino';
import { CLOSE } from '../core/index.ts';
import type { Fact } from '../core/index.ts';
import {
  alreadySavedFrame,
  durableFrame,
  presenceFrame,
  refusedFrame,
  step1Frame,
  step2Frame,
  updateFrame,
} from './frames.ts';
import type { Frame } from './frames.ts';
import type { Gate } from './gate.ts';
import type { Verdict } from './gate-rule.ts';
import { LiveDocument } from './live.ts';
import { writingRoles } from './pair.ts';
import type { Station } from './pair.ts';
import type { Peer } from './peer.ts';
import { Presence } from './presence.ts';
import { SERVER } from './shop-settings.ts';
import type { NewRow, Store } from './store.ts';
import { allRefused, sortForTakeIn, updateOf } from './take-in.ts';
import type { Author, TakenIn } from './take-in.ts';

export interface Room {
  readonly name: string;
  join(peer: Peer): void;
  leave(peer: Peer): void;
  receive(peer: Peer, frame: Frame): void;
}

export interface RoomOutside {
  readonly store: Store;
  readonly log: Logger;
  readonly gate: Gate;
  now(): number;
  /** The room has entries to commit. */
  pending(room: SessionRoom): void;
  /** False while the disk takes nothing: updates are left where they are, at the stations. */
  takesEntries(): boolean;
  /** What the server writes of its own behind entries that were let in just now. @param facts all, those among them */
  own(session: string, added: readonly Fact[], facts: () => readonly Fact[]): readonly Fact[];
  /** The room's document was read into memory, or has changed. */
  used(room: SessionRoom): void;
  /** The room's memory cannot be trusted; it has closed its sockets and is to be forgotten. */
  broken(room: SessionRoom): void;
}

interface Applied extends Omit<NewRow, 'session' | 'generation'> {
  /** Null for what the desk took in from the quarantine. */
  readonly from: Peer | null;
  readonly clocks: ReadonlyMap<number, number>;
}

export class SessionRoom implements Room {
  readonly name: string;
  readonly session: string;
  readonly generation: number;
  /** When the last socket left or the last row was committed, ms. */
  quietSince: number;
  readonly #outside: RoomOutside;
  readonly #log: Logger;
  readonly #live: LiveDocument;
  readonly #peers = new Set<Peer>();
  readonly #presence: Presence;
  #applied: Applied[] = [];
  #waiting: (() => void)[] = [];

  /** Loads the session from disk. Throws when its rows do not make a whole document. */
  constructor(session: string, generation: number, outside: RoomOutside) {
    this.session = session;
    this.generation = generation;
    this.name = `session/${session}/${generation}`;
    this.quietSince = outside.now();
    this.#outside = outside;
    this.#log = outside.log.child({ session });
    this.#presence = new Presence(() => outside.now());
    this.#live = new LiveDocument(session, outside.store.isErased(session), {
      rows: () => {
        const stored = outside.store.find(session);
        return stored ? outside.store.updates(stored.id) : [];
      },
      woke: () => outside.used(this),
    });
  }

  get peers(): ReadonlySet<Peer> {
    return this.#peers;
  }

  get rows(): number {
    return this.#live.rows;
  }

  /** The facts in the list's order. Ahead of the disk while rows are pending: flush first. */
  facts(): Fact[] {
    return this.#live.facts();
  }

  join(peer: Peer): void {
    this.#peers.add(peer);
    this.#whenDurable(() => {
      peer.send(durableFrame(this.#live.durable));
      // Without our own question, what a station entered while away would never come up.
      if (this.#outside.takesEntries()) peer.send(step1Frame(this.#live.durableVector));
      const others = this.#presence.others(peer);
      if (others) peer.send(others);
    });
  }

  leave(peer: Peer): void {
    this.#peers.delete(peer);
    this.#tellOthers(peer, this.#presence.leave(peer));
    this.quietSince = this.#outside.now();
  }

  receive(peer: Peer, frame: Frame): void {
    switch (frame.type) {
      case 'step1':
        if (!peer.maySync()) return;
        this.#whenDurable(() => peer.send(step2Frame(this.#live.since(frame.stateVector))));
        return;
      case 'update':
        this.#offer(peer, frame.update);
        return;
      case 'presence':
        this.#tellOthers(peer, this.#presence.hear(peer, frame.entries));
        return;
      case 'presence-wanted':
        peer.send(this.#presence.others(peer) ?? presenceFrame([]));
        return;
      case 'unknown':
        return;
      default:
        return frame satisfies never;
    }
  }

  get isPending(): boolean {
    return this.#applied.length > 0;
  }

  /** What was applied and is not on disk yet, in one row; the document's own bytes, never a client's. */
  pendingRow(): NewRow | undefined {
    const { session, generation } = this;
    const [first, ...more] = this.#applied;
    if (!first) return undefined;
    const bytes = more.length === 0 ? first.bytes : this.#live.since(this.#live.durableVector);
    const facts = this.#applied.flatMap((applied) => applied.facts);
    const client = this.#applied.find((applied) => applied.client !== undefined)?.client;
    return { session, generation, bytes, facts, client };
  }

  /** The stations whose entries are not on disk yet. */
  pendingFrom(): ReadonlySet<Station> {
    return new Set(this.#applied.flatMap(({ from }) => (from ? [from.station] : [])));
  }

  /**
   * Entries of the server's own, or that the desk takes in for a station that may not send them itself: past the
   * same gate, under a client id of the server's own. They are pending like any others when it returns.
   */
  takeIn(facts: readonly Fact[], author: Author): TakenIn {
    const sorted = sortForTakeIn(this.#live.view.facts, facts, author);
    if (sorted.taken.length === 0) return sorted;
    const update = updateOf(this.#live.whole(), sorted.taken);
    const verdict = this.#outside.gate(update, this.#live.view, {
      number: 0,
      device: author.station,
      roles: author.roles,
      readOnly: false,
    });
    if (verdict.do === 'refuse') return allRefused(sorted, verdict.refused[0]!);
    if (verdict.do !== 'take') throw new Error(`The gate did not take what it would admit: ${verdict.do}`);
    this.#take(null, update, verdict);
    return sorted;
  }

  /** What was pending is on disk as this row: relay it, acknowledge it, and let go what waited. */
  committed(row: NewRow): void {
    const applied = this.#applied;
    const waiting = this.#waiting;
    this.#applied = [];
    this.#waiting = [];
    this.quietSince = this.#outside.now();
    const clocks = new Map(applied.flatMap((one) => [...one.clocks]));
    this.#live.stored(clocks);
    // Whoever is told of an entry knows by that that it is on disk; an acknowledgement is for who sent it. Entries that
    // came together are told together, to their senders too: what those have already they pass over.
    const senders = new Set(applied.map(({ from }) => from));
    const [only] = senders;
    this.#tellOthers(senders.size === 1 ? only! : null, updateFrame(row.bytes));
    for (const peer of senders)
      if (peer)
        peer.send(
          this.#durableOf(applied.flatMap((one) => (one.from === peer ? [...one.clocks.keys()] : []))),
        );
    for (const answer of waiting) answer();
    this.#outside.used(this);
  }

  /**
   * The disk did not take what was pending: goes back to what it holds. Nobody was shown more, so the sockets
   * stay, and whoever asked is answered with that.
   */
  revert(): void {
    const waiting = this.#waiting;
    this.#applied = [];
    this.#waiting = [];
    this.#live.rest();
    try {
      this.#live.facts();
    } catch (error) {
      this.#log.error({ err: error }, 'a session could not be read again');
      this.abandon('The server cannot read this session; it tries again.');
      return;
    }
    for (const answer of waiting) answer();
  }

  /** Asks every station for what it has and the disk does not. */
  askAll(): void {
    this.#whenDurable(() => {
      const question = step1Frame(this.#live.durableVector);
      for (const peer of this.#peers) peer.send(question);
    });
  }

  /** Closes every socket and forgets what is not on disk; stations come back and offer it again. */
  abandon(reason: string): void {
    this.#applied = [];
    this.#waiting = [];
    for (const peer of this.#peers) peer.close(CLOSE.again, reason);
    this.#outside.broken(this);
  }

  /** Closes every socket for good: this generation of the session is over. Only while nothing is pending. */
  retire(reason: string, code: number = CLOSE.gone): void {
    for (const peer of this.#peers) peer.close(code, reason);
    this.#outside.broken(this);
  }

  /** Joins the rows on disk into one. Only while nothing is pending. */
  compact(): void {
    const stored = this.#outside.store.find(this.session);
    if (!stored || stored.generation !== this.generation || this.#applied.length > 0) return;
    this.#outside.store.compact(stored.id, stored.lastN, this.#live.whole());
    this.#live.joined();
  }

  /** Lets its document go until it is asked for again. @returns whether it could: not while anything is pending */
  rest(): boolean {
    if (this.isPending) return false;
    this.#live.rest();
    return true;
  }

  #offer(peer: Peer, update: Uint8Array): void {
    const { number, device } = peer.station;
    const writer = { number, device, roles: writingRoles(peer.station), readOnly: false };
    const verdict = this.#outside.gate(update, this.#live.view, writer);
    // Not even a gap is asked about: behind the first entry that was left at the station, each makes one.
    if ((verdict.do === 'take' || verdict.do === 'ask') && !this.#outside.takesEntries()) return;
    switch (verdict.do) {
      case 'nothing':
        this.#whenDurable(() => peer.send(this.#durableOf(verdict.clients)));
        return;
      case 'take':
        this.#take(peer, update, verdict);
        return;
      case 'ask':
        this.#log.debug({ station: number, rule: verdict.rule }, 'update with a gap');
        if (peer.mayGap()) this.#whenDurable(() => peer.send(step1Frame(this.#live.durableVector)));
        return;
      case 'refuse':
        this.#refuse(peer, verdict);
        return;
      case 'reject':
        this.#log.warn({ station: number, rule: verdict.rule, because: verdict.because }, 'update rejected');
        peer.close(CLOSE.malformed, `Refused (${verdict.rule}): ${verdict.because}.`);
        return;
      default:
        return verdict satisfies never;
    }
  }

  #refuse(peer: Peer, { rule, refused, already }: Verdict & { do: 'refuse' }): void {
    const { number } = peer.station;
    for (const refusal of refused) {
      const { code, field, fact } = refusal;
      if (peer.mayLog()) this.#log.info({ station: number, rule, code, field, fact }, 'fact refused');
      peer.send(refusedFrame(refusal));
    }
    if (already.length === 0) return;
    this.#whenDurable(() => {
      const there = already.filter((id) => this.#live.view.facts.get(id)); // not those of a commit that failed
      if (there.length > 0) peer.send(alreadySavedFrame(there));
    });
  }

  /** Applies what the gate let through, and holds the document to what the gate foretold. */
  #take(from: Peer | null, update: Uint8Array, verdict: Verdict & { do: 'take' }): void {
    const bytes = this.#live.take(update, verdict);
    if (!bytes) {
      this.#log.error({ station: from?.station.number ?? 0 }, 'an update did not do what the gate foretold');
      this.abandon('The server takes this session from its disk again.');
      return;
    }
    const { facts, clocks } = verdict;
    const opened = facts.find((fact) => fact.kind === 'session.opened');
    const client = opened?.kind === 'session.opened' ? opened.clientRef : undefined;
    this.#applied.push({ bytes, facts: facts.map(({ id }) => id), client, from, clocks });
    this.#outside.pending(this);
    this.#addOwn(facts);
  }

  /** In the same commit as what calls for it: nobody sees the one without the other. */
  #addOwn(added: readonly Fact[]): void {
    const own = this.#outside.own(this.session, added, () => this.facts());
    if (own.length === 0) return;
    const { refused } = this.takeIn(own, SERVER);
    if (refused.length > 0) this.#log.warn({ refused }, "the server's own entries were refused");
  }

  #whenDurable(answer: () => void): void {
    if (this.#applied.length === 0) answer();
    else this.#waiting.push(answer);
  }

  #durableOf(clients: readonly number[]): Uint8Array {
    return durableFrame(new Map(clients.map((client) => [client, this.#live.durable.get(client) ?? 0])));
  }

  #tellOthers(from: Peer | null, frame: Uint8Array | null): void {
    if (frame) for (const peer of this.#peers) if (peer !== from) peer.send(frame);
  }
}
