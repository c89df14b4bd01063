/** Words for what a shop may set. What each means, and where a default comes from, is said by `core`. */
import { ENTERED_SETTINGS, SETTINGS } from '../../../core/index.ts';
import type { EnteredName, SettingName } from '../../../core/index.ts';
import { shown } from '../numbers.ts';

export type Name = SettingName | EnteredName;

/** As the table of settings has it; without a default it is to be entered. */
export interface Entry {
  readonly name: Name;
  readonly title: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly means: string;
  readonly standard: { readonly value: number; readonly from: string } | null;
}

const TITLES: Readonly<Record<Name, string>> = {
  gapErrorMm: 'Error of one gap reading',
  evenToleranceMm: 'Even within',
  gapSumAskMinMm: 'Cuff perhaps too narrow under',
  gapSumAskMaxMm: 'Cuff perhaps too wide over',
  offsetLimitMm: 'Offset at the pivots',
  responsePriorSd: 'Spread between models',
  bootSpreadSd: 'Spread between boots',
  stanceWidthPoolMm: 'One stance within',
  minHoleEdgeMm: 'Shell left at a pivot hole',
  kneeErrorMm: 'Error of one knee reading',
  kneeTargetMm: 'Where the knee shall stand',
  kneeSlopeShare: 'Share of the rigid leg',
  secondLookDeg: 'Second look over',
  maxCantDeg: 'No plate past',
  maxDifferenceDeg: 'Left and right apart by',
  plateStepDeg: 'Step of plates',
  minThinEdgeMm: 'Thin edge of a plate',
  minLugLeftMm: 'Lug left after routing',
  screwDiameterMm: 'Plate screws, diameter',
  screwHeadDepthMm: 'Plate screws, seat',
  screwMarginMm: 'Plate screws, margin',
  shellShortMm: 'Shell too short up to',
  shellRaceMm: 'Race fit up to',
  shellPerformanceMm: 'Performance fit up to',
  shellComfortMm: 'Comfort fit up to',
  raceStandMaxMm: 'Stand height',
  raceSoleMaxMm: 'Sole at the heel',
};

const GROUPS: readonly (readonly [title: string, names: readonly Name[]])[] = [
  [
    'Cuffs',
    [
      'gapErrorMm',
      'evenToleranceMm',
      'gapSumAskMinMm',
      'gapSumAskMaxMm',
      'offsetLimitMm',
      'stanceWidthPoolMm',
      'responsePriorSd',
      'bootSpreadSd',
      'minHoleEdgeMm',
    ],
  ],
  ['Shells', ['shellShortMm', 'shellRaceMm', 'shellPerformanceMm', 'shellComfortMm']],
  [
    'Knees and cants',
    ['kneeErrorMm', 'kneeTargetMm', 'kneeSlopeShare', 'secondLookDeg', 'maxCantDeg', 'maxDifferenceDeg'],
  ],
  [
    'Plates and soles',
    ['plateStepDeg', 'minThinEdgeMm', 'minLugLeftMm', 'screwDiameterMm', 'screwHeadDepthMm', 'screwMarginMm'],
  ],
  ['Racing', ['raceStandMaxMm', 'raceSoleMaxMm']],
];

function entryOf(name: Name): Entry {
  const title = TITLES[name];
  if (!(name in SETTINGS)) {
    const { unit, min, max, means } = ENTERED_SETTINGS[name as EnteredName];
    return { name, title, unit, min, max, means, standard: null };
  }
  const { default: value, unit, min, max, means, provenance } = SETTINGS[name as SettingName];
  return {
    name,
    title,
    unit: unit === '1' ? '' : unit,
    min,
    max,
    means,
    standard: { value, from: provenance },
  };
}

export const settingGroups = GROUPS.map(([title, names]) => ({ title, entries: names.map(entryOf) }));

const DIGITS = 4;
/** As it stands in its field. */
export const settingText = (value: number): string => shown(value, DIGITS);
const withUnit = (value: number, unit: string): string =>
  `${settingText(value)}${unit === '' ? '' : unit === '°' ? unit : ` ${unit}`}`;
const range = ({ min, max, unit }: Entry): string => `${settingText(min)} to ${withUnit(max, unit)}`;

export const settings = {
  title: 'What this shop works by',
  lead: 'A value is saved when you leave its field, and holds for sessions opened from then on. Sessions already begun keep theirs.',
  own: 'the shop’s own',
  ownCount: (n: number): string => `${n} of your own`,
  unsaved: '▲ not saved',
  groups: 'Kinds of settings',
  standard: (entry: Entry): string =>
    entry.standard === null
      ? `No default, since a wrong one would hurt: the maker’s figure or the shop’s own, ${range(entry)}.`
      : `Default ${withUnit(entry.standard.value, entry.unit)}, ${entry.standard.from}. ${range(entry)}.`,
  missing: 'not entered',
  back: (entry: Entry): string =>
    entry.standard === null ? 'Take it away' : `Back to ${withUnit(entry.standard.value, entry.unit)}`,
  saved: (value: number | null, entry: Entry): string =>
    value === null
      ? entry.standard === null
        ? 'Saved: none entered.'
        : 'Saved: the default.'
      : `Saved: ${withUnit(value, entry.unit)}.`,
  outside: (entry: Entry): string => `Must be ${range(entry)}. Not saved.`,
  notANumber: 'Not a number. Type digits, with a comma or a point. Not saved.',
  refused: (text: string): string => `${text} Not saved.`,
};
