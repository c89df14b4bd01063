/** Moves as a plot: foretold to the right, read upward, both in millimetres of bias on one scale. */
import { Z90 } from '../../../core/index.ts';
import type { MoveTold } from '../../../core/index.ts';

export interface PlotMove {
  readonly x: number;
  readonly y: number;
  /** Where nine tenths of what was foretold lie. */
  readonly top: number;
  readonly bottom: number;
  readonly state: MoveTold['state'];
}

export interface MovesPlot {
  readonly moves: readonly PlotMove[];
  readonly ticks: readonly { readonly mm: number; readonly x: number; readonly y: number }[];
  /** Ends of the line on which what was read is what was foretold. */
  readonly line: readonly [number, number, number, number];
}

const stepFor = (span: number): number => [1, 2, 5, 10, 20].find((step) => span / step <= 7) ?? 50;

/** In a field of `width` by `height` whose lower left corner is at `left`, `height`. */
export function movesPlot(
  moves: readonly MoveTold[],
  width: number,
  height: number,
  left: number,
): MovesPlot {
  const values = moves.flatMap(({ predictedMm, observedMm, sdMm }) => [
    observedMm,
    predictedMm - Z90 * sdMm,
    predictedMm + Z90 * sdMm,
  ]);
  const [low, high] = [Math.min(-2, ...values) - 0.5, Math.max(2, ...values) + 0.5];
  const x = (mm: number): number => left + ((mm - low) / (high - low)) * (width - left);
  const y = (mm: number): number => height - ((mm - low) / (high - low)) * height;
  const step = stepFor(high - low);
  const first = Math.ceil(low / step);
  const count = Math.floor(high / step) - first + 1;
  return {
    moves: moves.map(({ predictedMm, observedMm, sdMm, state }) => ({
      x: x(predictedMm),
      y: y(observedMm),
      top: y(predictedMm + Z90 * sdMm),
      bottom: y(predictedMm - Z90 * sdMm),
      state,
    })),
    ticks: Array.from({ length: count }, (_, i) => (first + i) * step).map((mm) => ({
      mm,
      x: x(mm),
      y: y(mm),
    })),
    line: [x(low), y(low), x(high), y(high)],
  };
}

export const held = ({ predictedMm, observedMm, sdMm }: MoveTold): boolean =>
  Math.abs(observedMm - predictedMm) <= Z90 * sdMm;
