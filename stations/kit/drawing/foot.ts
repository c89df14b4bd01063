/**
 * A left foot from above, from its inner and from its outer side, in millimetres; a right one is its mirror image. It is a
 * picture of no skier's foot: it says where a landmark is to be looked for.
 */
import type { Side } from '../../../core/index.ts';
import { toePointsRight } from './dial.ts';
import type { Point } from './geometry.ts';

export type FootView = 'above' | 'inner' | 'outer';

/** The names are those in the record, the same whatever a station speaks. */
export const LANDMARKS = {
  'great toe': { view: 'above', x: 36, y: 242, label: 'right' },
  'middle toes': { view: 'above', x: -6, y: 228, label: 'above' },
  'little toe': { view: 'above', x: -43, y: 205, label: 'left' },
  'first metatarsal head': { view: 'above', x: 46, y: 178, label: 'right' },
  'fifth metatarsal head': { view: 'above', x: -46, y: 160, label: 'left' },
  instep: { view: 'above', x: 2, y: 112, label: 'below' },
  'medial malleolus': { view: 'inner', x: 60, y: 88, label: 'toe' },
  navicular: { view: 'inner', x: 112, y: 56, label: 'toe' },
  arch: { view: 'inner', x: 157, y: 12, label: 'toe' },
  'heel spur': { view: 'inner', x: 36, y: 10, label: 'toe' },
  shin: { view: 'inner', x: 92, y: 158, label: 'toe' },
  'lateral malleolus': { view: 'outer', x: 58, y: 74, label: 'toe' },
  'fifth metatarsal base': { view: 'outer', x: 118, y: 20, label: 'toe' },
  'heel bump': { view: 'outer', x: 4, y: 36, label: 'heel' },
  'Achilles tendon': { view: 'outer', x: 16, y: 104, label: 'heel' },
  calf: { view: 'outer', x: 6, y: 166, label: 'heel' },
} as const satisfies Record<
  string,
  Point & { view: FootView; label: 'left' | 'right' | 'above' | 'below' | 'toe' | 'heel' }
>;
export type Landmark = keyof typeof LANDMARKS;
export const LANDMARK_NAMES = Object.keys(LANDMARKS) as readonly Landmark[];
export const isLandmark = (name: string): name is Landmark => Object.hasOwn(LANDMARKS, name);

/** What of each view is on its sheet. From above x runs to the big toe's side, else from heel to toe; y runs up. */
export const SHEETS: Readonly<
  Record<
    FootView,
    { readonly left: number; readonly width: number; readonly bottom: number; readonly height: number }
  >
> = {
  above: { left: -115, width: 230, bottom: -8, height: 292 },
  inner: { left: -92, width: 372, bottom: -20, height: 206 },
  outer: { left: -92, width: 372, bottom: -20, height: 206 },
};

/** Whether x of a view runs to the viewer's right. */
export const runsRight = (side: Side, view: FootView): boolean =>
  view === 'above' ? side === 'left' : toePointsRight(side, view === 'inner' ? 'medial' : 'lateral');

const p = (x: number, y: number): Point => ({ x, y });

/** Outlines that close; the leg is cut off at the top of the sheet. */
const BODY = [
  ...[p(0, 0), p(-18, 5), p(-30, 24), p(-32, 60), p(-33, 95), p(-42, 132), p(-52, 162), p(-49, 186)],
  ...[p(-30, 202), p(0, 214), p(30, 214), p(47, 204), p(50, 180), p(44, 150), p(32, 112), p(29, 70)],
  ...[p(29, 30), p(19, 6), p(0, 0)],
];
const side = (sole: readonly Point[]): readonly Point[] => [
  ...[p(2, 190), p(8, 166), p(18, 130), p(17, 92), p(4, 58), p(-2, 30), p(6, 6), p(24, 0)],
  ...sole,
  ...[p(200, 1), p(240, 2), p(258, 8), p(258, 20), p(240, 29), p(206, 36), p(168, 54), p(134, 78)],
  ...[p(104, 100), p(93, 128), p(94, 164), p(99, 190)],
];

export interface FootShape {
  readonly outline: readonly Point[];
  /** Toes from above, as ellipses with half their axes. */
  readonly toes: readonly (Point & { readonly rx: number; readonly ry: number })[];
}
export const SHAPES: Readonly<Record<FootView, FootShape>> = {
  above: {
    outline: BODY,
    toes: [
      { ...p(32, 232), rx: 15, ry: 26 },
      { ...p(11, 228), rx: 9.5, ry: 26 },
      { ...p(-8, 220), rx: 9, ry: 24 },
      { ...p(-26, 209), rx: 8.5, ry: 21 },
      { ...p(-42, 196), rx: 8.5, ry: 18 },
    ],
  },
  inner: { outline: side([p(56, 3), p(96, 14), p(140, 18), p(170, 8)]), toes: [] },
  outer: { outline: side([p(70, 1), p(110, 4), p(150, 3)]), toes: [] },
};

/** Where a point of a view stands on its sheet: from the left and from the top, as shares of its size. */
export function placeOn(of: Side, view: FootView, { x, y }: Point): Point {
  const sheet = SHEETS[view];
  const across = (x - sheet.left) / sheet.width;
  return {
    x: runsRight(of, view) ? across : 1 - across,
    y: 1 - (y - sheet.bottom) / sheet.height,
  };
}
