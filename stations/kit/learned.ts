/** What the shop has learned, as the server tells it (`docs/protocol.md`). */
import { ask } from './api.ts';
import type { PairState, Reason } from './words/learned.ts';

export interface Response {
  readonly k: number;
  readonly sd: number;
}
export interface ModelLearned extends Response {
  readonly model: string;
  readonly boots: number;
  readonly pairs: number;
}
export interface Move {
  readonly predictedMm: number;
  readonly observedMm: number;
  readonly sdMm: number;
  readonly state: PairState;
}
export interface FarOff extends Move {
  readonly session: string;
  readonly before: string;
  readonly after: string;
  readonly side: 'left' | 'right';
  readonly model: string;
  readonly ticket: string | null;
  readonly openedMs: number;
  readonly decisions: readonly {
    readonly choice: 'kept' | 'out' | 'asked';
    readonly reason: Reason | null;
    readonly by: string;
    readonly atMs: number;
  }[];
}
export interface Score {
  readonly month: string;
  readonly moved: number;
  readonly firstEnough: number;
  readonly pairs: number;
  readonly held80: number;
  readonly held90: number;
}
export interface Report {
  readonly shop: Response;
  readonly models: readonly ModelLearned[];
  readonly farOff: readonly FarOff[];
  readonly scores: readonly Score[];
}
export type Choice =
  { readonly choice: 'kept' | 'asked' } | { readonly choice: 'out'; readonly reason: Reason };

/** Nine of ten of a normal lie within this many deviations. */
export const Z90 = 1.644854;

export const learned = {
  report: () => ask<Report>('GET', '/api/learned'),
  moves: (model: string) =>
    ask<{ moves: Move[] }>('GET', `/api/learned/moves?model=${encodeURIComponent(model)}`),
  decide: ({ session, before, after }: FarOff, choice: Choice) =>
    ask<Report>('POST', '/api/learned/choices', { session, before, after, ...choice }),
};
