/**
 * Routing the lugs after plates or planing: their tops must again stand at their standard height over the new
 * sole, and parallel to it.
 *
 * Over the new sole a lug's top stands at `h0 + t(x)` with a plate t(x) under it, at `h0 − r(x) + lifter` where r(x)
 * was planed off and a flat lifter put under. The router takes what is over the nominal height [geometry, exact].
 */
import { mm, SAME_MM } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Pair } from './hardware.ts';
import type { SoleWork, Zones } from './sole.ts';

export type Zone = keyof Zones<unknown>;
export type Edge = 'medial' | 'lateral';

export interface Lugs {
  /** Lug heights h0 measured before the work, at both edges; null before they are measured. */
  readonly measured: Zones<Pair> | null;
  /** Standard heights; null where nobody knows. */
  readonly nominalMm: Zones<Mm | null>;
  /** Thickness of a bolted-on or replaceable sole, which is no solid lug: 0 for a solid one, null when unknown. */
  readonly looseSoleMm: Mm | null;
  /** Least lug left, the maker's or the shop's figure. There is no default: null, nobody entered it. */
  readonly minLeftMm: Mm | null;
}

/** Why no routing is told. */
export type RoutingFault =
  | { readonly code: 'lug-unmeasured' }
  | { readonly code: 'minimum-unknown' }
  | { readonly code: 'loose-sole-unknown' }
  | { readonly code: 'nominal-unknown'; readonly zone: Zone }
  /** A negative depth: the lug would stand this much too low. */
  | { readonly code: 'lug-too-low'; readonly zone: Zone; readonly edge: Edge; readonly byMm: Mm }
  | {
      readonly code: 'lug-too-thin';
      readonly zone: Zone;
      readonly edge: Edge;
      readonly leftMm: Mm;
      readonly minMm: Mm;
    };

export type Routing =
  | {
      readonly told: true;
      /** Depth to cut at both edges of the sole, toe and heel. */
      readonly rout: Zones<Pair>;
      /** What is left of the original lug. */
      readonly lugLeft: Zones<Pair>;
    }
  | { readonly told: false; readonly faults: readonly RoutingFault[] };

const PLACES = (['toe', 'heel'] as const).flatMap((zone) =>
  (['medial', 'lateral'] as const).map((edge) => ({ zone, edge, key: `${edge}Mm` as const })),
);

/** What the work puts under the lug, and what it takes off below, at one edge. */
function changeAt(
  work: SoleWork,
  zone: Zone,
  key: keyof Pair,
): { readonly raised: number; readonly planed: number } {
  switch (work.method) {
    case 'plate':
      return { raised: work.plates[zone][key], planed: 0 };
    case 'plane':
      return { raised: work.lifterMm - work.cut[zone][key], planed: work.cut[zone][key] };
    default:
      return work satisfies never;
  }
}

function unknowns({ measured, nominalMm, looseSoleMm, minLeftMm }: Lugs): RoutingFault[] {
  const zones = (['toe', 'heel'] as const).filter((zone) => nominalMm[zone] === null);
  return [
    ...(measured === null ? [{ code: 'lug-unmeasured' } as const] : []),
    ...(minLeftMm === null ? [{ code: 'minimum-unknown' } as const] : []),
    ...(looseSoleMm === null ? [{ code: 'loose-sole-unknown' } as const] : []),
    ...zones.map((zone) => ({ code: 'nominal-unknown', zone }) as const),
  ];
}

const four = (of: (zone: Zone, key: keyof Pair) => number): Zones<Pair> => {
  const pair = (zone: Zone): Pair => ({
    medialMm: mm(of(zone, 'medialMm')),
    lateralMm: mm(of(zone, 'lateralMm')),
  });
  return { toe: pair('toe'), heel: pair('heel') };
};

/**
 * Depths to rout, `t(x) + (h0 − nominal)` or `lifter − r(x) + (h0 − nominal)`, and what is left of each lug:
 * `h0 − depth − r(x) − loose sole`. Not told while something is unknown, where a depth is negative, or where too
 * little would be left.
 *
 * A lug of 19.2 mm, nominal 19, over a plate of 5.41 mm: 5.61 mm to rout, 13.59 mm left.
 */
export function routing(work: SoleWork, lugs: Lugs): Routing {
  const missing = unknowns(lugs);
  const { measured, nominalMm, looseSoleMm, minLeftMm } = lugs;
  if (missing.length > 0 || !measured || looseSoleMm === null || minLeftMm === null)
    return { told: false, faults: missing };
  const depth = (zone: Zone, key: keyof Pair): number =>
    changeAt(work, zone, key).raised + (measured[zone][key] - nominalMm[zone]!);
  const left = (zone: Zone, key: keyof Pair): number =>
    measured[zone][key] - depth(zone, key) - changeAt(work, zone, key).planed - looseSoleMm;
  const faults = PLACES.flatMap(({ zone, edge, key }): RoutingFault[] => {
    const [rout, rest] = [depth(zone, key), left(zone, key)];
    return [
      ...(rout < -SAME_MM ? [{ code: 'lug-too-low', zone, edge, byMm: mm(-rout) } as const] : []),
      ...(rest < minLeftMm - SAME_MM
        ? [{ code: 'lug-too-thin', zone, edge, leftMm: mm(rest), minMm: minLeftMm } as const]
        : []),
    ];
  });
  if (faults.length > 0) return { told: false, faults };
  return { told: true, rout: four((zone, key) => Math.max(0, depth(zone, key))), lugLeft: four(left) };
}

/**
 * The least flat lifter under a planed sole that leaves no lug too low: the largest `r(x) − (h0 − nominal)` of the
 * four, and at least 0. 2.41 mm planed off a lug of 19.2 mm, nominal 19: 2.21 mm.
 */
export function leastLifter(cut: Zones<Pair>, measured: Zones<Pair>, nominalMm: Zones<Mm>): Mm {
  const needed = PLACES.map(({ zone, key }) => cut[zone][key] - (measured[zone][key] - nominalMm[zone]));
  return mm(Math.max(0, ...needed));
}
