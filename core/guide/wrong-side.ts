/**
 * A reading that fits the other leg far better than its own is questioned: a wrong side is the commonest mistake.
 *
 * Each side's other readings foretell the bias at the setting of the reading in question, with the error of reading
 * it. Far from its own leg and near the other's, it is asked about; nothing is taken away.
 */
import { otherSide } from '../frame.ts';
import type { Side } from '../frame.ts';
import { shift } from '../maths/cuff.ts';
import type { BiasEstimate, Observation, Prior } from '../maths/estimate.ts';
import type { HardwareNow } from '../maths/hardware.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { evidence, jointEstimate, lineOffset, observation, priorOf } from './evidence.ts';
import { apart, pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import type { Problem } from './shape.ts';
import type { SideNow } from './side.ts';

/** One leg as the other may be held against it. */
export interface Leg {
  readonly now: SideNow;
  readonly readings: readonly JudgedReading[];
}

/** Standard deviations from its own leg past which a reading is far, and under which it is near the other's. */
const FAR = 3;
const NEAR = 1.5;

const deviations = (foretold: BiasEstimate, seen: Observation): number =>
  Math.abs(seen.biasMm - foretold.biasMm) / Math.hypot(foretold.sdMm, seen.sdMm);

/** What one leg's readings, but for the one in question, say of the bias at the other reading's setting. */
function foretell(
  log: Log,
  { now, readings }: Leg,
  newest: JudgedReading,
  settings: Settings,
  at: HardwareNow,
): BiasEstimate | null {
  if (!now.hardware) return null;
  const prior: Prior = priorOf(log, now.side, settings);
  const offset = lineOffset(log, now.side);
  const others = evidence(readings).filter((r) => r !== newest && apart(r, newest, settings) === null);
  const observations = others.map((r) => observation(now.hardware!, r, settings, offset));
  return jointEstimate(prior, observations)?.at(shift(at, newest.set!)) ?? null;
}

export function wrongSide(log: Log, own: Leg, other: Leg, settings: Settings): Problem[] {
  const newest = evidence(own.readings).at(-1);
  const { hardware } = own.now;
  if (!newest || !hardware || pressed(newest)) return [];
  const [mine, theirs] = [own, other].map((leg) => foretell(log, leg, newest, settings, hardware));
  if (!mine || !theirs) return [];
  const seen = observation(hardware, newest, settings, lineOffset(log, own.now.side));
  if (deviations(mine, seen) < FAR || deviations(theirs, seen) > NEAR) return [];
  const side: Side = own.now.side;
  const text = `Reading ${newest.fact.id} of the ${side} cuff fits the ${otherSide(side)} leg far better than the ${side} one: were the sides exchanged?`;
  return [{ fact: newest.fact.id, side, code: 'wrong-side', text }];
}
