/** Repeats of one measurement pooled into what is shown, and what is to be said of the rest. */
import type { Side } from '../frame.ts';
import { bias } from '../maths/cuff.ts';
import type { Settings } from '../record/settings.ts';
import { mm } from '../units.ts';
import { apart, counts, pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import type { Problem, ReadingView } from './shape.ts';
import { mmWords } from './words.ts';

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** Repeats of one measurement, the newest last: at today's pivots, same surface, liner, stance width, height and kind. */
export function repeatsOf(
  newest: JudgedReading,
  here: readonly JudgedReading[],
  settings: Settings,
): JudgedReading[] {
  return here.filter(
    (r) =>
      apart(r, newest, settings) === null &&
      r.heightMm === newest.heightMm &&
      pressed(r) === pressed(newest) &&
      (!pressed(r) || r.fact.contact === newest.fact.contact),
  );
}

export function viewOf(pool: readonly JudgedReading[]): ReadingView {
  const newest = pool.at(-1)!;
  // A press is a bound and never averaged: the newest one stands for itself.
  const averaged = pressed(newest) ? [newest] : pool;
  const medialMm = mm(mean(averaged.map((r) => r.fact.medialMm)));
  const lateralMm = mm(mean(averaged.map((r) => r.fact.lateralMm)));
  const biases = averaged.map((r) => bias(r.fact));
  return {
    medialMm,
    lateralMm,
    biasMm: bias({ medialMm, lateralMm }),
    repeats: pool.length,
    spreadMm: biases.length > 1 ? mm(Math.max(...biases) - Math.min(...biases)) : null,
    contact: newest.fact.contact,
    pressure: newest.fact.contact === 'none' ? null : (newest.fact.pressure ?? null),
    stale: newest.staleBecause.length > 0,
    staleBecause: newest.staleBecause,
    facts: pool.map((r) => r.fact.id),
  };
}

export function notPooled(
  newest: JudgedReading,
  readings: readonly JudgedReading[],
  settings: Settings,
): Problem[] {
  return readings.flatMap((r) => {
    const height =
      r.here && r.heightMm !== newest.heightMm
        ? 'taken at another height, it is carried and not averaged'
        : null;
    const why = counts(r) ? (apart(r, newest, settings) ?? height) : null;
    if (!why) return [];
    const { id, side } = r.fact;
    return [
      {
        fact: id,
        side,
        code: 'not-pooled',
        text: `Reading ${id} of the ${side} cuff is not taken together with ${newest.fact.id}: ${why}.`,
      },
    ];
  });
}

export function widthProblems(
  side: Side,
  view: ReadingView,
  newest: JudgedReading,
  settings: Settings,
): Problem[] {
  if (pressed(newest)) return [];
  const sum = view.medialMm + view.lateralMm;
  const problem = (code: string, text: string): Problem => ({ fact: newest.fact.id, side, code, text });
  if (sum < settings.gapSumAskMinMm)
    return [
      problem('width-small', `The ${side} cuff leaves ${mmWords(sum)} in all: is it too narrow for the leg?`),
    ];
  if (sum > settings.gapSumAskMaxMm)
    return [
      problem(
        'width-large',
        `The ${side} cuff leaves ${mmWords(sum)} in all: is it too wide, or is the liner out?`,
      ),
    ];
  return [];
}
