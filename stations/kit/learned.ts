/** What the shop has learned, as the server tells it (`docs/protocol.md`). */
import type { LeftOutBecause, MoveChoice, MoveState } from '../../core/index.ts';
import { ask } from './api.ts';

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
  readonly state: MoveState;
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
    readonly choice: MoveChoice['choice'];
    readonly reason: LeftOutBecause | null;
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
export const learned = {
  report: () => ask<Report>('GET', '/api/learned'),
  moves: (model: string) =>
    ask<{ moves: Move[] }>('GET', `/api/learned/moves?model=${encodeURIComponent(model)}`),
  decide: ({ session, before, after }: FarOff, choice: MoveChoice) =>
    ask<Report>('POST', '/api/learned/choices', { session, before, after, ...choice }),
};
