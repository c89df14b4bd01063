/** The name of each number of a plan, as the “Why?” dialog lists it. */
import type { Explanation, NumberPath, SidePlan, Unit } from '../../../core/index.ts';
import { percent, shown } from '../numbers.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/why-numbers.ts';

export type Path = NumberPath<SidePlan>;

const travel = (adjuster: string) => ({
  min: `${adjuster} adjuster: lowest`,
  max: `${adjuster} adjuster: highest`,
  stop: `${adjuster} adjuster: a place it can stand at`,
});
const [lateral, medial] = [travel('Lateral'), travel('Medial')];

const screwsOf = (zone: string, edge: string) => ({
  [`sole.screws.${zone}.${edge}.minMm`]: `Screw, ${zone} ${edge}: shortest`,
  [`sole.screws.${zone}.${edge}.maxMm`]: `Screw, ${zone} ${edge}: longest`,
  [`sole.screws.${zone}.${edge}.usefulMm`]: `Screw, ${zone} ${edge}: longer adds no grip`,
});

const raceOf = <P extends 'standHeightMm' | 'soleHeightMm'>(place: P, what: string) =>
  ({
    [`sole.racing.${place}.isMm`]: `${what}: is`,
    [`sole.racing.${place}.maxMm`]: `${what}: most allowed in a race`,
    [`sole.racing.${place}.roomMm`]: `${what}: what may be added`,
  }) as Record<`sole.racing.${P}.${'isMm' | 'maxMm' | 'roomMm'}`, string>;

const plateOf = <Z extends 'toe' | 'heel'>(zone: Z) =>
  ({
    [`sole.plate.${zone}.thinEdgeMm`]: `Plate at the ${zone}: thin edge`,
    [`sole.plate.${zone}.thickEdgeMm`]: `Plate at the ${zone}: thick edge`,
    [`sole.plate.${zone}.centreMm`]: `Plate at the ${zone}: centre`,
    [`sole.plate.${zone}.medialMm`]: `Plate at the ${zone}: medial edge`,
    [`sole.plate.${zone}.lateralMm`]: `Plate at the ${zone}: lateral edge`,
    [`sole.planing.${zone}.medialMm`]: `Planed off the ${zone}: medial edge`,
    [`sole.planing.${zone}.lateralMm`]: `Planed off the ${zone}: lateral edge`,
    [`sole.planing.${zone}.centreMm`]: `Planed off the ${zone}: centre`,
    ...screwsOf(zone, 'medial'),
    ...screwsOf(zone, 'lateral'),
    [`sole.rout.${zone}.medialMm`]: `Routing depth, ${zone}, medial`,
    [`sole.rout.${zone}.lateralMm`]: `Routing depth, ${zone}, lateral`,
    [`sole.lugLeft.${zone}.medialMm`]: `Left of the lug, ${zone}, medial`,
    [`sole.lugLeft.${zone}.lateralMm`]: `Left of the lug, ${zone}, lateral`,
  }) as Record<
    | `sole.plate.${Z}.${'thinEdgeMm' | 'thickEdgeMm' | 'centreMm' | 'medialMm' | 'lateralMm'}`
    | `sole.planing.${Z}.${'medialMm' | 'lateralMm' | 'centreMm'}`
    | `sole.screws.${Z}.${'medial' | 'lateral'}.${'minMm' | 'maxMm' | 'usefulMm'}`
    | `sole.${'rout' | 'lugLeft'}.${Z}.${'medialMm' | 'lateralMm'}`,
    string
  >;

const numberWordEn: Readonly<Record<Path, string>> = {
  'fit.mondoMm': 'Size of the boot',
  'fit.footMm': 'Length of this foot',
  'fit.pairMm': 'Mondopoint: length of the longer foot',
  'fit.wantedMm': 'Nearest size',
  'fit.overMm': 'Boot longer than this foot by',
  'fit.shellGapMm': 'Room behind the heel in the bare shell',
  'cuff.hardware.pivotSpacingMm': 'Pivots apart',
  'cuff.hardware.readingHeightMm': 'Gaps are read this high above the pivots',
  'cuff.hardware.factoryLeanDeg': 'Lean of the cuff at factory neutral',
  'cuff.hardware.markMm': 'One mark',
  'cuff.hardware.lateral.minMm': lateral.min,
  'cuff.hardware.lateral.maxMm': lateral.max,
  'cuff.hardware.lateral.stops.*.mm': lateral.stop,
  'cuff.hardware.medial.minMm': medial.min,
  'cuff.hardware.medial.maxMm': medial.max,
  'cuff.hardware.medial.stops.*.mm': medial.stop,
  'cuff.set.medialMm': 'Medial adjuster stands at',
  'cuff.set.lateralMm': 'Lateral adjuster stands at',
  'cuff.leanDeg': 'Lean of the cuff now',
  'cuff.reading.medialMm': 'Medial gap as read',
  'cuff.reading.lateralMm': 'Lateral gap as read',
  'cuff.reading.biasMm': 'Bias as read: medial gap less lateral gap',
  'cuff.reading.repeats': 'Readings taken together',
  'cuff.reading.spreadMm': 'Spread of these readings',
  'cuff.biasMm': 'Bias as best known now',
  'cuff.biasSdMm': 'Deviation of the bias',
  'cuff.correctionDeg': 'Correction: lean that would even the gaps',
  'cuff.correctionSdDeg': 'Deviation of the correction',
  'cuff.target.medialMm': 'Medial adjuster: where to',
  'cuff.target.lateralMm': 'Lateral adjuster: where to',
  'cuff.target.leanDeg': 'Lean after the move',
  'cuff.move.medialMm': 'Medial adjuster: how far',
  'cuff.move.lateralMm': 'Lateral adjuster: how far',
  'cuff.move.medialMarks': 'Medial adjuster: how many marks',
  'cuff.move.lateralMarks': 'Lateral adjuster: how many marks',
  'cuff.predicted.medialMm': 'Medial gap after the move',
  'cuff.predicted.lateralMm': 'Lateral gap after the move',
  'cuff.expected.medialMm': 'Medial gap to expect now',
  'cuff.expected.lateralMm': 'Lateral gap to expect now',
  'cuff.chanceEven': 'Chance that the cuff is even now',
  'cuff.chanceEvenAfter': 'Chance that the move evens it',
  'cuff.response.k': 'Response: how much of a lean reaches the leg',
  'cuff.response.sd': 'Deviation of the response',
  'cuff.shortBy.leanDeg': 'Lean missing at the end of the travel',
  'cuff.shortBy.biasMm': 'Bias left at the end of the travel',
  'cuff.shortBy.pivotMm': 'Pivot travel missing',
  'cuff.extension.lateral.byMm': 'Lateral slot: longer by',
  'cuff.extension.lateral.edgeLeftMm': 'Lateral slot: left to the edge',
  'cuff.extension.medial.byMm': 'Medial slot: longer by',
  'cuff.extension.medial.edgeLeftMm': 'Medial slot: left to the edge',
  'cuff.extension.leastEdgeMm': 'Least that must be left to the edge',
  'cuff.extension.shortMm': 'Travel missing even so',
  'cuff.twoHeights.angleDeg': 'Angle between leg and cuff',
  'cuff.twoHeights.offsetMm': 'Leg beside the cuff, at the pivots',
  'cuff.twoHeights.offsetSdMm': 'Deviation of that offset',
  'cuff.twoHeights.parallel.correctionDeg': 'Correction for a cuff parallel to the leg',
  'cuff.twoHeights.parallel.target.medialMm': 'Parallel: medial adjuster at',
  'cuff.twoHeights.parallel.target.lateralMm': 'Parallel: lateral adjuster at',
  'cuff.twoHeights.parallel.target.leanDeg': 'Parallel: lean',
  'cuff.twoHeights.parallel.predicted.medialMm': 'Parallel: medial gap',
  'cuff.twoHeights.parallel.predicted.lateralMm': 'Parallel: lateral gap',
  'cuff.rounds.*.set.medialMm': 'Round: medial adjuster at',
  'cuff.rounds.*.set.lateralMm': 'Round: lateral adjuster at',
  'cuff.rounds.*.medialMm': 'Round: medial gap',
  'cuff.rounds.*.lateralMm': 'Round: lateral gap',
  'cuff.rounds.*.biasMm': 'Round: bias',
  'cuff.rounds.*.predictedBiasMm': 'Round: bias expected before it was read',
  'stance.offsetMm': 'Knee from the line, standing flat',
  'stance.slopeMmPerDeg': 'How far a degree of cant moves the knee',
  'stance.cantDeg': 'Cant that puts the knee on the line',
  'stance.cantSdDeg': 'Deviation of the cant',
  'stance.cantRange.lowDeg': 'Cant: 9 times of 10 at least',
  'stance.cantRange.highDeg': 'Cant: 9 times of 10 at most',
  'stance.roundedDeg': 'Cant in whole steps',
  'stance.nextWedgeDeg': 'Wedge to try next',
  'sole.cantDeg': 'Cant under the boot now',
  ...plateOf('toe'),
  ...plateOf('heel'),
  'sole.planing.lifterMm': 'Flat lifter under the planed sole',
  'sole.standHeightMm': 'How much higher the boot stands',
  'sole.wantedStand.overMm': 'How much higher than the other it is to stand',
  ...raceOf('standHeightMm', 'From the ski to the sole'),
  ...raceOf('soleHeightMm', 'Sole’s height at the heel'),
  'sole.failures.*.is': 'Finished sole: is',
  'sole.failures.*.min': 'Finished sole: least allowed',
  'sole.failures.*.max': 'Finished sole: most allowed',
  'foreAft.rampDeg': 'Ramp inside the boot',
  'foreAft.deltaDeg': 'Delta of the binding',
  'foreAft.netRampDeg': 'Ramp in all',
  'foreAft.netForwardLeanDeg': 'Forward lean in all',
  'foreAft.degPerHeelMm': 'Degrees for each millimetre at the heel',
};
export const numberWord: Words<typeof numberWordEn> = inLanguage(numberWordEn, german.numberWord);

/** `sides.left.cuff.rounds.0.biasMm` as a key of `numberWord`. */
export const pathOf = ({ path }: Explanation): Path =>
  path
    .split('.')
    .slice(2)
    .map((step) => (/^\d+$/.test(step) ? '*' : step))
    .join('.') as Path;

/** Name of a number; those of a list are counted from one. */
export function nameOf(explanation: Explanation): string {
  const index = /\.(\d+)\./.exec(explanation.path)?.[1];
  const name = numberWord[pathOf(explanation)];
  return index === undefined ? name : `${name} (${Number(index) + 1})`;
}

const DIGITS = 2;

/** A value with its unit; a chance in per cent. */
export function valueText(value: number, unit: Unit, path?: Path): string {
  if (path?.startsWith('cuff.chance')) return percent(value);
  const text = shown(value, DIGITS);
  return unit === '1' ? text : unit === '°' ? `${text}°` : `${text} ${unit}`;
}
