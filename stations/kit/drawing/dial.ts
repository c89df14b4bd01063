/** The scale of one adjuster's picture: millimetres up from neutral to pixels down the picture. */
import type { Adjuster, AdjusterReach, Side } from '../../../core/index.ts';
import { signed } from '../numbers.ts';

/** Labels closer than this run into each other, in pixels. */
const LABEL_STEP = 21;

export interface Tick {
  readonly mm: number;
  readonly y: number;
  /** Null where there is no room for one. */
  readonly label: string | null;
}

export interface DialScale {
  readonly y: (mm: number) => number;
  readonly ticks: readonly Tick[];
}

/** Marks where the hardware has them; else a ruler of whole millimetres. Neutral and the ends keep their labels. */
export function dialScale({ minMm, maxMm, stops }: AdjusterReach, top: number, bottom: number): DialScale {
  const span = Math.max(1e-6, maxMm - minMm);
  const y = (mm: number) => bottom - ((mm - minMm) / span) * (bottom - top);
  const marks = stops ?? ruler(minMm, maxMm);
  const first = [...marks].sort((a, b) => weight(a.mm, minMm, maxMm) - weight(b.mm, minMm, maxMm));
  const labelled: number[] = [];
  for (const { mm } of first)
    if (labelled.every((other) => Math.abs(y(other) - y(mm)) >= LABEL_STEP)) labelled.push(mm);
  return {
    y,
    ticks: marks.map(({ mm, label }) => ({
      mm,
      y: y(mm),
      label: labelled.includes(mm) ? label.replace('-', '−') : null,
    })),
  };
}

const weight = (mm: number, min: number, max: number): number =>
  mm === 0 ? 0 : mm === min || mm === max ? 1 : mm % 2 === 0 ? 2 : Number.isInteger(mm) ? 3 : 4;

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
