/** What the shop's own past turns say of the next ones: how long each work lasts, and how often one follows another. */
import { learnedDuration } from '../maths/duration.ts';
import type { OpenSpan } from '../maths/hours.ts';
import { workedTurns } from '../maths/worked.ts';
import type { TurnTimes } from '../maths/worked.ts';
import { FLOOR_ROLES, WORK_PRIORS, WORKS } from './turns.ts';
import type { FloorRole, ShopWays, Work } from './turns.ts';

/** A share before the shop has shown its own, as if it had been seen in so many; from memory, low. */
const SHARES = { moves: 0.9, movesAgain: 0.3, soles: 0.7, weight: 5 } as const;
/** Past turns of one work that are learned from: a shop gets faster, and the oldest say least. */
export const LEARNED_TURNS = 200;

export interface Past {
  /** Each station's last turns that are done, by their end, oldest first. */
  readonly turns: Readonly<Record<FloorRole, readonly (TurnTimes & { readonly work: Work })[]>>;
  readonly hands: Readonly<Record<FloorRole, number>>;
  readonly spans: readonly OpenSpan[];
  /** Of the last turns with a work: how many there were, and how many another one followed. */
  followed(work: Work, by: Work): { readonly n: number; readonly followed: number };
}

export function waysOf({ turns, hands, spans, followed }: Past): { ways: ShopWays; seen: number } {
  const past = new Map<Work, number[]>(WORKS.map((work) => [work, []]));
  for (const role of FLOOR_ROLES)
    for (const [i, { workedMin }] of workedTurns(turns[role], hands[role], spans).entries())
      past.get(turns[role][i]!.work)!.push(workedMin);
  const newest = (work: Work) => past.get(work)!.slice(-LEARNED_TURNS);
  const share = (work: Work, by: Work, before: number): number => {
    const seen = followed(work, by);
    return (SHARES.weight * before + seen.followed) / (SHARES.weight + seen.n);
  };
  return {
    ways: {
      lasts: Object.fromEntries(
        WORKS.map((work) => [work, learnedDuration(newest(work), WORK_PRIORS[work])]),
      ) as ShopWays['lasts'],
      moves: share('first', 'pivots', SHARES.moves),
      movesAgain: share('again', 'pivots', SHARES.movesAgain),
      soles: share('stance', 'sole', SHARES.soles),
    },
    seen: WORKS.reduce((sum, work) => sum + newest(work).length, 0),
  };
}
