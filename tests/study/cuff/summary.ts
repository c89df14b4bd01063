/** Many skiers through one case by each practice, and what came of it. */
import { randomFrom } from '../../../demo/random.ts';
import { mean, share } from '../shares.ts';
import type { Case } from './cases.ts';
import { work } from './loop.ts';
import type { Outcome } from './loop.ts';
import { lastAlone, unaided, withTool } from './practice.ts';
import { skierOf } from './skiers.ts';

/** A closed cuff that is truly further off than this was closed wrongly, mm. */
export const OFF_MM = 3;

export const PRACTICES = [
  { practice: 'a mark or two', decide: unaided, each: 1 },
  { practice: 'last reading', decide: lastAlone, each: 1 },
  { practice: 'the plan', decide: withTool, each: 1 },
  { practice: 'the plan, read twice', decide: withTool, each: 2 },
] as const;

const trulyOff = (closed: readonly Outcome[]) =>
  share(closed.filter(({ trulyOffMm }) => Math.abs(trulyOffMm) > OFF_MM).length, closed.length);

function summary(of: Case, practice: string, outcomes: readonly Outcome[]) {
  const closed = outcomes.filter(({ end }) => end === 'closed');
  const moved = closed.filter(({ rounds }) => rounds > 0);
  const held = outcomes.flatMap((outcome) => outcome.held);
  return {
    case: of.name,
    practice,
    skiers: outcomes.length,
    closed: share(closed.length, outcomes.length),
    /** Of those that needed any. */
    rounds: mean(moved.map(({ rounds }) => rounds)),
    readings: mean(closed.map(({ readings }) => readings)),
    closedTrulyOff: trulyOff(closed),
    /** Of those that were moved: of the rest, the first reading already said even. */
    movedTrulyOff: trulyOff(moved),
    heldByInterval: share(held.filter(Boolean).length, held.length),
    intervals: held.length,
  };
}

/** One row for each practice: the same skiers for each, and the same hand. */
export const study = (of: Case, skiers: number, seed: number) =>
  PRACTICES.map(({ practice, decide, each }) => {
    const random = randomFrom(seed);
    const { pivotSpacingMm, readingHeightMm, factoryLeanDeg = 0 } = of.boot.hardware;
    const outcomes = Array.from({ length: skiers }, (_, i) => {
      const skier = skierOf(random, { pivotSpacingMm, readingHeightMm, factoryLeanDeg }, of.room);
      return work(skier, of, decide, each, randomFrom(seed * 1_000_003 + i));
    });
    return summary(of, practice, outcomes);
  });
