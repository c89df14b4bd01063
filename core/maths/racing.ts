/**
 * Heights that competition rules limit. Presets that a shop edits from the rules of its season: rules change with
 * it, and none of these was read in the rules themselves.
 */
import { mm, SAME_MM } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Failure, MostLimit } from './standards.ts';

export interface RaceRules {
  readonly title: string;
  /** The season or edition that the figures were told for. */
  readonly season: string;
  /** Running surface of the ski to the underside of the boot sole. */
  readonly standHeightMm: MostLimit | null;
  /** Underside of the boot sole to the base of the heel inside. */
  readonly soleHeightMm: MostLimit | null;
}

const stand: MostLimit = {
  maxMm: mm(50),
  provenance:
    'secondary: FIS limits as passed on for Masters 2015/16; check against the rules of your season',
};

export const RACE_RULES = {
  general: {
    title: 'FIS, alpine',
    season: '2017/18',
    standHeightMm: stand,
    soleHeightMm: {
      maxMm: mm(43),
      provenance:
        'secondary: a 2017/18 summary of the equipment rules; check against the rules of your season',
    },
  },
  masters: {
    title: 'FIS, Masters',
    season: '2015/16',
    standHeightMm: stand,
    soleHeightMm: {
      maxMm: mm(45),
      provenance:
        'secondary: recommended for Masters in 2015/16, mandatory in an older note; check against the rules of your season',
    },
  },
  children: {
    title: 'FIS, U14 and U16',
    season: 'unknown',
    standHeightMm: { maxMm: mm(50), provenance: 'from memory: check against the rules of your season' },
    soleHeightMm: { maxMm: mm(43), provenance: 'from memory: check against the rules of your season' },
  },
} as const satisfies Record<string, RaceRules>;

export type RaceClass = keyof typeof RACE_RULES;
export type RacePlace = 'standHeightMm' | 'soleHeightMm';

/** Heights as they are or will be; null where nobody measured. */
export type RaceHeights = Readonly<Record<RacePlace, Mm | null>>;

export interface RaceCheck {
  /** True: both known limits hold. False: one does not. Null: nothing could be checked. */
  readonly allowed: boolean | null;
  readonly failures: readonly Failure<RacePlace>[];
  /** Not measured, or no limit known. */
  readonly unchecked: readonly RacePlace[];
  /** What may still be added under the boot; negative: too much. Null where unchecked. */
  readonly roomMm: RaceHeights;
}

/**
 * The sole's height to the base of the heel once a plate is under it. A plate counts at its thick edge, the worst
 * reading of a rule that does not say where it measures.
 */
export const soleHeightWith = (beforeMm: Mm, thickEdgeMm: Mm): Mm => mm(beforeMm + thickEdgeMm);

/** 42 mm where 43 is the most: allowed, 1 mm of room. */
export function raceCheck(heights: RaceHeights, rules: RaceRules): RaceCheck {
  const places = (['standHeightMm', 'soleHeightMm'] as const).map((where) => {
    const [is, most] = [heights[where], rules[where]];
    return { where, known: is === null || most === null ? null : { is, max: most.maxMm } };
  });
  const room = (place: RacePlace): Mm | null => {
    const known = places.find(({ where }) => where === place)!.known;
    return known && mm(known.max - known.is);
  };
  const failures = places.flatMap(({ where, known }) =>
    known && known.is > known.max + SAME_MM ? [{ where, is: known.is, min: mm(0), max: known.max }] : [],
  );
  const unchecked = places.filter(({ known }) => !known).map(({ where }) => where);
  return {
    allowed: failures.length > 0 ? false : unchecked.length < places.length ? true : null,
    failures,
    unchecked,
    roomMm: { standHeightMm: room('standHeightMm'), soleHeightMm: room('soleHeightMm') },
  };
}
