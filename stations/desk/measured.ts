/** A boot model measured here, number by number: which are asked, what two repeats make, and the model that is kept. */
import type { CatalogueBoot, SOLE_STANDARDS } from '../../core/index.ts';
import { parseNumber } from '../kit/numbers.ts';
import { parsePlaces } from '../kit/boot/places.ts';

export const NUMBERS = [
  'spacing',
  'height',
  'lean',
  'lateralUp',
  'lateralDown',
  'medialUp',
  'medialDown',
  'mark',
  'edge',
  'toeWidth',
  'heelWidth',
  'zones',
  'material',
] as const;
export type NumberName = (typeof NUMBERS)[number];

interface Asked {
  readonly unit: 'mm' | '°';
  readonly min: number;
  readonly max: number;
  /** Two repeats further apart than this are questioned; common practice, no source. */
  readonly apart: number;
  /** May stay unknown. */
  readonly optional?: true;
}

/** Bounds are those of `boot.described`. */
export const ASKED: Readonly<Record<NumberName, Asked>> = {
  spacing: { unit: 'mm', min: 40, max: 150, apart: 1 },
  height: { unit: 'mm', min: 40, max: 320, apart: 3 },
  lean: { unit: '°', min: -10, max: 10, apart: 0.5, optional: true },
  lateralUp: { unit: 'mm', min: 0, max: 25, apart: 0.5 },
  lateralDown: { unit: 'mm', min: 0, max: 25, apart: 0.5 },
  medialUp: { unit: 'mm', min: 0, max: 25, apart: 0.5 },
  medialDown: { unit: 'mm', min: 0, max: 25, apart: 0.5 },
  mark: { unit: 'mm', min: 0.1, max: 10, apart: 0.2, optional: true },
  edge: { unit: 'mm', min: 0, max: 80, apart: 0.5, optional: true },
  toeWidth: { unit: 'mm', min: 30, max: 130, apart: 0.5, optional: true },
  heelWidth: { unit: 'mm', min: 30, max: 130, apart: 0.5, optional: true },
  zones: { unit: 'mm', min: 100, max: 400, apart: 2, optional: true },
  material: { unit: 'mm', min: 0, max: 60, apart: 1, optional: true },
};

export interface Twice {
  first: string;
  second: string;
  /** Not measured: it stays unknown. */
  skipped: boolean;
}

export interface MeasuredDraft {
  model: string;
  by: string;
  pivots: CatalogueBoot['hardware']['pivots'] | null;
  soleStandard: (typeof SOLE_STANDARDS)[number];
  walkMode: boolean;
  /** Places that are no equal marks, `A −4; B 0; C 3.5`; empty where marks are equal or there are none. */
  lateralPlaces: string;
  medialPlaces: string;
  numbers: Record<NumberName, Twice>;
  /** Which step is open; -1 before the first number, `steps.length` after the last. */
  at: number;
}

export const emptyMeasured = (by: string): MeasuredDraft => ({
  model: '',
  by,
  pivots: null,
  soleStandard: 'iso5355-a',
  walkMode: false,
  lateralPlaces: '',
  medialPlaces: '',
  numbers: Object.fromEntries(
    NUMBERS.map((name) => [name, { first: '', second: '', skipped: false }]),
  ) as MeasuredDraft['numbers'],
  at: -1,
});

/** The numbers that this hardware has, in the order in which they are measured. */
export function stepsOf(pivots: MeasuredDraft['pivots']): NumberName[] {
  const lateral: NumberName[] = ['lateralUp', 'lateralDown', 'mark', 'edge'];
  const medial: NumberName[] = ['medialUp', 'medialDown'];
  return NUMBERS.filter(
    (name) =>
      (pivots !== 'fixed' || !lateral.includes(name)) && (pivots === 'dual' || !medial.includes(name)),
  );
}

const inBounds = (name: NumberName, text: string): number | null => {
  const value = parseNumber(text);
  const { min, max } = ASKED[name];
  return value === null || value < min || value > max ? null : value;
};

export type Repeats =
  | { readonly is: 'unknown' }
  /** One of the two is missing, or no number that is possible here. */
  | { readonly is: 'missing' }
  | { readonly is: 'measured'; readonly mean: number; readonly apart: number; readonly alike: boolean };

/** What two repeats say: their mean to a hundredth, how far apart they lie, and whether that is usual. */
export function repeatsOf(name: NumberName, { first, second, skipped }: Twice): Repeats {
  if (skipped) return { is: 'unknown' };
  const [a, b] = [inBounds(name, first), inBounds(name, second)];
  if (a === null || b === null) return { is: 'missing' };
  const apart = Math.round(Math.abs(a - b) * 1000) / 1000;
  return {
    is: 'measured',
    mean: Math.round(((a + b) / 2) * 100) / 100,
    apart,
    alike: apart <= ASKED[name].apart,
  };
}

/** Whether this text alone could be a reading. */
export const isReading = (name: NumberName, text: string): boolean => inBounds(name, text) !== null;

/** The places, or null where a line of them cannot be read. */
export function placesOf({ pivots, lateralPlaces, medialPlaces }: MeasuredDraft) {
  const lateral = pivots === 'fixed' ? [] : parsePlaces(lateralPlaces);
  const medial = pivots === 'dual' ? parsePlaces(medialPlaces) : [];
  return lateral && medial ? { lateral, medial } : null;
}

/** The model to be kept, with `source` in its words; null while a number that is needed is missing. */
export function modelOfMeasured(draft: MeasuredDraft, source: string): CatalogueBoot | null {
  const { pivots } = draft;
  const steps = stepsOf(pivots);
  const places = placesOf(draft);
  if (pivots === null || places === null || draft.model.trim() === '') return null;
  const value = (name: NumberName): number | undefined => {
    if (!steps.includes(name)) return undefined;
    const read = repeatsOf(name, draft.numbers[name]);
    return read.is === 'measured' ? read.mean : undefined;
  };
  if (steps.some((name) => !ASKED[name].optional && value(name) === undefined)) return null;
  const known = (fields: Readonly<Record<string, number | undefined>>) =>
    Object.fromEntries(Object.entries(fields).filter(([, each]) => each !== undefined));
  const lateral = { upMm: value('lateralUp') ?? 0, downMm: value('lateralDown') ?? 0 };
  const medial = { upMm: value('medialUp')!, downMm: value('medialDown')! };
  const positions = {
    ...(places.lateral.length > 0 ? { lateral: places.lateral } : {}),
    ...(places.medial.length > 0 ? { medial: places.medial } : {}),
  };
  return {
    model: draft.model.trim(),
    source,
    soleStandard: draft.soleStandard,
    ...(draft.walkMode ? { walkMode: true } : {}),
    ...known({
      soleWidthToeMm: value('toeWidth'),
      soleWidthHeelMm: value('heelWidth'),
      zoneSpacingMm: value('zones'),
      soleMaterialMm: value('material'),
    }),
    hardware: {
      pivots,
      ...known({
        pivotSpacingMm: value('spacing'),
        readingHeightMm: value('height'),
        factoryLeanDeg: value('lean'),
        markMm: value('mark'),
        holeEdgeMm: value('edge'),
      }),
      travel: pivots === 'dual' ? { lateral, medial } : { lateral },
      ...(places.lateral.length > 0 ? { positions } : {}),
    },
  } as unknown as CatalogueBoot;
}
