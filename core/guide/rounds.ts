/** The history of one cuff: each setting it stood at, what was read there, and what had been expected. */
import { shift } from '../maths/cuff.ts';
import { estimate } from '../maths/estimate.ts';
import type { Observation, Prior } from '../maths/estimate.ts';
import type { HardwareNow } from '../maths/hardware.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Settings } from '../record/settings.ts';
import { evidence } from './evidence.ts';
import { progressOf } from './progress.ts';
import { apart, pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import type { Round } from './shape.ts';

const mean = (values: readonly number[]): Mm => mm(values.reduce((sum, v) => sum + v, 0) / values.length);

/** Runs of readings at one setting, in order; refused readings stand in none. */
function runsOf(readings: readonly JudgedReading[]): JudgedReading[][] {
  const runs: JudgedReading[][] = [];
  for (const reading of readings) {
    if (reading.refused.length || !reading.set) continue;
    const run = runs.at(-1);
    const at = run?.[0]!.set;
    if (at && at.medialMm === reading.set.medialMm && at.lateralMm === reading.set.lateralMm)
      run!.push(reading);
    else runs.push([reading]);
  }
  return runs;
}

export function roundsOf(
  hardware: HardwareNow,
  readings: readonly JudgedReading[],
  prior: Prior,
  settings: Settings,
  observe: (reading: JudgedReading) => Observation,
): Round[] {
  const before: JudgedReading[] = [];
  let last: JudgedReading | null = null;
  return runsOf(readings).map((run) => {
    const set = run[0]!.set!;
    // Only what may be taken together with this round foretells it.
    const alike = before.filter((r) => apart(r, run[0]!, settings) === null).map(observe);
    const expected = alike.length ? (estimate(prior, alike)?.likeliest(shift(hardware, set)) ?? null) : null;
    // What the leg truly gives beside a press is not in the average of the free readings.
    const free = run.filter((r) => !pressed(r));
    const shown = free.length ? free : [run.at(-1)!];
    before.push(...evidence(run));
    const newest = run.at(-1)!;
    // A round's own first reading, where none was before it.
    const progress = progressOf(newest.fact.side, last ?? run[0]!, newest);
    last = newest;
    const medialMm = mean(shown.map((r) => r.fact.medialMm));
    const lateralMm = mean(shown.map((r) => r.fact.lateralMm));
    return {
      set,
      medialMm,
      lateralMm,
      biasMm: mm(medialMm - lateralMm),
      predictedBiasMm: expected,
      contact: newest.fact.contact,
      pressure: newest.fact.contact === 'none' ? null : (newest.fact.pressure ?? null),
      progress,
      stale: run.every((r) => r.staleBecause.length > 0),
      facts: run.map((r) => r.fact.id),
    };
  });
}
