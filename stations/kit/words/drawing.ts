/** What the drawing says, in words: captions, and the text that stands for the picture. */
import { leanWord } from '../../../core/index.ts';
import type { Adjuster, CuffPlan, Plan, ReadingView, Side, SidePlan } from '../../../core/index.ts';
import type { LookFrom } from '../drawing/geometry.ts';
import { shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';

export const drawing = {
  title: 'Both legs',
  caption: {
    front: 'Facing the skier: the skier’s right leg is on your left.',
    behind: 'From behind: the skier’s right leg is on your right.',
  },
  turn: { front: 'Look from behind', behind: 'Face the skier again' },
  letter: (side: Side): string => (side === 'left' ? 'L' : 'R'),
  asIs: 'as it is',
  recommended: 'recommended',
  expected: 'expect',
  inset: (times: number, known: boolean): string => `${known ? 'lean' : 'tilt'} × ${times}`,
  lateral: 'lateral',
  medial: 'medial',
  toe: 'toe',
  outsideOf: (side: Side, adjuster: Adjuster): string =>
    adjuster === 'lateral'
      ? `${Sided(side)} boot, seen from outside`
      : `${Sided(side)} boot, seen from the inner side`,
  seenFrom: (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'outer side' : 'inner side'),
  adjuster: (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'Lateral adjuster' : 'Medial adjuster'),
  was: 'was',
  now: 'now',
  to: 'to',
  stays: 'stays',
};

/** `1.2° outward`; `upright` for none; `lean unknown` where no factory lean was given. */
export const leanText = (leanDeg: number | null): string =>
  leanDeg === null
    ? 'lean unknown'
    : Math.abs(leanDeg) < 0.05
      ? 'upright'
      : `${shown(Math.abs(leanDeg))}° ${leanWord(leanDeg)}`;

/** `+2 mm (mark 2)`; up is plus. */
export function positionText(cuff: CuffPlan, adjuster: Adjuster, mm: number): string {
  const stop = cuff.hardware?.[adjuster]?.stops?.find((s) => Math.abs(s.mm - mm) < 1e-6);
  const where = Math.abs(mm) < 0.005 ? 'neutral' : `${shown(Math.abs(mm), 2)} mm ${mm > 0 ? 'up' : 'down'}`;
  return stop && stop.label !== shown(mm, 2) && stop.label !== signed(mm, 2) && stop.label !== String(mm)
    ? `${where} (mark ${stop.label})`
    : where;
}

/** How the leg touches on this side; null when it does not. */
export function touchWord(place: Adjuster, reading: ReadingView | null): string | null {
  if (!reading || (reading.contact !== place && reading.contact !== 'both')) return null;
  return reading.pressure === 'press' ? 'presses' : 'grazes';
}

function sideText(side: Side, { cuff, sole }: SidePlan): string {
  const said: string[] = [];
  if (!cuff.hardware) return `${Sided(side)}: boot not described yet.`;
  said.push(
    sole.cantDeg === null
      ? 'cant of the sole not recorded'
      : sole.cantDeg === 0
        ? 'sole flat'
        : `sole canted ${leanText(sole.cantDeg)}`,
  );
  said.push(cuff.set ? `cuff ${leanText(cuff.leanDeg)}` : 'pivot positions not recorded');
  if (cuff.set && cuff.hardware.lateral)
    said.push(`lateral pivot at ${positionText(cuff, 'lateral', cuff.set.lateralMm)}`);
  if (cuff.set && cuff.hardware.medial)
    said.push(`medial pivot at ${positionText(cuff, 'medial', cuff.set.medialMm)}`);
  if (cuff.expected)
    said.push(
      `gaps expected: medial ${shown(cuff.expected.medialMm)} mm, lateral ${shown(cuff.expected.lateralMm)} mm`,
    );
  else if (cuff.reading)
    said.push(
      `gaps read: medial ${shown(cuff.reading.medialMm)} mm, lateral ${shown(cuff.reading.lateralMm)} mm`,
    );
  else said.push('gaps not read');
  const moved = cuff.move && (Math.abs(cuff.move.medialMm) > 1e-6 || Math.abs(cuff.move.lateralMm) > 1e-6);
  if (cuff.move && moved) said.push(`recommended: ${cuff.move.text}`);
  return `${Sided(side)}: ${said.join('; ')}`;
}

/** The drawing as text, the right leg first when it stands on the viewer's left. */
export function describePair(plan: Plan, from: LookFrom): string {
  const order: readonly Side[] = from === 'front' ? ['right', 'left'] : ['left', 'right'];
  return [drawing.caption[from], ...order.map((side) => sideText(side, plan.sides[side]))].join(' ');
}
