/**
 * A measured sole against the limits of its standard. The limits are presets that a shop edits from its own copy
 * of the standard: each carries where it comes from, and one that nobody knows is null, is not checked, and is
 * said to be unchecked.
 *
 * Radii, the low-friction zone, the extent of the bearing zones and planarity are in the standards too; nothing
 * here measures them.
 */
import { mm, SAME_MM } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Zones } from './sole.ts';

/** A measure that shall lie within `toleranceMm` of `nominalMm`. */
export interface Limit {
  readonly nominalMm: Mm;
  readonly toleranceMm: Mm;
  readonly provenance: string;
}

/** The most a measure may be. */
export interface MostLimit {
  readonly maxMm: Mm;
  readonly provenance: string;
}

export interface ZoneLimits {
  /** Height of the lug's top over the sole. */
  readonly heightMm: Limit | null;
  readonly widthMm: Limit | null;
  /** Most that its medial and lateral heights may differ. */
  readonly parallelMm: MostLimit | null;
}

export interface SolePreset extends Zones<ZoneLimits> {
  readonly title: string;
}

const MEMORY = 'from memory, no copy of the standard seen: check against your copy';
const limit = (nominal: number, tolerance: number, provenance: string): Limit => ({
  nominalMm: mm(nominal),
  toleranceMm: mm(tolerance),
  provenance,
});
const UNKNOWN: ZoneLimits = { heightMm: null, widthMm: null, parallelMm: null };

/** The soles that a boot is described with. */
export const SOLE_PRESETS = {
  'iso5355-a': {
    title: 'ISO 5355, alpine, type A (adult)',
    toe: { ...UNKNOWN, heightMm: limit(19, 1, MEMORY), widthMm: limit(69, 2, MEMORY) },
    heel: { ...UNKNOWN, heightMm: limit(30, 1, MEMORY) },
  },
  'iso5355-c': {
    title: 'ISO 5355, alpine, type C (child)',
    toe: { ...UNKNOWN, heightMm: limit(16.5, 1.5, MEMORY), widthMm: limit(62, 2, MEMORY) },
    heel: { ...UNKNOWN, heightMm: limit(27, 2, MEMORY) },
  },
  'iso23223-a': {
    title: 'ISO 23223, alpine with improved walking sole, type A',
    toe: UNKNOWN,
    heel: UNKNOWN,
  },
  'iso23223-c': {
    title: 'ISO 23223, alpine with improved walking sole, type C',
    toe: UNKNOWN,
    heel: UNKNOWN,
  },
  'iso9523-a': {
    title: 'ISO 9523, touring, type A',
    toe: UNKNOWN,
    heel: {
      ...UNKNOWN,
      heightMm: limit(
        32,
        2,
        'secondary: a drawing of ISO 9523:2015 quoted in an article; check against your copy',
      ),
    },
  },
  'iso9523-c': { title: 'ISO 9523, touring, type C', toe: UNKNOWN, heel: UNKNOWN },
  other: { title: 'Other or unknown sole', toe: UNKNOWN, heel: UNKNOWN },
} as const satisfies Record<string, SolePreset>;

export type SoleStandard = keyof typeof SOLE_PRESETS;

/** What was measured of one zone. */
export interface MeasuredZone {
  readonly heightMedialMm: Mm;
  readonly heightLateralMm: Mm;
  readonly widthMm: Mm;
}

const MEASURES = ['heightMedialMm', 'heightLateralMm', 'widthMm', 'parallelMm'] as const;
type Measure = (typeof MEASURES)[number];
/** Where a sole is judged: a field of its measurement, or how far a zone is from parallel. */
export type SolePlace = `${keyof Zones<unknown>}.${Measure}`;

/** A measure outside its limits. */
export interface Failure<Place extends string = string> {
  readonly where: Place;
  readonly is: Mm;
  readonly min: Mm;
  readonly max: Mm;
}

export interface Conformance {
  /** True: every known limit holds. False: one does not. Null: no limit is known, so nothing was checked. */
  readonly conforms: boolean | null;
  readonly failures: readonly Failure<SolePlace>[];
  /** Places whose limits nobody knows. */
  readonly unchecked: readonly SolePlace[];
}

/** How far a zone's top is from parallel to its sole: medial − lateral height. 19.4 and 18.9 mm: 0.5. */
export const taper = (zone: MeasuredZone): Mm => mm(zone.heightMedialMm - zone.heightLateralMm);

interface Bounds {
  readonly is: number;
  readonly min: number;
  readonly max: number;
}

const around = (is: number, limit: Limit | null): Bounds | null =>
  limit && { is, min: limit.nominalMm - limit.toleranceMm, max: limit.nominalMm + limit.toleranceMm };

function judged(zone: MeasuredZone, limits: ZoneLimits, measure: Measure): Bounds | null {
  switch (measure) {
    case 'heightMedialMm':
    case 'heightLateralMm':
      return around(zone[measure], limits.heightMm);
    case 'widthMm':
      return around(zone.widthMm, limits.widthMm);
    case 'parallelMm':
      return limits.parallelMm && { is: Math.abs(taper(zone)), min: 0, max: limits.parallelMm.maxMm };
    default:
      return measure satisfies never;
  }
}

/** Is a measure within its bounds, both allowed? */
const within = ({ is, min, max }: Bounds): boolean => is >= min - SAME_MM && is <= max + SAME_MM;

/** A finished sole against its limits. A toe of 18 mm under 19 ± 1 holds, one of 17.9 mm does not. */
export function conformance(measured: Zones<MeasuredZone>, limits: Zones<ZoneLimits>): Conformance {
  const places = (['toe', 'heel'] as const).flatMap((zone) =>
    MEASURES.map((measure) => ({
      where: `${zone}.${measure}` as const,
      bounds: judged(measured[zone], limits[zone], measure),
    })),
  );
  const failures = places.flatMap(({ where, bounds }) =>
    bounds && !within(bounds) ? [{ where, is: mm(bounds.is), min: mm(bounds.min), max: mm(bounds.max) }] : [],
  );
  const unchecked = places.filter(({ bounds }) => !bounds).map(({ where }) => where);
  return {
    conforms: failures.length > 0 ? false : unchecked.length < places.length ? true : null,
    failures,
    unchecked,
  };
}
