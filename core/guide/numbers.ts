/** The shop's numbers over a period: as the server tells them, as the desk shows them, and as a table. */
import { SERVICES } from '../record/kinds.ts';
import type { BucketOf } from '../maths/period.ts';
import { WORKS } from './turns.ts';
import type { Work } from './turns.ts';

export type Service = (typeof SERVICES)[number];
export type ByService = Readonly<Record<Service, number>>;

/** Where a job stands: at one of the works, or ready and waiting for its owner. */
export const STAGES = [...WORKS, 'pickup'] as const;
export type Stage = Work | 'pickup';

/** Cuffs that took so many moves or more are counted together. */
export const MANY_MOVES = 4;

export interface Counted {
  /** Jobs that were taken in, handed over, and released though unfit. */
  readonly opened: ByService;
  readonly handed: ByService;
  readonly unfit: ByService;
  /** Cuffs closed as even after 0, 1, 2, 3 moves, and after `MANY_MOVES` or more. */
  readonly evenAfter: readonly number[];
  /** Moves of all these together. */
  readonly evenMoves: number;
  /** Cuffs that were closed as they are, or for another boot. */
  readonly otherwise: number;
  /** Closed cuffs that were moved at all, and of them those that were even after the first move. */
  readonly moved: number;
  readonly firstEnough: number;
}

/** Minutes: within the first in half of the cases, within the second in 80 %. Null where there were none. */
export type Halfway = { readonly medianMin: number; readonly mostMin: number } | null;

export interface StageTimes {
  /** Turns that came to their end in this time; for `pickup` jobs that were handed over. */
  readonly n: number;
  /** Minutes of open doors until somebody took it up; for `pickup` until it was handed over. */
  readonly waited: Halfway;
  /** Minutes of open doors in hand; null for `pickup`. */
  readonly worked: Halfway;
  /** By the clock, nights and closed days in it. */
  readonly whole: Halfway;
}

export type Times = Readonly<Record<Stage, StageTimes>>;

export interface Bucket extends Counted {
  /** First and last day, `2026-01-09`, by the shop's calendar. */
  readonly from: string;
  readonly to: string;
  /** The hour of the day that it begins with, by the shop's clock; null where it is whole days. */
  readonly hour: number | null;
  /** Ms since 1970; it ends before the second. */
  readonly fromMs: number;
  readonly toMs: number;
  readonly times: Times;
}

export interface NumbersTold {
  readonly from: string;
  readonly to: string;
  readonly by: BucketOf;
  readonly atMs: number;
  /** The shop's day now, and the one on which its first job was taken in; null before that. */
  readonly today: string;
  readonly first: string | null;
  /** Sessions that are not counted yet, as after an update of the program. */
  readonly uncounted: number;
  readonly buckets: readonly Bucket[];
  /** Of the whole time: a median is no sum of medians. */
  readonly times: Times;
  /** Of the jobs that were taken in in this time: those that are here now, and of them those that rest. */
  readonly here: number;
  readonly paused: number;
}

const none = (): Record<Service, number> =>
  Object.fromEntries(SERVICES.map((service) => [service, 0])) as Record<Service, number>;

export const NOTHING_COUNTED: Counted = {
  opened: none(),
  handed: none(),
  unfit: none(),
  evenAfter: Array.from({ length: MANY_MOVES + 1 }, () => 0),
  evenMoves: 0,
  otherwise: 0,
  moved: 0,
  firstEnough: 0,
};

const plus = (a: ByService, b: ByService): ByService =>
  Object.fromEntries(SERVICES.map((service) => [service, a[service] + b[service]])) as ByService;

/** All of these together. */
export const sumOf = (counts: readonly Counted[]): Counted =>
  counts.reduce(
    (sum, each) => ({
      opened: plus(sum.opened, each.opened),
      handed: plus(sum.handed, each.handed),
      unfit: plus(sum.unfit, each.unfit),
      evenAfter: sum.evenAfter.map((n, i) => n + each.evenAfter[i]!),
      evenMoves: sum.evenMoves + each.evenMoves,
      otherwise: sum.otherwise + each.otherwise,
      moved: sum.moved + each.moved,
      firstEnough: sum.firstEnough + each.firstEnough,
    }),
    NOTHING_COUNTED,
  );

export const allServices = (by: ByService): number => SERVICES.reduce((sum, service) => sum + by[service], 0);
/** Cuffs that were closed as even, after however many moves. */
export const evenOf = ({ evenAfter }: Counted): number => evenAfter.reduce((sum, n) => sum + n, 0);
