/** A sole from above with its toe up, in a sheet of 200 by 300: where its four corners stand for each side. */
import type { Side } from '../../../core/index.ts';

export type Corner = 'toe.medial' | 'toe.lateral' | 'heel.medial' | 'heel.lateral';
export const CORNERS: readonly Corner[] = ['toe.medial', 'toe.lateral', 'heel.medial', 'heel.lateral'];

export const SHEET = { width: 200, height: 300 } as const;

/** From above and toe up, the other leg is to the right of a left boot and to the left of a right one. */
export const medialIsRight = (side: Side): boolean => side === 'left';

/** A boot that lies upside down shows its sole from below: what was at the right is at the left. */
export type SoleFrom = 'above' | 'below';

export function cornerAt(
  side: Side,
  corner: Corner,
  from: SoleFrom = 'above',
): { readonly x: number; readonly y: number } {
  const [zone, edge] = corner.split('.');
  const right = (edge === 'medial') === (medialIsRight(side) === (from === 'above'));
  return { x: right ? 134 : 66, y: zone === 'toe' ? 78 : 246 };
}
