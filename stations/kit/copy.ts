/**
 * This device's copy of one session: the shared document, what waits beside it, and how both go on over a page load
 * without a connection, over refusals, and over a new generation of the session.
 */
import { CLOSE, withoutPersonal } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import type { Answer, RoomAnswer } from './api.ts';
import { Link } from './link.ts';
import type { Refused } from './link.ts';
import { append, factsIn, readFacts, spotsIn, valuesIn } from './log.ts';
import type { Spot } from './log.ts';
import type { LastKnown } from './store/known.ts';
import type { Outbox } from './store/outbox.ts';
import { OwnEntries } from './store/own.ts';
import type { RefusedEntry } from './store/own.ts';

/**
 * `gone`: no such session. `awaiting`: the shop does not know it since a restore, and what is held here is offered
 * once the desk's station has opened it again. `unpaired`, `forbidden`, `outdated`: as the server closed the socket.
 */
export type CopyState =
  | 'connecting'
  | 'connected'
  | 'offline'
  | 'awaiting'
  | 'gone'
  | 'damaged'
  | 'unpaired'
  | 'forbidden'
  | 'outdated';

export interface CopyDeps {
  readonly id: string;
  readonly generation: number;
  /** This station's number. */
  readonly station: number;
  readonly url: string;
  readonly outbox: Outbox;
  readonly known: LastKnown;
  readonly presence: Record<string, unknown>;
  /** Asks the shop for the session's room of today. */
  askRoom(): Promise<Answer<RoomAnswer>>;
  /** Facts came or went. */
  onFacts(): void;
  /** What is known of them changed: saved or not, the connection, who else is here. */
  onState(): void;
  /** The shop did not take an entry. */
  onRefused(): void;
  /** The last entry that was on its way has been saved. */
  onSettled(): void;
  /** The server closed for a reason that concerns the whole station. */
  onEnd(state: 'unpaired' | 'outdated'): void;
}

const ASK_AGAIN_MS = 5_000;
const KEEP_AFTER_MS = 400;

const isOpening = (fact: Fact) => fact.kind === 'session.opened';

export class SessionCopy {
  readonly #deps: CopyDeps;
  readonly own: OwnEntries;
  #generation: number;
  #link: Link;
  /** Shown until the session's content has come from the server. */
  #held: readonly Fact[] = [];
  /** What an earlier page has left; shown when the server does not answer. */
  #remembered: readonly Fact[] = [];
  #read: 'nothing' | 'known' | 'own' = 'nothing';
  #end: CopyState | null = null;
  #spots: ReadonlyMap<string, Spot> | null = null;
  #presence: Record<string, unknown>;
  /** After a new generation was met: what this device strikes may have to come from another station first. */
  #others = false;
  /** Known to the shop, which had just closed its room: that may be so once. */
  #doubted = false;
  #again: ReturnType<typeof setTimeout> | undefined;
  #keeping: ReturnType<typeof setTimeout> | undefined;
  #closed = false;

  constructor(deps: CopyDeps) {
    this.#deps = deps;
    this.#generation = deps.generation;
    this.#presence = deps.presence;
    this.own = new OwnEntries(deps.id, deps.outbox);
    this.#link = this.#begin();
    this.#link.connect(); // which tells at once that it connects
  }

  get state(): CopyState {
    if (this.#end) return this.#end;
    if (!this.#link.connected) return this.#link.everSynced || this.#link.down ? 'offline' : 'connecting';
    return this.#opened() || this.#held.length === 0 ? 'connected' : 'awaiting';
  }

  /** How much of what this device holds has been read: without `own`, some may wait that is not counted here. */
  get read(): 'nothing' | 'known' | 'own' {
    return this.#read;
  }

  get refused(): readonly RefusedEntry[] {
    return this.own.refused;
  }

  get others(): readonly Record<string, unknown>[] {
    return this.#link.others;
  }

  /** Saved: on the server's disk. Waiting: on this device, or on its way. */
  stateOf(id: string): 'saved' | 'waiting' {
    if (this.own.pending.some((fact) => fact.id === id)) return 'waiting';
    return this.#places().get(id)?.durable === false ? 'waiting' : 'saved';
  }

  /** The session's facts as far as they are known here, what waits to be sent last. */
  facts(): readonly Fact[] {
    const inDoc = factsIn(this.#link.doc);
    const base = inDoc.some(isOpening) ? inDoc : merged(this.#held, inDoc);
    return merged(base, this.own.pending);
  }

  /** Takes entries that were admitted: into the device's store, and into the document as soon as that may be. */
  add(made: readonly Fact[]): void {
    const now = (this.#link.everSynced && this.#opened()) || this.#isNew(made);
    this.own.keep(made, !now);
    if (now) this.#link.write((doc) => append(doc, made));
    this.#changed();
  }

  /** Reads what earlier pages have left on this device; with `own`, its unsent entries go out from here. */
  async recall(own: boolean): Promise<void> {
    const known = await this.#deps.known.session(this.#deps.id);
    if (own && (await this.own.recall(this.#generation))) await this.#afterOlder();
    if (this.#closed) return;
    if (own || this.#read === 'nothing') this.#read = own ? 'own' : 'known';
    this.#remembered = merged(known ? readFacts(known.facts) : [], this.own.kept);
    this.#sendPending();
    this.#onStatus();
    this.#changed();
  }

  /** What an older generation had is offered again: not what was erased since. */
  async #afterOlder(): Promise<void> {
    this.#others = true;
    const answer = await this.#deps.askRoom();
    if (answer.ok && answer.value.erased) this.#erase();
  }

  /** A person wants a refused entry offered once more. */
  tryAgain(fact: Fact): void {
    this.own.tryAgain(fact);
    this.#sendPending();
    this.#changed();
  }

  setPresence(state: Record<string, unknown>): void {
    this.#presence = state;
    this.#link.setPresence(state);
  }

  close(): void {
    if (this.#keeping !== undefined) this.#keepKnown();
    this.#closed = true;
    clearTimeout(this.#again);
    this.#link.destroy();
  }

  /** A session that this device opens itself has nothing to wait for. */
  #isNew(made: readonly Fact[]): boolean {
    const begins = (fact: Fact) => isOpening(fact) && (made.includes(fact) || this.own.isUnsaved(fact.id));
    return this.#remembered.length === 0 && (made.some(begins) || factsIn(this.#link.doc).some(begins));
  }

  /** The document has the session's beginning, so that what is shown is what it says. */
  #opened(): boolean {
    return valuesIn(this.#link.doc).some(
      (value) => (value as Partial<Fact> | null)?.kind === 'session.opened',
    );
  }

  #begin(): Link {
    const { id, station, url } = this.#deps;
    const link = new Link({ room: `session/${id}/${this.#generation}`, station, url });
    link.on('change', () => this.#onDocument());
    link.on('presence', () => this.#deps.onState());
    link.on('status', () => this.#onStatus());
    link.on('durable', () => this.#acknowledge());
    link.on('synced', () => {
      this.#doubted = false;
      this.#onDocument();
    });
    link.on('refused', (refused) => this.#onRefused(refused));
    link.on('already', (ids) => this.#onAlready(ids));
    link.on('closed', (code) => this.#onClosed(code));
    link.setPresence(this.#presence);
    return link;
  }

  /** Without a server, what was last known is better than nothing. */
  #onStatus(): void {
    if (this.#link.down && this.#held.length === 0 && this.#remembered.length > 0 && !this.#opened()) {
      this.#held = this.#remembered;
      this.#changed();
    }
    this.#deps.onState();
  }

  #onDocument(): void {
    this.#spots = null;
    if (this.own.pending.length > 0) this.#sendPending();
    if (this.#link.everSynced && this.#opened()) {
      this.#held = [];
      this.#remembered = [];
      this.#keeping ??= setTimeout(() => this.#keepKnown(), KEEP_AFTER_MS);
    }
    this.#acknowledge();
    this.#changed();
  }

  /** Own entries that are not saved stand in the outbox, so that here is only what the shop has. */
  #keepKnown(): void {
    clearTimeout(this.#keeping);
    this.#keeping = undefined;
    if (this.#closed || !this.#opened()) return;
    const saved = valuesIn(this.#link.doc).filter((value) => {
      const id = (value as { id?: unknown } | null)?.id;
      return typeof id !== 'string' || !this.own.isUnsaved(id);
    });
    if (readFacts(saved).some(isOpening))
      void this.#deps.known.keepSession(this.#deps.id, this.#generation, saved);
  }

  #places(): ReadonlyMap<string, Spot> {
    return (this.#spots ??= spotsIn(this.#link.doc, (client, clock) => this.#link.isDurable(client, clock)));
  }

  /**
   * What waits goes into the document once the server's content is there, `session.opened` with it: before that
   * nobody can say what is there already. A session begun here need not be fetched first.
   */
  #sendPending(): void {
    const { pending } = this.own;
    const inDoc = factsIn(this.#link.doc);
    const begunHere = pending.some(isOpening);
    if (!this.#link.everSynced && !(begunHere && this.#remembered.length === 0)) return;
    if (!begunHere && !inDoc.some(isOpening)) return;
    const there = new Set(inDoc.map(({ id }) => id));
    const coming = new Set([...there, ...pending.map(({ id }) => id)]);
    const taken = this.own.takePending(
      (fact) => !this.#others || fact.kind !== 'struck' || coming.has(fact.fact),
    );
    const missing = taken.filter(({ id }) => !there.has(id));
    const ordered = [...missing.filter(isOpening), ...missing.filter((fact) => !isOpening(fact))];
    if (ordered.length > 0) this.#link.write((doc) => append(doc, ordered));
  }

  #acknowledge(): void {
    this.#spots = null;
    const places = this.#places();
    const saved = this.own.unsaved.filter((id) => places.get(id)?.durable);
    this.own.markSaved(saved, this.#generation);
    this.#deps.onState(); // others' entries are saved by it as well
    if (saved.length === 0) return;
    this.#keeping ??= setTimeout(() => this.#keepKnown(), KEEP_AFTER_MS);
    if (this.own.unsaved.length === 0) this.#deps.onSettled();
  }

  #onRefused(refused: Refused): void {
    const { client, ...refusal } = refused;
    const unsaved = this.#unsavedInDocument();
    const places = this.#places();
    const bad =
      unsaved.find(({ id }) => id === refusal.fact) ??
      unsaved.find(({ id }) => places.get(id)?.client === client);
    const again = unsaved.filter((fact) => fact !== bad);
    const held = this.#without(unsaved);
    if (bad) void this.own.refuse(bad, refusal).then(() => this.#deps.onRefused());
    if (refusal.code === 'erased') this.#erase();
    this.#startAfresh(again, held);
  }

  /** This document's copy will never be taken, so it would stand in the way of what comes after. */
  #onAlready(ids: readonly string[]): void {
    const unsaved = this.#unsavedInDocument().filter(({ id }) => !ids.includes(id));
    const held = this.#without(unsaved);
    this.own.markSaved(ids, this.#generation);
    this.#startAfresh(unsaved, held);
  }

  /** Own facts in the document that are not on the server's disk, also those that this page cannot read. */
  #unsavedInDocument(): Fact[] {
    const places = this.#places();
    return (valuesIn(this.#link.doc) as Fact[]).filter(
      (fact) => this.own.has(fact?.id) && places.get(fact.id)?.durable === false,
    );
  }

  /** What is shown now, apart from `left` and from what waits: all that the shop is known to have. */
  #without(left: readonly Fact[]): readonly Fact[] {
    const ids = new Set([...left, ...this.own.pending].map(({ id }) => id));
    return this.facts().filter(({ id }) => !ids.has(id));
  }

  /**
   * A new document from the server's state: `held` is shown until that has come, and then `again` is appended under
   * a new client id.
   */
  #startAfresh(again: readonly Fact[], held: readonly Fact[]): void {
    this.#held = held;
    this.own.offerAgain(again);
    const before = this.#link;
    this.#end = null;
    this.#link = this.#begin();
    this.#link.connect();
    before.destroy();
    this.#changed();
  }

  #onClosed(code: number): void {
    switch (code) {
      case CLOSE.gone:
        return void this.#askRoom();
      case CLOSE.damaged:
        this.#endAs('damaged');
        return this.#later(() => void this.#askRoom());
      case CLOSE.tooMuch:
        return this.#later(() => this.#link.connect());
      case CLOSE.unpaired:
        return this.#endAs('unpaired');
      case CLOSE.version:
        return this.#endAs('outdated');
      default:
        return this.#endAs('forbidden');
    }
  }

  #endAs(state: 'unpaired' | 'outdated' | 'forbidden' | 'gone' | 'awaiting' | 'damaged'): void {
    this.#end = state;
    this.#deps.onState();
    if (state === 'unpaired' || state === 'outdated') this.#deps.onEnd(state);
  }

  /** The room is not there: a new generation, a session that a restore has lost, or none at all. */
  async #askRoom(): Promise<void> {
    const link = this.#link;
    const answer = await this.#deps.askRoom();
    if (this.#closed || link !== this.#link) return;
    if (!answer.ok) {
      const { status } = answer.error;
      if (status === 401) return this.#endAs('unpaired');
      if (status === 404) return this.#endAs('gone');
      if (status === 403) return this.#endAs('forbidden');
      return this.#later(() => void this.#askRoom());
    }
    const { room, known, erased } = answer.value;
    const generation = Number(/^session\/[0-9a-f]{32}\/(\d+)$/.exec(room)?.[1] ?? NaN);
    const wasUnknown = this.#end === 'awaiting' || this.#end === 'gone';
    if (Number.isInteger(generation) && generation !== this.#generation)
      return this.#meet(generation, erased);
    if (this.#end === 'damaged') return this.#later(() => void this.#askRoom()); // until a restore
    if (!known) {
      this.#endAs(this.facts().length > 0 ? 'awaiting' : 'gone');
      return this.#later(() => void this.#askRoom());
    }
    // Opened again just after its room was closed; or it cannot be read, and the server's log says why.
    const doubted = this.#doubted;
    this.#doubted = !wasUnknown;
    if (doubted && !wasUnknown) {
      this.#endAs('gone');
      return this.#later(() => void this.#askRoom());
    }
    this.#end = null;
    link.connect();
  }

  /** Another generation: a new document, and all that this device still holds is offered to it. */
  async #meet(generation: number, erased: boolean): Promise<void> {
    const link = this.#link;
    const unsaved = this.#unsavedInDocument();
    const held = this.#without(unsaved);
    await this.own.recallAll();
    if (this.#closed || link !== this.#link) return;
    this.#generation = generation;
    this.#others = true;
    if (erased) this.#erase();
    const waits = new Set(this.own.pending.map(({ id }) => id));
    this.#startAfresh(
      unsaved.filter(({ id }) => !waits.has(id)),
      erased ? withoutPersonal(held) : held,
    );
  }

  /** Personal texts of this session were erased in the shop: here they go as well. */
  #erase(): void {
    this.own.erase();
    this.#held = withoutPersonal(this.#held);
    this.#remembered = withoutPersonal(this.#remembered);
    void this.#deps.known.dropSession(this.#deps.id);
  }

  #later(work: () => void): void {
    clearTimeout(this.#again);
    this.#again = setTimeout(work, ASK_AGAIN_MS);
    this.#deps.onState();
  }

  #changed(): void {
    this.#spots = null;
    this.#deps.onFacts();
  }
}

/** Lists of facts one after the other, each id once. */
function merged(...lists: readonly (readonly Fact[])[]): Fact[] {
  const ids = new Set<string>();
  return lists.flat().filter(({ id }) => !ids.has(id) && ids.add(id));
}
