/** Words of the foot, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../foot.ts';
import { Of } from './sides.ts';

export { landmarkShort, landmarkWord } from './landmarks.ts';

export const spotSays: typeof english.spotSays = {
  free: 'frei',
  open: 'drückt',
  worked: 'an der Werkbank bearbeitet',
  target: (spot, state) => `${spot}: ${state}`,
};

export const footView: typeof english.footView = {
  above: 'von oben',
  inner: 'Innenseite',
  outer: 'Außenseite',
};

export const bandWord: typeof english.bandWord = {
  'too short': 'zu kurz',
  race: 'Rennpassform',
  performance: 'sportliche Passform',
  comfort: 'bequeme Passform',
  'too long': 'zu lang',
};

export const fit: typeof english.fit = {
  title: 'Fuß und Sitz in der Schale',
  open: 'Fuß und Schale',
  which: 'Welcher Fuß',
  foot: (side) => `${Of(side, 'er')} Fuß`,
  tabs: { fit: 'Sitz in der Schale', leg: 'Fuß und Bein' },
  tab: 'Was angesehen wird',
  footLengthMm: 'Fußlänge',
  footWidthMm: 'Fußbreite',
  shellGapMm: 'Platz hinter der Ferse',
  shellGapHint: 'in der leeren Schale, Zehen berühren leicht',
  notYet: 'nicht angesehen',
  gapSays: (mm, band) => `${shown(mm)} mm hinter der Ferse: ${band}`,
  sizeSays: (size, over) =>
    over === 0
      ? `Schuh ${shown(size / 10)}: so lang wie dieser Fuß.`
      : `Schuh ${shown(size / 10)}: ${shown(Math.abs(over))} mm ${over > 0 ? 'länger' : 'kürzer'} als dieser Fuß.`,
  wantedSays: (size) => `Nächste Größe zum längeren Fuß: ${shown(size / 10)}.`,
  mapOf: (side) => `${Of(side, 'er')} Fuß: wo die Schale drückt`,
  mapHint: 'Jede Stelle antippen, an der es drückt.',
  spots: 'Wo es drückt',
  noSpots: 'Nichts notiert.',
  spotCount: (open, worked) =>
    [
      ...(open > 0 ? [`${open} Druckstelle${open === 1 ? '' : 'n'} offen`] : []),
      ...(worked > 0 ? [`${worked} bearbeitet`] : []),
    ].join(', '),
  other: 'Andere Stelle',
  otherHint: 'in Worten, wenn sie nicht im Bild ist',
  addOther: 'Dazu',
  record: (sides) => (sides.length === 1 ? `${Of(sides[0]!, 'en')} Fuß eintragen` : 'Beide Füße eintragen'),
  nothing: 'Nichts Neues einzutragen',
  kept: 'neu eingetragen wird nur, was geändert ist',
  calfGirthMm: 'Wadenumfang',
  legLengthMm: 'Beinlänge',
  toeOutDeg: 'Zehen nach außen',
  toeOutHint: 'nach innen ist minus',
  dorsiflexionBentDeg: 'Dorsalflexion, Knie gebeugt',
  dorsiflexionStraightDeg: 'Dorsalflexion, Knie gestreckt',
  forefoot: 'Vorfuß',
  rearfoot: 'Rückfuß',
  shinCurve: 'Schienbeinbogen',
  wordsOrAngle: 'in Worten, oder Grad als Zahl',
  arch: 'Gewölbe',
  archHint: 'in Worten: flach, hoch, sinkt unter Last',
  note: 'Notiz',
};
