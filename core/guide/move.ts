/** The move that the bench is told, in words before numbers. */
import type { Side } from '../frame.ts';
import { lean, marksBetween } from '../maths/hardware.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import { mm } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import type { CuffPlan } from './shape.ts';
import { boot, degWords, leansTo, mmWords, moveWords, placeWords } from './words.ts';

/** Lean of a setting; null while the factory lean is unknown. */
export const leanOf = (hardware: HardwareNow, set: Pair): Deg | null =>
  hardware.factoryLeanDeg === null ? null : lean(hardware, set);

export function moveOf(
  side: Side,
  hardware: HardwareNow,
  from: Pair,
  to: Pair,
  expect: Pair,
  stays: boolean,
  atLeast: boolean,
): CuffPlan['move'] {
  const by = { medialMm: mm(to.medialMm - from.medialMm), lateralMm: mm(to.lateralMm - from.lateralMm) };
  const lateralMarks = marksBetween(hardware.lateral, from.lateralMm, to.lateralMm);
  const medialMarks = marksBetween(hardware.medial, from.medialMm, to.medialMm);
  const counted = {
    ...(medialMarks !== undefined && { medialMarks }),
    ...(lateralMarks !== undefined && { lateralMarks }),
  };
  const turned = lean(hardware, to) - lean(hardware, from);
  if (Math.abs(by.lateralMm) < 1e-6 && Math.abs(by.medialMm) < 1e-6)
    return { ...by, ...counted, text: `${boot(side)}: leave the pivots as they are.` };
  if (stays) return { ...by, ...counted, text: `${boot(side)}: even as it is; nothing has to move.` };
  const one = (adjuster: string, move: number, marks: number | undefined, at: Mm): string =>
    Math.abs(move) < 1e-6
      ? `${adjuster} pivot stays at ${placeWords(at)}`
      : `${adjuster} pivot ${moveWords(move, marks)}, to ${placeWords(at)}`;
  const parts = [
    ...(hardware.lateral ? [one('lateral', by.lateralMm, lateralMarks, to.lateralMm)] : []),
    ...(hardware.medial ? [one('medial', by.medialMm, medialMarks, to.medialMm)] : []),
  ];
  const gaps = [
    `${mmWords(Math.max(0, expect.medialMm))} medial`,
    `${mmWords(Math.max(0, expect.lateralMm))} lateral`,
  ].join(' and ');
  const expected = atLeast
    ? 'A press only says at least: read again after the move.'
    : `Expect ${gaps}, then read again.`;
  const cuffTips = `The cuff tips ${degWords(Math.abs(turned))} ${leansTo(turned)}.`;
  return { ...by, ...counted, text: `${boot(side)}: ${parts.join('; ')}. ${cuffTips} ${expected}` };
}
