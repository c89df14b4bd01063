/** What all readings of one leg in one boot say together: from judged readings to the joint estimate. */
import type { Side } from '../frame.ts';
import { shift } from '../maths/cuff.ts';
import { estimate } from '../maths/estimate.ts';
import type { Estimate, Observation, Prior } from '../maths/estimate.ts';
import type { HardwareNow } from '../maths/hardware.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import { counts, pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';

const latest = <T>(log: Log, name: string): T | null => {
  const state = log.now(name);
  return state.is === 'one' ? (state.value as T) : null;
};

/** What was known of this boot's response and of this leg's place before this session's readings. */
export function priorOf(log: Log, side: Side, settings: Settings): Prior {
  const learned = latest<FactOf<'response.known'>>(log, slot.response(side));
  const leg = latest<FactOf<'leg.known'>>(log, slot.leg(side));
  return {
    response: learned ? { k: learned.k, sd: learned.sd } : { k: 1, sd: settings.responsePriorSd },
    leg: leg && { mLegMm: leg.mLegMm, sdMm: leg.sdMm },
  };
}

/** Where the leg's line crosses the pivot line, as other boots have shown; null when they have not. */
export const knownOffset = (log: Log, side: Side): Mm | null =>
  latest<FactOf<'leg.known'>>(log, slot.leg(side))?.line?.offsetMm ?? null;

/** Where the leg's line crosses the pivot line: known from other boots, else taken through the cuff's centre there. */
export const lineOffset = (log: Log, side: Side): Mm => knownOffset(log, side) ?? mm(0);

/** What picking points in a photo adds to the error of a bias: nothing for gaps read on the boot. */
export const photoSd = ({ fromPhoto }: Pick<FactOf<'cuff.read'>, 'fromPhoto'>): number =>
  Math.hypot(fromPhoto?.medialSdMm ?? 0, fromPhoto?.lateralSdMm ?? 0);

/**
 * One reading as evidence on the bias at the reading height. A reading at another height is carried there along
 * the leg's line: `m' = m0 + (m − m0)·h/h_read`, and its error with it.
 */
export function observation(
  hardware: HardwareNow,
  reading: JudgedReading,
  settings: Settings,
  offsetMm: Mm,
): Observation {
  const { fact } = reading;
  const carry = hardware.readingHeightMm / reading.heightMm;
  const biasMm = mm(2 * offsetMm + (fact.medialMm - fact.lateralMm - 2 * offsetMm) * carry);
  const bound = !pressed(reading) ? 'exact' : fact.contact === 'lateral' ? 'at-least' : 'at-most';
  return {
    shiftMm: shift(hardware, reading.set!),
    biasMm,
    sdMm: mm(Math.hypot(settings.gapErrorMm * Math.SQRT2, photoSd(fact)) * carry),
    bound,
  };
}

/** Readings that count and that speak of a cuff wide enough: pressed on both sides says nothing of lean. */
export const evidence = (readings: readonly JudgedReading[]): JudgedReading[] =>
  readings.filter((r) => counts(r) && !(pressed(r) && r.fact.contact === 'both'));

export function jointEstimate(prior: Prior, observations: readonly Observation[]): Estimate | null {
  // A leg known from elsewhere is a prior, never a reading: without one there is nothing to correct.
  return observations.length ? estimate(prior, observations) : null;
}
