/** Questions about values that look wrong. */
import type { Doubt } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { adjusterWord, Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/doubt.ts';

const between = (doubt: { readonly atLeastMm: number; readonly atMostMm: number }): string =>
  `${shown(doubt.atLeastMm)} to ${shown(doubt.atMostMm)} mm`;

const doubtEn = {
  title: 'Is that so?',
  again: 'Read again',
  keep: 'It is so: keep it',
  says: (doubt: Doubt): string => {
    const is = `${shown(doubt.isMm, 2)} mm`;
    switch (doubt.code) {
      case 'gap':
        return `${Sided(doubt.side)} ${adjusterWord(doubt.place)} gap ${is}; ${between(doubt)} was to be expected.`;
      case 'gap-sum':
        return `${Sided(doubt.side)} gaps together ${is}; ${between(doubt)} is usual.`;
      case 'stance-width':
        return `Stance width ${is}; ${between(doubt)} was to be expected.`;
      case 'knee-offset':
        return `${Sided(doubt.side)} knee ${shown(Math.abs(doubt.isMm))} mm ${doubt.isMm < 0 ? 'medial' : 'lateral'}: far from the last reading on the same wedge.`;
      case 'pivot':
        return `${Sided(doubt.side)} boot, ${adjusterWord(doubt.place)} pivot at ${is}; its travel is ${between(doubt)}.`;
      case 'knee-height':
        return `${Sided(doubt.side)} knee ${is} high; the other one is ${shown(doubt.otherMm, 2)} mm.`;
      case 'sole-length':
        return `${Sided(doubt.side)} sole ${is} long; the other one is ${shown(doubt.otherMm, 2)} mm.`;
      case 'sole-height':
        return `${Sided(doubt.side)} ${doubt.zone} medial ${is}, lateral ${shown(doubt.otherMm, 2)} mm.`;
    }
  },
};
export const doubt: Words<typeof doubtEn> = inLanguage(doubtEn, german.doubt);
