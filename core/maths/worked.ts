/**
 * How long a hand worked on each turn of a station, from when the turns began and ended. Nobody presses a button when
 * they take up a boot: it was taken up when it was there and a hand was free, or earlier where an entry shows it.
 */
import { workingMinutes } from './hours.ts';
import type { OpenSpan } from './hours.ts';

export interface TurnTimes {
  /** Since when it was this station's turn. */
  readonly turnMs: number;
  /** First entry of the turn, and the last: the work was done. */
  readonly begunMs: number;
  readonly endedMs: number;
}

export interface Worked {
  /** Minutes of open doors that it waited, and that a hand worked. */
  readonly waitedMin: number;
  readonly workedMin: number;
}

/** Shorter work than this is an entry, not work: its logarithm would outweigh an hour. */
const LEAST_MIN = 0.5;

/**
 * @param turns of one station, by their end, oldest first
 * @param hands a whole number ≥ 1
 * @returns in the order of `turns`. A hand was free when the turn that ended `hands` ends ago had ended: exact for one
 * hand and first come, first served; for more hands no later than that.
 */
export function workedTurns(
  turns: readonly TurnTimes[],
  hands: number,
  spans: readonly OpenSpan[],
): Worked[] {
  return turns.map(({ turnMs, begunMs, endedMs }, i) => {
    const free = i >= hands ? turns[i - hands]!.endedMs : -Infinity;
    const takenMs = Math.min(begunMs, Math.max(turnMs, free));
    const open = workingMinutes(spans, takenMs, endedMs);
    // Work out of hours is work all the same, from its first entry on.
    const worked = Math.max(open, (endedMs - Math.max(begunMs, takenMs)) / 60_000);
    return { waitedMin: workingMinutes(spans, turnMs, takenMs), workedMin: Math.max(LEAST_MIN, worked) };
  });
}
