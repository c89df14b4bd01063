/** Words of what is read beside the two gaps, in German. */
import { shown, signed } from '../../numbers.ts';
import type * as english from '../further.ts';
import { Of } from './sides.ts';

export const further: typeof english.further = {
  open: 'Tiefer, Schienbein, Wade',
  openHint: 'nur auf Wunsch',
  title: 'Neben den beiden Spalten',
  leg: (side) => `${Of(side, 'es')} Bein`,
  fields: {
    lowerHeight: 'Untere Höhe',
    lowerMedial: 'Unterer Spalt innen',
    lowerLateral: 'Unterer Spalt außen',
    shin: 'Platz am Schienbein',
    calf: 'Platz an der Wade',
  },
  heightHint: (mm) => `über den Drehpunkten; gemessen wird sonst bei ${shown(mm)} mm`,
  near: (mm) =>
    `Weniger als ${mm} mm unter der üblichen Höhe: Neigung und Versatz lassen sich nicht trennen.`,
  contact: 'Berührt an der unteren Höhe',
  contacts: { none: 'nirgends', medial: 'innen', lateral: 'außen', both: 'beide' },
  pressure: 'Wie stark',
  pressures: { graze: 'streift', press: 'drückt' },
  whole: 'zur unteren Höhe gehören beide Spalte und wo sie liegt',
  done: 'Zurück zu den Spalten',
  doneHint: 'wird mit ihnen eingetragen',
  lowerSays: (medialMm, lateralMm, heightMm) =>
    `innen ${shown(medialMm)}, außen ${shown(lateralMm)} bei ${shown(heightMm)} mm`,
  shinSays: (mm) => `Schienbein ${shown(mm)}`,
  calfSays: (mm) => `Wade ${shown(mm)}`,
};

export const twoHeights: typeof english.twoHeights = {
  title: 'Zwei Höhen',
  agree: (lean) => `Beide Höhen stimmen überein: Das Bein steht zum Schaft ${lean}.`,
  disagree: (even, parallel) =>
    `Zwei Antworten: gleiche Spalte brauchen ${even}, ein zum Bein paralleler Schaft ${parallel}.`,
  agreeShort: 'Beide Höhen stimmen überein.',
  parallelShort: (parallel) => `Paralleler Schaft: ${parallel}`,
  offset: (mm, halfMm) =>
    `Versatz an den Drehpunkten ${signed(mm)} mm, auf ${shown(halfMm)} mm genau (außen ist plus).`,
  parallelAt: (pivots) => `Parallel mit den Drehpunkten bei ${pivots}.`,
  none: 'keine Korrektur',
};
