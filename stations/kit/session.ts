/**
 * One fit session as a station sees it: its facts, the plan that follows from them, and what a person adds. How the
 * facts are kept and sent is the copy's affair.
 */
import { createSubscriber } from 'svelte/reactivity';
import { admit, basisFor, plan, withoutPersonal } from '../../core/index.ts';
import type { Author, Fact, Kind, Payload, Plan, Refusal, Role } from '../../core/index.ts';
import { afterPaint } from './after-paint.ts';
import { api } from './api.ts';
import type { Me } from './api.ts';
import { isoNow, newFactId } from './chance.ts';
import { SessionCopy } from './copy.ts';
import type { CopyState } from './copy.ts';
import { undoable } from './entries.ts';
import type { LastKnown } from './store/known.ts';
import type { Outbox } from './store/outbox.ts';
import type { RefusedEntry } from './store/own.ts';
import { tab } from './words/trouble.ts';

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

export interface SessionDeps {
  readonly me: Me;
  readonly role: Exclude<Role, 'server'>;
  readonly outbox: Outbox;
  readonly known: LastKnown;
  readonly url: string;
  readonly initials?: () => string | undefined;
  /** Whether the caller draws a picture, and draws it again when what it read changes. Without it nobody does. */
  isDrawn?(): boolean;
  /** Whether this tab owns the device's entries; another one only shows. */
  mayWrite(): boolean;
  /** Entries were refused, or a person has dealt with one. */
  onRefused?(): void;
  /** The last entry that was on its way has been saved. */
  onSettled?(): void;
  onEnd?(state: 'unpaired' | 'outdated'): void;
}

/** One state of the facts, and what follows from it. */
class View {
  readonly facts: readonly Fact[];
  #plan: Plan | null = null;

  constructor(facts: readonly Fact[]) {
    this.facts = facts;
  }

  get plan(): Plan {
    return (this.#plan ??= plan(this.facts));
  }
}

export class Session {
  readonly id: string;
  readonly #deps: SessionDeps;
  readonly #copy: SessionCopy;
  /** As the facts are now; null when they have changed since they were last asked for. */
  #now: View | null = null;
  /** As they were when whoever shows this session was last told, while it has yet to be told again. */
  #shown: View | null = null;
  #presence: Record<string, unknown>;
  /** Whoever shows this session has been told of its last change. */
  #told = true;
  /** Ids of what was added together last: one act of a person, and undone as one. */
  #act: readonly string[] = [];

  readonly #tell = new Set<() => void>();
  readonly #subscribe = createSubscriber((update) => {
    this.#tell.add(update);
    return () => this.#tell.delete(update);
  });

  constructor(id: string, generation: number, deps: SessionDeps) {
    this.id = id;
    this.#deps = deps;
    this.#presence = { device: deps.me.device, name: deps.me.name, role: deps.role };
    this.#copy = new SessionCopy({
      id,
      generation,
      station: deps.me.number,
      url: deps.url,
      outbox: deps.outbox,
      known: deps.known,
      presence: this.#presence,
      askRoom: () => api.room(id),
      onFacts: () => this.#changed(),
      onState: () => this.#tellSoon(),
      onRefused: () => deps.onRefused?.(),
      onSettled: () => deps.onSettled?.(),
      onEnd: (state) => deps.onEnd?.(state),
    });
    void this.recall();
  }

  /** The shop's, in which times are shown. */
  get timeZone(): string {
    return this.#deps.me.shop.timeZone;
  }

  get facts(): readonly Fact[] {
    return this.#view.facts;
  }

  get plan(): Plan {
    return this.#view.plan;
  }

  /**
   * A picture is drawn from one state of the facts: what is drawn anew for a reason of its own, before it was told of the
   * newest entry, draws with the others' state. What a person does goes by the facts as they are now.
   */
  get #view(): View {
    this.#subscribe();
    if (this.#shown && this.#deps.isDrawn?.()) return this.#shown;
    return (this.#now ??= new View(this.#copy.facts()));
  }

  /** False until the session's beginning has arrived, was made here, or is known from before. */
  get ready(): boolean {
    return this.facts.some((fact) => fact.kind === 'session.opened');
  }

  get state(): CopyState {
    this.#subscribe();
    return this.#copy.state;
  }

  /** Saved: on the server's disk. Waiting: on this device, or on its way. */
  stateOf(id: string): 'saved' | 'waiting' {
    this.#subscribe();
    return this.#copy.stateOf(id);
  }

  get waiting(): number {
    this.#subscribe();
    return this.#copy.own.unsaved.length;
  }

  /** All that this device holds of the session has been read, so that none is left out of `waiting`. */
  get counted(): boolean {
    this.#subscribe();
    return this.#copy.read === 'own' || (!this.#deps.mayWrite() && this.#copy.read === 'known');
  }

  get refused(): readonly RefusedEntry[] {
    this.#subscribe();
    return this.#copy.refused;
  }

  get others(): readonly Presence[] {
    this.#subscribe();
    return this.#copy.others.filter((state) => typeof state['name'] === 'string') as unknown as Presence[];
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
      if (!this.#deps.mayWrite()) return { ok: false, refusal: SHOWS_ONLY, draft };
      const fact = { ...draft, ...this.#envelope(draft, known) } as Fact;
      const verdict = admit(new Map(known.map((f) => [f.id, f])), fact, this.#writer);
      if (!verdict.ok) return { ok: false, refusal: verdict.refusal, draft };
      made.push(verdict.fact);
      known.push(verdict.fact);
    }
    this.#copy.add(made);
    this.#act = made.map(({ id }) => id);
    return { ok: true, facts: made };
  }

  strike(id: string, reason: string): Added {
    return this.add({ kind: 'struck', fact: id, reason });
  }

  /** Takes back the last act of this page, else the last entry alone. Gives what was struck, in its order. */
  undo(): readonly Fact[] {
    const last = this.undoable;
    if (!last) return [];
    const act = this.#act.includes(last.id) ? this.#act : [last.id];
    const gone = this.facts.filter(({ id }) => act.includes(id));
    const struck = this.add(...gone.map(({ id }) => ({ kind: 'struck', fact: id, reason: 'undo' }) as const));
    return struck.ok ? gone : [];
  }

  /** A person lets a refused entry go: it is forgotten here. */
  async letGo(id: string): Promise<void> {
    const gone = this.#copy.own.dismiss(id);
    this.#changed();
    await gone;
    this.#deps.onRefused?.();
  }

  /**
   * Offers a refused entry once more, as this station writes now: it may have been paired anew, or have other work.
   * Null when it is on its way; else why it still cannot be taken.
   */
  tryAgain(id: string): Refusal | null {
    const entry = this.refused.find(({ fact }) => fact.id === id);
    if (!entry) return null;
    if (!this.#deps.mayWrite()) return SHOWS_ONLY;
    const { fact, refusal } = entry;
    const again = {
      ...(refusal.code === 'erased' ? withoutPersonal([fact])[0] : fact),
      ...(refusal.code === 'id-taken' ? { id: newFactId() } : {}),
      by: { ...fact.by, station: this.#deps.me.device },
    } as Fact;
    const verdict = admit(new Map(this.facts.map((f) => [f.id, f])), again, this.#writer);
    if (!verdict.ok) return verdict.refusal;
    if (again.id !== id) void this.letGo(id);
    this.#copy.tryAgain(verdict.fact);
    this.#deps.onRefused?.();
    return null;
  }

  /** Tells the others what is being done here; null for nothing in particular. */
  doing(what: Presence['doing'] | null): void {
    const { doing: _was, ...rest } = this.#presence;
    this.#presence = what ? { ...rest, doing: what } : rest;
    this.#copy.setPresence(this.#presence);
  }

  /** Reads what earlier pages have left on this device, and sends what is due from this tab. */
  async recall(): Promise<void> {
    await this.#copy.recall(this.#deps.mayWrite());
  }

  close(): void {
    this.#copy.close();
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

  #changed(): void {
    this.#shown ??= this.#now;
    this.#now = null;
    this.#tellSoon();
  }

  /** What comes in one picture's time is drawn together, however much it is. */
  #tellSoon(): void {
    if (!this.#told) return;
    this.#told = false;
    afterPaint(() => {
      this.#told = true;
      this.#shown = null;
      for (const update of this.#tell) update();
    });
  }
}

/** In the words of a refusal, so that every form shows it where it shows the others. */
const SHOWS_ONLY: Refusal = { code: 'permission', fact: null, field: '', wants: tab.showsOnly };
