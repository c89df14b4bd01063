/** Fore-aft angles of one boot, from what was read of it and the wedge that was fitted since. */
import type { Side } from '../frame.ts';
import { foreAft } from '../maths/foreaft.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log, State } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { deg } from '../units.ts';
import type { Deg } from '../units.ts';
import { changesSince } from './rests.ts';
import type { ForeAftPlan, Problem } from './shape.ts';
import type { SideNow } from './side.ts';
import { capital } from './words.ts';

export interface ForeAftSight {
  readonly plan: ForeAftPlan;
  /** The reading that the angles were made from; null where nobody read, two disagree, or it is stale. */
  readonly read: FactOf<'foreaft.read'> | null;
  /** Why the newest reading no longer counts; empty when it does, or when there is none. */
  readonly staleBecause: readonly string[];
  readonly problems: readonly Problem[];
}

const wedgeOf = (plate: State): number =>
  plate.is === 'one' ? ((plate.value as FactOf<'plate.fitted'>).foreAftDeg ?? 0) : 0;

/** What was fitted since the boot was read tips it by what the reading could not see. */
export function wedgeSince(log: Log, side: Side): Deg {
  const read = log.now(slot.foreAft(side));
  const plate = log.now(slot.plate(side));
  const seen = read.is === 'one' ? log.asOf(slot.plate(side), read.facts.at(-1)!) : plate;
  return deg(wedgeOf(plate) - wedgeOf(seen));
}

export function foreAftOf(log: Log, { side, boot }: SideNow): ForeAftSight {
  const state = log.now(slot.foreAft(side));
  const newest = state.is === 'one' ? (log.get(state.facts.at(-1)!) as FactOf<'foreaft.read'>) : null;
  const staleBecause = newest ? changesSince(log, newest) : [];
  const read = staleBecause.length ? null : newest;
  const plan = foreAft(
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
  const text = `${capital(side)} fore-aft reading ${newest?.id} is stale: ${staleBecause.join('; ')}.`;
  const problems = staleBecause.length ? [{ fact: newest!.id, side, code: 'stale', text }] : [];
  return { plan, read, staleBecause, problems };
}
