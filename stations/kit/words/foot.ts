/** Words of the foot: its landmarks, the room in the bare shell, and what is looked at before a boot is chosen. */
import type { Side } from '../../../core/index.ts';
import type { FootView, Landmark } from '../drawing/foot.ts';
import { isLandmark } from '../drawing/foot.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/foot.ts';

/** Beside the place on the map: short, as people call it. */
const landmarkShortEn: Record<Landmark, string> = {
  'great toe': 'big toe',
  'middle toes': 'toes',
  'little toe': 'little toe',
  'first metatarsal head': 'ball of the big toe',
  'fifth metatarsal head': 'sixth toe',
  instep: 'instep',
  'medial malleolus': 'inner ankle bone',
  navicular: 'navicular',
  arch: 'arch',
  'heel spur': 'heel spur',
  shin: 'shin',
  'lateral malleolus': 'outer ankle bone',
  'fifth metatarsal base': 'fifth met base',
  'heel bump': 'heel bump',
  'Achilles tendon': 'Achilles',
  calf: 'calf',
};
export const landmarkShort: Words<typeof landmarkShortEn> = inLanguage(landmarkShortEn, german.landmarkShort);

/** Where it is said in full. */
const landmarkWordEn: Record<Landmark, string> = {
  ...landmarkShortEn,
  'middle toes': 'middle toes',
  'first metatarsal head': 'ball of the big toe (first metatarsal head)',
  'fifth metatarsal head': 'sixth toe (fifth metatarsal head)',
  'medial malleolus': 'inner ankle bone (medial malleolus)',
  'heel spur': 'heel spur, under the heel',
  shin: 'shin, at the top of the tongue',
  'lateral malleolus': 'outer ankle bone (lateral malleolus)',
  'fifth metatarsal base': 'fifth met base (base of the fifth metatarsal)',
  'heel bump': 'heel bump, behind the heel',
  'Achilles tendon': 'Achilles tendon',
  calf: 'calf, at the top of the cuff',
};
export const landmarkWord: Words<typeof landmarkWordEn> = inLanguage(landmarkWordEn, german.landmarkWord);

/** A place that the record names: a landmark in this station's words, any other as somebody typed it. */
export const spotWord = (spot: string): string => (isLandmark(spot) ? landmarkWord[spot] : spot);

const spotSaysEn = {
  free: 'free',
  open: 'presses',
  worked: 'worked by the bench',
  target: (spot: string, state: string): string => `${spot}: ${state}`,
};
export const spotSays: Words<typeof spotSaysEn> = inLanguage(spotSaysEn, german.spotSays);
export const spotSign = { free: '', open: '!', worked: '✓' } as const;

const footViewEn: Record<FootView, string> = {
  above: 'from above',
  inner: 'inner side',
  outer: 'outer side',
};
export const footView: Words<typeof footViewEn> = inLanguage(footViewEn, german.footView);

/** The shop's words for the room behind the heel, by the plan's own. */
const bandWordEn: Readonly<Record<string, string>> = {
  'too short': 'too short',
  race: 'race fit',
  performance: 'performance fit',
  comfort: 'comfort fit',
  'too long': 'too long',
};
export const bandWord: Readonly<Record<string, string>> = inLanguage(bandWordEn, german.bandWord);

const fitEn = {
  title: 'Foot and shell fit',
  open: 'Foot and shell fit',
  which: 'Which foot',
  foot: (side: Side): string => `${Sided(side)} foot`,
  tabs: { fit: 'Shell fit', leg: 'Foot and leg' },
  tab: 'What is looked at',
  footLengthMm: 'Foot length',
  footWidthMm: 'Foot width',
  shellGapMm: 'Room behind the heel',
  shellGapHint: 'bare shell, toes lightly touching',
  notYet: 'not looked at',
  gapSays: (mm: number, band: string): string => `${shown(mm)} mm behind the heel: ${band}`,
  sizeSays: (size: number, over: number): string =>
    over === 0
      ? `Boot ${shown(size / 10)}: as long as this foot.`
      : `Boot ${shown(size / 10)}: ${shown(Math.abs(over))} mm ${over > 0 ? 'longer' : 'shorter'} than this foot.`,
  wantedSays: (size: number): string => `Size nearest to the longer foot: ${shown(size / 10)}.`,
  mapOf: (side: Side): string => `${Sided(side)} foot: where the shell presses`,
  mapHint: 'Touch each place where it presses.',
  spots: 'Where it presses',
  noSpots: 'Nowhere noted.',
  spotCount: (open: number, worked: number): string =>
    [
      ...(open > 0 ? [`${open} hot spot${open === 1 ? '' : 's'} open`] : []),
      ...(worked > 0 ? [`${worked} worked`] : []),
    ].join(', '),
  other: 'Another place',
  otherHint: 'in words, when it is not on the map',
  addOther: 'Add',
  record: (sides: readonly Side[]): string =>
    sides.length === 1 ? `Record the ${sides[0]!} foot` : 'Record both feet',
  nothing: 'Nothing new to record',
  kept: 'only what is changed is recorded anew',
  calfGirthMm: 'Calf girth',
  legLengthMm: 'Leg length',
  toeOutDeg: 'Toes out',
  toeOutHint: 'inward is minus',
  dorsiflexionBentDeg: 'Dorsiflexion, knee bent',
  dorsiflexionStraightDeg: 'Dorsiflexion, knee straight',
  forefoot: 'Forefoot',
  rearfoot: 'Rearfoot',
  shinCurve: 'Shin curve',
  wordsOrAngle: 'in words, or degrees as a number',
  arch: 'Arch',
  archHint: 'in words: low, high, drops when loaded',
  note: 'Note',
};
export const fit: Words<typeof fitEn> = inLanguage(fitEn, german.fit);
