/**
 * The facts of one session as a log: who knew what, what is struck, and the heads of every slot, as they are now
 * or as one author saw them.
 *
 * Causality is in `basis`, not in time: the list merges concurrent runs by station number. A fact without a
 * basis knew everything before it.
 */
import { mayStrike } from './admit.ts';
import type { Fact, FactOf } from './facts.ts';
import { isKind } from './facts.ts';
import type { Kind } from './kinds.ts';
import { entriesOf, sameValue } from './slots.ts';
import type { ReadyValue } from './slots.ts';

/** The value of a slot, as one eye sees it. */
export type State =
  | { readonly is: 'none' }
  | { readonly is: 'one'; readonly value: unknown; readonly facts: readonly string[] }
  /** Two heads disagree: the value is nobody's until a person settles it. */
  | { readonly is: 'conflict'; readonly facts: readonly string[] }
  /** It rested on an entry that was struck, with nothing in its place. */
  | { readonly is: 'lost'; readonly facts: readonly string[] };

export interface BadStrike {
  readonly fact: FactOf<'struck'>;
  readonly why: string;
}

interface Written {
  readonly index: number;
  readonly value: unknown;
}

/** Indices known to one author: all below `below`, and those whose bit is set (32 a word; empty: none). */
interface Known {
  readonly below: number;
  readonly bits: Uint32Array;
}

const NONE = new Uint32Array(0);

export class Log {
  readonly facts: readonly Fact[];
  readonly badStrikes: readonly BadStrike[];
  readonly #index = new Map<string, number>();
  readonly #slots = new Map<string, Written[]>();
  readonly #strikes = new Map<number, number[]>();
  readonly #today = new Map<string, State>();
  readonly #replaces = new Map<string, { readonly strike: number; readonly target: number }[]>();
  readonly #known: Known[] = [];

  /** Facts of kinds that this program does not know are kept by whoever holds the list, and mean nothing here. */
  constructor(list: readonly { readonly kind: string }[]) {
    this.facts = list.filter((fact): fact is Fact => isKind(fact.kind));
    const badStrikes: BadStrike[] = [];
    this.facts.forEach((fact, index) => {
      if (!this.#index.has(fact.id)) this.#index.set(fact.id, index);
      this.#known.push(this.#knownTo(fact, index));
      if (fact.kind === 'struck') this.#strike(fact, index, badStrikes);
      for (const { slot, value } of entriesOf(fact)) {
        const written = this.#slots.get(slot);
        if (written) written.push({ index, value });
        else this.#slots.set(slot, [{ index, value }]);
      }
    });
    this.badStrikes = badStrikes;
  }

  #strike(fact: FactOf<'struck'>, index: number, bad: BadStrike[]): void {
    const at = this.#index.get(fact.fact);
    const target = at === undefined ? undefined : this.facts[at];
    if (at === undefined || !target || at >= index)
      bad.push({ fact, why: `${fact.fact} is not there to be struck` });
    else if (!mayStrike(fact.by.role, target))
      bad.push({ fact, why: `${fact.by.role} may not strike ${target.kind}` });
    else {
      this.#strikes.set(at, [...(this.#strikes.get(at) ?? []), index]);
      const by = fact.replacedBy;
      if (by) this.#replaces.set(by, [...(this.#replaces.get(by) ?? []), { strike: index, target: at }]);
    }
  }

  /** What its author knew: all that its basis names, and all that those knew. */
  #knownTo(fact: Fact, index: number): Known {
    if (!fact.basis) return { below: index, bits: NONE };
    let below = 0;
    const bits = new Uint32Array((index >>> 5) + 1);
    for (const id of fact.basis) {
      const at = this.#index.get(id);
      if (at === undefined || at >= index) continue;
      const known = this.#known[at]!;
      below = Math.max(below, known.below);
      known.bits.forEach((word, i) => (bits[i]! |= word));
      bits[at >>> 5]! |= 1 << (at & 31);
    }
    return { below, bits };
  }

  #knew(author: number, index: number): boolean {
    const { below, bits } = this.#known[author]!;
    return index < below || ((bits[index >>> 5] ?? 0) & (1 << (index & 31))) !== 0;
  }

  #sees(viewer: number | null, index: number): boolean {
    return viewer === null || this.#knew(viewer, index);
  }

  /** Where an entry stands in the order of knowing: a replacement stands where the struck entry stood. */
  #place(index: number): number {
    if (this.#replaces.size === 0) return index;
    let at = index;
    for (let steps = 0; steps < this.facts.length; steps++) {
      const replaced = (this.#replaces.get(this.facts[at]!.id) ?? []).find(
        ({ strike, target }) =>
          this.facts[target]!.kind === this.facts[at]!.kind && this.#struckBy(strike, null) === null,
      );
      if (!replaced || replaced.target >= at) return at;
      at = replaced.target;
    }
    return at;
  }

  #struckBy(index: number, viewer: number | null): number | null {
    for (const strike of this.#strikes.get(index) ?? [])
      if (this.#sees(viewer, strike) && this.#struckBy(strike, viewer) === null) return strike;
    return null;
  }

  /** The strike that takes this fact out today, or null. */
  struckBy(id: string): FactOf<'struck'> | null {
    const index = this.#index.get(id);
    const strike = index === undefined ? null : this.#struckBy(index, null);
    return strike === null ? null : (this.facts[strike] as FactOf<'struck'>);
  }

  get(id: string): Fact | undefined {
    const index = this.#index.get(id);
    return index === undefined ? undefined : this.facts[index];
  }

  /** Facts of one kind that nobody struck, in the list's order. */
  live<K extends Kind>(kind: K): FactOf<K>[] {
    const live = this.facts.filter(
      (fact, index) => fact.kind === kind && this.#struckBy(index, null) === null,
    );
    return live as readonly Fact[] as unknown as FactOf<K>[];
  }

  /** Names of the slots that any fact set and that begin with `prefix`. */
  slots(prefix: string): string[] {
    return [...this.#slots.keys()].filter((name) => name.startsWith(prefix));
  }

  /** The slot itself, or, where the name ends in `/`, all that any fact set below it. */
  under(name: string): string[] {
    return name.endsWith('/') ? this.slots(name) : [name];
  }

  /** Did the author of one entry know another, replacements standing in the place of what they replace? */
  #supersedes(later: number, earlier: number): boolean {
    const [a, b] = [this.#place(later), this.#place(earlier)];
    return a !== b && this.#knew(a, b);
  }

  /** Heads of a slot in one view: what no later fact of the slot, in that view, knew and so superseded. */
  #heads(slot: string, viewer: number | null): Written[] {
    return this.#headsAmong(
      this.#slots.get(slot) ?? [],
      (index) => this.#sees(viewer, index) && this.#struckBy(index, viewer) === null,
    );
  }

  /** Heads of those entries that `counts`: the newest first asked, since it mostly knew all the others. */
  #headsAmong(entries: readonly Written[], counts: (index: number) => boolean): Written[] {
    let heads: Written[] = [];
    let settled = 0;
    for (let i = entries.length - 1; i >= 0; i--) {
      const written = entries[i]!;
      // Whoever knew all before them leaves nothing further back to ask, unless a replacement stands there.
      if (written.index < settled && this.#replaces.size === 0) break;
      if (!counts(written.index)) continue;
      // A replacement of something older stands behind what superseded that.
      if (heads.some((head) => this.#supersedes(head.index, written.index))) continue;
      heads = heads.filter((head) => !this.#supersedes(written.index, head.index));
      heads.push(written);
      settled = Math.max(settled, this.#known[written.index]!.below);
    }
    return heads.toReversed();
  }

  /** An entry of a slot by its place in the list. */
  #entry(slot: string, index: number): Written | undefined {
    const entries = this.#slots.get(slot) ?? [];
    let [low, high] = [0, entries.length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (entries[middle]!.index < index) low = middle + 1;
      else high = middle;
    }
    return entries[low]?.index === index ? entries[low] : undefined;
  }

  /** Entries of a slot that the author of a fact with a basis named, or null when it named none there. */
  #named(slot: string, viewer: number): Written[] | null {
    const named = new Map<number, Written>();
    for (const id of this.facts[viewer]!.basis ?? []) {
      const at = this.#index.get(id);
      const entry = at === undefined || at >= viewer ? undefined : this.#entry(slot, at);
      if (entry) named.set(entry.index, entry);
    }
    return named.size ? [...named.values()].sort((a, b) => a.index - b.index) : null;
  }

  /**
   * What the author of a fact had in front of them in a slot. A basis names the heads; where it names none, what
   * those who are named knew, less what was struck: a struck head would have been named.
   */
  #seenBy(slot: string, viewer: number): Written[] {
    const named = this.#named(slot, viewer);
    if (named) return this.#headsAmong(named, () => true);
    const heads = this.#heads(slot, viewer);
    if (!this.facts[viewer]!.basis || heads.every(({ index }) => this.#struckBy(index, null) === null))
      return heads;
    return this.#headsAmong(
      this.#slots.get(slot) ?? [],
      (index) => this.#knew(viewer, index) && this.#struckBy(index, null) === null,
    );
  }

  /** Ids of the heads of a slot as they are now. */
  heads(slot: string): string[] {
    return this.#heads(slot, null).map(({ index }) => this.facts[index]!.id);
  }

  /** A footbed confirmed without saying which is the one that was named before. */
  #inherited(slot: string, { index, value }: Written): unknown {
    const ready = value as ReadyValue;
    if (!slot.startsWith('ready/') || !slot.endsWith('/footbed') || ready.note !== undefined) return value;
    const named = this.#slots
      .get(slot)!
      .findLast(
        (w) => w.index < index && this.#knew(index, w.index) && (w.value as ReadyValue).note !== undefined,
      );
    return named ? { ...ready, note: (named.value as ReadyValue).note } : value;
  }

  #stateOf(slot: string, heads: readonly Written[]): State {
    const [first, ...rest] = heads;
    if (!first) return { is: 'none' };
    const facts = heads.map(({ index }) => this.facts[index]!.id);
    const value = this.#inherited(slot, first);
    return rest.every((head) => sameValue(slot, this.#inherited(slot, head), value))
      ? { is: 'one', value, facts }
      : { is: 'conflict', facts };
  }

  /** A slot as it is now. */
  now(slot: string): State {
    let state = this.#today.get(slot);
    if (!state) this.#today.set(slot, (state = this.#stateOf(slot, this.#heads(slot, null))));
    return state;
  }

  /** What stands in a struck entry's place, following replacements of replacements. */
  #inPlaceOf(slot: string, written: Written): Written | null {
    let at = written;
    for (let steps = 0; steps < this.facts.length; steps++) {
      const strike = this.#struckBy(at.index, null);
      if (strike === null) return at;
      const replacement = this.#index.get((this.facts[strike] as FactOf<'struck'>).replacedBy ?? '');
      const next = replacement === undefined ? undefined : this.#entry(slot, replacement);
      if (!next) return null;
      at = next;
    }
    return null;
  }

  /** A slot as the author of this fact saw it, with what was struck since replaced by what took its place. */
  asOf(slot: string, id: string): State {
    const own = this.#index.get(id);
    if (own === undefined) return { is: 'none' };
    const seen = this.#seenBy(slot, this.#place(own));
    const standing: Written[] = [];
    for (const head of seen) {
      const place = this.#inPlaceOf(slot, head);
      if (!place) return { is: 'lost', facts: [this.facts[head.index]!.id] };
      standing.push(place);
    }
    return this.#stateOf(slot, standing);
  }

  /**
   * Live facts of an accumulating slot that the author of `id` knew (null: all), a struck one by its replacement. One
   * that was struck since with nothing in its place stays in the list under a name of its own.
   */
  membersKnown(slot: string, id: string | null): string[] {
    const own = id === null ? undefined : this.#index.get(id);
    const viewer = own === undefined ? null : this.#place(own);
    const members = new Set<string>();
    for (const written of this.#slots.get(slot) ?? []) {
      if (!this.#sees(viewer, written.index) || this.#struckBy(written.index, viewer) !== null) continue;
      const place = this.#inPlaceOf(slot, written);
      const { id: member } = this.facts[(place ?? written).index]!;
      if (place) members.add(member);
      else if (viewer !== null && this.#reliedOn(viewer, member)) members.add(`struck:${member}`);
    }
    return [...members];
  }

  /** Did an entry with a basis name this one, or stand behind it in a list without any? */
  #reliedOn(viewer: number, id: string): boolean {
    const { basis } = this.facts[viewer]!;
    return !basis || basis.includes(id);
  }

  /** Did the author of `later` know `earlier`? */
  knew(later: string, earlier: string): boolean {
    const [author, index] = [this.#index.get(later), this.#index.get(earlier)];
    return author !== undefined && index !== undefined && this.#knew(author, index);
  }
}
