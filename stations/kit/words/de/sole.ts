/** Words of the work under a boot, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../sole.ts';
import { of, Of } from './sides.ts';

export const sole: typeof english.sole = {
  hold: 'eine Sekunde gedrückt halten',
  holding: 'weiter halten',
  notAgreed: 'erst, wenn das Einverständnis des Besitzers im Protokoll steht: an der Theke fragen',
  nothingTold: 'für diese Sohle ist noch nichts vorgegeben',

  seenFrom: (side) => `${Of(side, 'e')} Sohle von oben, Zehen oben`,
  toe: 'Zehe',
  heel: 'Ferse',
  medial: 'innen',
  lateral: 'außen',
  plateTitle: 'Platte, Dicke in mm',
  routTitle: 'Am Sohlenrand abfräsen, mm',
  leftTitle: 'Sohlenrand, der bleibt, mm',
  standHeight: (mm) => `Der Schuh steht danach ${shown(mm)} mm höher.`,
  noRout: 'Fräsen auf Sohlennorm: nicht vorgegeben',

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
  checkedHead: { where: 'Wo', is: 'Gemessen', state: 'Urteil' },
  pass: 'in Ordnung',
  out: (min, max) => `außerhalb der Grenzen: muss ${shown(min)} bis ${shown(max)} mm sein`,
  unchecked: 'nicht geprüft: Niemand hat eine Grenze eingetragen',
  wedgeOff: 'Der Testkeil ist draußen',
  waiting: 'Sohlen, die warten',
};
