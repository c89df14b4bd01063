/**
 * One open session: its live document, the sockets in it, and the order in which an entry travels:
 * gate, commit, then relay and acknowledge.
 *
 * Between applying and committing, the live document runs ahead of the disk. Nothing that shows its content
 * leaves the room in that time: answers wait in `#waiting` until the commit has come back.
 */
import type { Logger } from 'pino';
import * as Y from 'yjs';
import { CLOSE, stationOf } from '../core/index.ts';
import type { Fact } from '../core/index.ts';
import { closely, clocksOf, fill, isWhole } from './document.ts';
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
import type { GateView, Verdict } from './gate-rule.ts';
import { writingRoles } from './pair.ts';
import type { Station } from './pair.ts';
import type { Peer } from './peer.ts';
import { Presence } from './presence.ts';
import { SERVER } from './shop-settings.ts';
import type { NewRow, Store, StoredDocument } from './store.ts';
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
  /** The room has rows to commit. */
  pending(room: SessionRoom): void;
  /** False while the disk takes nothing: updates are left where they are, at the stations. */
  takesEntries(): boolean;
  /** What the server writes of its own behind entries that were let in just now. @param facts all, those among them */
  own(session: string, added: readonly Fact[], facts: () => readonly Fact[]): readonly Fact[];
  /** The room's memory cannot be trusted; it has closed its sockets and is to be forgotten. */
  broken(room: SessionRoom): void;
}

interface Applied extends NewRow {
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
  readonly #facts: Map<string, Fact> & { readonly erased: boolean };
  readonly #peers = new Set<Peer>();
  readonly #presence: Presence;
  readonly #view: GateView;
  #doc = new Y.Doc();
  /** What the document itself said of each change: the only bytes that are stored and relayed. */
  #emitted: Uint8Array[] = [];
  #applied: Applied[] = [];
  #waiting: (() => void)[] = [];
  #durable = new Map<number, number>();
  #rows = 0;

  /** Loads the session from disk. Throws when its rows do not make a whole document. */
  constructor(session: string, generation: number, stored: StoredDocument | undefined, outside: RoomOutside) {
    this.session = session;
    this.generation = generation;
    this.name = `session/${session}/${generation}`;
    this.quietSince = outside.now();
    this.#outside = outside;
    this.#log = outside.log.child({ session });
    this.#facts = Object.assign(new Map<string, Fact>(), { erased: outside.store.isErased(session) });
    this.#presence = new Presence(() => outside.now());
    this.#read(stored);
    this.#view = {
      clockOf: (client) => Y.getState(this.#doc.store, client),
      clientsOf: (station) =>
        [...this.#doc.store.clients.keys()].filter((id) => stationOf(id) === station).length,
      facts: this.#facts,
    };
  }

  get peers(): ReadonlySet<Peer> {
    return this.#peers;
  }

  get rows(): number {
    return this.#rows;
  }

  /** The facts in the list's order. Ahead of the disk while rows are pending: flush first. */
  facts(): Fact[] {
    return this.#doc.getArray<Fact>('facts').toArray();
  }

  join(peer: Peer): void {
    this.#peers.add(peer);
    this.#whenDurable(() => {
      peer.send(durableFrame(this.#durable));
      // Without our own question, what a station entered while away would never come up.
      if (this.#outside.takesEntries()) peer.send(step1Frame(Y.encodeStateVector(this.#doc)));
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
        this.#whenDurable(() => peer.send(step2Frame(Y.encodeStateAsUpdate(this.#doc, frame.stateVector))));
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

  /** Rows applied and not on disk yet, in order. */
  pendingRows(): readonly NewRow[] {
    return this.#applied;
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
    const sorted = sortForTakeIn(this.#facts, facts, author);
    if (sorted.taken.length === 0) return sorted;
    const update = updateOf(this.#doc, sorted.taken);
    const verdict = this.#outside.gate(update, this.#view, {
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

  /** All pending rows are on disk: relay them, acknowledge them, and let go what waited. */
  committed(): void {
    const applied = this.#applied;
    const waiting = this.#waiting;
    this.#applied = [];
    this.#waiting = [];
    this.#rows += applied.length;
    for (const { clocks } of applied) for (const [client, clock] of clocks) this.#durable.set(client, clock);
    this.quietSince = this.#outside.now();
    // Whoever is told of an entry knows by that that it is on disk; an acknowledgement is for who sent it.
    const sent = new Map<Peer, number[]>();
    for (const { bytes, from, clocks } of applied) {
      this.#tellOthers(from, updateFrame(bytes));
      if (from) sent.set(from, [...(sent.get(from) ?? []), ...clocks.keys()]);
    }
    for (const [peer, clients] of sent) peer.send(this.#durableOf(clients));
    for (const answer of waiting) answer();
  }

  /**
   * The disk did not take what was pending: goes back to what it holds. Nobody was shown more, so the sockets
   * stay, and whoever asked is answered with that.
   */
  revert(): void {
    const waiting = this.#waiting;
    this.#applied = [];
    this.#waiting = [];
    this.#doc.destroy();
    this.#doc = new Y.Doc();
    this.#facts.clear();
    try {
      this.#read(this.#outside.store.find(this.session));
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
      const question = step1Frame(Y.encodeStateVector(this.#doc));
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
    this.#outside.store.compact(stored.id, stored.lastN, Y.encodeStateAsUpdate(this.#doc));
    this.#rows = 1;
  }

  destroy(): void {
    this.#doc.destroy();
  }

  /** Into the empty document. Throws when the disk cannot be read, or its rows make no whole document. */
  #read(stored: StoredDocument | undefined): void {
    const rows = stored ? this.#outside.store.updates(stored.id) : [];
    const list = this.#doc.getArray<Fact>('facts');
    // The document's own values: those that the gate read are let go, or each would be held twice.
    list.observe(({ changes }) => {
      for (const { content } of changes.added)
        if (content instanceof Y.ContentAny)
          for (const fact of closely(content)) this.#facts.set(fact.id, fact);
    });
    fill(this.#doc, rows, this.session);
    this.#rows = rows.length;
    this.#durable = clocksOf(this.#doc);
    this.#doc.on('update', (bytes: Uint8Array) => this.#emitted.push(bytes));
  }

  #offer(peer: Peer, update: Uint8Array): void {
    const { number, device } = peer.station;
    const writer = { number, device, roles: writingRoles(peer.station), readOnly: false };
    const verdict = this.#outside.gate(update, this.#view, writer);
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
        if (peer.mayGap()) this.#whenDurable(() => peer.send(step1Frame(Y.encodeStateVector(this.#doc))));
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
      const there = already.filter((id) => this.#facts.has(id)); // not those of a commit that failed
      if (there.length > 0) peer.send(alreadySavedFrame(there));
    });
  }

  /** Applies what the gate let through, and holds the document to what the gate foretold. */
  #take(from: Peer | null, update: Uint8Array, { facts, clocks }: Verdict & { do: 'take' }): void {
    this.#emitted = [];
    const before = this.#facts.size;
    Y.applyUpdate(this.#doc, update);
    const [bytes, ...more] = this.#emitted;
    const asForetold =
      isWhole(this.#doc) &&
      [...clocks].every(([client, clock]) => this.#view.clockOf(client) === clock) &&
      facts.every(({ id }) => this.#facts.has(id)) &&
      this.#facts.size === before + facts.length &&
      this.#doc.getArray('facts').length === this.#facts.size;
    if (!bytes || more.length > 0 || !asForetold) {
      this.#log.error({ station: from?.station.number ?? 0 }, 'an update did not do what the gate foretold');
      this.abandon('The server takes this session from its disk again.');
      return;
    }
    const { session, generation } = this;
    const opened = facts.find((fact) => fact.kind === 'session.opened');
    const client = opened?.kind === 'session.opened' ? opened.clientRef : undefined;
    const row = { session, generation, bytes, facts: facts.map(({ id }) => id), client, from, clocks };
    this.#applied.push(row);
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
    return durableFrame(new Map(clients.map((client) => [client, this.#durable.get(client) ?? 0])));
  }

  #tellOthers(from: Peer | null, frame: Uint8Array | null): void {
    if (frame) for (const peer of this.#peers) if (peer !== from) peer.send(frame);
  }
}
