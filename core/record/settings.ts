/**
 * What a shop may set, with its default, bounds and where the default comes from. A session pins the values
 * it was opened with (`settings.used`), so that its numbers never change under it.
 */

interface Setting {
  readonly default: number;
  readonly min: number;
  readonly max: number;
  readonly unit: 'mm' | '°' | '1';
  readonly means: string;
  readonly provenance: string;
}

const TABLE = {
  gapErrorMm: {
    default: 1.5,
    min: 0.2,
    max: 6,
    unit: 'mm',
    means: 'standard deviation of one gap reading',
    provenance: "from memory; replaced by the shop's own repeatability study",
  },
  evenToleranceMm: {
    default: 3,
    min: 0.5,
    max: 10,
    unit: 'mm',
    means: 'a bias of at most this is even',
    provenance: 'common practice, no source',
  },
  gapSumAskMinMm: {
    default: 4,
    min: 0,
    max: 40,
    unit: 'mm',
    means: 'a smaller sum of both gaps is asked about: the cuff may be too narrow',
    provenance: 'from memory, low',
  },
  gapSumAskMaxMm: {
    default: 30,
    min: 5,
    max: 120,
    unit: 'mm',
    means: 'a larger sum of both gaps is asked about: the cuff may be too wide',
    provenance: 'from memory, low',
  },
  offsetLimitMm: {
    default: 3,
    min: 0.5,
    max: 15,
    unit: 'mm',
    means: 'an offset at the pivot line of at most this lets even gap and parallel cuff agree',
    provenance: 'from memory',
  },
  responsePriorSd: {
    default: 0.2,
    min: 0.01,
    max: 0.5,
    unit: '1',
    means: 'spread of the response of boot models before any evidence',
    provenance: 'from memory',
  },
  bootSpreadSd: {
    default: 0.1,
    min: 0.01,
    max: 0.5,
    unit: '1',
    means: 'spread of the response between boots of one model',
    provenance: 'from memory',
  },
  kneeErrorMm: {
    default: 5,
    min: 0.5,
    max: 20,
    unit: 'mm',
    means: 'standard deviation of one knee offset reading',
    provenance:
      'a frontal-plane inclinometer with a standard error of 0.7° (Tse et al. 2021, Phys Ther, doi 10.1093/ptj/pzab091) at 468 mm is 5.7 mm',
  },
  kneeTargetMm: {
    default: -4,
    min: -20,
    max: 20,
    unit: 'mm',
    means: 'where the knee centre shall stand, lateral of the line positive',
    provenance: 'from memory, low',
  },
  kneeSlopeShare: {
    default: 0.75,
    min: 0.1,
    max: 1,
    unit: '1',
    means: 'share of the rigid leg’s knee movement that a cant is expected to give',
    provenance: 'from memory, low; 1 is the rigid leg',
  },
  plateStepDeg: {
    default: 0.5,
    min: 0.1,
    max: 2,
    unit: '°',
    means: 'step in which plates come',
    provenance: 'common practice, no source',
  },
  secondLookDeg: {
    default: 2,
    min: 0.5,
    max: 6,
    unit: '°',
    means: 'over this a second technician looks',
    provenance: 'from memory, medium',
  },
  maxCantDeg: {
    default: 3,
    min: 0.5,
    max: 6,
    unit: '°',
    means: 'past this no plate is proposed',
    provenance: 'from memory, medium',
  },
  maxDifferenceDeg: {
    default: 1.5,
    min: 0.5,
    max: 6,
    unit: '°',
    means: 'left and right further apart than this are questioned',
    provenance: 'from memory, medium',
  },
  minThinEdgeMm: {
    default: 3,
    min: 0,
    max: 15,
    unit: 'mm',
    means: 'least thickness of a plate at its thin edge',
    provenance: 'from memory, low; screw-head depth + 1 mm when that is more',
  },
  shellShortMm: {
    default: 5,
    min: 0,
    max: 60,
    unit: 'mm',
    means: 'a gap behind the heel in the bare shell of at most this is too short',
    provenance: 'common practice, no source; figure from memory, low',
  },
  shellRaceMm: {
    default: 10,
    min: 0,
    max: 60,
    unit: 'mm',
    means: 'up to this the shell gap is a race fit',
    provenance: 'common practice, no source; figure from memory, low',
  },
  shellPerformanceMm: {
    default: 15,
    min: 0,
    max: 60,
    unit: 'mm',
    means: 'up to this the shell gap is a performance fit',
    provenance: 'common practice, no source; figure from memory, low',
  },
  shellComfortMm: {
    default: 20,
    min: 0,
    max: 60,
    unit: 'mm',
    means: 'up to this the shell gap is a comfort fit; over it the shell is too long',
    provenance: 'common practice, no source; figure from memory, low',
  },
  stanceWidthPoolMm: {
    default: 10,
    min: 1,
    max: 50,
    unit: 'mm',
    means: 'readings at stance widths further apart are not pooled',
    provenance: 'computed: keeps the bias that it causes under the reading error',
  },
} as const satisfies Record<string, Setting>;

export type SettingName = keyof typeof TABLE;

/** Each of these is less than the next: bands and ends of ranges. */
export const RISING: readonly (readonly SettingName[])[] = [
  ['gapSumAskMinMm', 'gapSumAskMaxMm'],
  ['shellShortMm', 'shellRaceMm', 'shellPerformanceMm', 'shellComfortMm'],
];
/** One value for each setting. */
export type Settings = { readonly [K in SettingName]: number };

export const SETTINGS: Readonly<Record<SettingName, Setting>> = TABLE;
export const SETTING_NAMES = Object.keys(TABLE) as SettingName[];

/**
 * Figures that have no default, since a wrong one would hurt: the maker's or the shop's own must be entered.
 */
const ENTERED = {
  minLugLeftMm: { min: 0, max: 40, unit: 'mm', means: 'least lug thickness left after routing' },
  screwDiameterMm: { min: 1, max: 10, unit: 'mm', means: 'outer thread diameter of the plate screws' },
  screwHeadDepthMm: {
    min: 0,
    max: 20,
    unit: 'mm',
    means: 'how deep the seat of a plate screw’s head lies in the plate; 0: on top',
  },
  screwMarginMm: {
    min: 0,
    max: 20,
    unit: 'mm',
    means: 'least material between a plate screw’s point and the inside of the boot',
  },
  raceStandMaxMm: {
    min: 10,
    max: 150,
    unit: 'mm',
    means:
      'most height from ski to sole in the rules of this season; without it a second-hand figure, said to be one',
  },
  raceSoleMaxMm: {
    min: 10,
    max: 150,
    unit: 'mm',
    means:
      'most height of the sole at the heel in the rules of this season; without it a second-hand figure, said to be one',
  },
  minHoleEdgeMm: { min: 0, max: 40, unit: 'mm', means: 'least shell left between a pivot hole and an edge' },
} as const;

export type EnteredName = keyof typeof ENTERED;
export const ENTERED_SETTINGS: Readonly<
  Record<EnteredName, { min: number; max: number; unit: 'mm'; means: string }>
> = ENTERED;
export const ENTERED_NAMES = Object.keys(ENTERED) as EnteredName[];

export const DEFAULT_SETTINGS = Object.fromEntries(
  SETTING_NAMES.map((name) => [name, TABLE[name].default]),
) as Settings;
