/** Why sizes and shell gaps are null. */
import { otherSide } from '../../frame.ts';
import type { Side } from '../../frame.ts';
import { slot } from '../../record/slots.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { undescribed } from './cuff.ts';
import { unknown } from './reason.ts';
import type { ReasonsOf, Why } from './reason.ts';

const footOf = (g: Ground, side: Side): Reason =>
  unknown(g, slot.assessed(side, 'footLengthMm'), `Measure the length of the ${side} foot.`);
const foot: Why = (g) => footOf(g, g.side);
const pair: Why = (g) => (g.plan.fit.footMm === null ? foot(g) : footOf(g, otherSide(g.side)));
const gap: Why = (g) =>
  unknown(
    g,
    slot.assessed(g.side, 'shellGapMm'),
    `Measure the room behind the heel in the bare ${g.side} shell, toes lightly touching.`,
  );

export const FIT: ReasonsOf<'fit'> = {
  'fit.mondoMm': undescribed,
  'fit.footMm': foot,
  'fit.pairMm': pair,
  'fit.wantedMm': pair,
  'fit.overMm': (g) => (g.plan.fit.mondoMm === null ? undescribed(g) : foot(g)),
  'fit.shellGapMm': gap,
  'fit.band': gap,
};
