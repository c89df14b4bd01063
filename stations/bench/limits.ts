/** The limits of a sole's standard, field by field, with where each comes from. */
import { SOLE_PRESETS } from '../../core/index.ts';
import type { FactOf } from '../../core/index.ts';

export type SoleZone = 'toe' | 'heel';
export const MEASURES = ['heightMedialMm', 'heightLateralMm', 'widthMm', 'parallelMm'] as const;
export type Measure = (typeof MEASURES)[number];

export interface FieldLimit {
  readonly minMm: number;
  readonly maxMm: number;
  readonly provenance: string;
}

type Standard = FactOf<'boot.described'>['soleStandard'];

/** Null where nobody entered a limit: such a field is not checked. */
export function limitOf(standard: Standard, zone: SoleZone, measure: Measure): FieldLimit | null {
  const { heightMm, widthMm, parallelMm } = SOLE_PRESETS[standard][zone];
  if (measure === 'parallelMm')
    return parallelMm && { minMm: 0, maxMm: parallelMm.maxMm, provenance: parallelMm.provenance };
  const limit = measure === 'widthMm' ? widthMm : heightMm;
  return (
    limit && {
      minMm: limit.nominalMm - limit.toleranceMm,
      maxMm: limit.nominalMm + limit.toleranceMm,
      provenance: limit.provenance,
    }
  );
}
