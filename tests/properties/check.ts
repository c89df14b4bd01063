/**
 * Properties over random cases, pinned: the same cases every time, unless `FIBULA_SEED` (a whole number) asks for
 * others. A failure says which it was.
 */
import fc from 'fast-check';

const asked = process.env['FIBULA_SEED'];
export const START = asked === undefined ? 20260109 : Number(asked);
if (!Number.isSafeInteger(START)) throw new Error(`FIBULA_SEED must be a whole number (is ${asked})`);

/** Throws with the smallest case found on which `holds` throws. */
export function check<T>(cases: number, of: fc.Arbitrary<T>, holds: (value: T) => void): void {
  fc.assert(fc.property(of, holds), {
    seed: START,
    numRuns: cases,
    reporter: (run) => {
      if (run.failed)
        throw new Error(`FIBULA_SEED=${START} shows it again.\n${fc.defaultReportMessage(run)}`, {
          cause: run.errorInstance,
        });
    },
  });
}
