/**
 * Sides, axes and signs, said once.
 *
 * Sides are the skier's own. Across the leg, x is positive lateral (away from the other leg), negative
 * medial (toward it), and 0 on the boot's centre line. A lean is positive outward (cuff top lateral),
 * negative inward, and 0 upright. A pivot is positive up from its factory neutral, negative down, 0 at it.
 */

export const SIDES = ['left', 'right'] as const;
/** The skier's own left or right. */
export type Side = (typeof SIDES)[number];

export const ADJUSTERS = ['lateral', 'medial'] as const;
/** Which pivot of the cuff: away from the other leg, or toward it. */
export type Adjuster = (typeof ADJUSTERS)[number];

export const otherAdjuster = (adjuster: Adjuster): Adjuster =>
  adjuster === 'lateral' ? 'medial' : 'lateral';

export const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** A lean or cant in words: `outward`, `inward`, or `upright` for exactly 0. */
export type LeanWord = 'outward' | 'inward' | 'upright';
export const leanWord = (angle: number): LeanWord =>
  angle > 0 ? 'outward' : angle < 0 ? 'inward' : 'upright';

/** A pivot move in words: `up`, `down`, or `stay` for exactly 0. */
export type PivotWord = 'up' | 'down' | 'stay';
export const pivotWord = (move: number): PivotWord => (move > 0 ? 'up' : move < 0 ? 'down' : 'stay');
