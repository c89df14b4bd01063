/** The boots of a made-up mountain village: makers, models and their pivot hardware are invented. */
import { deg, mm } from '../core/index.ts';
import type { Payload } from '../core/index.ts';

type Described = Payload<'boot.described'>;
/** A boot but for its side and its tag. */
export type BootModel = Omit<Described, 'side' | 'tag'>;

const reach = (upMm: number, downMm = upMm) => ({ upMm: mm(upMm), downMm: mm(downMm) });

/** Eleven places around a round eccentric of 4.5 mm throw: their heights are not equally far apart. */
const ROUND = [-5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5].map((step) => ({
  label: step === 0 ? 'N' : `${step > 0 ? '+' : ''}${step}`,
  mm: mm(Math.round(45 * Math.sin((step * Math.PI) / 10)) / 10),
}));

const boot = (
  model: string,
  mondo: number,
  hardware: Described['hardware'],
  more: Partial<BootModel> = {},
): BootModel => ({
  model,
  mondo,
  soleLengthMm: mm(12 * mondo - 1),
  soleStandard: 'iso5355-a',
  hardware,
  ...more,
});

/** Two pivots with marks a millimetre apart. */
export const tarn = (mondo: number): BootModel =>
  boot('Ombrik Tarn 110', mondo, {
    pivots: 'dual',
    pivotSpacingMm: mm(82),
    readingHeightMm: mm(190),
    factoryLeanDeg: deg(1),
    travel: { lateral: reach(6), medial: reach(6) },
    markMm: mm(1),
  });

/** One pivot, on the lateral side. */
export const nadel = (mondo: number): BootModel =>
  boot('Sedrax Nadel 95', mondo, {
    pivots: 'single',
    pivotSpacingMm: mm(80),
    readingHeightMm: mm(180),
    travel: { lateral: reach(8) },
    markMm: mm(1),
  });

/** Round eccentrics on both sides. */
export const grat = (mondo: number): BootModel =>
  boot('Quillon Grat 130', mondo, {
    pivots: 'dual',
    pivotSpacingMm: mm(84),
    readingHeightMm: mm(185),
    travel: { lateral: reach(4.5), medial: reach(4.5) },
    positions: { lateral: ROUND, medial: ROUND },
  });

/** A touring boot with hardly any travel. */
export const kar = (mondo: number): BootModel =>
  boot(
    'Sedrax Kar Tour',
    mondo,
    {
      pivots: 'dual',
      pivotSpacingMm: mm(78),
      readingHeightMm: mm(175),
      travel: { lateral: reach(1.5), medial: reach(1.5) },
      markMm: mm(0.5),
      holeEdgeMm: mm(9),
    },
    { soleStandard: 'iso9523-a', walkMode: true },
  );
