/** Questions about values that look wrong, in German. */
import { shown } from '../../numbers.ts';
import type * as english from '../doubt.ts';
import { Of, place } from './sides.ts';

const between = (doubt: { readonly atLeastMm: number; readonly atMostMm: number }): string =>
  `${shown(doubt.atLeastMm)} bis ${shown(doubt.atMostMm)} mm`;

export const doubt: typeof english.doubt = {
  title: 'Stimmt das?',
  again: 'Noch einmal messen',
  keep: 'Es stimmt: behalten',
  says: (doubt) => {
    const is = `${shown(doubt.isMm, 2)} mm`;
    switch (doubt.code) {
      case 'gap':
        return `${Of(doubt.side, 'es')} Bein, Spalt ${place(doubt.place)}: ${is}; zu erwarten waren ${between(doubt)}.`;
      case 'gap-sum':
        return `${Of(doubt.side, 'es')} Bein, beide Spalte zusammen: ${is}; üblich sind ${between(doubt)}.`;
      case 'stance-width':
        return `Standbreite ${is}; zu erwarten waren ${between(doubt)}.`;
      case 'knee-offset':
        return `${Of(doubt.side, 'es')} Knie ${shown(Math.abs(doubt.isMm))} mm ${place(doubt.isMm < 0 ? 'medial' : 'lateral')}: weit weg von der letzten Messung auf demselben Keil.`;
      case 'pivot':
        return `${Of(doubt.side, 'er')} Schuh, Drehpunkt ${place(doubt.place)} auf ${is}; sein Weg geht von ${between(doubt)}.`;
      case 'knee-height':
        return `${Of(doubt.side, 'es')} Knie auf ${is} Höhe; das andere auf ${shown(doubt.otherMm, 2)} mm.`;
      case 'sole-length':
        return `${Of(doubt.side, 'e')} Sohle ${is} lang; die andere ${shown(doubt.otherMm, 2)} mm.`;
      case 'sole-height':
        return `${Of(doubt.side, 'e')} Sohle, ${doubt.zone === 'toe' ? 'Zehe' : 'Ferse'} innen ${is}, außen ${shown(doubt.otherMm, 2)} mm.`;
    }
  },
};
