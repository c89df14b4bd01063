/** Why an entry was not taken, in German, with the names of the fields as the form has them. */
import type * as english from '../refusal.ts';
import { Sided } from './sides.ts';

export const fields: typeof english.fields = {
  field: {
    medialMm: 'innen',
    lateralMm: 'außen',
    stanceWidthMm: 'Standbreite',
    heightMm: 'Höhe',
    cantDeg: 'Canting',
    model: 'Modell',
    mondo: 'Mondopoint',
    soleLengthMm: 'Sohlenlänge',
    'hardware.pivotSpacingMm': 'Abstand der Drehpunkte',
    'hardware.readingHeightMm': 'Messhöhe',
    'hardware.factoryLeanDeg': 'Neigung ab Werk',
    'hardware.markMm': 'ein Strich',
    'hardware.travel.lateral.upMm': 'Weg außen hoch',
    'hardware.travel.lateral.downMm': 'Weg außen tief',
    'hardware.travel.medial.upMm': 'Weg innen hoch',
    'hardware.travel.medial.downMm': 'Weg innen tief',
    newUpMm: 'Weg nach oben jetzt',
    newDownMm: 'Weg nach unten jetzt',
    neutralShiftMm: 'Neutral verschoben um',
    edgeMm: 'Schale bis zum Rand übrig',
    amountMm: 'um wie viel',
    promisedAt: 'versprochen für',
    note: 'Notiz',
    reason: 'warum',
  },
  gap: { medialMm: 'Spalt innen', lateralMm: 'Spalt außen' },
  pivot: { medialMm: 'Versteller innen', lateralMm: 'Versteller außen' },
  side: (side) => `${Sided(side)},`,
};
