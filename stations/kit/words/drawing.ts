/** What the drawing says, in words: captions, and the text that stands for the picture. */
import { leanWord } from '../../../core/index.ts';
import type { Adjuster, CuffPlan, Plan, ReadingView, Side, SidePlan } from '../../../core/index.ts';
import type { LookFrom } from '../drawing/geometry.ts';
import { shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';
import { planText } from './plan.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/drawing.ts';

const drawingEn = {
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
  /** Over the enlarged lean, a line each: beside a leg there is little room on a phone. */
  inset: (times: number, known: boolean): readonly string[] => [known ? 'lean' : 'tilt', `× ${times}`],
  lateral: 'lateral',
  medial: 'medial',
  toe: 'toe',
  outsideOf: (side: Side, adjuster: Adjuster): string =>
    adjuster === 'lateral'
      ? `${Sided(side)} boot, seen from outside`
      : `${Sided(side)} boot, seen from the inner side`,
  seenFrom: (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'outer side' : 'inner side'),
  upsideDown: 'up is ↓',
  adjuster: (adjuster: Adjuster): string => (adjuster === 'lateral' ? 'Lateral adjuster' : 'Medial adjuster'),
  was: 'was',
  now: 'now',
  to: 'to',
  stays: 'stays',
};
export const drawing: Words<typeof drawingEn> = inLanguage(drawingEn, german.drawing);

const drawingSaysEn = {
  lean: { outward: 'outward', inward: 'inward', upright: 'upright' },
  leanUnknown: 'lean unknown',
  neutral: 'neutral',
  up: (mm: number): string => `${shown(mm, 2)} mm up`,
  down: (mm: number): string => `${shown(mm, 2)} mm down`,
  atMark: (where: string, label: string): string => `${where} (mark ${label})`,
  presses: 'presses',
  grazes: 'grazes',
  side: (side: Side, said: readonly string[]): string => `${Sided(side)}: ${said.join('; ')}`,
  noBoot: (side: Side): string => `${Sided(side)}: boot not described yet.`,
  cantUnknown: 'cant of the sole not recorded',
  soleFlat: 'sole flat',
  soleCanted: (lean: string): string => `sole canted ${lean}`,
  cuff: (lean: string): string => `cuff ${lean}`,
  pivotsUnknown: 'pivot positions not recorded',
  pivot: (adjuster: Adjuster, position: string): string => `${adjuster} pivot at ${position}`,
  gapsExpected: (medialMm: number, lateralMm: number): string =>
    `gaps expected: medial ${shown(medialMm)} mm, lateral ${shown(lateralMm)} mm`,
  gapsRead: (medialMm: number, lateralMm: number): string =>
    `gaps read: medial ${shown(medialMm)} mm, lateral ${shown(lateralMm)} mm`,
  gapsUnread: 'gaps not read',
  recommended: (move: string): string => `recommended: ${move}`,
};
export const drawingSays: Words<typeof drawingSaysEn> = inLanguage(drawingSaysEn, german.drawingSays);

/** `1.2° outward`; `upright` for none; `lean unknown` where no factory lean was given. */
export const leanText = (leanDeg: number | null): string =>
  leanDeg === null
    ? drawingSays.leanUnknown
    : Math.abs(leanDeg) < 0.05
      ? drawingSays.lean.upright
      : `${shown(Math.abs(leanDeg))}° ${drawingSays.lean[leanWord(leanDeg)]}`;

/** `+2 mm (mark 2)`; up is plus. */
export function positionText(cuff: CuffPlan, adjuster: Adjuster, mm: number): string {
  const stop = cuff.hardware?.[adjuster]?.stops?.find((s) => Math.abs(s.mm - mm) < 1e-6);
  const size = Math.abs(mm);
  const where = size < 0.005 ? drawingSays.neutral : mm > 0 ? drawingSays.up(size) : drawingSays.down(size);
  return stop && stop.label !== shown(mm, 2) && stop.label !== signed(mm, 2) && stop.label !== String(mm)
    ? drawingSays.atMark(where, stop.label)
    : where;
}

/** How the leg touches on this side; null when it does not. */
export function touchWord(
  place: Adjuster,
  reading: Pick<ReadingView, 'contact' | 'pressure'> | null,
): string | null {
  if (!reading || (reading.contact !== place && reading.contact !== 'both')) return null;
  return reading.pressure === 'press' ? drawingSays.presses : drawingSays.grazes;
}

function sideText(side: Side, { cuff, sole }: SidePlan): string {
  if (!cuff.hardware) return drawingSays.noBoot(side);
  const said = [
    sole.cantDeg === null
      ? drawingSays.cantUnknown
      : sole.cantDeg === 0
        ? drawingSays.soleFlat
        : drawingSays.soleCanted(leanText(sole.cantDeg)),
    cuff.set ? drawingSays.cuff(leanText(cuff.leanDeg)) : drawingSays.pivotsUnknown,
  ];
  if (cuff.set && cuff.hardware.lateral)
    said.push(drawingSays.pivot('lateral', positionText(cuff, 'lateral', cuff.set.lateralMm)));
  if (cuff.set && cuff.hardware.medial)
    said.push(drawingSays.pivot('medial', positionText(cuff, 'medial', cuff.set.medialMm)));
  if (cuff.expected) said.push(drawingSays.gapsExpected(cuff.expected.medialMm, cuff.expected.lateralMm));
  else if (cuff.reading) said.push(drawingSays.gapsRead(cuff.reading.medialMm, cuff.reading.lateralMm));
  else said.push(drawingSays.gapsUnread);
  const moved = cuff.move && (Math.abs(cuff.move.medialMm) > 1e-6 || Math.abs(cuff.move.lateralMm) > 1e-6);
  if (cuff.move && moved) said.push(drawingSays.recommended(planText(cuff.move.text)));
  return drawingSays.side(side, said);
}

/** The drawing as text, the right leg first when it stands on the viewer's left. */
export function describePair(plan: Plan, from: LookFrom): string {
  const order: readonly Side[] = from === 'front' ? ['right', 'left'] : ['left', 'right'];
  return [drawing.caption[from], ...order.map((side) => sideText(side, plan.sides[side]))].join(' ');
}
