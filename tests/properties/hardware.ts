/** Random pivot hardware with what it can be set to, worked out here from the description alone. */
import fc from 'fast-check';
import type { Adjuster } from '../../core/index.ts';

/** Where one pivot can stand: these places, or anything from low to high. */
export type Places = { readonly at: readonly number[] } | { readonly low: number; readonly high: number };

export interface Rig {
  readonly hardware: Record<string, unknown> & {
    readonly pivotSpacingMm: number;
    readonly readingHeightMm: number;
    readonly factoryLeanDeg?: number;
  };
  readonly rework: { readonly adjuster: Adjuster; readonly payload: object } | null;
  readonly medial: Places;
  readonly lateral: Places;
}

const half = (low: number, high: number) => fc.integer({ min: low * 2, max: high * 2 }).map((n) => n / 2);
const REACH = fc.record({ upMm: half(0, 6), downMm: half(0, 6) });
const STOPS = fc.uniqueArray(
  fc.integer({ min: -60, max: 60 }).map((n) => n / 10),
  { minLength: 2, maxLength: 7 },
);

function evenly(low: number, high: number, step: number, from = 0): number[] {
  const found: number[] = [];
  for (let n = -200; n <= 200; n++) {
    const at = from + n * step;
    if (at >= low - 1e-9 && at <= high + 1e-9) found.push(at);
  }
  return found;
}

/** `kinds` of adjusters: with equal marks, with places of their own, with neither. */
export const rigs = (marked: readonly ('marks' | 'stops' | 'free' | 'stops-one-side')[]): fc.Arbitrary<Rig> =>
  fc
    .record({
      marked: fc.constantFrom(...marked),
      single: fc.boolean(),
      w: half(60, 110),
      h: half(80, 220),
      factory: fc.option(half(-4, 4), { freq: 4 }),
      lateral: REACH,
      medial: REACH,
      step: fc.constantFrom(0.5, 1, 1.5, 2),
      stops: fc.tuple(STOPS, STOPS),
      rework: fc.option(fc.record({ up: half(0, 9), down: half(0, 9), shift: half(-2, 2) }), {
        freq: 4,
        nil: null,
      }),
    })
    .map(({ marked, single, w, h, factory, lateral, medial, step, stops, rework }): Rig => {
      const within = (list: readonly number[], reach: { upMm: number; downMm: number }) =>
        list.filter((at) => at >= -reach.downMm && at <= reach.upMm);
      const places = (adjuster: Adjuster): Places => {
        const reach = adjuster === 'lateral' ? lateral : medial;
        const own = stops[adjuster === 'lateral' ? 0 : 1];
        if (marked === 'marks') return { at: evenly(-reach.downMm, reach.upMm, step) };
        if (marked === 'stops' || (marked === 'stops-one-side' && adjuster === 'lateral'))
          return { at: within(own, reach) };
        return { low: -reach.downMm, high: reach.upMm };
      };
      const reworked: Places | null =
        rework &&
        (marked === 'marks'
          ? { at: evenly(rework.shift - rework.down, rework.shift + rework.up, step, rework.shift) }
          : { low: rework.shift - rework.down, high: rework.shift + rework.up });
      const listed = (list: readonly number[]) => list.map((mm) => ({ label: `p${mm}`, mm }));
      return {
        hardware: {
          pivots: single ? 'single' : 'dual',
          pivotSpacingMm: w,
          readingHeightMm: h,
          ...(factory !== null && { factoryLeanDeg: factory }),
          travel: { lateral, ...(!single && { medial }) },
          ...(marked === 'marks' && { markMm: step }),
          ...(marked.startsWith('stops') && {
            positions: {
              lateral: listed(stops[0]),
              ...(marked === 'stops' && !single && { medial: listed(stops[1]) }),
            },
          }),
        },
        rework: rework && {
          adjuster: 'lateral',
          payload: { newUpMm: rework.up, newDownMm: rework.down, neutralShiftMm: rework.shift },
        },
        medial: single ? { at: [0] } : places('medial'),
        lateral: reworked ?? places('lateral'),
      };
    })
    .filter(({ medial, lateral }) => [medial, lateral].every((p) => !('at' in p) || p.at.length > 0));
