/** What points are placed for in a photo, and by what they are read. */

export const GROUPS = ['scale', 'legAxis', 'cuffAxis', 'gap'] as const;
export type Group = (typeof GROUPS)[number];
export type Scale = 'card' | 'a4' | 'rectangle' | 'length';
export type GapBy = 'points' | 'line';

/** From where the camera looked at the skier. */
export const FROM = ['front', 'behind'] as const;
export type SeenFrom = (typeof FROM)[number];
