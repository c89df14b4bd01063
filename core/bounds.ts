/** Bounded numbers and texts. A bound is where a value stops being a leg or a boot and is a typing error. */
import { z } from 'zod';
import type { Deg, Mm } from './units.ts';
import { LIMIT } from './wire.ts';

/** A length in millimetres from `min` to `max`, both allowed. */
export const mmIn = (min: number, max: number): z.ZodType<Mm> =>
  z.number().min(min).max(max).meta({ unit: 'mm' }) as unknown as z.ZodType<Mm>;

/** An angle in degrees from `min` to `max`, both allowed. */
export const degIn = (min: number, max: number): z.ZodType<Deg> =>
  z.number().min(min).max(max).meta({ unit: '°' }) as unknown as z.ZodType<Deg>;

/** Pivot positions go to ±25 mm: the longest slots seen in the trade stay under 10 [from memory]. */
export const pivotMm = mmIn(-25, 25);
/** Distance between the two pivots of a cuff. */
export const pivotSpacingMm = mmIn(40, 150);
/** A gap of more than 60 mm is a typing error, not a leg [from memory]. */
export const gapMm = mmIn(0, 60);
/** A cuff is read between 40 and 320 mm above its pivots [from memory]. */
export const heightMm = mmIn(40, 320);
export const factoryLeanDeg = degIn(-10, 10);
export const cantDeg = degIn(-12, 12);

/** A pure number from `min` to `max`, both allowed. */
export const numberIn = (min: number, max: number) => z.number().min(min).max(max);

/** A text of at most `LIMIT.text` characters. */
export const text = z.string().max(LIMIT.text);

/** A text of at least one and at most `max` characters. */
export const name = (max: number) => z.string().min(1).max(max);

/** A fact id or another short key: letters, digits, `_` and `-`. */
export const key = z.string().regex(new RegExp(`^[A-Za-z0-9_-]{1,${LIMIT.id}}$`), {
  error: `must be 1 to ${LIMIT.id} letters, digits, _ or -`,
});

/** A SHA-256 in lower-case hexadecimal digits. */
export const sha256 = z.string().regex(/^[0-9a-f]{64}$/, { error: 'must be 64 hexadecimal digits' });

/** A moment: ISO 8601 with its offset from UTC. */
export const moment = z.iso.datetime({
  offset: true,
  error: 'must be an ISO 8601 time with offset, like 2026-01-09T09:12:00+01:00',
});

/** A day, or a moment: `2026-03-31`, or ISO 8601 with offset. */
export const day = z.union([z.iso.date(), moment], { error: 'must be a date like 2026-03-31' });
