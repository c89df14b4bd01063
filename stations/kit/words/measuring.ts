/** Words of the measuring station. */
import type { Adjuster, CuffPlan, CuffVerdict, Side } from '../../../core/index.ts';
import { leanWord, Z90 } from '../../../core/index.ts';
import { moves } from '../drawing/geometry.ts';
import { percent, shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';
import { drawingSays } from './drawing.ts';
import { inLanguage, isLanguage, language } from '../language.ts';
import type { Language, Words } from '../language.ts';
import * as german from './de/measuring.ts';

const measuringEn = {
  title: 'Measuring',
  pick: 'Who is standing here?',
  none: 'No open jobs. The front desk takes people in.',
  list: 'All jobs',
  find: 'Find by ticket or name',
  nothingFound: 'No job fits.',
  doing: {
    read: 'reading the gaps',
    knees: 'reading the knees',
    sent: 'boots sent to the bench',
  },
  yourTurn: 'Your turn',
  notYet: 'Not your turn',
  views: { ready: 'Make ready', stand: 'Stand', read: 'Read', result: 'Result' },
  railLabel: 'Steps of the measuring',

  readyLead: 'What was never stated is not assumed. Say how each boot is before a gap is read.',
  allExpected: (side: Side): string => `${Sided(side)} boot: all as expected`,
  allSaid: (side: Side): string => `${Sided(side)} boot: all said`,
  allExpectedHint: 'footbed in, no shell work, cuff at neutral, sole flat, nothing loose',
  itemColumn: 'Item',
  soleCant: 'Cant on the sole',
  soleCantUnknown: 'not recorded',
  settle: (side: Side, item: string): string => `${Sided(side)}: ${item}`,
  notAsked: 'not asked',
  describeBoots: 'Describe the boots',
  describeAgain: 'Correct the description',
  bootMissing: 'The boots are not described yet.',
  health: 'Pain, numbness, recent surgery or fracture, joint replacement, swelling?',
  healthChoices: { proceed: 'None: go on', refer: 'To a clinician first', stop: 'Stop' },
  healthTitle: 'Health',
  goStand: 'Both boots ready: stand the skier',
  goStandAnyway: 'Go on to the stance',
  cantAsk: 'Cant the sole was brought with',
  cantHint: 'outward (thick edge medial) is plus',
  cantFlat: 'Brought flat: 0°',
  cantNeutralised: 'Brought back to 0°',
  cantAsBrought: 'Canted as brought',
  foundAsk: 'Where do the pivots stand?',
  foundHint: 'millimetres from factory neutral, up is plus',
  enter: 'Enter',

  sayToSkier: 'Say to the skier',
  postureTitle: 'Does the skier stand like this?',
  posture: {
    parallel: { name: 'Boots parallel', detail: 'on the floor marks' },
    straightRunStance: { name: 'Own straight-run stance', detail: 'weight even, eyes ahead' },
    bucklesLight: { name: 'Buckles light, strap open', detail: 'heel seated' },
    midFlex: { name: 'Knees flexed', detail: 'shin and calf have equal room' },
  },
  asItShould: 'so',
  notSo: 'not so',
  postureGo: 'All four are so: read the gaps',
  postureGoNot: 'Read anyway: the posture is noted as not right',
  stanceWidth: 'Stance width',
  stanceHint: 'measured once, then held with the floor marks',
  stanceHeld: 'held from the last reading',
  widest: (side: Side): string => `${Sided(side)} leg widest at`,
  widestPlaces: { front: 'front', middle: 'middle', rear: 'rear' },
  to: 'Gap read to',
  surfaces: { shell: 'shell', liner: 'liner' },
  liner: 'Liner',
  linerStates: { in: 'in', out: 'out' },
  conditions: 'How it is read',
  standMissing: 'Still needed: stance width, and where each leg is widest.',

  gap: (side: Side, place: 'medial' | 'lateral'): string => `${Sided(side)} ${place} gap`,
  gapsOf: (side: Side): string => `${Sided(side)} leg`,
  expected: (mm: number): string => `expected ${shown(mm)}`,
  leanNow: (lean: string): string => `cuff ${lean}`,
  correction: 'Needs',
  lastRound: (expected: string, read: string): string => `Bias: expected ${expected}, read ${read}`,
  keypad: 'Gap in millimetres',
  half: '+ ½',
  halfOn: 'and a half: on for the next number',
  touches: 'The leg touches here',
  graze: 'Grazes',
  grazeHint: 'touches, no force',
  press: 'Presses',
  pressHint: 'pushed over',
  digits: '0–9',
  row: '0–20',
  erase: 'Clear',
  recordOne: (side: Side): string => `Record the ${side} leg`,
  recordBoth: 'Record both legs',
  unfinished: 'Both gaps of a leg belong together.',
  notNeeded: 'closed',

  toBench: 'Send to the bench',
  toBenchHint: (sides: readonly Side[]): string => sides.map((s) => `${s} boot`).join(' and '),
  withBench: 'With the bench. This screen shows when the pivots are set.',
  backToList: 'Next skier',
  readAgain: 'Read again',
  closeEven: (sides: readonly Side[]): string =>
    sides.length === 2 ? 'Close both cuffs: even' : `Close the ${sides[0]!} cuff: even`,
  decide: (side: Side): string => `Decide on the ${side} cuff`,
  otherwise: 'Otherwise',
  otherwiseTitle: (side: Side): string => `${Sided(side)} cuff`,
  accept: 'Accept it as it is',
  acceptHint: 'what is left over stays on record',
  otherBoot: 'Choose another boot',
  closeAnyway: 'Close it as even',
  note: 'Note',
  decided: { even: 'closed', accepted: 'accepted', 'other-boot': 'another boot' },
  stale: (why: readonly string[]): string => `Out of date: ${why.join('; ')}`,
  standing: 'Five minutes of standing: let the skier sit for a moment.',
  done: 'Both cuffs are closed.',
  study: 'How alike we read',
};
export const measuring: Words<typeof measuringEn> = inLanguage(measuringEn, german.measuring);

const verdictWordEn: Record<CuffVerdict, string> = {
  unread: 'not read',
  even: 'even',
  uneven: 'uneven',
  contact: 'pressed',
  'too-narrow': 'too narrow',
  'out-of-travel': 'out of travel',
};
export const verdictWord: Words<typeof verdictWordEn> = inLanguage(verdictWordEn, german.verdictWord);
export const verdictSign: Record<CuffVerdict, string> = {
  unread: '○',
  even: '●',
  uneven: '◐',
  contact: '◧',
  'too-narrow': '▣',
  'out-of-travel': '⊘',
};

const cuffSaysEn = {
  noReading: 'No gap read at this setting',
  same: 'Both gaps the same',
  wider: (place: Adjuster, mm: number): string =>
    `${place === 'medial' ? 'Medial' : 'Lateral'} gap wider by ${shown(mm)} mm`,
  mean: (where: string, repeats: number, spreadMm: number): string =>
    `${where}, mean of ${repeats} (spread ${shown(spreadMm)} mm)`,
  noCorrection: 'no correction',
  atLeast: (size: string): string => `at least ${size}`,
  between: (size: string, lowDeg: number, highDeg: number): string =>
    `${size} (${shown(lowDeg)} to ${shown(highDeg)}°)`,
  now: (chance: string): string => `${chance} now`,
  afterMove: (chance: string): string => `${chance} after the move`,
  even: (parts: readonly string[]): string => `Even: ${parts.join(', ')}`,
};
export const cuffSays: Words<typeof cuffSaysEn> = inLanguage(cuffSaysEn, german.cuffSays);

/** Where the leg stands in the cuff, in words before numbers. */
export function biasText({ reading }: CuffPlan): string {
  if (!reading) return cuffSays.noReading;
  const { biasMm, repeats, spreadMm } = reading;
  const where =
    Math.abs(biasMm) < 0.05
      ? cuffSays.same
      : cuffSays.wider(biasMm > 0 ? 'medial' : 'lateral', Math.abs(biasMm));
  return repeats > 1 ? cuffSays.mean(where, repeats, spreadMm ?? 0) : where;
}

/** The lean that would even the gaps, with the interval that holds it 9 times of 10: `1.1° outward (0.3 to 1.9°)`. */
export function correctionText({ correctionDeg, correctionSdDeg, bound }: CuffPlan): string | null {
  if (correctionDeg === null) return null;
  if (Math.abs(correctionDeg) < 0.05 && bound !== 'at-least') return cuffSays.noCorrection;
  const size = `${shown(Math.abs(correctionDeg))}° ${drawingSays.lean[leanWord(correctionDeg)]}`;
  if (bound === 'at-least') return cuffSays.atLeast(size);
  if (correctionSdDeg === null) return size;
  const half = Z90 * correctionSdDeg;
  const sign = correctionDeg < 0 ? -1 : 1;
  return cuffSays.between(size, sign * correctionDeg - half, sign * correctionDeg + half);
}

/** How sure it is that the cuff is even, now and after the move. */
export function chanceText(cuff: CuffPlan, moving: boolean): string | null {
  const now = cuff.chanceEven === null ? [] : [cuffSays.now(percent(cuff.chanceEven))];
  const after =
    cuff.chanceEvenAfter === null || !moving ? [] : [cuffSays.afterMove(percent(cuff.chanceEvenAfter))];
  return now.length + after.length === 0 ? null : cuffSays.even([...now, ...after]);
}

export const signedBias = (mm: number | null): string => (mm === null ? '–' : signed(mm));

const skierEn = {
  stand:
    'Stand as you glide straight ahead: heels back in the boots, weight on both feet, knees a little bent, and look at the wall.',
  standShort: 'Please stand as you glide straight ahead, and look at the wall.',
  closed: 'Both boots now stand as your legs do. You can step out.',
  set: (moves: readonly { readonly side: Side; readonly outward: boolean }[]): string =>
    `We set ${moves.map(({ side, outward }) => `the ${side} cuff a little further ${outward ? 'out' : 'in'}`).join(' and ')}. Please sit down and take ${moves.length === 2 ? 'both boots' : `the ${moves[0]!.side} boot`} off.`,
  again: 'Please stand in the boots once more: we look whether the leg now stands in the middle.',
  end: 'This boot cannot lean any further. We tell you what can be done.',
  even: 'The leg stands in the middle of the cuff. That is what we want.',
  afterCuffs:
    'Both cuffs now stand as your legs do. Please close the buckles as for skiing: next we look at your knees.',
  knees: 'Stand as you glide straight ahead, and hold the rail. Step on or off a wedge only when I say so.',
};
/** What is said to the skier: in every language, since it is the skier's and not the station's that counts. */
export const skier: Readonly<Record<Language, Words<typeof skierEn>>> = { en: skierEn, de: german.skier };

export interface SkierSpeech {
  readonly language: Language;
  readonly words: Words<typeof skierEn>;
}

/** The words for a skier who speaks this; for one whose language we do not have, the station's own. */
export function skierSpeech(speaks: string | undefined): SkierSpeech {
  const spoken = isLanguage(speaks) ? speaks : language;
  return { language: spoken, words: skier[spoken] };
}

/** To the skier: short and plain, one sentence for both legs. */
export function skierSentence(
  cuffs: Readonly<Record<Side, CuffPlan>>,
  closed: Readonly<Record<Side, boolean>>,
  words: Words<typeof skierEn> = skier[language],
): string {
  const open = (['left', 'right'] as const).filter((side) => !closed[side]);
  if (open.length === 0) return words.closed;
  const moving = open.filter((side) => moves(cuffs[side]));
  if (moving.length > 0)
    return words.set(moving.map((side) => ({ side, outward: (cuffs[side].correctionDeg ?? 0) >= 0 })));
  if (open.some((side) => cuffs[side].expected)) return words.again;
  if (open.some((side) => cuffs[side].verdict === 'unread')) return words.standShort;
  if (open.some((side) => cuffs[side].verdict === 'out-of-travel')) return words.end;
  if (open.every((side) => cuffs[side].verdict === 'even')) return words.even;
  return words.standShort;
}
