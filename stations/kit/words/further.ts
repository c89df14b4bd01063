/** Words of what is read beside the two gaps: a lower height, the room at shin and calf, and what two heights say. */
import { Z90 } from '../../../core/index.ts';
import type { CuffPlan, Side } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';
import { leanText } from './drawing.ts';
import { pivotsText } from './facts.ts';
import * as german from './de/further.ts';

const furtherEn = {
  open: 'Lower height, shin, calf',
  openHint: 'only when asked for',
  title: 'Beside the two gaps',
  leg: (side: Side): string => `${Sided(side)} leg`,
  fields: {
    lowerHeight: 'Lower height',
    lowerMedial: 'Lower medial gap',
    lowerLateral: 'Lower lateral gap',
    shin: 'Room at the shin',
    calf: 'Room at the calf',
  },
  heightHint: (mm: number): string => `above the pivots; the gaps are read at ${shown(mm)} mm`,
  near: (mm: number): string =>
    `Less than ${mm} mm under the usual height: tilt and offset cannot be told apart.`,
  contact: 'Touches at the lower height',
  contacts: { none: 'nowhere', medial: 'medial', lateral: 'lateral', both: 'both' },
  pressure: 'How hard',
  pressures: { graze: 'grazes', press: 'presses' },
  whole: 'a lower height needs both of its gaps and where it is',
  done: 'Back to the gaps',
  doneHint: 'recorded together with them',
  lowerSays: (medialMm: number, lateralMm: number, heightMm: number): string =>
    `medial ${shown(medialMm)}, lateral ${shown(lateralMm)} at ${shown(heightMm)} mm`,
  shinSays: (mm: number): string => `shin ${shown(mm)}`,
  calfSays: (mm: number): string => `calf ${shown(mm)}`,
};
export const further: Words<typeof furtherEn> = inLanguage(furtherEn, german.further);

const twoHeightsEn = {
  title: 'Two heights',
  agree: (lean: string): string => `Both heights agree: the leg stands ${lean} to the cuff.`,
  disagree: (even: string, parallel: string): string =>
    `Two answers: even gaps need ${even}, a cuff parallel to the leg ${parallel}.`,
  agreeShort: 'Both heights agree.',
  parallelShort: (parallel: string): string => `Parallel cuff: ${parallel}`,
  offset: (mm: number, halfMm: number): string =>
    `Offset at the pivots ${signed(mm)} mm, give or take ${shown(halfMm)} mm (outward is plus).`,
  parallelAt: (pivots: string): string => `Parallel with the pivots at ${pivots}.`,
  none: 'no correction',
};
export const twoHeights: Words<typeof twoHeightsEn> = inLanguage(twoHeightsEn, german.twoHeights);

const leanOrNone = (deg: number): string => (Math.abs(deg) < 0.05 ? twoHeights.none : leanText(deg));

/** What the gaps at two heights say, in one sentence; null without them. */
export function twoHeightsText({ twoHeights: found, correctionDeg }: CuffPlan): string | null {
  if (!found) return null;
  if (found.agree) return twoHeights.agree(leanText(found.angleDeg));
  return twoHeights.disagree(leanOrNone(correctionDeg ?? 0), leanOrNone(found.parallel.correctionDeg));
}

/** The same beside the correction, which says the first answer by itself. */
export function twoHeightsShort({ twoHeights: found }: CuffPlan): string | null {
  if (!found) return null;
  return found.agree
    ? twoHeights.agreeShort
    : twoHeights.parallelShort(leanOrNone(found.parallel.correctionDeg));
}

/** The rest of it: the offset, and where the pivots would stand for the second answer. */
export function twoHeightsDetail({ twoHeights: found, hardware }: CuffPlan): string | null {
  if (!found) return null;
  const { target } = found.parallel;
  return [
    twoHeights.offset(found.offsetMm, Z90 * found.offsetSdMm),
    ...(found.agree || !target
      ? []
      : [
          twoHeights.parallelAt(pivotsText(target.lateralMm, hardware?.medial ? target.medialMm : undefined)),
        ]),
  ].join(' ');
}
