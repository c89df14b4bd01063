/** One knee through one practice: stand, read, decide, until a cant is chosen or the case is referred on. */
import { deg, mm } from '../../../core/units.ts';
import type { Random } from '../../../demo/random.ts';
import type { Case } from './cases.ts';
import type { Knee } from './knees.ts';
import { TARGET_MM } from './practice.ts';
import type { Practice, Stood } from './practice.ts';

export interface Outcome {
  readonly end: 'chosen' | 'referred';
  readonly readings: number;
  /** Where the knee truly stands on the cant that was chosen, from the target; on a flat sole where none was, mm. */
  readonly trulyOffMm: number;
  /** Whether nine tenths of the chance held the cant that would have been right; null where nothing was said of it. */
  readonly held: boolean | null;
}

export function work(knee: Knee, of: Case, practice: Practice, random: Random): Outcome {
  const read: Stood[] = [];
  const at = (cantDeg: number) => knee.offsetMm + knee.slopeMm * cantDeg;
  for (;;) {
    const next = practice(of, knee.heightMm, read);
    const end = (how: Outcome['end'], cantDeg: number, held: boolean | null): Outcome => ({
      end: how,
      readings: read.length,
      trulyOffMm: at(cantDeg) - TARGET_MM,
      held,
    });
    if (next.do === 'refer') return end('referred', 0, null);
    if (next.do === 'choose') {
      const right = (TARGET_MM - knee.offsetMm) / knee.slopeMm;
      const held = next.range && next.range.lowDeg <= right && right <= next.range.highDeg;
      return end('chosen', next.cantDeg, held);
    }
    // Who steps onto another wedge stands afresh.
    const stood = at(next.wedgeDeg) + random.normal(of.swayMm) + random.normal(of.errorMm);
    read.push({ wedgeDeg: deg(next.wedgeDeg), offsetMm: mm(Math.round(stood)), restood: read.length > 0 });
  }
}
