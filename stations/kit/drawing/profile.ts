/**
 * One bearing zone cut across, seen from the heel: what goes under the sole or is planed off it, and what is routed off
 * the top of the lug. Heights are drawn to one scale and larger than widths by a whole number that the picture says; the
 * lug between its two ends is cut out.
 */
import type { Pair, Side } from '../../../core/index.ts';
import { medialIsRight } from './sole.ts';
import type { Point } from './geometry.ts';

export interface ProfileOf {
  readonly widthMm: number;
  /** What is put under the sole. */
  readonly plate: Pair | null;
  /** What is planed off it, and the flat lifter then put under. */
  readonly planed: Pair | null;
  readonly lifterMm: number;
  /** What is routed off the top of the lug. */
  readonly rout: Pair | null;
}

export interface ProfilePicture {
  /** How many times larger heights are than widths. */
  readonly times: number;
  readonly plate: readonly Point[] | null;
  readonly planed: readonly Point[] | null;
  readonly lifter: readonly Point[] | null;
  readonly rout: readonly Point[] | null;
  /** What stays of the lug, below and above the break. */
  readonly below: readonly Point[];
  readonly above: readonly Point[] | null;
  /** Heights at which the corners' numbers stand, below and above the lug. */
  readonly height: number;
  readonly lowY: number;
  readonly highY: number;
  /** Middle of the lug that is not cut. */
  readonly midY: number;
}

export const PROFILE_WIDTH = 270;
const MOST_HEIGHT = 250;
const MARGIN = 10;
/** Width of the sole; beside it there is room for a number at either side. */
const SOLE_PX = 130;
const MOST_TIMES = 8;
/** Solid lug that is drawn at either end of the break. */
const LUG_PX = 30;
const BREAK_PX = 28;

/** @param over the boot lies upside down: turned by half a turn, as it is seen then */
export function profilePicture(side: Side, zone: ProfileOf, over: boolean): ProfilePicture {
  const { widthMm, plate, planed, lifterMm, rout } = zone;
  const perMm = SOLE_PX / widthMm;
  const most = (pair: Pair | null) => (pair ? Math.max(pair.medialMm, pair.lateralMm, 0) : 0);
  const room = MOST_HEIGHT - 2 * LUG_PX - BREAK_PX - 2 * MARGIN;
  const tall = most(plate) + most(planed) + lifterMm + most(rout);
  const times = Math.max(1, Math.min(MOST_TIMES, Math.floor(room / Math.max(1e-6, tall * perMm))));
  const high = (mm: number) => mm * perMm * times;

  const [left, right] = [(PROFILE_WIDTH - SOLE_PX) / 2, (PROFILE_WIDTH + SOLE_PX) / 2];
  const atMedial = medialIsRight(side) ? right : left;
  const atLateral = left + right - atMedial;
  const of = (pair: Pair | null) => (edge: keyof Pair) => high(pair?.[edge] ?? 0);

  const ground = high(lifterMm);
  // Plates tip the sole: it is drawn level, and the ground slopes; so the thick edge hangs lower.
  const sole = ground + high(most(plate));
  const under = (edge: keyof Pair) => sole - of(plate)(edge);
  const cut = (edge: keyof Pair) => sole + of(planed)(edge);
  const below = sole + high(most(planed)) + LUG_PX;
  const above = below + BREAK_PX;
  const top = above + LUG_PX + high(most(rout));
  const height = (rout ? top : below) + 2 * MARGIN;
  const turned = ({ x, y }: Point): Point => (over ? { x: left + right - x, y: height - y } : { x, y });
  /** Between two heights at each edge, given in pixels up from the ground. */
  const band = (low: (edge: keyof Pair) => number, top: (edge: keyof Pair) => number): Point[] => {
    const y = (up: number) => height - MARGIN - up;
    return [
      { x: atMedial, y: y(low('medialMm')) },
      { x: atLateral, y: y(low('lateralMm')) },
      { x: atLateral, y: y(top('lateralMm')) },
      { x: atMedial, y: y(top('medialMm')) },
    ].map(turned);
  };
  const middle = (points: readonly Point[]) => points.reduce((sum, { y }) => sum + y, 0) / points.length;
  const plateBand = plate && band(under, () => sole);
  const planedBand = planed && band(() => sole, cut);
  const routBand =
    rout &&
    band(
      (edge) => top - of(rout)(edge),
      () => top,
    );
  const belowBand = band(cut, () => below);
  return {
    times,
    height,
    plate: plateBand,
    planed: planedBand,
    lifter:
      lifterMm > 0
        ? band(
            () => 0,
            () => ground,
          )
        : null,
    rout: routBand,
    below: belowBand,
    above: rout
      ? band(
          () => above,
          (edge) => top - of(rout)(edge),
        )
      : null,
    lowY: middle(plateBand ?? planedBand ?? belowBand),
    midY: turned({ x: 0, y: height - MARGIN - (rout ? below + BREAK_PX / 2 : below - LUG_PX / 2) }).y,
    highY: routBand ? middle(routBand) : 0,
  };
}

/** The edge at the viewer's left. */
export const leftEdge = (side: Side, over: boolean): 'medial' | 'lateral' =>
  medialIsRight(side) === over ? 'medial' : 'lateral';
