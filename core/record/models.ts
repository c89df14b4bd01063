/**
 * The shop's catalogue of boots: what one model's description takes over, and where its numbers come from. It stands
 * beside the sessions: a description copies from it, so that a catalogue that changes later changes no session.
 */
import { z } from 'zod';
import { mmIn, name } from '../bounds.ts';
import { hardware, SOLE_STANDARDS } from './kinds.ts';
import type { Payload } from './kinds.ts';
import { misfitOf } from './facts.ts';
import type { Misfit } from './facts.ts';

/** A boot model. Lengths in mm, angles in degrees, pivots from factory neutral, as in `boot.described`. */
export type CatalogueBoot = Pick<
  Payload<'boot.described'>,
  | 'model'
  | 'hardware'
  | 'soleStandard'
  | 'soleWidthToeMm'
  | 'soleWidthHeelMm'
  | 'soleReplaceable'
  | 'soleInsertMm'
  | 'zoneSpacingMm'
  | 'soleMaterialMm'
  | 'walkMode'
> & {
  /** Who states these numbers, or who measured them and when. */
  readonly source: string;
};

const shape = z.strictObject({
  model: name(120),
  source: name(400),
  hardware: hardware(z.strictObject),
  soleStandard: z.enum(SOLE_STANDARDS),
  soleWidthToeMm: mmIn(30, 130).optional(),
  soleWidthHeelMm: mmIn(30, 130).optional(),
  soleReplaceable: z.boolean().optional(),
  soleInsertMm: mmIn(0, 40).optional(),
  zoneSpacingMm: mmIn(100, 400).optional(),
  soleMaterialMm: mmIn(0, 60).optional(),
  walkMode: z.boolean().optional(),
});

export type ReadBoot =
  | { readonly ok: true; readonly boot: CatalogueBoot }
  | { readonly ok: false; readonly misfits: readonly Misfit[] };

/** What the shape alone does not say: which adjusters there are, and that their places lie within their travel. */
function hardwareMisfits({ hardware: { pivots, travel, positions } }: CatalogueBoot): Misfit[] {
  const misfits: Misfit[] = [];
  if (pivots === 'dual' && !travel.medial)
    misfits.push({ field: 'hardware.travel.medial', wants: 'is missing: two adjusters have two travels' });
  if (pivots !== 'dual' && travel.medial)
    misfits.push({ field: 'hardware.travel.medial', wants: `is not there on ${pivots} pivots` });
  if (pivots === 'fixed' && (travel.lateral.upMm > 0 || travel.lateral.downMm > 0))
    misfits.push({ field: 'hardware.travel.lateral', wants: 'must be 0 up and 0 down on fixed pivots' });
  for (const adjuster of ['lateral', 'medial'] as const) {
    const reach = travel[adjuster];
    for (const { label, mm } of positions?.[adjuster] ?? [])
      if (!reach || mm > reach.upMm || mm < -reach.downMm)
        misfits.push({
          field: `hardware.positions.${adjuster}`,
          wants: `has the place ${label} at ${mm}, outside its travel`,
        });
  }
  return misfits;
}

/** A model from outside, known fields only; else everything that does not fit. */
export function readBoot(value: unknown): ReadBoot {
  const parsed = shape.safeParse(value);
  if (!parsed.success)
    return { ok: false, misfits: parsed.error.issues.map((issue) => misfitOf(issue, value)) };
  const boot = parsed.data as CatalogueBoot;
  const misfits = hardwareMisfits(boot);
  return misfits.length > 0 ? { ok: false, misfits } : { ok: true, boot };
}

/** Models are one when a person would call them so: case and spaces between words do not tell them apart. */
export const sameModel = (model: string): string => model.trim().replace(/\s+/g, ' ').toLowerCase();
