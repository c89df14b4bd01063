/**
 * How much longer the slots of a cuff's pivots must be for travel that is missing, and what shell that leaves between
 * a slot and the edge nearest to it.
 */
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';

/** How far each pivot's hole is from the nearest edge of the shell; null: there is no slot to lengthen. */
export interface HoleEdges {
  readonly lateralMm: Mm | null;
  readonly medialMm: Mm | null;
}

/** One slot: longer by so much, with so much shell left before the edge. */
export interface SlotCut {
  readonly byMm: Mm;
  readonly edgeLeftMm: Mm;
}

export interface Lengthening {
  readonly lateral: SlotCut | null;
  readonly medial: SlotCut | null;
  /** What both together still do not give. */
  readonly shortMm: Mm;
}

/**
 * One slot is cut before two, the lateral one first; it is cut toward the edge in the worst case, so all that it gains
 * comes off its edge distance, which stays at `leastMm` or over. The spread of the pivots gains what the two gain.
 * Source: arithmetic; that the edge is straight ahead is the worst case.
 *
 * 3 mm missing, both holes 7 mm from an edge, at least 5 mm to be left: 2 mm lateral, 1 mm medial, none short.
 */
export function lengthen(missingMm: Mm, edges: HoleEdges, leastMm: Mm): Lengthening {
  const take = (wanted: number, edge: Mm | null): SlotCut | null => {
    if (edge === null) return null;
    const by = Math.min(wanted, Math.max(0, edge - leastMm));
    return { byMm: mm(by), edgeLeftMm: mm(edge - by) };
  };
  const lateral = take(missingMm, edges.lateralMm);
  const rest = missingMm - (lateral?.byMm ?? 0);
  const medial = take(rest, edges.medialMm);
  return { lateral, medial, shortMm: mm(Math.max(0, rest - (medial?.byMm ?? 0))) };
}
