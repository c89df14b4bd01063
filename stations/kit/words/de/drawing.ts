/** What the drawing says, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../drawing.ts';
import { Of, place, Sided } from './sides.ts';

export const drawing: typeof english.drawing = {
  title: 'Beide Beine',
  caption: {
    front: 'Blick auf den Skifahrer: Sein rechtes Bein ist links im Bild.',
    behind: 'Von hinten: Das rechte Bein des Skifahrers ist rechts im Bild.',
  },
  turn: { front: 'Von hinten ansehen', behind: 'Wieder von vorn ansehen' },
  letter: (side) => (side === 'left' ? 'L' : 'R'),
  asIs: 'wie es ist',
  recommended: 'empfohlen',
  expected: 'erwartet',
  inset: (times) => [`${times}-fach`],
  lateral: 'außen',
  medial: 'innen',
  toe: 'Zehe',
  outsideOf: (side, adjuster) =>
    `${Of(side, 'er')} Schuh, von ${adjuster === 'lateral' ? 'außen' : 'innen'} gesehen`,
  seenFrom: (adjuster) => (adjuster === 'lateral' ? 'Außenseite' : 'Innenseite'),
  upsideDown: 'oben ist ↓',
  adjuster: (adjuster) => `Versteller ${place(adjuster)}`,
  was: 'war',
  now: 'jetzt',
  to: 'auf',
  stays: 'bleibt',
};

export const drawingSays: typeof english.drawingSays = {
  lean: { outward: 'nach außen', inward: 'nach innen', upright: 'aufrecht' },
  leanUnknown: 'Neigung unbekannt',
  neutral: 'neutral',
  up: (mm) => `${shown(mm, 2)} mm hoch`,
  down: (mm) => `${shown(mm, 2)} mm tief`,
  atMark: (where, label) => `${where} (Strich ${label})`,
  presses: 'drückt',
  grazes: 'streift',
  side: (side, said) => `${Sided(side)}: ${said.join('; ')}`,
  noBoot: (side) => `${Sided(side)}: Schuh noch nicht beschrieben.`,
  cantUnknown: 'Canting der Sohle nicht eingetragen',
  soleFlat: 'Sohle flach',
  soleCanted: (lean) => `Sohle kippt ${lean}`,
  cuff: (lean) => `Schaft ${lean}`,
  pivotsUnknown: 'Stellung der Drehpunkte nicht eingetragen',
  pivot: (adjuster, position) => `Drehpunkt ${place(adjuster)} bei ${position}`,
  gapsExpected: (medialMm, lateralMm) =>
    `Spalte erwartet: innen ${shown(medialMm)} mm, außen ${shown(lateralMm)} mm`,
  gapsRead: (medialMm, lateralMm) =>
    `Spalte gemessen: innen ${shown(medialMm)} mm, außen ${shown(lateralMm)} mm`,
  gapsUnread: 'Spalte nicht gemessen',
  recommended: (move) => `empfohlen: ${move}`,
};
