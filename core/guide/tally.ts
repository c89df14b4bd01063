/** What one session counts in the shop's numbers: how its boots left, and how many moves its cuffs took. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { FactOf } from '../record/facts.ts';
import { Log } from '../record/log.ts';
import { closingOf } from './closing.ts';
import { cuffOf } from './cuff.ts';
import { settingsOf, sideNow } from './side.ts';

export type LeftAs = 'handed' | 'unfit';

/** A cuff that is closed, and stands so. */
export interface ClosedCuff {
  readonly side: Side;
  readonly decision: FactOf<'cuff.closed'>['decision'];
  /** Settings that were read after the first one and still count: what was set and never read is no move yet. */
  readonly moves: number;
  /** Id of the entry that closed it. */
  readonly fact: string;
}

export interface Tally {
  /** How the boots left, and the entry that says so; null while they are here. */
  readonly left: { readonly as: LeftAs; readonly fact: string } | null;
  readonly cuffs: readonly ClosedCuff[];
}

function closedCuff(log: Log, side: Side): ClosedCuff | null {
  const { cuff } = cuffOf(log, sideNow(log, side), settingsOf(log));
  const { closing } = closingOf(log, side, cuff);
  if (closing.is !== 'closed') return null;
  const standing = cuff.rounds.filter(({ stale }) => !stale).length;
  return { side, decision: closing.decision, moves: Math.max(0, standing - 1), fact: closing.fact };
}

/** @param facts a session's facts, as for `plan` */
export function tallyOf(facts: readonly { readonly kind: string }[]): Tally {
  const log = new Log(facts);
  // Opened again by a strike and handed over later, they left later.
  const left = log.facts.findLast(
    ({ kind, id }) => (kind === 'handed.over' || kind === 'released.unfit') && log.struckBy(id) === null,
  );
  return {
    left: left ? { as: left.kind === 'handed.over' ? 'handed' : 'unfit', fact: left.id } : null,
    cuffs: SIDES.flatMap((side) => closedCuff(log, side) ?? []),
  };
}
