/** Fore-aft angles of one boot, from what was read of it and the wedge that was fitted since. */
import type { Side } from '../frame.ts';
import { foreAft } from '../maths/foreaft.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { deg } from '../units.ts';
import type { Deg } from '../units.ts';
import type { ForeAftPlan } from './shape.ts';
import type { SideNow } from './side.ts';

/** The fore-aft wedge fitted since the boot was read: it tips the boot by what the reading could not see. */
export function wedgeSince(log: Log, side: Side): Deg {
  const read = log.now(slot.foreAft(side));
  const plate = log.now(slot.plate(side));
  const seen = read.is === 'one' ? log.asOf(slot.plate(side), read.facts.at(-1)!) : plate;
  const since = plate.is === 'one' && seen.is !== 'one';
  return deg(since ? ((plate.value as FactOf<'plate.fitted'>).foreAftDeg ?? 0) : 0);
}

export function foreAftOf(log: Log, { side, boot }: SideNow): ForeAftPlan {
  const state = log.now(slot.foreAft(side));
  const read = state.is === 'one' ? (state.value as FactOf<'foreaft.read'>) : null;
  return foreAft(
    {
      boardHeelMm: read?.boardHeelMm ?? null,
      boardToeMm: read?.boardToeMm ?? null,
      boardSpanMm: read?.boardSpanMm ?? null,
      standHeelMm: read?.standHeelMm ?? null,
      standToeMm: read?.standToeMm ?? null,
      soleLengthMm: boot?.soleLengthMm ?? null,
      forwardLeanDeg: read?.forwardLeanDeg ?? null,
    },
    wedgeSince(log, side),
  );
}
