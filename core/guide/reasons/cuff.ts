/** Why numbers of a cuff are null. */
import { ADJUSTERS } from '../../frame.ts';
import type { Adjuster } from '../../frame.ts';
import { slot } from '../../record/slots.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { capital, listed } from '../words.ts';
import { always, because, unknown } from './reason.ts';
import type { ReasonsOf, Why } from './reason.ts';

/** The boot is not described. */
export const undescribed: Why = (g) => unknown(g, slot.boot(g.side), g.own.now.missing.boot!);

const unset: Why = (g) =>
  g.plan.cuff.hardware ? unknown(g, slot.pivots(g.side), g.own.now.missing.set!) : undescribed(g);

/** No reading counts at today's pivots. */
function unread(g: Ground): Reason {
  const { side, own, plan } = g;
  const { hardware, set, reading, verdict } = plan.cuff;
  if (!hardware || !set) return unset(g);
  if (reading?.stale)
    return because('stale', `Read the ${side} gaps again, since ${listed(reading.staleBecause)}.`);
  if (verdict === 'too-narrow')
    return because('too-narrow', `The ${side} cuff presses on both sides: that says nothing of its lean.`);
  const { readings } = own.sight;
  const refused = readings.at(-1)?.refused[0];
  if (refused) return because('refused', refused.text);
  return because(
    'unread',
    readings.length ? `Nobody has read the ${side} gaps at these pivots.` : `Read the ${side} gaps.`,
  );
}

const known = ({ plan: { cuff } }: Ground): boolean => cuff.correctionDeg !== null;

/** Null although the correction is known. */
const beside =
  (why: Why): Why =>
  (g) =>
    known(g) ? why(g) : unread(g);

const onlyBound = always(
  'bound',
  (side) => `The ${side} leg presses: that says at least how much, so nothing of a spread or a chance.`,
);

const leanless = always(
  'missing',
  (side) => `The factory lean of the ${side} boot is not known: its leans are not, its corrections are.`,
);

const unsettable = beside(
  always('missing', (side) => `No mark of the ${side} pivots lies inside their travel.`),
);

/** An adjuster that cannot move. */
const immovable =
  (adjuster: Adjuster): Why =>
  ({ side, plan }) =>
    plan.cuff.hardware?.pivots === 'dual'
      ? because('missing', `The travel of the ${side} boot's ${adjuster} pivot is not described.`)
      : because('not-due', `The ${side} boot has no ${adjuster} adjuster.`);

const unexpected: Why = (g) => {
  const { reading } = g.plan.cuff;
  if (reading && !reading.stale) return because('not-due', `The ${g.side} gaps were read at these pivots.`);
  return !reading && g.own.sight.grounds ? onlyBound(g) : unread(g);
};

const untouched = always('not-due', (side) => `The ${side} leg did not touch the cuff.`);
const markless = always('not-due', (side) => `The ${side} pivots have no marks that count evenly.`);

const adjusters = Object.fromEntries(
  ADJUSTERS.flatMap((adjuster): [string, Why][] => [
    [`cuff.hardware.${adjuster}`, immovable(adjuster)],
    [
      `cuff.hardware.${adjuster}.stops`,
      always('not-due', (side) => `${capital(side)} ${adjuster} pivot: anywhere in its travel, no marks.`),
    ],
  ]),
) as Record<`cuff.hardware.${Adjuster}${'' | '.stops'}`, Why>;

const noSlot = (adjuster: Adjuster): Why =>
  always('not-due', (side) => `The ${side} boot has no ${adjuster} slot to lengthen.`);

export const CUFF: ReasonsOf<'cuff'> = {
  ...adjusters,
  'cuff.hardware': undescribed,
  'cuff.hardware.factoryLeanDeg': leanless,
  'cuff.hardware.markMm': markless,
  'cuff.set': unset,
  'cuff.leanDeg': (g) => (g.plan.cuff.set && g.plan.cuff.hardware ? leanless(g) : unset(g)),
  'cuff.reading': unread,
  'cuff.reading.spreadMm': always('not-due', (side) => `One reading of the ${side} gaps has no spread.`),
  'cuff.reading.pressure': untouched,
  'cuff.biasMm': unread,
  'cuff.biasSdMm': beside(onlyBound),
  'cuff.correctionDeg': unread,
  'cuff.correctionSdDeg': beside(onlyBound),
  'cuff.bound': unread,
  'cuff.target': unsettable,
  'cuff.target.leanDeg': leanless,
  'cuff.move': unsettable,
  'cuff.predicted': unsettable,
  'cuff.limitedBy': beside(always('not-due', (side) => `Nothing keeps the ${side} cuff from even.`)),
  'cuff.chanceEven': beside(onlyBound),
  'cuff.chanceEvenAfter': (g) => (g.plan.cuff.target ? onlyBound(g) : unsettable(g)),
  'cuff.expected': unexpected,
  'cuff.shortBy': beside(always('not-due', (side) => `The travel of the ${side} pivots is enough.`)),
  'cuff.extension': beside((g) => g.own.sight.unextended!),
  'cuff.extension.lateral': noSlot('lateral'),
  'cuff.extension.medial': noSlot('medial'),
  'cuff.twoHeights': beside(
    always(
      'missing',
      (side) =>
        `Tilt and offset of the ${side} leg: read the gaps at two heights at least 30 mm apart, without a press.`,
    ),
  ),
  'cuff.twoHeights.parallel.target': unsettable,
  'cuff.twoHeights.parallel.target.leanDeg': leanless,
  'cuff.twoHeights.parallel.predicted': unsettable,
  'cuff.rounds.*.predictedBiasMm': always(
    'not-due',
    (side) => `Nothing read before foretells the ${side} cuff at this setting.`,
  ),
  'cuff.rounds.*.pressure': untouched,
  'cuff.rounds.*.progress': always('not-due', (side) => `The ${side} leg touches the cuff as it did before.`),
  'cuff.readAgain': beside(
    always('not-due', (side) => `One more reading of the ${side} gaps would add little.`),
  ),
  'cuff.moveOn': beside(
    always('not-due', (side) => `One more move of the ${side} cuff is not worth it for being even alone.`),
  ),
};
