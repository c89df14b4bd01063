/** A slot that is made longer, drawn upright: millimetres up from neutral to pixels down the picture. */
import type { AdjusterReach } from '../../../core/index.ts';

export interface SlotPicture {
  /** The travel as it is, its ends in pixels down. */
  readonly was: { readonly top: number; readonly bottom: number };
  /** What is cut off the shell; null where nothing is. */
  readonly cut: { readonly top: number; readonly bottom: number } | null;
  /** The edge that the cut comes nearest to, and how near it may come at most. */
  readonly edge: number;
  readonly least: number;
  readonly travelMm: number;
  readonly thenMm: number;
}

interface Cut {
  readonly byMm: number;
  readonly edgeLeftMm: number;
  readonly leastEdgeMm: number;
  readonly way: 'up' | 'down';
}

/** @param top and bottom of the picture in pixels; everything drawn lies between them, to one scale */
export function slotPicture(
  { minMm, maxMm }: AdjusterReach,
  { byMm, edgeLeftMm, leastEdgeMm, way }: Cut,
  top: number,
  bottom: number,
): SlotPicture {
  const up = way === 'up' ? 1 : -1;
  const from = up > 0 ? maxMm : minMm;
  const end = from + up * byMm;
  const edgeAt = end + up * edgeLeftMm;
  const leastAt = edgeAt - up * leastEdgeMm;
  const [low, high] = [Math.min(minMm, edgeAt, leastAt), Math.max(maxMm, edgeAt, leastAt)];
  const y = (mm: number) => bottom - ((mm - low) / Math.max(1e-6, high - low)) * (bottom - top);
  const span = (a: number, b: number) => ({ top: y(Math.max(a, b)), bottom: y(Math.min(a, b)) });
  return {
    was: span(minMm, maxMm),
    cut: byMm > 0 ? span(from, end) : null,
    edge: y(edgeAt),
    least: y(leastAt),
    travelMm: maxMm - minMm,
    thenMm: maxMm - minMm + byMm,
  };
}
