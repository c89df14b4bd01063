/**
 * How long a screw may be that holds a plate to a boot sole: long enough to grip, short enough not to come out
 * inside the boot.
 *
 * Derivation (our own). A screw of length l under a plate whose head stands c deep in it passes `t − c` of plate and
 * engages `e = l − (t − c)` of the boot. It grips from e = 2·d, at most useful to 3·d [read: Lincoln, Gomes & Braden,
 * Mechanical Fastening of Plastics, abstract of ch. 6: self-threading screws in plastic engage two to three
 * diameters, and usually strip at assembly]. Its point stays inside while `e ≤ material depth − margin`. Hence
 * `(t − c) + 2·d ≤ l ≤ (t − c) + depth − margin`.
 */
import { mm, SAME_MM } from '../units.ts';
import type { Mm } from '../units.ts';

export interface ScrewPlace {
  /** Plate thickness where the screw stands: a canted plate is not the same everywhere. */
  readonly plateMm: Mm;
  /** How deep the seat of the head lies in the plate: 0 for a head on top of it, and for a length told overall. */
  readonly headDepthMm: Mm;
  /** Outer diameter of the thread, d. */
  readonly diameterMm: Mm;
  /** Solid material under the plate, up to the inside of the boot, at the thinnest; null when unknown. */
  readonly materialMm: Mm | null;
  /** What shall be left between the point and the inside. */
  readonly marginMm: Mm;
}

/** Lengths that grip and stay inside. */
export type ScrewWindow =
  | {
      readonly fits: true;
      readonly minMm: Mm;
      readonly maxMm: Mm;
      /** Longer than this adds no grip. */
      readonly usefulMm: Mm;
    }
  /** Nobody knows how deep the material is: only the least length can be told, and no screw be chosen. */
  | { readonly fits: null; readonly minMm: Mm }
  /** The material is this much too thin for two diameters. */
  | { readonly fits: false; readonly minMm: Mm; readonly shortByMm: Mm };

/** Least engagement in diameters, and the most that still adds grip. */
const GRIP = { least: 2, useful: 3 } as const;

/** A 4 mm screw through a plate of 3 mm into 14 mm with a margin of 3: from 11 to 14 mm. */
export function screwWindow(place: ScrewPlace): ScrewWindow {
  const through = place.plateMm - place.headDepthMm;
  const min = through + GRIP.least * place.diameterMm;
  if (place.materialMm === null) return { fits: null, minMm: mm(min) };
  const max = through + place.materialMm - place.marginMm;
  if (max < min - SAME_MM) return { fits: false, minMm: mm(min), shortByMm: mm(min - max) };
  return {
    fits: true,
    minMm: mm(min),
    maxMm: mm(Math.max(min, max)),
    usefulMm: mm(Math.min(Math.max(min, max), through + GRIP.useful * place.diameterMm)),
  };
}

/** Of the lengths in the drawer, those inside the window, shortest first. None while the depth is unknown. */
export const screwsThatFit = (window: ScrewWindow, lengthsMm: readonly Mm[]): Mm[] =>
  window.fits === true
    ? lengthsMm
        .filter((length) => length >= window.minMm - SAME_MM && length <= window.maxMm + SAME_MM)
        .toSorted((a, b) => a - b)
    : [];

/**
 * The least thin edge of a plate: the shop's, or what the screw heads need, their depth and 1 mm [from memory, low].
 * 3 mm and a head of 2.7 mm: 3.7 mm.
 */
export const leastThinEdge = (shopMm: Mm, headDepthMm: Mm | null): Mm =>
  mm(Math.max(shopMm, headDepthMm === null ? 0 : headDepthMm + 1));
