/** Words of measuring a boot model here, and of where the limits of soles come from. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import * as german from './de/measured.ts';

type Name =
  | 'spacing'
  | 'height'
  | 'lean'
  | 'lateralUp'
  | 'lateralDown'
  | 'medialUp'
  | 'medialDown'
  | 'mark'
  | 'edge'
  | 'toeWidth'
  | 'heelWidth'
  | 'zones'
  | 'material';

const names: Record<Name, string> = {
  spacing: 'Pivot spacing',
  height: 'Reading height',
  lean: 'Factory lean',
  lateralUp: 'Lateral adjuster, up',
  lateralDown: 'Lateral adjuster, down',
  medialUp: 'Medial adjuster, up',
  medialDown: 'Medial adjuster, down',
  mark: 'One mark',
  edge: 'Hole to edge',
  toeWidth: 'Sole width at the toe',
  heelWidth: 'Sole width at the heel',
  zones: 'Between the zones',
  material: 'Material of the sole',
};

const how: Record<Name, string> = {
  spacing:
    'Across the boot, from the centre of one pivot to the centre of the other; over the outer edges of both bolts, less one bolt’s width.',
  height:
    'From the line through both pivots straight up to where the gaps are read, the upper edge of the cuff at its side.',
  lean: 'From behind, both pivots at factory neutral, sole flat: how far the cuff’s centre line leans from upright. Outward is plus.',
  lateralUp: 'From factory neutral to the upper end of the slot, along the slot: the bolt’s centre at both.',
  lateralDown:
    'From factory neutral to the lower end of the slot, along the slot: the bolt’s centre at both.',
  medialUp: 'On the inner side, from factory neutral to the upper end of the slot.',
  medialDown: 'On the inner side, from factory neutral to the lower end of the slot.',
  mark: 'Over as many marks as there are, then divided by their number. Leave it out where marks are unequal, and type the places at the end.',
  edge: 'From the end of the slot to the nearest edge of the shell: what is left if it were cut longer.',
  toeWidth: 'Across the sole where the binding holds the toe, edge to edge.',
  heelWidth: 'Across the sole where the binding holds the heel, edge to edge.',
  zones: 'Along the sole, from the middle of the toe’s bearing zone to the middle of the heel’s.',
  material:
    'From the underside of the sole up to the inside of the boot, at its thinnest: with long jaws, or depth inside and height outside.',
};

const measuredEn = {
  open: 'Measure a model here',
  title: 'A boot model, measured here',
  lead: 'One number after the other, each taken twice: the jaws come off in between. Use a new boot, or one whose pivots and sole nobody has worked on.',
  by: 'Measured by, initials',
  start: 'Begin to measure',
  startMissing: 'Still needed: the model, who measures, and its pivot hardware.',
  names,
  how,
  pictures: {
    rear: 'The boot from behind.',
    side: 'The boot from the side.',
    slot: 'One adjuster from its own side, with its slot and marks.',
    sole: 'The sole from below, toe to the right.',
    cut: 'A cut through shell and sole.',
  },
  step: (at: number, of: number): string => `Number ${at} of ${of}`,
  first: 'First time',
  second: 'Second time',
  secondHint: 'Take the jaws off and put them on anew.',
  covered: 'The first one is covered until the second is in.',
  next: 'On to the next',
  skip: 'Leave it unknown',
  missing: 'Measure it twice, or leave it unknown where that is possible.',
  apart: (apart: number, usual: number, unit: string): string =>
    `The two are ${shown(apart, 2)} ${unit} apart; more than ${shown(usual, 2)} ${unit} is unusual here. Did the jaws sit alike?`,
  again: 'Measure both again',
  keepMean: (mean: number, unit: string): string => `It is so: keep ${shown(mean, 2)} ${unit}`,
  back: 'One step back',
  summary: 'What was measured',
  unknown: 'not measured',
  value: (mean: number, apart: number, unit: string): string =>
    `${shown(mean, 2)} ${unit}, two readings ${shown(apart, 2)} ${unit} apart`,
  placesLead: 'Only where an adjuster has places that are no equal marks:',
  placesWrong: 'Places cannot be read like this: A −4; B 0; C 3.5, each label once.',
  keep: 'Keep it in the catalogue',
  source: (by: string, day: string): string => `measured here by ${by} on ${day}, each number twice`,
  caution: 'A maker’s own figure goes before one measured here. Where work may hurt the boot, ask the maker.',
};
export const measured: Words<typeof measuredEn> = inLanguage(measuredEn, german.measured);

const standardsEn = {
  title: 'Limits of soles, and where they come from',
  lead: 'A finished sole is held against these. A figure that nobody has is not checked, and that is said. Compare with your own copy of the standard; the maker’s instructions and a certified technician go before this table.',
  standard: 'Sole',
  place: 'Where',
  limit: 'Limit',
  from: 'Where it comes from',
  places: {
    toeHeight: 'toe, height of the lug',
    toeWidth: 'toe, width',
    heelHeight: 'heel, height of the lug',
    heelWidth: 'heel, width',
  },
  parallel: 'how parallel both edges are',
  range: (min: number, max: number): string => `${shown(min)} to ${shown(max)} mm`,
  none: 'nobody has one: not checked',
  noneOf: (places: string): string => `No limit is known for: ${places}. Not checked.`,
  shopTitle: 'The shop’s own figures for work at the sole',
  shopNone: 'not entered: nothing is told that needs it',
  entered: (by: string, when: string): string => `entered at ${by}, ${when}`,
  enteredBefore: 'the shop’s own; who entered it was not noted then',
  instead: (was: string): string => `before: ${was}`,
  corner: 'They are entered in the locked corner, under “Settings”.',
};
export const standards: Words<typeof standardsEn> = inLanguage(standardsEn, german.standards);
