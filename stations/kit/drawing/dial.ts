/** The scale of one adjuster's picture: millimetres up from neutral to units down the sheet. */
import type { Adjuster, AdjusterReach, Side } from '../../../core/index.ts';
import { signed } from '../numbers.ts';

const TOP = 34;
const BOTTOM = 244;
/** Labels closer than this run into each other. */
const LABEL_STEP = 22;

export interface Tick {
  readonly mm: number;
  readonly y: number;
  /** Null where there is no room for one. */
  readonly label: string | null;
}

export interface DialScale {
  readonly top: number;
  readonly bottom: number;
  readonly y: (mm: number) => number;
  readonly ticks: readonly Tick[];
}

/** Marks where the hardware has them; else a ruler of whole millimetres. Ends and neutral keep their labels. */
export function dialScale({ minMm, maxMm, stops }: AdjusterReach): DialScale {
  const span = Math.max(1e-6, maxMm - minMm);
  const y = (mm: number) => BOTTOM - ((mm - minMm) / span) * (BOTTOM - TOP);
  const marks = stops ?? ruler(minMm, maxMm);
  const first = [...marks].sort((a, b) => weight(a.mm, minMm, maxMm) - weight(b.mm, minMm, maxMm));
  const labelled: number[] = [];
  for (const { mm } of first)
    if (labelled.every((other) => Math.abs(y(other) - y(mm)) >= LABEL_STEP)) labelled.push(mm);
  return {
    top: TOP,
    bottom: BOTTOM,
    y,
    ticks: marks.map(({ mm, label }) => ({ mm, y: y(mm), label: labelled.includes(mm) ? label : null })),
  };
}

const weight = (mm: number, min: number, max: number): number =>
  mm === 0 ? 0 : mm === min || mm === max ? 1 : Number.isInteger(mm) ? 2 : 3;

const ruler = (min: number, max: number): { mm: number; label: string }[] => {
  const marks = [];
  for (let mm = Math.ceil(min); mm <= max; mm++) marks.push({ mm, label: signed(mm) });
  return marks;
};

/**
 * Standing beside a boot and looking at its outer side, the toe of the right boot points to the right and that of
 * the left boot to the left; looking at the inner side, the other way round.
 */
export const toePointsRight = (side: Side, adjuster: Adjuster): boolean =>
  (side === 'right') === (adjuster === 'lateral');
