/**
 * The sole under a cant: plates that tip it, the profile that a planer takes off instead, and how high the boot
 * then stands.
 *
 * Across the sole x is lateral positive, 0 on the boot's centre line; along it y is positive toward the heel. A
 * cant δ slopes the sole by tan δ across, a fore-aft wedge β (heel higher than toe positive) by tan β along; the
 * two are the slopes of one plane. δ > 0 tips the boot outward, so its thick edge is medial. The bearing zones of
 * toe and heel are cut across at their centres, which lie L apart.
 */
import { degAtan, mm, tanDeg } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import type { Pair } from './hardware.ts';

/** One thing for the toe's bearing zone and one for the heel's. */
export interface Zones<T> {
  readonly toe: T;
  readonly heel: T;
}

/** A thickness across one zone: at its two edges and its centre. */
export interface Profile extends Pair {
  readonly centreMm: Mm;
}

/** A plate across one zone. */
export interface PlateProfile extends Profile {
  readonly thinEdgeMm: Mm;
  readonly thickEdgeMm: Mm;
}

/** How much higher the heel's centre stands than the toe's for a fore-aft wedge: `L·tan β`. 1° over 240 mm is 4.189 mm. */
export const foreAftRise = (foreAftDeg: Deg, zoneSpacingMm: Mm): Mm => mm(zoneSpacingMm * tanDeg(foreAftDeg));

/** The fore-aft angle that a rise of the heel's centre makes, `atan(rise/L)`. */
export const foreAftOf = (riseMm: Mm, zoneSpacingMm: Mm): Deg => degAtan(riseMm / zoneSpacingMm);

/** From a zone's centre to its edge the plate changes by this much: `(W/2)·tan|δ|`. */
const halfRise = (widthMm: number, cantDeg: Deg): number => (widthMm / 2) * Math.abs(tanDeg(cantDeg));

function plateAcross(centre: number, widthMm: Mm, cantDeg: Deg): PlateProfile {
  const half = halfRise(widthMm, cantDeg);
  const medial = cantDeg >= 0 ? half : -half;
  return {
    medialMm: mm(centre + medial),
    lateralMm: mm(centre - medial),
    centreMm: mm(centre),
    thinEdgeMm: mm(centre - half),
    thickEdgeMm: mm(centre + half),
  };
}

/**
 * Plates of one cant under toe and heel, `t(x) = t_min + (W/2 ∓ x)·tan|δ|` at the zone whose thin edge is
 * `thinEdgeMm`, and the other by its centre: equal without a rise, higher at the heel by `riseMm` (negative: at
 * the toe). No thin edge is under `thinEdgeMm`.
 *
 * 2° on a sole 69 mm wide, thin edge 3 mm: 5.41 mm at the medial edge, 4.205 mm at the centre.
 */
export function plates(
  widths: Zones<Mm>,
  cantDeg: Deg,
  thinEdgeMm: Mm,
  riseMm: Mm = mm(0),
): Zones<PlateProfile> {
  // The least centre that keeps each zone's thin edge; the heel's carried to the toe.
  const atToe = thinEdgeMm + halfRise(widths.toe, cantDeg);
  const atHeel = thinEdgeMm + halfRise(widths.heel, cantDeg) - riseMm;
  const toe = Math.max(atToe, atHeel);
  return {
    toe: plateAcross(toe, widths.toe, cantDeg),
    heel: plateAcross(toe + riseMm, widths.heel, cantDeg),
  };
}

/** The four corners of a plate of some length. Toe is the end toward the toe. */
export interface Corners {
  readonly toeMedialMm: Mm;
  readonly toeLateralMm: Mm;
  readonly heelMedialMm: Mm;
  readonly heelLateralMm: Mm;
}

/**
 * A plate tilted two ways, at its four corners: `t(x, y) = t_centre − x·tan δ + y·tan β`, with the profile across
 * its middle. A plate 69 × 60 mm, 4.2 mm at its centre, 2° and 1°: 4.881 mm at the corner toe medial.
 */
export function corners(across: Profile, lengthMm: Mm, foreAftDeg: Deg): Corners {
  const along = (lengthMm / 2) * tanDeg(foreAftDeg);
  return {
    toeMedialMm: mm(across.medialMm - along),
    toeLateralMm: mm(across.lateralMm - along),
    heelMedialMm: mm(across.medialMm + along),
    heelLateralMm: mm(across.lateralMm + along),
  };
}

/**
 * The thin edge, across the middle of a plate, that leaves its thinnest corner at `leastMm`. 3 mm, 60 mm long, 1°
 * fore-aft: 3.524 mm.
 */
export const thinEdgeFor = (leastMm: Mm, lengthMm: Mm, foreAftDeg: Deg): Mm =>
  mm(leastMm + (lengthMm / 2) * Math.abs(tanDeg(foreAftDeg)));

/**
 * What a planer takes off for a cant, `r(x) = (W/2 ± x)·tan|δ|`: nothing at the edge that stays, which is the thick
 * one (medial for δ > 0). A rise of the heel is planed off the toe, a negative one off the heel.
 *
 * 2° on 69 mm: nothing medial, 2.41 mm lateral, 1.205 mm at the centre.
 */
export function planing(widths: Zones<Mm>, cantDeg: Deg, riseMm: Mm = mm(0)): Zones<Profile> {
  const across = (widthMm: Mm, more: number): Profile => {
    const whole = 2 * halfRise(widthMm, cantDeg);
    return {
      medialMm: mm(more + (cantDeg >= 0 ? 0 : whole)),
      lateralMm: mm(more + (cantDeg >= 0 ? whole : 0)),
      centreMm: mm(more + whole / 2),
    };
  };
  return {
    toe: across(widths.toe, Math.max(0, riseMm)),
    heel: across(widths.heel, Math.max(0, -riseMm)),
  };
}

/** What is done to one sole. */
export type SoleWork =
  | { readonly method: 'plate'; readonly plates: Zones<PlateProfile> }
  | { readonly method: 'plane'; readonly cut: Zones<Profile>; readonly lifterMm: Mm };

/** How much higher the boot's centre stands at one zone than before the work; negative: lower. */
function raisedAt(work: SoleWork, zone: keyof Zones<unknown>): number {
  switch (work.method) {
    case 'plate':
      return work.plates[zone].centreMm;
    case 'plane':
      return work.lifterMm - work.cut[zone].centreMm;
    default:
      return work satisfies never;
  }
}

/**
 * How much higher the boot stands than before the work, midway between its bearing zones. Plates of 4.2 mm at both
 * centres: 4.2 mm.
 */
export const standHeight = (work: SoleWork): Mm => mm((raisedAt(work, 'toe') + raisedAt(work, 'heel')) / 2);

/**
 * How much more the heel's centre is raised than the toe's. Planing zones of unequal width leaves a few hundredths
 * that nobody asked for; they join the net angles like any other wedge.
 */
export const madeRise = (work: SoleWork): Mm => mm(raisedAt(work, 'heel') - raisedAt(work, 'toe'));

/**
 * What each side's plates (their thin edge) or lifter must gain, so that left stands `leftOverRightMm` higher than
 * right (0: level; negative: right higher), from the least that each could stand. One of the two gains nothing.
 *
 * 4.2 and 3.6 mm, wanted level: right gains 0.6 mm.
 */
export function evenStand(
  leastLeftMm: Mm,
  leastRightMm: Mm,
  leftOverRightMm: Mm = mm(0),
): { readonly leftMm: Mm; readonly rightMm: Mm } {
  const missing = leastRightMm + leftOverRightMm - leastLeftMm;
  return { leftMm: mm(Math.max(0, missing)), rightMm: mm(Math.max(0, -missing)) };
}
