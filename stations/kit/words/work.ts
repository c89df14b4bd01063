/** Words of work on one boot at the bench: the dial read back, longer slots, the shell at the press, what is inside. */
import type { Adjuster, Side } from '../../../core/index.ts';
import { shown, signed } from '../numbers.ts';
import { adjusterWord, Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/work.ts';

const workEn = {
  readTitle: (side: Side): string => `${Sided(side)} boot: what the dial reads now`,
  readHint: 'From factory neutral, up is plus: where the pivot stands, not how far it was moved.',
  told: (mm: number): string => `told ${signed(mm, 2)} mm`,
  higher: (mm: number): string => `${shown(mm, 2)} mm higher than told`,
  lower: (mm: number): string => `${shown(mm, 2)} mm lower than told`,
  asTold: 'as told',
  outside: (min: number, max: number): string =>
    `past the travel of this boot: ${signed(min, 2)} to ${signed(max, 2)} mm`,
  off: (adjuster: Adjuster, toldMm: number, isMm: number, by: string): string =>
    `${adjusterWord(adjuster)}: told ${signed(toldMm, 2)} mm, reads ${signed(isMm, 2)} mm, ${by}`,
  goesOn: 'The plan goes on from where the dial stands.',

  turn: { upright: 'The boot lies upside down', over: 'The boot stands upright' },

  slotTitle: (adjuster: Adjuster): string => `Slot of the ${adjusterWord(adjuster)} pivot`,
  slotSeen: (adjuster: Adjuster): string =>
    adjuster === 'lateral' ? 'seen from outside' : 'seen from the inner side',
  slotWas: (mm: number): string => `travel now ${shown(mm, 2)} mm`,
  slotIs: (mm: number): string => `then ${shown(mm, 2)} mm`,
  slotCut: (mm: number, way: 'up' | 'down'): string => `cut ${shown(mm, 2)} mm ${way}`,
  slotEdge: (mm: number): string => `${shown(mm, 2)} mm to the edge`,
  slotLeast: (mm: number): string => `least ${shown(mm, 2)} mm`,
  slotUncut: 'not cut',
  shellEdge: 'edge of the shell',
  slotScale: 'Up and down to scale; across not.',
  slotDone: 'The slot is this long now',
  slotsDone: 'The slots are this long now',
  slotHint: (up: number, down: number): string =>
    `travel ${shown(up, 2)} mm up, ${shown(down, 2)} mm down from now on`,
  slotEach: (adjuster: Adjuster, hint: string): string => `${adjusterWord(adjuster)}: ${hint}`,
  slotAsks: (side: Side): string => `${Sided(side)} boot: longer slots would give the travel that is missing`,
  slotSays: (adjuster: Adjuster, said: readonly string[]): string =>
    `${adjusterWord(adjuster)} slot: ${said.join('; ')}`,
  recordHas: 'on record',
  recordLacks: 'not on record: ask the front desk',
  onRecord: { agreed: 'Owner’s agreement to a longer slot', approved: 'Maker’s approval' },
  slotOrder: [
    'Mark old end, new end and the least edge on the shell',
    'Pivot out, liner out; clamp the shell',
    'Cut along the slot only, and round its end',
    'Deburr, and clear out every chip',
    'Measure slot and edge with a calliper',
  ],

  shellOrder: [
    'Liner out; mark the spot through the shell',
    'The maker’s instructions for this plastic first',
    'Warm the place evenly, checked on its surface; press slowly',
    'Let it cool in the press before it is let go',
    'Smooth the inside; liner in; feel for the edge',
  ],
  shellDone: (spot: string): string => `Cleared: ${spot}`,
  shellHint: (how: string): string => `enters: ${how}`,
  shellHow: 'first say how it was worked',
  shellAmountHint: 'leave empty when not measured',

  pivots: 'Pivots set otherwise',
  pivotsHint: 'what the dial reads now',
  inside: 'Inside the boot',
  insideButtonHint: 'boot board, heel lift, forward lean, spoiler, liner',
  insideTitle: (side: Side): string => `${Sided(side)} boot: what is inside now`,
  insideLead:
    'Change only what was changed. A reading taken over other insides no longer counts, and is asked for again.',
  boardHeel: 'Boot board at the heel',
  boardHeelHint: 'thickness under the heel',
  heelLift: 'Heel lift',
  heelLiftHint: '0: none',
  boardCant: 'Cant of the boot board',
  boardCantHint: '0: flat; a cuff is not read over an inner cant',
  leanPos: 'Forward-lean position',
  leanPosHint: 'the mark, or a number',
  spoiler: 'Spoiler',
  spoilers: { in: 'in', out: 'out' },
  spoilerWhich: 'Which spoiler',
  spoilerWhichHint: 'may be left empty',
  liner: 'Liner',
  linerHint: 'name or number on it',
  linerHeated: 'Liner heat-moulded',
  heated: { yes: 'heated', no: 'not heated' },
  linerNeeds: 'Name the liner, and say whether it was heated.',
  cantNeeds: 'Say where the board is thick.',
  insideNone: 'Nothing is changed yet.',
  insideEnter: 'This is inside now',
  linerHot:
    'A hot liner burns skin with poor feeling, and glue and foam give off fumes: keep to its maker’s time and temperature, ventilate, and ask about feeling in the foot first.',

  under: 'Something else under the boot',
  underHint: 'a cant that is neither zero nor as told',
  underCantHint: '0: flat',
  wedgeOrder: ['Boot off the skier', 'Take the test wedge off', 'Nothing left between sole and floor'],
  zeroOrder: [
    'Plates off, or a counter-wedge of the same angle the other way',
    'Screw holes clean, nothing stands out',
    'Check with a straight edge on a flat plate: toe and heel both lie on',
  ],
  soleElseTitle: (side: Side): string => `${Sided(side)} boot: what is under it now`,
  soleState: 'How it came',
  soleStates: { neutralised: 'brought there now', 'as-brought': 'left as it was brought' },
  soleEnter: 'This is under it now',
};
export const work: Words<typeof workEn> = inLanguage(workEn, german.work);

/** `lateral: told −1 mm, reads −1.5 mm, 0.5 mm lower than told`. */
export const offText = (off: {
  readonly adjuster: Adjuster;
  readonly toldMm: number;
  readonly isMm: number;
  readonly byMm: number;
}): string => work.off(off.adjuster, off.toldMm, off.isMm, offBy(off.byMm));

/** How far, and which way, a dial is from what was told. */
export const offBy = (byMm: number): string =>
  Math.abs(byMm) < 0.005 ? work.asTold : byMm > 0 ? work.higher(byMm) : work.lower(-byMm);
