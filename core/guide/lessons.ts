/**
 * What one session teaches: how each boot answered the moves that were read before and after, whether the first move
 * was enough, and where the leg stood. It follows from the session's own facts and from nothing else.
 */
import { SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import { shift } from '../maths/cuff.ts';
import { moveSeen } from '../maths/learned.ts';
import type { MoveSeen, ReadStop } from '../maths/learned.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import type { FactOf } from '../record/facts.ts';
import { Log } from '../record/log.ts';
import { sameModel } from '../record/models.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import { cuffOf } from './cuff.ts';
import { observation, priorOf } from './evidence.ts';
import { legFrom } from './reach.ts';
import type { KnownLeg } from './reach.ts';
import { apart, counts } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import type { Round } from './shape.ts';
import { settingsOf, sideNow } from './side.ts';
import type { SideNow } from './side.ts';

/** One move, and what it changed. */
export interface Lesson extends MoveSeen {
  /** Ids of the first readings before and after: their names, by which a person decides on the pair. */
  readonly before: string;
  readonly after: string;
}

/** What a session says of one boot and the leg in it. */
export interface SideLessons {
  readonly side: Side;
  /** As it was described. */
  readonly model: string;
  readonly tag: string | null;
  /** One for each setting that was read, in order; each but the first has its lesson. */
  readonly stops: readonly ReadStop[];
  readonly lessons: readonly Lesson[];
  /** Was the first move enough? Null while that is open, and where none was due. */
  readonly firstEnough: boolean | null;
  readonly leg: SeenLeg | null;
}

/** Where a leg stood in a shell, as it is carried into other boots. */
export type SeenLeg = Pick<KnownLeg, 'line' | 'through'> & {
  readonly sdMm: number;
  /** Height of that place above the pivot line, mm. */
  readonly heightMm: number;
};

const samePair = (a: Pair, b: Pair): boolean => a.medialMm === b.medialMm && a.lateralMm === b.lateralMm;

/** Read in the boot as it is described now: a description that was replaced may have been of another boot. */
function ofThisBoot(log: Log, now: SideNow, { fact }: JudgedReading): boolean {
  const state = log.asOf(slot.boot(now.side), fact.id);
  if (state.is !== 'one') return false;
  const then = state.value as FactOf<'boot.described'>;
  return (
    sameModel(then.model) === sameModel(now.boot!.model) &&
    then.tag === now.boot!.tag &&
    then.hardware.pivotSpacingMm === now.boot!.hardware.pivotSpacingMm &&
    then.hardware.readingHeightMm === now.boot!.hardware.readingHeightMm
  );
}

/** Readings under the conditions of the newest, without a touch: a graze may be more than it says, a press is a bound. */
function comparable(log: Log, now: SideNow, readings: readonly JudgedReading[], settings: Settings) {
  const free = readings.filter((r) => counts(r) && r.fact.contact === 'none' && ofThisBoot(log, now, r));
  const newest = free.at(-1);
  return free.filter((r) => r.heightMm === newest!.heightMm && apart(r, newest!, settings) === null);
}

interface Run {
  readonly stop: ReadStop;
  readonly first: string;
}

/** The mean of each run of readings at one setting. */
function runsOf(hardware: HardwareNow, readings: readonly JudgedReading[], settings: Settings): Run[] {
  const runs: JudgedReading[][] = [];
  for (const reading of readings) {
    const run = runs.at(-1);
    if (run && samePair(run[0]!.set!, reading.set!)) run.push(reading);
    else runs.push([reading]);
  }
  return runs.map((run) => {
    const seen = run.map((r) => observation(hardware, r, settings, mm(0)));
    const mean = seen.reduce((sum, { biasMm }) => sum + biasMm, 0) / run.length;
    const sd = Math.sqrt(seen.reduce((sum, { sdMm }) => sum + sdMm ** 2, 0)) / run.length;
    return {
      first: run[0]!.fact.id,
      stop: { shiftMm: shift(hardware, run[0]!.set!), biasMm: mm(mean), sdMm: mm(sd), jump: 0 },
    };
  });
}

/** Enough: the cuff was closed as even at the second setting that was read. Closed at a later one, or as it was: not. */
function firstEnough(log: Log, side: Side, rounds: readonly Round[]): boolean | null {
  const standing = rounds.filter(({ stale }) => !stale);
  if (standing.length > 2) return false;
  const closed = log.now(slot.closed(side));
  if (standing.length < 2 || closed.is !== 'one') return null;
  return (closed.value as FactOf<'cuff.closed'>).decision === 'even';
}

function seenLeg(log: Log, now: SideNow): SeenLeg | null {
  const leg = legFrom(log, now);
  // A bound says where the leg is not: nothing to start another boot from.
  if (leg.is !== 'known' || leg.bound !== 'exact' || leg.sdMm === null) return null;
  const { line, through, sdMm } = leg;
  return { line, through, sdMm, heightMm: now.hardware!.readingHeightMm };
}

function sideLessons(log: Log, side: Side, settings: Settings): SideLessons | null {
  const now = sideNow(log, side);
  const { boot, hardware } = now;
  if (!boot || !hardware) return null;
  const { cuff, readings } = cuffOf(log, now, settings);
  const runs = runsOf(hardware, comparable(log, now, readings, settings), settings);
  const { response } = priorOf(log, side, settings);
  return {
    side,
    model: boot.model,
    tag: boot.tag ?? null,
    stops: runs.map(({ stop }) => stop),
    lessons: runs.slice(1).map(({ stop, first }, i) => ({
      before: runs[i]!.first,
      after: first,
      ...moveSeen(runs[i]!.stop, stop, response),
    })),
    firstEnough: firstEnough(log, side, cuff.rounds),
    leg: seenLeg(log, now),
  };
}

/** @param facts a session's facts, as for `plan` */
export function lessonsOf(facts: readonly { readonly kind: string }[]): SideLessons[] {
  const log = new Log(facts);
  const settings = settingsOf(log);
  return SIDES.flatMap((side) => sideLessons(log, side, settings) ?? []);
}
