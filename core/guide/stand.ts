/**
 * How high both boots stand over each other: level, or as far apart as a clinician or the skier said. It is never this
 * program's advice, and whose word it is stands on record.
 */
import { otherSide, SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Problem, WantedStand } from './shape.ts';
import { mmWords } from './words.ts';

/** Both boots stand equally high within this. */
const LEVEL_MM = 0.5;

const wantedOf = (log: Log): { readonly fact: FactOf<'stand.wanted'>; readonly id: string } | null => {
  const state = log.now('stand.wanted');
  return state.is === 'one' ? { fact: state.value as FactOf<'stand.wanted'>, id: state.facts.at(-1)! } : null;
};

/** How much higher than the other this boot is to stand; null where nobody asked for a difference. */
export function wantedStand(log: Log, side: Side): WantedStand | null {
  const wanted = wantedOf(log)?.fact;
  if (!wanted) return null;
  const { higherMm, onWordOf } = wanted;
  return { overMm: mm(wanted.side === side ? higherMm : 0 - higherMm), onWordOf };
}

/** Left over right, as wanted: 0 is level. */
export const leftOverRight = (log: Log): Mm => wantedStand(log, 'left')?.overMm ?? mm(0);

/** What is left between how the boots will stand and how they are to. */
export function standProblems(log: Log, heights: Readonly<Record<Side, Mm | null>>): Problem[] {
  const over = (side: Side): number => (heights[side] ?? 0) - (heights[otherSide(side)] ?? 0);
  const wanted = wantedOf(log);
  const off = over('left') - leftOverRight(log);
  if (Math.abs(off) <= LEVEL_MM) return [];
  if (!wanted) {
    const higher = SIDES.find((side) => over(side) > 0)!;
    const text = `The ${higher} boot stands ${mmWords(over(higher))} higher than the other: is that wanted?`;
    return [{ code: 'stand-unequal', text }];
  }
  const { side, higherMm, onWordOf } = wanted.fact;
  const is = over(side);
  const stands = is === 0 ? 'as high' : `${mmWords(Math.abs(is))} ${is > 0 ? 'higher' : 'lower'}`;
  const text = `The ${side} boot is to stand ${mmWords(higherMm)} higher than the other, on the word of the ${onWordOf}; it stands ${stands}.`;
  return [{ fact: wanted.id, side, code: 'stand-unequal', text }];
}
