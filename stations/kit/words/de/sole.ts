/** Words of the work under a boot, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../sole.ts';
import { of, Of } from './sides.ts';

export const sole: typeof english.sole = {
  hold: 'eine Sekunde gedrückt halten',
  holding: 'weiter halten',
  notAgreed: 'erst, wenn das Einverständnis des Besitzers im Protokoll steht: an der Theke fragen',
  nothingTold: 'für diese Sohle ist noch nichts vorgegeben',

  seenFrom: (side, from) =>
    from === 'above'
      ? `${Of(side, 'e')} Sohle von oben, Zehen oben`
      : `${Of(side, 'e')} Sohle von unten, wie sie kopfüber liegt, Zehen oben`,
  toe: 'Zehe',
  heel: 'Ferse',
  medial: 'innen',
  lateral: 'außen',
  corners: {
    'toe.medial': 'Zehe innen',
    'toe.lateral': 'Zehe außen',
    'heel.medial': 'Ferse innen',
    'heel.lateral': 'Ferse außen',
  },
  plateTitle: 'Platte, Dicke in mm',
  planeTitle: 'Plan abnehmen, mm',
  routTitle: 'Am Sohlenrand abfräsen, mm',
  standHeight: (mm) => `Der Schuh steht danach ${shown(mm)} mm höher.`,

  before: (side) => `${Of(side, 'e')} Sohle vor jeder Arbeit messen`,
  after: (side) => `Fertige ${of(side, 'e')} Sohle messen`,
  zones: { toe: 'Zehe', heel: 'Ferse' },
  fields: {
    heightMedialMm: 'Höhe innen',
    heightLateralMm: 'Höhe außen',
    widthMm: 'Breite',
    parallelMm: 'innen zu außen',
  },
  enterBefore: 'Sohle wie gebracht eintragen',
  enterAfter: 'Fertige Sohle eintragen',
  measureAgain: 'Noch einmal messen',

  fitTold: 'Montiert wie gesagt',
  fitHint: (thinEdgeMm) => `dünne Seite ${shown(thinEdgeMm, 2)} mm`,
  lifterIs: (mm) => `Unterlagsplatte ${shown(mm, 2)} mm`,
  else: 'Etwas anderes gemacht',
  elseTitle: (side) => `${Of(side, 'er')} Schuh: was jetzt darunter ist`,
  thinEdge: 'Dünne Seite',
  lifter: 'Unterlagsplatte',
  lifterHint: 'flach, unter einer planen Sohle; leer: keine',
  elseEnter: 'Das ist montiert',
  told: (cant) => `gewählt: ${cant}`,

  held: 'Noch nicht',
  agreeFirst: 'Zuerst das Einverständnis des Besitzers mit der Arbeit an den Sohlen: Sie ist endgültig.',
  checkedTitle: 'Fertige Sohle gegen ihre Norm',
  checkedHead: { where: 'Wo', is: 'Gemessen', limit: 'Grenze', state: 'Urteil' },
  pass: 'in Ordnung',
  out: 'außerhalb der Grenzen',
  unchecked: 'nicht geprüft',
  limit: (min, max) => `${shown(min, 2)} bis ${shown(max, 2)} mm`,
  most: (max) => `höchstens ${shown(max, 2)} mm`,
  noLimit: 'niemand hat eine eingetragen',
  notMeasured: 'nicht gemessen',
  source: 'Grenze',
  racing: {
    standHeightMm: 'Rennen: Standhöhe auf dem Ski',
    soleHeightMm: 'Rennen: Sohle bis Fersengrund',
  },
  soleHeight: 'Sohlenhöhe innen',
  soleHeightHint: 'Unterseite bis zum Grund der Ferse; leer: nicht gemessen',
  wedgeOff: 'Der Testkeil ist draußen',
  waiting: 'Sohlen, die warten',
};
