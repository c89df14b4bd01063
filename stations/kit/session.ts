/**
 * One fit session as a station sees it: the shared list of facts, this device's unsaved entries, and the plan that
 * follows from both.
 */
import { createSubscriber } from 'svelte/reactivity';
import { admit, basisFor, CLOSE, plan } from '../../core/index.ts';
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
import { OwnEntries } from './own.ts';
import type { RefusedEntry } from './own.ts';

/** What a person adds: kind and payload; the envelope is filled in here. */
export type FactDraft = { [K in Kind]: { readonly kind: K } & Payload<K> }[Kind];
export type Added =
  | { readonly ok: true; readonly facts: readonly Fact[] }
  | { readonly ok: false; readonly refusal: Refusal; readonly draft: FactDraft };
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

const ENDS: Readonly<Record<number, LinkState>> = {
  [CLOSE.unpaired]: 'unpaired',
  [CLOSE.version]: 'outdated',
  [CLOSE.gone]: 'gone',
};

export class Session {
  readonly id: string;
  readonly #deps: SessionDeps;
  #generation: number;
  #link: Link;
  readonly #own: OwnEntries;
  /** What was known before a new document was begun; shown until the server's content has come. */
  #held: readonly Fact[] = [];
  #end: LinkState | null = null;
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
    this.#own = new OwnEntries(id, deps.outbox, () => this.#changed());
    this.#link = this.#begin();
    void this.#recall();
  }

  /** The shop's, in which times are shown. */
  get timeZone(): string {
    return this.#deps.me.shop.timeZone;
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
    if (this.#own.pending.some((fact) => fact.id === id)) return 'waiting';
    return this.#places().get(id)?.durable === false ? 'waiting' : 'saved';
  }

  get waiting(): number {
    this.#subscribe();
    return this.#own.unsaved.length;
  }

  /** This device's own store has failed: entries live only in this page until they are saved. */
  get storeFailed(): boolean {
    this.#subscribe();
    return this.#own.storeFailed;
  }

  get refused(): readonly RefusedEntry[] {
    this.#subscribe();
    return this.#own.refused;
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
    const toDocument = this.#link.everSynced || this.#isNew(made);
    this.#own.keep(made, !toDocument);
    if (toDocument) this.#append(made);
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
    this.#own.dismiss(id);
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
      this.#gather().some((f) => f.kind === 'session.opened' && this.#own.has(f.id))
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
    return [...base, ...this.#own.pending.filter((fact) => !there.has(fact.id))];
  }

  #places(): ReadonlyMap<string, Spot> {
    return (this.#spots ??= spotsIn(this.#link.doc, (client, clock) => this.#link.isDurable(client, clock)));
  }

  #append(facts: readonly Fact[]): void {
    this.#link.write((doc) => append(doc, facts));
  }

  #sendPending(): void {
    const there = new Set(factsIn(this.#link.doc).map((fact) => fact.id));
    const missing = this.#own.takePending().filter((fact) => !there.has(fact.id));
    this.#held = [];
    if (missing.length > 0) this.#append(missing);
    this.#acknowledge();
    this.#changed();
  }

  /** What an earlier page left over goes out as soon as it can; a session begun here need not be fetched first. */
  async #recall(): Promise<void> {
    await this.#own.recall();
    if (this.#closed) return;
    if (this.#link.everSynced || this.#own.pending.some((fact) => fact.kind === 'session.opened'))
      this.#sendPending();
  }

  #acknowledge(): void {
    this.#spots = null;
    const places = this.#places();
    const saved = this.#own.unsaved.filter((id) => places.get(id)?.durable);
    this.#own.markSaved(saved);
    this.#notify();
    if (saved.length > 0 && this.waiting === 0) this.#deps.onSettled?.();
  }

  #onRefused(refused: Refused): void {
    const { client, ...refusal } = refused;
    const unsaved = this.#unsavedInDocument();
    const places = this.#places();
    const bad =
      unsaved.find(({ id }) => id === refusal.fact) ??
      unsaved.find(({ id }) => places.get(id)?.client === client);
    if (bad) this.#own.refuse(bad, refusal);
    this.#startAfresh(unsaved.filter((fact) => fact !== bad));
  }

  /** This document's copy will never be taken, so it would stand in the way of what comes after. */
  #onAlready(ids: readonly string[]): void {
    this.#own.markSaved(ids);
    this.#startAfresh(this.#unsavedInDocument().filter((fact) => !ids.includes(fact.id)));
  }

  /** Own facts in the document that are not on the server's disk. */
  #unsavedInDocument(): Fact[] {
    const places = this.#places();
    return factsIn(this.#link.doc).filter(({ id }) => this.#own.has(id) && places.get(id)?.durable === false);
  }

  /** A new document from the server's state; `again` is appended under a new client id after the first sync. */
  #startAfresh(again: readonly Fact[]): void {
    const seen = this.#gather();
    const before = this.#link;
    const left = new Set(this.#unsavedInDocument().map((fact) => fact.id));
    this.#held = seen.filter((fact) => !left.has(fact.id));
    this.#own.offerAgain(again);
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
        this.#startAfresh(this.#unsavedInDocument());
        return;
      }
    }
    this.#end = ENDS[code] ?? 'forbidden';
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
