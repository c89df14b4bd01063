/** Three ways to work a cuff: what is done next, from what has been read so far. */
import { plan } from '../../../core/index.ts';
import type { CuffPlan, Fact } from '../../../core/index.ts';
import type { GapReading, Pivots } from '../../../demo/leg.ts';
import { Story } from '../../helpers/facts.ts';
import type { Case } from './cases.ts';

/** Readings at one setting of the pivots, in their order. */
export interface Visit {
  readonly set: Pivots;
  readonly readings: readonly (GapReading & { readonly stanceWidthMm: number })[];
}

export type Next =
  | { readonly do: 'close' }
  /** Once more, with the pivots as they are. */
  | { readonly do: 'read' }
  /** At the end of the travel, or no mark would help. */
  | { readonly do: 'give-up' }
  | { readonly do: 'move'; readonly to: Pivots };

export interface Decision {
  readonly next: Next;
  /** What the practice thinks of the cuff; null where it thinks nothing. */
  readonly cuff: CuffPlan | null;
}

export type Practice = (of: Case, visits: readonly Visit[]) => Decision;

function factsOf({ boot, errorMm }: Case, visits: readonly Visit[]): readonly Fact[] {
  const told = new Story().open();
  told.add('settings.used', { gapErrorMm: errorMm }, { role: 'server' });
  told.add('boot.described', { side: 'left', ...boot } as never);
  told.ready('left');
  for (const { set, readings } of visits) {
    told.set('left', set.lateralMm, set.medialMm);
    for (const { medialMm, lateralMm, ...more } of readings) told.read('left', medialMm, lateralMm, more);
  }
  return told.facts;
}

function asPlanned(facts: readonly Fact[]): Decision {
  const { cuff } = plan(facts).sides.left;
  const { verdict, target, set, readAgain, moveOn, reading } = cuff;
  // The tool says when one more reading would say more than a move, or than closing; of a press, after the move.
  if (readAgain !== null && reading?.pressure !== 'press') return { next: { do: 'read' }, cuff };
  if (verdict === 'even' && moveOn === null) return { next: { do: 'close' }, cuff };
  const moved =
    target !== null &&
    set !== null &&
    Math.abs(target.medialMm - set.medialMm) + Math.abs(target.lateralMm - set.lateralMm) > 1e-6;
  if (verdict === 'out-of-travel' || verdict === 'too-narrow' || verdict === 'unread' || !moved)
    return { next: { do: 'give-up' }, cuff };
  return { next: { do: 'move', to: { medialMm: target.medialMm, lateralMm: target.lateralMm } }, cuff };
}

/** All readings together. */
export const withTool: Practice = (of, visits) => asPlanned(factsOf(of, visits));

/** The same geometry from the last visit alone: what was read before it is forgotten. */
export const lastAlone: Practice = (of, visits) => asPlanned(factsOf(of, visits.slice(-1)));

/** Biases from which two marks are moved and not one, and within which a cuff is called even; common practice, no source. */
const TWO_MARKS_MM = 8;
const EVEN_MM = 3;

/** A mark or two toward the gap: the lateral adjuster first, the medial one when that is used up. */
export const unaided: Practice = ({ boot: { hardware } }, visits) => {
  const { set, readings } = visits.at(-1)!;
  const mean = (of: (reading: GapReading) => number) =>
    readings.reduce((sum, reading) => sum + of(reading), 0) / readings.length;
  const bias = mean(({ medialMm }) => medialMm) - mean(({ lateralMm }) => lateralMm);
  const pressed = readings.some(({ pressure }) => pressure === 'press');
  if (Math.abs(bias) <= EVEN_MM && !pressed) return { next: { do: 'close' }, cuff: null };
  const mark = hardware.markMm ?? 1;
  const step = (Math.abs(bias) >= TWO_MARKS_MM ? 2 : 1) * mark;
  // The medial gap wider: outward, lateral down or medial up.
  const outward = Math.sign(bias) * step;
  const { lateral, medial } = hardware.travel;
  const down = set.lateralMm - outward;
  if (down >= -lateral.downMm && down <= lateral.upMm)
    return { next: { do: 'move', to: { ...set, lateralMm: down } }, cuff: null };
  const up = set.medialMm + outward;
  if (medial && up >= -medial.downMm && up <= medial.upMm)
    return { next: { do: 'move', to: { ...set, medialMm: up } }, cuff: null };
  return { next: { do: 'give-up' }, cuff: null };
};
