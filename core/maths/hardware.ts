/**
 * The pivot hardware of a cuff: where each pivot can stand, what lean that makes, and which settable pair
 * comes closest to a wanted lean.
 *
 * Frontal plane of one leg. Pivot positions are from factory neutral, up positive, 0 at neutral. The cuff is
 * a rigid bar on its two pivots: tilt φ with `sin φ = (u_medial − u_lateral) / w`, so outward (positive) is
 * lateral down or medial up. A boot with one adjuster has it on the lateral side [common practice].
 */
import type { Adjuster } from '../frame.ts';
import { deg, degAsin, mm, SAME_MM } from '../units.ts';
import type { Deg, Mm } from '../units.ts';

/** A value for the medial and one for the lateral side. */
export interface Pair {
  readonly medialMm: Mm;
  readonly lateralMm: Mm;
}

/** One place where a pivot can be set, as the boot is marked. */
export interface Stop {
  readonly mm: Mm;
  readonly label: string;
}

/** Where one pivot can stand. `stops` are its marks, ascending and inside the travel; null: anywhere in it. */
export interface AdjusterReach {
  readonly minMm: Mm;
  readonly maxMm: Mm;
  readonly stops: readonly Stop[] | null;
}

/** The hardware as it is now, reworked travel included. A null adjuster cannot move and stands at 0. */
export interface HardwareNow {
  readonly pivots: 'dual' | 'single' | 'fixed';
  /** Distance between the pivots, w. */
  readonly pivotSpacingMm: Mm;
  /** Height above the pivot line at which gaps are read, h. */
  readonly readingHeightMm: Mm;
  /** Lean of the cuff at neutral, outward positive; null when nobody knows: leans are then unknown, corrections are not. */
  readonly factoryLeanDeg: Deg | null;
  readonly lateral: AdjusterReach | null;
  readonly medial: AdjusterReach | null;
  readonly markMm: Mm | null;
}

/** Difference of the pivots, u_medial − u_lateral: what tilts the cuff, outward positive. */
export const spread = (set: Pair): Mm => mm(set.medialMm - set.lateralMm);

/**
 * Tilt of the cuff against its neutral, outward positive, from the spread of its pivots. A spread of 3 mm on
 * pivots 84 mm apart is 2.047°. The sine, since pivots move along the shell and the bar between them turns.
 */
export const tilt = (spreadMm: Mm, spacingMm: Mm): Deg => degAsin(spreadMm / spacingMm);

/** Lean of the cuff with its factory lean; an unknown one counts as 0 here, its effect on a change is of second order. */
export const lean = (hardware: HardwareNow, set: Pair): Deg =>
  deg((hardware.factoryLeanDeg ?? 0) + tilt(spread(set), hardware.pivotSpacingMm));

/**
 * Marks every `stepMm` from `neutralMm`, inside the travel, labelled by their count from it (up positive).
 * Steps are counted from neutral, so that 0 stays exactly 0.
 */
export function marks(minMm: Mm, maxMm: Mm, stepMm: Mm, neutralMm: Mm = mm(0)): Stop[] {
  const first = Math.ceil((minMm - neutralMm) / stepMm - SAME_MM);
  const last = Math.floor((maxMm - neutralMm) / stepMm + SAME_MM);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ({
    mm: mm(neutralMm + (first + i) * stepMm),
    label: String(first + i),
  }));
}

const RIGID: AdjusterReach = { minMm: mm(0), maxMm: mm(0), stops: null };
const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

/** Smallest and largest spread the travel allows, marks set aside. */
export function spreadRange(hardware: HardwareNow): { readonly min: Mm; readonly max: Mm } {
  const medial = hardware.medial ?? RIGID;
  const lateral = hardware.lateral ?? RIGID;
  return { min: mm(medial.minMm - lateral.maxMm), max: mm(medial.maxMm - lateral.minMm) };
}

/**
 * The pair of a given spread, inside the travel, that moves least from where the pivots stand; among those the
 * most even one (least |u_medial + u_lateral|). `spreadMm` must lie inside `spreadRange`.
 *
 * Along the pairs of one spread the movement is a convex function of u_lateral, flat between keeping the
 * medial and keeping the lateral pivot: hence two clamps.
 */
function freePair(medial: AdjusterReach, lateral: AdjusterReach, spreadMm: number, from: Pair): Pair {
  const low = Math.max(lateral.minMm, medial.minMm - spreadMm);
  const high = Math.max(low, Math.min(lateral.maxMm, medial.maxMm - spreadMm));
  const keepMedial = from.medialMm - spreadMm;
  const flatLow = clamp(Math.min(keepMedial, from.lateralMm), low, high);
  const flatHigh = clamp(Math.max(keepMedial, from.lateralMm), low, high);
  const lateralMm = clamp(-spreadMm / 2, flatLow, flatHigh);
  return { lateralMm: mm(lateralMm + 0), medialMm: mm(spreadMm + lateralMm + 0) };
}

const places = (reach: AdjusterReach): readonly number[] | null =>
  reach.stops ? reach.stops.map((stop) => stop.mm) : reach.minMm === reach.maxMm ? [reach.minMm] : null;

/** Every pair worth asking about: all pairs of marks; with one side free, its best answer to each mark of the other. */
function candidates(hardware: HardwareNow, wanted: number, from: Pair): Pair[] {
  const medial = hardware.medial ?? RIGID;
  const lateral = hardware.lateral ?? RIGID;
  const medialAt = places(medial);
  const lateralAt = places(lateral);
  if (!medialAt && !lateralAt) {
    const { min, max } = spreadRange(hardware);
    return [freePair(medial, lateral, clamp(wanted, min, max), from)];
  }
  const best = (reach: AdjusterReach, value: number) => [clamp(value, reach.minMm, reach.maxMm)];
  const pairs: Pair[] = [];
  if (medialAt)
    for (const medialMm of medialAt)
      for (const lateralMm of lateralAt
        ? nearest(lateralAt, medialMm - wanted)
        : best(lateral, medialMm - wanted))
        pairs.push({ medialMm: mm(medialMm), lateralMm: mm(lateralMm) });
  else
    for (const lateralMm of lateralAt!)
      for (const medialMm of best(medial, wanted + lateralMm))
        pairs.push({ medialMm: mm(medialMm), lateralMm: mm(lateralMm) });
  return pairs;
}

/** The two places on either side of a value, ascending `places` given; the end twice where it lies beyond. */
function nearest(places: readonly number[], value: number): number[] {
  const above = places.findIndex((place) => place >= value);
  if (above <= 0) return [above === 0 ? places[0]! : places.at(-1)!].filter((place) => place !== undefined);
  return [places[above - 1]!, places[above]!];
}

/** Order of two pairs: least |predicted bias|, then least movement, then most even, then the larger part lateral. */
export function better(a: Pair, b: Pair, biasOf: (pair: Pair) => number, from: Pair): number {
  const keys: ((pair: Pair) => number)[] = [
    (pair) => Math.abs(biasOf(pair)),
    (pair) => Math.abs(pair.medialMm - from.medialMm) + Math.abs(pair.lateralMm - from.lateralMm),
    (pair) => Math.abs(pair.medialMm + pair.lateralMm),
    (pair) => -Math.abs(pair.lateralMm - from.lateralMm),
  ];
  for (const key of keys) {
    const difference = key(a) - key(b);
    if (Math.abs(difference) > SAME_MM) return difference;
  }
  return 0;
}

/**
 * The settable pair whose predicted bias is least, from where the pivots stand.
 *
 * @param wantedMm the spread that would leave no bias
 * @param biasOf predicted bias of a pair, mm
 * @returns null when no pair can be set (a marked adjuster without a mark inside its travel)
 */
export function settable(
  hardware: HardwareNow,
  wantedMm: Mm,
  biasOf: (pair: Pair) => number,
  from: Pair,
): Pair | null {
  let best: Pair | null = null;
  for (const pair of candidates(hardware, wantedMm, from))
    if (!best || better(pair, best, biasOf, from) < 0) best = pair;
  return best;
}

/** Marks between two places of one adjuster, up positive; undefined where it has no marks or stands between them. */
export function marksBetween(reach: AdjusterReach | null, fromMm: Mm, toMm: Mm): number | undefined {
  const at = (place: number) => reach?.stops?.findIndex((stop) => Math.abs(stop.mm - place) < 1e-6) ?? -1;
  const [from, to] = [at(fromMm), at(toMm)];
  return from < 0 || to < 0 ? undefined : to - from;
}

/** What keeps a pivot from standing where it was recorded: `travel`, `marks`, or nothing. */
export function misplaced(hardware: HardwareNow, adjuster: Adjuster, atMm: Mm): 'travel' | 'marks' | null {
  const reach = hardware[adjuster] ?? RIGID;
  if (atMm < reach.minMm - 1e-6 || atMm > reach.maxMm + 1e-6) return 'travel';
  return reach.stops && !reach.stops.some((stop) => Math.abs(stop.mm - atMm) < 1e-6) ? 'marks' : null;
}
