/** Inputs that several calculations take. Bounds are those of the facts; where a fact has none, they are ours. */
import { z } from 'zod';
import { cantDeg, factoryLeanDeg, heightMm, mmIn, numberIn, pivotMm, pivotSpacingMm } from '../../bounds.ts';
import { deg, mm } from '../../units.ts';
import { marks } from '../hardware.ts';
import type { AdjusterReach, HardwareNow } from '../hardware.ts';
import { planing, plates } from '../sole.ts';
import type { SoleWork } from '../sole.ts';
import type { KneeLine, StanceRules } from '../stance.ts';

const object = z.strictObject;

/** A number with a unit that is neither a length nor an angle. */
export const unitIn = (min: number, max: number, unit: string) => numberIn(min, max).meta({ unit });

/** Pivots of one cuff, from factory neutral, up positive. */
export const pivots = object({ medialMm: pivotMm, lateralMm: pivotMm });

/** A spread of two pivots. */
export const spreadMm = mmIn(-50, 50);
export const biasMm = mmIn(-60, 60);
/** How far the cuff's centre stands lateral of where it stands at neutral. */
export const shiftMm = mmIn(-100, 100);

/** Where one pivot can stand: anywhere in its travel, on marks counted from neutral, or at the places told. */
export const reach = object({
  minMm: pivotMm,
  maxMm: pivotMm,
  markMm: mmIn(0.1, 10).optional(),
  stopsMm: z.array(pivotMm).min(1).max(60).optional(),
})
  .refine(({ minMm, maxMm }) => minMm <= maxMm, { path: ['maxMm'], error: 'must be at least minMm' })
  .refine(({ minMm, maxMm, stopsMm }) => (stopsMm ?? []).every((at) => at >= minMm && at <= maxMm), {
    path: ['stopsMm'],
    error: 'must lie inside the travel',
  })
  .transform(({ minMm, maxMm, markMm, stopsMm }): AdjusterReach => {
    const told = stopsMm?.toSorted((a, b) => a - b).map((at) => ({ mm: at, label: String(at) }));
    return { minMm, maxMm, stops: told ?? (markMm === undefined ? null : marks(minMm, maxMm, markMm)) };
  });

/** A cuff's hardware. An adjuster left out cannot move; a factory lean left out is unknown. */
export const hardware = object({
  pivotSpacingMm,
  readingHeightMm: heightMm,
  factoryLeanDeg: factoryLeanDeg.nullable().default(null),
  lateral: reach.nullable().default(null),
  medial: reach.nullable().default(null),
}).transform((is): HardwareNow => ({
  ...is,
  pivots: is.medial ? 'dual' : is.lateral ? 'single' : 'fixed',
  markMm: null,
}));

/** Share of the geometric shift that a boot gives. */
export const response = numberIn(0.1, 3);
export const responseSd = numberIn(0.001, 1);
export const gapErrorMm = mmIn(0.2, 6);

/** A knee as read: on which wedge, and where it stood. */
export const stanceReading = object({ wedgeDeg: cantDeg, offsetMm: mmIn(-120, 120) });
export const stanceReadings = z.array(stanceReading).max(100);
export const kneeHeightMm = mmIn(200, 750);
export const kneeErrorMm = mmIn(0.5, 20).default(mm(5));
export const kneeTargetMm = mmIn(-20, 20).default(mm(-4));
export const slopeShare = numberIn(0.1, 1).default(0.75);
export const plateStepDeg = cantStep(0.1, 2, 0.5);

function cantStep(min: number, max: number, usual: number) {
  return z.number().min(min).max(max).meta({ unit: '°' }).default(usual).transform(deg);
}

/** Left out, each is what the settings begin with. */
export const stanceRules = object({
  errorMm: kneeErrorMm,
  targetMm: kneeTargetMm,
  slopeShare,
  plateStepDeg,
  secondLookDeg: cantStep(0.5, 6, 2),
  maxCantDeg: cantStep(0.5, 6, 3),
}).prefault({}) satisfies z.ZodType<StanceRules>;

const mmPerDeg = (min: number, max: number) => unitIn(min, max, 'mm/°');
export const slopePriorField = object({ mean: mmPerDeg(0.1, 20), sd: mmPerDeg(0.01, 20) });

/** A knee line told by deviations and their correlation. */
export const kneeLineField = object({
  offsetMm: mmIn(-120, 120),
  offsetSdMm: mmIn(0, 40),
  slopeMmPerDeg: mmPerDeg(0.1, 40),
  slopeSdMmPerDeg: mmPerDeg(0, 40),
  correlation: numberIn(-1, 1).default(0),
}).transform(({ offsetMm, offsetSdMm, slopeMmPerDeg, slopeSdMmPerDeg, correlation }): KneeLine => ({
  offsetMm,
  slopeMmPerDeg,
  covariance: [offsetSdMm ** 2, correlation * offsetSdMm * slopeSdMmPerDeg, slopeSdMmPerDeg ** 2],
}));

/** One value for the toe's bearing zone and one for the heel's. */
export const zones = <T extends z.ZodType>(of: T) => object({ toe: of, heel: of });
export const soleWidthMm = mmIn(30, 130);
/** How much higher the heel's centre stands than the toe's. */
export const riseMm = mmIn(-60, 60).default(mm(0));
export const thinEdgeMm = mmIn(0, 30);

/** What is done to one sole, told by what it is made from. */
export const soleWork = z.discriminatedUnion('method', [
  object({ method: z.literal('plate'), widths: zones(soleWidthMm), cantDeg, thinEdgeMm, riseMm }).transform(
    (is): SoleWork => ({
      method: 'plate',
      plates: plates(is.widths, is.cantDeg, is.thinEdgeMm, is.riseMm),
    }),
  ),
  object({
    method: z.literal('plane'),
    widths: zones(soleWidthMm),
    cantDeg,
    lifterMm: mmIn(0, 40),
    riseMm,
  }).transform((is): SoleWork => ({
    method: 'plane',
    cut: planing(is.widths, is.cantDeg, is.riseMm),
    lifterMm: is.lifterMm,
  })),
]);

/** A confidence: the share of intervals that shall hold the truth. */
export const level = numberIn(0.5, 0.999).default(0.95);
/** Any reading, in the unit it was read in. */
export const anyReading = unitIn(-10_000, 10_000, 'as read');
