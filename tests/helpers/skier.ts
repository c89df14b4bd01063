/** A skier of the tests: how their legs truly stand in the boots, and what a hand reads there. */
import type { Side } from '../../core/index.ts';
import { trueGaps } from '../../demo/leg.ts';
import type { Cuff, Gaps, Leg, Pivots } from '../../demo/leg.ts';

export interface Skier {
  readonly legs: Readonly<Record<Side, Leg>>;
  readonly cuffs: Readonly<Record<Side, Cuff>>;
  /** Where the hands at the bench have left the pivots. */
  readonly pivots: Record<Side, Pivots>;
}

export const atNeutral = (): Record<Side, Pivots> => ({
  left: { medialMm: 0, lateralMm: 0 },
  right: { medialMm: 0, lateralMm: 0 },
});

/** Both gaps of one leg at the pivots as they are set, to the half millimetre. Throws where the leg would touch. */
export function gapsOf({ legs, cuffs, pivots }: Skier, side: Side): Gaps {
  const { medialMm, lateralMm } = trueGaps(legs[side], cuffs[side], pivots[side]);
  const half = (gap: number) => Math.round(gap * 2) / 2;
  const read = { medialMm: half(medialMm), lateralMm: half(lateralMm) };
  if (read.medialMm <= 0 || read.lateralMm <= 0)
    throw new Error(`the ${side} leg touches the cuff: ${JSON.stringify(read)}`);
  return read;
}

/** `lateral −1 mm, medial +2 mm` as places from factory neutral; a pivot that is not named stands at 0. */
export function pivotsIn(words: string): Pivots {
  const at = (adjuster: string) => {
    const [, sign, size] = new RegExp(`${adjuster} ([+−]?)(\\d+(?:\\.\\d+)?) mm`).exec(words) ?? [];
    return size === undefined ? undefined : Number(size) * (sign === '−' ? -1 : 1);
  };
  const lateralMm = at('lateral');
  if (lateralMm === undefined) throw new Error(`no place of the lateral pivot in "${words}"`);
  return { lateralMm, medialMm: at('medial') ?? 0 };
}
