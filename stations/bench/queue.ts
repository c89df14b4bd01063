/** What the bench has before it, boot by boot: one line for each boot, with what comes first on it. */
import type { JobRow, NextAction, Side } from '../../core/index.ts';
import { byUrgency, turnsOf } from '../kit/jobs.ts';

export interface QueuedBoot {
  readonly row: JobRow;
  readonly side: Side | null;
  /** The kind of entry that would do it. */
  readonly act: string;
}

const boots = (row: JobRow, actions: readonly NextAction[]): QueuedBoot[] =>
  actions
    .map((action) => ({ row, side: action.side ?? null, act: action.do }))
    .filter(({ side }, i, all) => all.findIndex((each) => each.side === side) === i);

/** Boots whose next act is at the bench, the most urgent first. */
export const toDo = (rows: readonly JobRow[]): QueuedBoot[] =>
  rows.toSorted(byUrgency).flatMap((row) => boots(row, turnsOf(row, 'bench')));

/** The same for skiers who have gone: the work waits for nobody, only its reading does. */
export const paused = (rows: readonly JobRow[]): QueuedBoot[] =>
  rows
    .filter((row) => row.paused && !row.closed)
    .toSorted(byUrgency)
    .flatMap((row) =>
      boots(
        row,
        row.next.filter((action) => action.role === 'bench'),
      ),
    );

/** Soles that are not finished and wait for somebody else. */
export const waiting = (rows: readonly JobRow[]): JobRow[] =>
  rows
    .filter((row) => row.stage === 'sole' && !row.paused && !row.closed && turnsOf(row, 'bench').length === 0)
    .toSorted(byUrgency);
