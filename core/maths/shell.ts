/**
 * Boot length: the Mondopoint of a pair of feet, and the gap behind the heel in the bare shell.
 */
import type { Side } from '../frame.ts';
import { mm, SAME_MM } from '../units.ts';
import type { Mm } from '../units.ts';

/**
 * Step in which boots come. ISO 9407 fixes none; 10 mm a whole and 5 mm a half size is common practice [secondary:
 * introduction of ISO/TS 19407:2015].
 */
export const MONDO_STEP = mm(5);

/** A boot's size in millimetres: boots are marked in centimetres too, and no boot is over 36 cm. 26.5 is 265. */
export const markedMm = (marked: number): Mm => mm(marked <= 36 ? marked * 10 : marked);

export interface Mondo {
  /** Length of the longer foot: the Mondopoint itself. */
  readonly lengthMm: Mm;
  /** Whose it is; `both` when they are alike. */
  readonly longer: Side | 'both';
  /** The sizes on either side; the same when the foot is a size. */
  readonly belowMm: Mm;
  readonly aboveMm: Mm;
  /** The nearest size; halfway, the larger. */
  readonly nearestMm: Mm;
}

/**
 * Mondopoint of a pair: the length of the longer foot in millimetres.
 * Source: ISO 9407:2019 (size is foot length in mm). Feet of 262 and 266 mm: 266, between 265 and 270, nearest 265;
 * a boot marked 26.5 is 265.
 */
export function mondopoint(leftMm: Mm, rightMm: Mm, stepMm: Mm = MONDO_STEP): Mondo {
  const length = Math.max(leftMm, rightMm);
  const steps = length / stepMm;
  return {
    lengthMm: mm(length),
    longer: Math.abs(leftMm - rightMm) < SAME_MM ? 'both' : leftMm > rightMm ? 'left' : 'right',
    belowMm: mm(Math.floor(steps + 1e-9) * stepMm),
    aboveMm: mm(Math.ceil(steps - 1e-9) * stepMm),
    nearestMm: mm(Math.floor(steps + 0.5 + 1e-9) * stepMm),
  };
}

/** One class of shell gaps: up to and with `toMm`. */
export interface GapBand {
  readonly name: string;
  readonly toMm: Mm;
}

/**
 * How much room lies behind the heel with the toes lightly touching, in the bare shell. A preset that a shop
 * edits [common practice, no source; figures from memory, low]. What is over the last band is too long.
 */
export const SHELL_GAP_BANDS: readonly GapBand[] = [
  { name: 'too short', toMm: mm(5) },
  { name: 'race', toMm: mm(10) },
  { name: 'performance', toMm: mm(15) },
  { name: 'comfort', toMm: mm(20) },
];

/** The band a gap falls in; null: over the last. `bands` ascend. 12 mm is `performance`. */
export const shellGapBand = (gapMm: Mm, bands: readonly GapBand[] = SHELL_GAP_BANDS): GapBand | null =>
  bands.find(({ toMm }) => gapMm <= toMm + SAME_MM) ?? null;
