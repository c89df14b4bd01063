/** Many knees through one case by each practice, and what came of it. */
import { randomFrom } from '../../../demo/random.ts';
import { mean, share } from '../shares.ts';
import type { Case } from './cases.ts';
import { kneeOf } from './knees.ts';
import { work } from './loop.ts';
import type { Outcome } from './loop.ts';
import { rigidLeg, untilItLooksRight, withTool, withToolAndMore } from './practice.ts';

/** From 8 mm medial to 0 is the band of the target: half of it to either side, mm. */
export const BAND_MM = 4;

export const PRACTICES = [
  { practice: 'one flat reading', decide: rigidLeg },
  { practice: 'until it looks right', decide: untilItLooksRight },
  { practice: 'the plan', decide: withTool },
  { practice: 'the plan, two more', decide: withToolAndMore },
] as const;

function summary(of: Case, practice: string, outcomes: readonly Outcome[]) {
  const chosen = outcomes.filter(({ end }) => end === 'chosen');
  const held = outcomes.flatMap((outcome) => (outcome.held === null ? [] : [outcome.held]));
  const off = chosen.map(({ trulyOffMm }) => Math.abs(trulyOffMm)).toSorted((a, b) => a - b);
  return {
    case: of.name,
    practice,
    knees: outcomes.length,
    chosen: share(chosen.length, outcomes.length),
    readings: mean(chosen.map(({ readings }) => readings)),
    /** The middle, and what one in ten exceeds. */
    offMedianMm: off[off.length >> 1] ?? null,
    offNineTenthsMm: off[Math.floor(0.9 * off.length)] ?? null,
    outOfBand: share(off.filter((mm) => mm > BAND_MM).length, off.length),
    heldByInterval: share(held.filter(Boolean).length, held.length),
    intervals: held.length,
  };
}

/** One row for each practice: the same knees for each, and the same hand. */
export const study = (of: Case, knees: number, seed: number) =>
  PRACTICES.map(({ practice, decide }) => {
    const random = randomFrom(seed);
    const outcomes = Array.from({ length: knees }, (_, i) =>
      work(kneeOf(random, of.share), of, decide, randomFrom(seed * 1_000_003 + i)),
    );
    return summary(of, practice, outcomes);
  });
