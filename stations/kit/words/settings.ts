/** Words for what a shop may set. What each means, and where a default comes from, is said by `core`, in English. */
import { ENTERED_SETTINGS, SETTINGS } from '../../../core/index.ts';
import type { EnteredName, SettingName } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import * as german from './de/settings.ts';
import { planText } from './plan.ts';
import './plan-origins.ts';

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

const titlesEn: Record<Name, string> = {
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
export const titles: Words<typeof titlesEn> = inLanguage(titlesEn, german.titles);

const meansEn = Object.fromEntries(
  Object.entries({ ...SETTINGS, ...ENTERED_SETTINGS }).map(([name, { means }]) => [name, means]),
) as Record<Name, string>;
const meaning: Words<typeof meansEn> = inLanguage(meansEn, german.means);

const kindsEn = {
  cuffs: 'Cuffs',
  shells: 'Shells',
  knees: 'Knees and cants',
  soles: 'Plates and soles',
  racing: 'Racing',
};
export const kinds: Words<typeof kindsEn> = inLanguage(kindsEn, german.kinds);

const GROUPS: readonly (readonly [title: string, names: readonly Name[]])[] = [
  [
    kinds.cuffs,
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
  [kinds.shells, ['shellShortMm', 'shellRaceMm', 'shellPerformanceMm', 'shellComfortMm']],
  [
    kinds.knees,
    ['kneeErrorMm', 'kneeTargetMm', 'kneeSlopeShare', 'secondLookDeg', 'maxCantDeg', 'maxDifferenceDeg'],
  ],
  [
    kinds.soles,
    ['plateStepDeg', 'minThinEdgeMm', 'minLugLeftMm', 'screwDiameterMm', 'screwHeadDepthMm', 'screwMarginMm'],
  ],
  [kinds.racing, ['raceStandMaxMm', 'raceSoleMaxMm']],
];

function entryOf(name: Name): Entry {
  const title = titles[name];
  if (!(name in SETTINGS)) {
    const { unit, min, max } = ENTERED_SETTINGS[name as EnteredName];
    return { name, title, unit, min, max, means: meaning[name], standard: null };
  }
  const { default: value, unit, min, max, provenance } = SETTINGS[name as SettingName];
  return {
    name,
    title,
    unit: unit === '1' ? '' : unit,
    min,
    max,
    means: meaning[name],
    standard: { value, from: planText(provenance) },
  };
}

export const settingGroups = GROUPS.map(([title, names]) => ({ title, entries: names.map(entryOf) }));

const DIGITS = 4;
/** As it stands in its field. */
export const settingText = (value: number): string => shown(value, DIGITS);
const withUnit = (value: number, unit: string): string =>
  `${settingText(value)}${unit === '' ? '' : unit === '°' ? unit : ` ${unit}`}`;
const plainEn = {
  title: 'What this shop works by',
  lead: 'A value is saved when you leave its field, and holds for sessions opened from then on. Sessions already begun keep theirs.',
  own: 'the shop’s own',
  ownCount: (n: number): string => `${n} of your own`,
  unsaved: '▲ not saved',
  groups: 'Kinds of settings',
  range: (min: string, max: string): string => `${min} to ${max}`,
  noStandard: (range: string): string =>
    `No default, since a wrong one would hurt: the maker’s figure or the shop’s own, ${range}.`,
  standard: (value: string, from: string, range: string): string => `Default ${value}, ${from}. ${range}.`,
  missing: 'not entered',
  takeAway: 'Take it away',
  backTo: (value: string): string => `Back to ${value}`,
  savedNone: 'Saved: none entered.',
  savedStandard: 'Saved: the default.',
  savedValue: (value: string): string => `Saved: ${value}.`,
  outside: (range: string): string => `Must be ${range}. Not saved.`,
  notANumber: 'Not a number. Type digits, with a comma or a point. Not saved.',
  refused: (text: string): string => `${text} Not saved.`,
};
export const plain: Words<typeof plainEn> = inLanguage(plainEn, german.plain);

const range = ({ min, max, unit }: Entry): string => plain.range(settingText(min), withUnit(max, unit));

/** The words of a setting's field. */
export const settings = {
  ...plain,
  standard: (entry: Entry): string =>
    entry.standard === null
      ? plain.noStandard(range(entry))
      : plain.standard(withUnit(entry.standard.value, entry.unit), entry.standard.from, range(entry)),
  back: (entry: Entry): string =>
    entry.standard === null ? plain.takeAway : plain.backTo(withUnit(entry.standard.value, entry.unit)),
  saved: (value: number | null, entry: Entry): string => {
    if (value !== null) return plain.savedValue(withUnit(value, entry.unit));
    return entry.standard === null ? plain.savedNone : plain.savedStandard;
  },
  outside: (entry: Entry): string => plain.outside(range(entry)),
};
