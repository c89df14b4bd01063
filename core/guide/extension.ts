/**
 * Longer slots where the travel is not enough: how much, what is left to the edge, and what must be on record before
 * anybody cuts. A longer slot cannot be undone, and a wrong figure lets a shell tear: there is no default for any.
 */
import { ADJUSTERS } from '../frame.ts';
import type { Adjuster } from '../frame.ts';
import { lengthen } from '../maths/slot.ts';
import type { SlotCut } from '../maths/slot.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { CuffPlan, Extension, Problem, Reason } from './shape.ts';
import type { SideNow } from './side.ts';
import { boot as bootWords, listed, mmWords } from './words.ts';

/** The rework that stands; null where there is none, or two disagree. */
const reworkOf = (log: Log, side: SideNow['side'], adjuster: Adjuster): FactOf<'pivot.reworked'> | null => {
  const state = log.now(slot.reworked(side, adjuster));
  return state.is === 'one' ? (log.get(state.facts.at(-1)!) as FactOf<'pivot.reworked'>) : null;
};

/** Edge distance of one pivot's hole: as left by the newest rework, else as described; null when nobody knows. */
export function edgeOf(log: Log, { side, boot }: SideNow, adjuster: Adjuster): Mm | null {
  const rework = reworkOf(log, side, adjuster);
  return (rework ? rework.edgeMm : boot?.hardware.holeEdgeMm) ?? null;
}

/** The least that must be left: the boot's own figure, else the shop's; null while nobody entered one. */
export function leastEdge(log: Log, { boot }: SideNow): Mm | null {
  const entered = log.now(slot.setting('minHoleEdgeMm'));
  return boot?.hardware.minHoleEdgeMm ?? (entered.is === 'one' ? (entered.value as Mm) : null);
}

/** What must stand on record before a slot is cut, as far as it does not. */
export function beforeCutting(agreements: readonly FactOf<'work.agreed'>[]): string[] {
  // By its short name; earlier versions entered it in the words of the desk's language.
  const agreed = agreements.some(({ irreversible }) =>
    irreversible.some((work) => /slot|Langloch/i.test(work)),
  );
  const approved = agreements.some(({ makerApproval }) => makerApproval !== undefined);
  return [
    ...(approved ? [] : ['the maker’s approval']),
    ...(agreed ? [] : ['the owner’s agreement to a longer slot']),
  ];
}

const because = (code: Reason['code'], text: string): Reason => ({ code, text });

/** Why no lengthening is told; null when it may be. */
function hindrance(now: SideNow, { shortBy, verdict }: CuffPlan): Reason | null {
  const { side, boot } = now;
  if (!boot || !shortBy || verdict === 'even')
    return because('not-due', `The ${side} cuff needs no longer slot.`);
  if (boot.hardware.slotsMayLengthen === undefined)
    return because('missing', `Say whether the slots of the ${side} boot may be lengthened.`);
  return boot.hardware.slotsMayLengthen
    ? null
    : because('withheld', `The slots of the ${side} boot must not be lengthened.`);
}

const cutWords = (adjuster: Adjuster, way: 'up' | 'down', cut: SlotCut): string =>
  `the ${adjuster} slot ${mmWords(cut.byMm)} further ${way}, with ${mmWords(cut.edgeLeftMm)} to the edge after it`;

function worded(extension: Omit<Extension, 'text'>, now: SideNow, bound: CuffPlan['bound']): string {
  const { lateral, medial, leastEdgeMm, shortMm, before, way } = extension;
  const cuts = [
    ...(lateral && lateral.byMm > 0 ? [cutWords('lateral', way.lateral, lateral)] : []),
    ...(medial && medial.byMm > 0 ? [cutWords('medial', way.medial, medial)] : []),
  ];
  const boot = bootWords(now.side);
  const least = `at least ${mmWords(leastEdgeMm)} must stay`;
  if (!cuts.length) return `${boot}: no slot can be lengthened, since ${least}.`;
  return [
    `${boot}: lengthen ${bound === 'at-least' ? 'at least ' : ''}${listed(cuts)} (${least}).`,
    ...(shortMm > 0 ? [`${mmWords(shortMm)} of travel are missing even so.`] : []),
    ...(before.length ? [`Before any cut: ${listed(before)}, on record.`] : []),
  ].join(' ');
}

/** Longer slots for what the travel does not reach, or why none are told. */
export function extensionOf(log: Log, now: SideNow, cuff: CuffPlan): Extension | Reason {
  const no = hindrance(now, cuff);
  if (no) return no;
  const { side } = now;
  const slots = ADJUSTERS.filter((adjuster) => now.hardware?.[adjuster]);
  if (!slots.length) return because('withheld', `The ${side} boot has no slot to lengthen.`);
  const leastEdgeMm = leastEdge(log, now);
  const unmeasured = slots.filter((adjuster) => edgeOf(log, now, adjuster) === null);
  if (leastEdgeMm === null || unmeasured.length) {
    const asked = [
      ...(leastEdgeMm === null ? ['the least that must stay by its maker'] : []),
      ...(unmeasured.length ? [`how far it is from the ${listed(unmeasured)} pivot hole to the edge`] : []),
    ];
    return because('missing', `Before the slots of the ${side} boot are lengthened, enter ${listed(asked)}.`);
  }
  const edge = (adjuster: Adjuster) => (slots.includes(adjuster) ? edgeOf(log, now, adjuster) : null);
  const missing = cuff.shortBy!;
  const outward = missing.leanDeg > 0;
  const extension = {
    ...lengthen(missing.pivotMm, { lateralMm: edge('lateral'), medialMm: edge('medial') }, leastEdgeMm),
    leastEdgeMm,
    way: outward
      ? ({ lateral: 'down', medial: 'up' } as const)
      : ({ lateral: 'up', medial: 'down' } as const),
    before: beforeCutting(log.live('work.agreed')),
  };
  return { ...extension, text: worded(extension, now, cuff.bound) };
}

/** A reworked hole nearer to an edge than may be. */
export function edgeProblems(log: Log, now: SideNow): Problem[] {
  const least = leastEdge(log, now);
  return ADJUSTERS.flatMap((adjuster): Problem[] => {
    const rework = reworkOf(log, now.side, adjuster);
    const edge = rework?.edgeMm;
    if (!rework || edge === undefined || least === null || edge >= least - mm(1e-9)) return [];
    const { id: fact, side } = rework;
    const text = `The ${side} boot's ${adjuster} pivot hole is ${mmWords(edge)} from the edge; at least ${mmWords(least)} must stay.`;
    return [{ fact, side, code: 'edge-thin', text }];
  });
}
