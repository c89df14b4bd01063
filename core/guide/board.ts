/** One session as a row of the desk's board, and as a ticket on the wall, which carries no name and no reference. */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Log } from '../record/log.ts';
import type { Course, NextAction, StepName, StepStatus } from './shape.ts';

export interface JobRow {
  readonly session: string;
  readonly generation: number;
  readonly ticket: string;
  /** Key of the people table; the name is asked for, never on the board. */
  readonly clientRef: string;
  readonly service: 'cuffs' | 'full' | 'recheck';
  /** Codes of the tags on its boots, so that a scan finds a boot in the whole shop; absent where none carries one. */
  readonly tags?: Readonly<Partial<Record<Side, string>>>;
  readonly promisedAt: string | null;
  /** Where the job is: the first step that is not finished; null when all are. */
  readonly stage: StepName | null;
  readonly steps: readonly { readonly step: StepName; readonly side?: Side; readonly status: StepStatus }[];
  readonly next: readonly NextAction[];
  /** What blocks the job, in words; empty when nothing does. */
  readonly blockedBy: readonly string[];
  readonly problems: number;
  readonly paused: boolean;
  /** Handed over, or released unfit on record. */
  readonly closed: boolean;
  /** Server's commit time, ms since 1970: of the first fact, of the last, and since when it is in `stage`. */
  readonly openedMs: number;
  readonly lastMs: number;
  readonly sinceMs: number;
}

export interface WallRow {
  readonly ticket: string;
  readonly stage: StepName | null;
  /** Boots to be picked up: nothing left but the hand-over. */
  readonly pickup: boolean;
}

/** What a board row can know from the facts alone; the server adds session, generation and its own times. */
export type JobFacts = Omit<JobRow, 'session' | 'generation' | 'openedMs' | 'lastMs' | 'sinceMs'>;

/** Paused until anybody does anything more. */
function isPaused(log: Log): boolean {
  const last = log.facts.findLast((fact) => fact.kind !== 'struck' && log.struckBy(fact.id) === null);
  return last?.kind === 'paused';
}

/** The tag of each boot, as it was described last. */
function tagsOf(log: Log): Pick<JobFacts, 'tags'> {
  const described = log.live('boot.described');
  const tags = SIDES.flatMap((side) => {
    const tag = described.findLast((boot) => boot.side === side)?.tag;
    return tag === undefined ? [] : [[side, tag] as const];
  });
  return tags.length > 0 ? { tags: Object.fromEntries(tags) } : {};
}

/** Null before the session is opened. @param course what follows from this log: the plan, or as much of it as a row needs */
export function jobOf(log: Log, course: Course): JobFacts | null {
  const opened = log.live('session.opened')[0];
  if (!opened) return null;
  const live = course.steps.filter((s) => s.status !== 'done' && s.status !== 'waived');
  const service = log.live('service.changed').at(-1) ?? opened;
  return {
    ticket: opened.ticket,
    clientRef: opened.clientRef,
    service: service.service,
    ...tagsOf(log),
    promisedAt: service.promisedAt ?? opened.promisedAt ?? null,
    stage: live[0]?.step ?? null,
    steps: course.steps.map(({ step, side, status }) => (side ? { step, side, status } : { step, status })),
    next: course.next,
    blockedBy: live
      .filter((s) => s.step === live[0]!.step && (s.status === 'blocked' || s.status === 'stale'))
      .flatMap((s) => s.because),
    problems: course.problems.length,
    paused: isPaused(log),
    closed: log.live('handed.over').length + log.live('released.unfit').length > 0,
  };
}

export const wallOf = (row: JobFacts): WallRow => ({
  ticket: row.ticket,
  stage: row.stage,
  pickup: row.stage === 'handover' && !row.closed,
});
