/**
 * What a rule of the gate is: what it may look at, and what it can decide. `gate.ts` holds the rules together.
 */
import type * as Y from 'yjs';
import type { Fact, KnownFacts, Role } from '../core/index.ts';
import type { Refused } from './frames.ts';

/** Who sends. */
export interface GateWriter {
  /**
   * The station's number: the upper part of its Yjs client ids. 0, the server's own, only for entries that the
   * desk takes in from the quarantine (`take-in.ts`): no station has it, so nobody can send under it.
   */
  readonly number: number;
  /** Whose facts these must be by their `by.station`; for entries out of the quarantine, the station that made them. */
  readonly device: string;
  readonly roles: readonly Role[];
  /** May look and not write. */
  readonly readOnly: boolean;
}

/** As much of the live document as the decision needs. */
export interface GateView {
  /** Number of entries of a Yjs client that the document holds; 0 for an unknown one. */
  clockOf(client: number): number;
  /** How many client ids of a station the document holds. */
  clientsOf(station: number): number;
  readonly facts: KnownFacts;
}

export type Verdict =
  /** Nothing new in it. `clients`: whose durable state to tell. */
  | { readonly do: 'nothing'; readonly clients: readonly number[] }
  /** Apply it. Afterwards the document holds `facts` more, and as many entries of each client as `clocks` says. */
  | { readonly do: 'take'; readonly facts: readonly Fact[]; readonly clocks: ReadonlyMap<number, number> }
  /** Something it builds on is missing: drop it, and ask for what the station has. Honest clients cause this. */
  | { readonly do: 'ask'; readonly rule: RuleName; readonly because: string }
  /** Facts that may not be written; nothing of the update is taken. */
  | {
      readonly do: 'refuse';
      readonly rule: RuleName;
      readonly refused: readonly Refused[];
      /** Ids of facts in it that are there already with the same value. */
      readonly already: readonly string[];
    }
  /** No station of ours writes such an update: refuse it and close the connection. */
  | { readonly do: 'reject'; readonly rule: RuleName; readonly because: string };

/** The number is the rule's in the list of `docs/protocol.md`. */
export type RuleName =
  | 'size' // 1
  | 'count' // 1
  | 'readable' // 2
  | 'no-deletes' // 3
  | 'read-only' // 4
  | 'sections' // 5
  | 'plain-content' // 6, 7
  | 'no-right-origin' // 8
  | 'parent' // 9
  | 'behind-the-first' // 9
  | 'own-origin' // 10
  | 'integrates' // 11
  | 'known-part' // 12
  | 'owner' // 13
  | 'client-cap' // 13
  | 'plain-json' // 14
  | 'fact'; // 14

/** Entries of an update that the document does not hold yet, in an order in which they can be integrated. */
export interface Fresh {
  readonly client: number;
  /** Clock of the first of `values`. */
  readonly clock: number;
  readonly values: readonly unknown[];
  /** Has no entry to its left, so it would stand at the beginning of the list. */
  readonly atStart: boolean;
}

/** What the rules know of an update; filled as they go. */
export interface Draft {
  readonly bytes: Uint8Array;
  readonly view: GateView;
  readonly writer: GateWriter;
  structs: readonly (Y.Item | Y.GC | Y.Skip)[];
  hasDeletes: boolean;
  /** Items only, in an order in which each finds what it builds on. */
  ordered: readonly Y.Item[];
  fresh: readonly Fresh[];
  facts: readonly Fact[];
}

export interface Rule {
  readonly name: RuleName;
  /** Undefined: no objection, the next rule. */
  judge(draft: Draft): Verdict | undefined;
}
