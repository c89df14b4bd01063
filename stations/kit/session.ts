/**
 * One fit session as a station sees it: the shared list of facts, this device's unsaved entries, and the plan that
 * follows from both.
 */
import { createSubscriber } from 'svelte/reactivity';
import { admit, basisFor, CLOSE, plan, sameJson } from '../../core/index.ts';
import type { Author, Fact, Kind, Payload, Plan, Refusal, Role } from '../../core/index.ts';
import { api } from './api.ts';
import type { Me } from './api.ts';
import { isoNow, newFactId } from './chance.ts';
import { undoable } from './entries.ts';
import { Link } from './link.ts';
import { append, factsIn, spotsIn } from './log.ts';
import type { Spot } from './log.ts';
import type { Refused } from './link.ts';
import type { Outbox } from './outbox.ts';

/** What a person adds: kind and payload; the envelope is filled in here. */
export type FactDraft = { [K in Kind]: { readonly kind: K } & Payload<K> }[Kind];
export type Added =
  | { readonly ok: true; readonly facts: readonly Fact[] }
  | { readonly ok: false; readonly refusal: Refusal; readonly draft: FactDraft };
export interface RefusedEntry {
  readonly fact: Fact;
  readonly refusal: Refusal;
}
export interface Presence {
  readonly device: string;
  readonly name: string;
  readonly role: string;
  readonly initials?: string;
  readonly doing?: { readonly side?: string; readonly act?: string };
}
/** `gone`: no such session; `unpaired`, `forbidden` and `outdated` as the server closed the socket. */
export type LinkState =
  'connecting' | 'connected' | 'offline' | 'gone' | 'unpaired' | 'forbidden' | 'outdated';

export interface SessionDeps {
  readonly me: Me;
  readonly role: Exclude<Role, 'server'>;
  readonly outbox: Outbox;
  readonly url: string;
  readonly initials?: () => string | undefined;
  /** The last entry that was on its way has been saved. */
  readonly onSettled?: () => void;
}

export class Session {
  readonly id: string;
  readonly #deps: SessionDeps;
  #generation: number;
  #link: Link;
  /** Own entries that are not in the document yet. */
  #pending: Fact[] = [];
  #refused: RefusedEntry[] = [];
  /** What was known before a new document was begun; shown until the server's content has come. */
  #held: readonly Fact[] = [];
  /** Ids already marked as saved in the outbox. */
  readonly #marked = new Set<string>();
  readonly #mine = new Set<string>();
  #end: LinkState | null = null;
  #storeFailed = false;
  #facts: readonly Fact[] | null = null;
  #plan: Plan | null = null;
  #spots: ReadonlyMap<string, Spot> | null = null;
  #presence: Record<string, unknown>;
  #closed = false;

  readonly #tell = new Set<() => void>();
  readonly #subscribe = createSubscriber((update) => {
    this.#tell.add(update);
    return () => this.#tell.delete(update);
  });

  constructor(id: string, generation: number, deps: SessionDeps) {
    this.id = id;
    this.#deps = deps;
    this.#generation = generation;
    this.#presence = { device: deps.me.device, name: deps.me.name, role: deps.role };
    this.#link = this.#begin();
    void this.#offerAgain();
  }

  get facts(): readonly Fact[] {
    this.#subscribe();
    return (this.#facts ??= this.#gather());
  }

  get plan(): Plan {
    const { facts } = this;
    return (this.#plan ??= plan(facts));
  }

  /** False until the session's beginning has arrived (or was made here). */
  get ready(): boolean {
    return this.facts.some((fact) => fact.kind === 'session.opened');
  }

  get state(): LinkState {
    this.#subscribe();
    if (this.#end) return this.#end;
    if (this.#link.connected) return 'connected';
    return this.#link.everSynced ? 'offline' : 'connecting';
  }

  /** Saved: on the server's disk. Waiting: on this device, or on its way. */
  stateOf(id: string): 'saved' | 'waiting' {
    this.#subscribe();
    return this.#pending.some((fact) => fact.id === id) || !this.#places().get(id)?.durable
      ? 'waiting'
      : 'saved';
  }

  get waiting(): number {
    this.#subscribe();
    const places = this.#places();
    return [...this.#mine].filter((id) => !places.get(id)?.durable && !this.#marked.has(id)).length;
  }

  /** This device's own store has failed: entries live only in this page until they are saved. */
  get storeFailed(): boolean {
    this.#subscribe();
    return this.#storeFailed;
  }

  get refused(): readonly RefusedEntry[] {
    this.#subscribe();
    return this.#refused;
  }

  get others(): readonly Presence[] {
    this.#subscribe();
    return this.#link.others.filter((state) => typeof state['name'] === 'string') as unknown as Presence[];
  }

  /** What undo would strike; null when another entry came after it. */
  get undoable(): Fact | null {
    const last = undoable(this.facts, this.#deps.me.device);
    return last && last.by.role === this.#deps.role ? last : null;
  }

  /** Adds entries together, or none and the reason of the first that is not taken. */
  add(...drafts: readonly FactDraft[]): Added {
    const known = [...this.facts];
    const made: Fact[] = [];
    for (const draft of drafts) {
      const fact = { ...draft, ...this.#envelope(draft, known) } as Fact;
      const verdict = admit(new Map(known.map((f) => [f.id, f])), fact, this.#writer);
      if (!verdict.ok) return { ok: false, refusal: verdict.refusal, draft };
      made.push(verdict.fact);
      known.push(verdict.fact);
    }
    for (const fact of made) this.#mine.add(fact.id);
    this.#keep(made);
    if (this.#link.everSynced || this.#isNew(made)) this.#append(made);
    else this.#pending.push(...made);
    this.#changed();
    return { ok: true, facts: made };
  }

  strike(id: string, reason: string): Added {
    return this.add({ kind: 'struck', fact: id, reason });
  }

  undo(): Added | null {
    const last = this.undoable;
    return last ? this.strike(last.id, 'undo') : null;
  }

  /** A person has dealt with a refused entry: it is forgotten here. */
  dismiss(id: string): void {
    this.#refused = this.#refused.filter((entry) => entry.fact.id !== id);
    void this.#deps.outbox.remove(this.id, id).catch(() => this.#failStore());
    this.#changed();
  }

  /** Tells the others what is being done here; null for nothing in particular. */
  doing(what: Presence['doing'] | null): void {
    const { doing: _was, ...rest } = this.#presence;
    this.#presence = what ? { ...rest, doing: what } : rest;
    this.#link.setPresence(this.#presence);
  }

  close(): void {
    this.#closed = true;
    this.#link.destroy();
  }

  get #writer() {
    const roles = this.#deps.me.roles.filter((role): role is Exclude<Role, 'server'> => role !== 'wall');
    return { station: this.#deps.me.device, roles };
  }

  #envelope(draft: FactDraft, known: readonly Fact[]) {
    const initials = this.#deps.initials?.();
    const by: Author = {
      role: this.#deps.role,
      station: this.#deps.me.device,
      ...(initials ? { initials } : {}),
    };
    const basis = draft.kind === 'session.opened' || draft.kind === 'struck' ? [] : basisFor(known, draft);
    return { id: newFactId(), at: isoNow(), by, ...(basis.length > 0 ? { basis } : {}) };
  }

  /** A session that this device opens itself has nothing to wait for. */
  #isNew(made: readonly Fact[]): boolean {
    return (
      made[0]?.kind === 'session.opened' ||
      this.#gather().some((f) => f.kind === 'session.opened' && this.#mine.has(f.id))
    );
  }

  #begin(): Link {
    const { me, url } = this.#deps;
    const link = new Link({ room: `session/${this.id}/${this.#generation}`, station: me.number, url });
    link.on('change', () => this.#changed());
    link.on('presence', () => this.#notify());
    link.on('status', () => this.#notify());
    link.on('durable', () => this.#acknowledge());
    link.on('synced', () => this.#sendPending());
    link.on('refused', (refused) => this.#onRefused(refused));
    link.on('already', (ids) => this.#onAlready(ids));
    link.on('closed', (code) => void this.#onClosed(code));
    link.setPresence(this.#presence);
    link.connect();
    return link;
  }

  #gather(): readonly Fact[] {
    const inDoc = factsIn(this.#link.doc);
    const base = this.#link.everSynced || inDoc.length > 0 ? inDoc : this.#held;
    const there = new Set(base.map((fact) => fact.id));
    return [...base, ...this.#pending.filter((fact) => !there.has(fact.id))];
  }

  #places(): ReadonlyMap<string, Spot> {
    return (this.#spots ??= spotsIn(this.#link.doc, (client, clock) => this.#link.isDurable(client, clock)));
  }

  #append(facts: readonly Fact[]): void {
    this.#link.write((doc) => append(doc, facts));
  }

  #sendPending(): void {
    const there = new Set(factsIn(this.#link.doc).map((fact) => fact.id));
    const missing = this.#pending.filter((fact) => !there.has(fact.id));
    this.#pending = [];
    this.#held = [];
    if (missing.length > 0) this.#append(missing);
    this.#acknowledge();
    this.#changed();
  }

  /** After a reload: what this device had written and the shop may not have. */
  async #offerAgain(): Promise<void> {
    const kept = await this.#deps.outbox.unsaved(this.id).catch(() => (this.#failStore(), []));
    if (this.#closed) return;
    const there = new Set(factsIn(this.#link.doc).map((fact) => fact.id));
    this.#refused.push(
      ...kept.flatMap((e) =>
        e.state === 'refused' && e.refusal ? [{ fact: e.fact, refusal: e.refusal }] : [],
      ),
    );
    for (const { fact, state } of kept) {
      if (state !== 'waiting' || this.#mine.has(fact.id)) continue;
      this.#mine.add(fact.id);
      if (!there.has(fact.id)) this.#pending.push(fact);
    }
    if (this.#link.everSynced || this.#pending.some((fact) => fact.kind === 'session.opened'))
      this.#sendPending();
    else this.#changed();
  }

  #keep(facts: readonly Fact[]): void {
    this.#deps.outbox.put(this.id, facts, Date.now()).then(
      () => this.#acknowledge(),
      () => this.#failStore(),
    );
  }

  #acknowledge(): void {
    this.#spots = null;
    const places = this.#places();
    const saved = [...this.#mine].filter((id) => !this.#marked.has(id) && places.get(id)?.durable);
    for (const id of saved) this.#marked.add(id);
    if (saved.length > 0)
      this.#deps.outbox.markSaved(this.id, saved, Date.now()).catch(() => this.#failStore());
    this.#notify();
    if (saved.length > 0 && this.waiting === 0) this.#deps.onSettled?.();
  }

  #onRefused(refused: Refused): void {
    const unsaved = this.#unsavedOf(refused.client);
    const bad = unsaved.find((fact) => fact.id === refused.fact) ?? unsaved[0];
    const { client: _client, ...refusal } = refused;
    if (bad) {
      this.#refused = [...this.#refused, { fact: bad, refusal }];
      this.#mine.delete(bad.id);
      void this.#deps.outbox.markRefused(this.id, bad.id, refusal, Date.now()).catch(() => this.#failStore());
    }
    this.#startAfresh(unsaved.filter((fact) => fact !== bad));
  }

  #onAlready(ids: readonly string[]): void {
    for (const id of ids) this.#marked.add(id);
    this.#deps.outbox.markSaved(this.id, ids, Date.now()).catch(() => this.#failStore());
    const all = new Set(ids);
    this.#startAfresh(this.#unsavedOf(null).filter((fact) => !all.has(fact.id)));
  }

  /** Own facts in the document that are not on the server's disk; of one client id, or of any. */
  #unsavedOf(client: number | null): Fact[] {
    const places = this.#places();
    return factsIn(this.#link.doc).filter(({ id }) => {
      const place = places.get(id);
      return (
        place &&
        !place.durable &&
        this.#mine.has(id) &&
        (client === null || place.client === client || client === undefined)
      );
    });
  }

  /** A new document from the server's state; `again` is appended under a new client id after the first sync. */
  #startAfresh(again: readonly Fact[]): void {
    const seen = this.#gather();
    const before = this.#link;
    const left = new Set(this.#unsavedOf(null).map((fact) => fact.id));
    this.#held = seen.filter((fact) => !left.has(fact.id));
    this.#pending = [...again, ...this.#pending.filter((p) => !again.some((a) => sameJson(a, p)))];
    this.#link = this.#begin();
    before.destroy();
    this.#changed();
  }

  async #onClosed(code: number): Promise<void> {
    if (code === CLOSE.gone) {
      const answer = await api.room(this.id);
      const room = answer.ok ? /^session\/([^/]+)\/(\d+)$/.exec(answer.value.room) : null;
      if (room && Number(room[2]) !== this.#generation && !this.#closed) {
        this.#generation = Number(room[2]);
        this.#startAfresh(this.#unsavedOf(null));
        return;
      }
    }
    this.#end =
      code === CLOSE.unpaired
        ? 'unpaired'
        : code === CLOSE.version
          ? 'outdated'
          : code === CLOSE.gone
            ? 'gone'
            : 'forbidden';
    this.#notify();
  }

  #failStore(): void {
    this.#storeFailed = true;
    this.#notify();
  }

  #changed(): void {
    this.#facts = null;
    this.#plan = null;
    this.#spots = null;
    this.#notify();
  }

  #notify(): void {
    for (const update of this.#tell) update();
  }
}
