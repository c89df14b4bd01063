/** The rounds of one cuff as a plot: one column for each, bias in millimetres upward, medial gap wider above zero. */
import type { Interval, Round } from '../../../core/index.ts';

export interface PlotRound {
  readonly number: number;
  readonly x: number;
  readonly read: number;
  /** Each reading of the round by itself, where there are several. */
  readonly repeats: readonly number[];
  readonly foretold: number | null;
  /** Where nine tenths of what was foretold lie. */
  readonly within: { readonly top: number; readonly bottom: number } | null;
  /** Which way the true bias lies beyond what was read. */
  readonly beyond: 'up' | 'down' | null;
  readonly stale: boolean;
}
export interface Plot {
  readonly rounds: readonly PlotRound[];
  readonly zero: number;
  /** Both edges of what counts as even. */
  readonly even: { readonly top: number; readonly bottom: number };
  readonly ticks: readonly { readonly mm: number; readonly y: number }[];
}

export interface RoundRead {
  readonly round: Round;
  readonly biases: readonly number[];
  readonly interval: Interval | null;
}

/** A press is a bound: lateral, the true bias is that much or more; medial, that much or less; on both, neither. */
export const beyondOf = ({ pressure, contact }: Round): 'up' | 'down' | null => {
  if (pressure !== 'press' || contact === 'both' || contact === 'none') return null;
  return contact === 'lateral' ? 'up' : 'down';
};

/** The step of the scale that keeps its numbers apart. */
const stepFor = (reach: number): number => [1, 2, 5, 10, 20].find((step) => reach / step <= 4) ?? 50;

/** In a sheet of `width` by `height`; the scale is the same above and below zero. */
export function plotOf(
  rounds: readonly RoundRead[],
  evenMm: number,
  width: number,
  height: number,
  left: number,
): Plot {
  const values = rounds.flatMap(({ round, biases, interval }) => [
    round.biasMm,
    ...biases,
    round.predictedBiasMm ?? 0,
    interval?.low ?? 0,
    interval?.high ?? 0,
  ]);
  const reach = Math.max(evenMm, ...values.map(Math.abs)) * 1.08;
  const y = (mm: number): number => height / 2 - (mm / reach) * (height / 2);
  const step = stepFor(reach);
  const most = Math.floor(reach / step);
  const column = (width - left) / Math.max(1, rounds.length);
  return {
    zero: y(0),
    even: { top: y(evenMm), bottom: y(-evenMm) },
    ticks: Array.from({ length: 2 * most + 1 }, (_, i) => (i - most) * step).map((mm) => ({ mm, y: y(mm) })),
    rounds: rounds.map(({ round, biases, interval }, i) => ({
      number: i + 1,
      x: left + (i + 0.5) * column,
      read: y(round.biasMm),
      repeats: biases.length > 1 ? biases.map(y) : [],
      foretold: round.predictedBiasMm === null ? null : y(round.predictedBiasMm),
      within: interval && { top: y(interval.high), bottom: y(interval.low) },
      beyond: beyondOf(round),
      stale: round.stale,
    })),
  };
}
