/**
 * Which cuff readings count, and which of them are repeats of one measurement.
 *
 * A reading rests on the footbed, on what is inside the boot, on shell work, and on a sole without cant when it
 * was read. It was taken at the pivots its author knew: at today's it is current, at earlier ones superseded
 * and still evidence. What spoils it makes it stale.
 */
import type { Side } from '../frame.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { FactOf } from '../record/facts.ts';
import { READY_ITEMS } from '../record/kinds.ts';
import type { Log, State } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import type { PivotsValue, ReadyValue, SoleValue } from '../record/slots.ts';
import type { Settings } from '../record/settings.ts';
import { changesSince } from './rests.ts';
import { pairOf } from './side.ts';
import type { Problem } from './shape.ts';
import { degWords, listed } from './words.ts';

export interface JudgedReading {
  readonly fact: FactOf<'cuff.read'>;
  /** Pivots when it was read; null when they were unknown. */
  readonly set: Pair | null;
  readonly heightMm: Mm;
  /** Why it counts for nothing: it should not have been taken like this. */
  readonly refused: readonly Problem[];
  /** What has changed since, and spoils it. */
  readonly staleBecause: readonly string[];
  /** At today's pivots. */
  readonly here: boolean;
}

const READY_OUTCOMES = new Set(['done', 'not-needed', 'kept-as-found']);
export const isReady = (state: State): boolean =>
  state.is === 'one' && READY_OUTCOMES.has((state.value as ReadyValue).outcome);

const POSTURE_WORDS: Record<keyof FactOf<'cuff.read'>['posture'], string> = {
  parallel: 'the boots stood parallel',
  straightRunStance: 'the stance was that of a straight run',
  bucklesLight: 'the buckles were light',
  midFlex: 'the knees were at mid-flex',
};

/** Conditions of posture that were not confirmed, in words, but for those that do not matter here. */
export const unheld = (
  posture: FactOf<'cuff.read'>['posture'],
  but: readonly (keyof FactOf<'cuff.read'>['posture'])[],
): string[] =>
  (Object.keys(POSTURE_WORDS) as (keyof typeof POSTURE_WORDS)[])
    .filter((name) => !but.includes(name) && !posture[name])
    .map((name) => POSTURE_WORDS[name]);

/** What a reading should have stood on, and did not. */
function refusals(log: Log, fact: FactOf<'cuff.read'>): Problem[] {
  const { side, id } = fact;
  const problem = (code: string, text: string): Problem => ({ fact: id, side, code, text });
  const found: Problem[] = [];
  const open = READY_ITEMS.filter((item) => !isReady(log.asOf(slot.ready(side, item), id)));
  if (open.length)
    found.push(
      problem(
        'not-ready',
        `The ${side} cuff was read before the boot was ready: ${listed(open)} not settled.`,
      ),
    );

  const sole = log.asOf(slot.sole(side), id);
  if (sole.is === 'one') {
    const cant = (sole.value as SoleValue).cantDeg;
    if (cant !== 0)
      found.push(
        problem(
          'sole-canted',
          `The ${side} cuff was read over a cant of ${degWords(cant)}: bring the sole to zero, then read again.`,
        ),
      );
  } else
    found.push(
      problem(
        'sole-unknown',
        `The ${side} cuff was read over a sole whose cant is not known: record it, then read again.`,
      ),
    );

  const board = log.asOf(slot.inside(side, 'boardCantDeg'), id);
  if (board.is === 'one' && board.value !== 0)
    found.push(
      problem(
        'sole-canted',
        `The ${side} cuff was read over a boot board with a cant of ${degWords(board.value as number)}: an inner cant counts as cant.`,
      ),
    );

  const wrong = unheld(fact.posture, []);
  if (wrong.length)
    found.push(
      problem('posture', `The ${side} cuff was read without saying that ${listed(wrong)}: read again.`),
    );
  return found;
}

const samePair = (a: Pair, b: Pair): boolean => a.medialMm === b.medialMm && a.lateralMm === b.lateralMm;

/** All live readings of one side, in the list's order, each with what is to be thought of it. */
export function judge(log: Log, side: Side, hardware: HardwareNow, today: Pair | null): JudgedReading[] {
  const immovable = !hardware.lateral && !hardware.medial;
  return log
    .live('cuff.read')
    .filter((fact) => fact.side === side)
    .map((fact) => {
      const pivots = log.asOf(slot.pivots(side), fact.id);
      const stated = pivots.is === 'one' ? pairOf(hardware, pivots.value as PivotsValue) : null;
      const set =
        stated ?? (immovable && pivots.is === 'none' ? { medialMm: mm(0), lateralMm: mm(0) } : null);
      const refused = refusals(log, fact);
      if (!set && pivots.is !== 'lost')
        refused.push({
          fact: fact.id,
          side,
          code: 'pivots-unknown',
          text: `The ${side} cuff was read without knowing where its pivots stood.`,
        });
      return {
        fact,
        set,
        heightMm: fact.heightMm ?? hardware.readingHeightMm,
        refused,
        staleBecause: changesSince(log, fact),
        here: set !== null && today !== null && samePair(set, today),
      };
    });
}

export const counts = (reading: JudgedReading): boolean =>
  reading.set !== null && !reading.refused.length && !reading.staleBecause.length;

export const pressed = ({ fact }: JudgedReading): boolean =>
  fact.contact !== 'none' && fact.pressure === 'press';

/** Why two readings may not be taken as of one thing; null when they may. */
export function apart(a: JudgedReading, b: JudgedReading, settings: Settings): string | null {
  if (a.fact.to !== b.fact.to) return `one to the ${a.fact.to}, one to the ${b.fact.to}`;
  if (a.fact.liner !== b.fact.liner) return 'one with the liner in, one with it out';
  const wider = Math.abs(a.fact.stanceWidthMm - b.fact.stanceWidthMm);
  if (wider > settings.stanceWidthPoolMm) return `stance widths ${wider} mm apart`;
  return null;
}
