/**
 * Fore-aft angles of one boot, in its sagittal plane: heel higher than toe positive, a cuff that leans toward the
 * toe positive. All angles lie in one plane, so they add exactly. What was not measured is null, and so is what
 * rests on it.
 */
import { deg, degAtan, mm } from '../units.ts';
import type { Deg, Mm } from '../units.ts';

export interface ForeAftReading {
  /** Boot board: heights at heel and toe, over the same base. */
  readonly boardHeelMm: Mm | null;
  readonly boardToeMm: Mm | null;
  /** Distance between the two, > 0. */
  readonly boardSpanMm: Mm | null;
  /** Where the boot stands on the ski: heights at heel and toe. */
  readonly standHeelMm: Mm | null;
  readonly standToeMm: Mm | null;
  /** > 0. */
  readonly soleLengthMm: Mm | null;
  /** Lean of the cuff against the sole. */
  readonly forwardLeanDeg: Deg | null;
}

export interface ForeAft {
  /** Slope of the foot inside the boot. */
  readonly rampDeg: Deg | null;
  /** Slope of the sole on the ski, a wedge included. */
  readonly deltaDeg: Deg | null;
  /** Slope of the foot against the ski: ramp + delta. */
  readonly netRampDeg: Deg | null;
  /** Lean of the shaft against the ski: forward lean + delta. */
  readonly netForwardLeanDeg: Deg | null;
  /** What one millimetre under the heel changes, over the sole length. */
  readonly degPerHeelMm: number | null;
}

/** `atan((heel − toe)/span)`. 8 mm over 180 mm is 2.545°. */
export const slopeOf = (heelMm: Mm, toeMm: Mm, spanMm: Mm): Deg => degAtan((heelMm - toeMm) / spanMm);

const slopeIfKnown = (heel: Mm | null, toe: Mm | null, span: Mm | null): Deg | null =>
  heel === null || toe === null || span === null ? null : slopeOf(heel, toe, span);

const add = (a: Deg | null, b: Deg | null): Deg | null => (a === null || b === null ? null : deg(a + b));

/**
 * Ramp, delta and what they add up to.
 *
 * @param wedgeDeg a fore-aft wedge that is planned and was not under the boot when it was read; 0: none
 *
 * Board 28 over 20 mm on 180 mm, stand 26 over 24 mm on a sole of 310 mm, forward lean 13°: ramp 2.545°, delta
 * 0.370°, net ramp 2.914°, net forward lean 13.370°; 1 mm at the heel is 0.185°.
 */
export function foreAft(reading: ForeAftReading, wedgeDeg: Deg = deg(0)): ForeAft {
  const { soleLengthMm } = reading;
  const rampDeg = slopeIfKnown(reading.boardHeelMm, reading.boardToeMm, reading.boardSpanMm);
  const standing = slopeIfKnown(reading.standHeelMm, reading.standToeMm, soleLengthMm);
  const deltaDeg = add(standing, wedgeDeg);
  return {
    rampDeg,
    deltaDeg,
    netRampDeg: add(rampDeg, deltaDeg),
    netForwardLeanDeg: add(reading.forwardLeanDeg, deltaDeg),
    degPerHeelMm: soleLengthMm === null ? null : slopeOf(mm(1), mm(0), soleLengthMm),
  };
}
