/** Fore-aft angles of one boot, from what was read of it and the wedge that was fitted since. */
import { foreAft } from '../maths/foreaft.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { deg } from '../units.ts';
import type { ForeAftPlan } from './shape.ts';
import type { SideNow } from './side.ts';

export function foreAftOf(log: Log, { side, boot }: SideNow): ForeAftPlan {
  const state = log.now(slot.foreAft(side));
  const read = state.is === 'one' ? (state.value as FactOf<'foreaft.read'>) : null;
  const plate = log.now(slot.plate(side));
  const seen = state.is === 'one' ? log.asOf(slot.plate(side), state.facts.at(-1)!) : plate;
  // A wedge fitted after the reading tips the boot by what the reading could not see.
  const wedge =
    plate.is === 'one' && seen.is !== 'one' ? ((plate.value as FactOf<'plate.fitted'>).foreAftDeg ?? 0) : 0;
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
    deg(wedge),
  );
}
