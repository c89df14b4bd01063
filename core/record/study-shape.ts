/** A repeatability study as it is sent: known fields only, each with its bounds. Pages never ask this; the server does. */
import { z } from 'zod';
import { gapMm, mmIn, moment, name } from '../bounds.ts';
import { STUDY_BOUNDS, turnsOf } from './study.ts';
import type { Study } from './study.ts';

const { subjects, repeats } = STUDY_BOUNDS;
const shape = {
  seed: z
    .int()
    .min(0)
    .max(2 ** 32 - 1),
  technicians: z.array(name(8)).min(1).max(2),
  subjects: z.int().min(subjects.min).max(subjects.max),
  repeats: z.int().min(repeats.min).max(repeats.max),
  startedAt: moment,
};
/** Strict: what is sent. */
export const StudyShape = z
  .discriminatedUnion('of', [
    z.strictObject({ of: z.literal('gap'), ...shape, readings: z.array(z.tuple([gapMm, gapMm])) }),
    z.strictObject({ of: z.literal('knee'), ...shape, readings: z.array(z.tuple([mmIn(-120, 120)])) }),
  ])
  .superRefine((study, context) => {
    if (study.readings.length > turnsOf(study))
      context.addIssue({ code: 'custom', path: ['readings'], message: 'must not be more than the turns' });
    if (new Set(study.technicians).size < study.technicians.length)
      context.addIssue({ code: 'custom', path: ['technicians'], message: 'must be different people' });
  }) as unknown as z.ZodType<Study>;
