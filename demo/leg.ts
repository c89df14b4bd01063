/**
 * A leg in a cuff as it truly is: two rigid bodies in the frontal plane, and what a hand reads between them.
 *
 * This is what the shop cannot see. It shares nothing with the estimate that the shop makes of it: the gaps
 * come from the walls of the cuff and the surface of the leg as lines, with their exact intersections.
 * x is lateral, y is up, the origin is the middle of the pivot line at factory neutral; mm and radians.
 */
import type { Random } from './random.ts';

export interface Leg {
  /** Where the leg's centre stands at the reading height, from the cuff's centre at factory neutral; lateral positive. */
  readonly placeMm: number;
  /** Room around the leg: inner width of the cuff less the leg's, mm. */
  readonly roomMm: number;
  /** How much of a pivot's tilt the cuff answers with; 1 for a cuff that neither flexes nor slips. */
  readonly response: number;
}

export interface Cuff {
  readonly pivotSpacingMm: number;
  readonly readingHeightMm: number;
  readonly factoryLeanDeg: number;
}

/** Pivot positions from factory neutral, up positive; a pivot that cannot be moved stands at 0. */
export interface Pivots {
  readonly medialMm: number;
  readonly lateralMm: number;
}

/** A gap below 0 says how far leg and cuff would pass into each other if neither gave way. */
export interface Gaps {
  readonly medialMm: number;
  readonly lateralMm: number;
}

/** Half the inner width of a cuff at its reading height; it drops out of every gap but for the walls' tilt. */
const HALF_CUFF_MM = 60;

type Point = readonly [x: number, y: number];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1];
const plus = (a: Point, b: Point, times = 1): Point => [a[0] + times * b[0], a[1] + times * b[1]];
/** Along a body that leans outward by `lean`, and across it toward lateral. */
const along = (lean: number): Point => [Math.sin(lean), Math.cos(lean)];
const across = (lean: number): Point => [Math.cos(lean), -Math.sin(lean)];

/** The gaps between leg and cuff with the pivots as they are set, measured square to the cuff's walls. */
export function trueGaps(leg: Leg, cuff: Cuff, set: Pivots): Gaps {
  const { pivotSpacingMm: w, readingHeightMm: h } = cuff;
  const factory = (cuff.factoryLeanDeg * Math.PI) / 180;
  const lean = factory + leg.response * Math.asin((set.medialMm - set.lateralMm) / w);

  // The leg: through the middle of the pivot line, and through its place at the reading height.
  const place = plus([h * Math.sin(factory), h * Math.cos(factory)], across(factory), leg.placeMm);
  const legNormal = across(Math.atan2(place[0], place[1]));
  const halfLeg = HALF_CUFF_MM - leg.roomMm / 2;

  // The cuff: turned about its two pivots, so about the middle between them.
  const middle: Point = [0, (set.medialMm + set.lateralMm) / 2];
  const centre = plus(middle, along(lean), h);
  const normal = across(lean);
  const square = dot(normal, legNormal);
  const wallToPlace = (toward: 1 | -1) =>
    dot(plus(plus(centre, normal, toward * HALF_CUFF_MM), place, -1), legNormal);
  return {
    medialMm: (-wallToPlace(-1) - halfLeg) / square,
    lateralMm: (wallToPlace(1) - halfLeg) / square,
  };
}

/** What the floor reads, to the half millimetre: a touching side is 0, and says how hard it touches. */
export interface GapReading {
  readonly medialMm: number;
  readonly lateralMm: number;
  readonly contact: 'none' | 'medial' | 'lateral' | 'both';
  readonly pressure?: 'graze' | 'press';
}

/** A cuff that presses pushes the leg over: what one side lacks, the other side loses. */
export function readGaps(truth: Gaps, errorSdMm: number, random: Random): GapReading {
  const pushed: Gaps = {
    medialMm: Math.max(0, truth.medialMm + Math.min(0, truth.lateralMm)),
    lateralMm: Math.max(0, truth.lateralMm + Math.min(0, truth.medialMm)),
  };
  const read = (gap: number) => {
    const noisy = gap + random.normal(errorSdMm);
    return gap === 0 ? 0 : Math.max(0, Math.round(noisy * 2) / 2);
  };
  const medialMm = read(pushed.medialMm);
  const lateralMm = read(pushed.lateralMm);
  const pressed = truth.medialMm < 0 || truth.lateralMm < 0;
  if (medialMm > 0 && lateralMm > 0) return { medialMm, lateralMm, contact: 'none' };
  const contact = medialMm > 0 ? 'lateral' : lateralMm > 0 ? 'medial' : 'both';
  return { medialMm, lateralMm, contact, pressure: pressed ? 'press' : 'graze' };
}
