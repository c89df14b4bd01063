/** Words of the rounds so far: what was foretold and read at each setting, its repeats, and the leg from above. */
import type { FactOf, Side } from '../../../core/index.ts';
import { beyondOf } from '../drawing/rounds.ts';
import type { RoundRead } from '../drawing/rounds.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown, signed } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/rounds.ts';

const widestAt: Record<FactOf<'cuff.read'>['widestAt'], string> = {
  front: 'toward the front',
  middle: 'in the middle',
  rear: 'toward the back',
};

const sectionEn = {
  heading: 'From above, toe up',
  title: (side: Side): string => `${Sided(side)} leg in its cuff, from above, toe up`,
  shin: 'shin',
  calf: 'calf',
  widest: (at: FactOf<'cuff.read'>['widestAt']): string => `Widest ${widestAt[at]}.`,
  unread: 'not read',
  widestAt,
  gaps: (medialMm: number, lateralMm: number): string =>
    `gaps ${shown(medialMm)} mm medial, ${shown(lateralMm)} mm lateral`,
  room: (shin: string, calf: string): string => `room at the shin ${shin}, at the calf ${calf}`,
  describe: (side: Side, read: FactOf<'cuff.read'>): string => {
    const mm = (value: number | undefined) => (value === undefined ? sectionEn.unread : `${shown(value)} mm`);
    return `${Sided(side)} leg: widest ${widestAt[read.widestAt]}; ${sectionEn.gaps(read.medialMm, read.lateralMm)}; ${sectionEn.room(mm(read.shinMm), mm(read.calfMm))}.`;
  },
};
export const section: Words<typeof sectionEn> = inLanguage(sectionEn, german.section);

const roundsPlotEn = {
  title: (side: Side): string => `${Sided(side)} leg: bias of each round`,
  foretold: 'foretold, 9 times of 10 within the line',
  read: 'read',
  even: 'counts as even',
  bound: { up: 'at least', down: 'at most' },
  stale: 'out of date',
  one: (number: number, foretold: string | null, read: string): string =>
    `Round ${number}: ${foretold === null ? 'nothing foretold' : `foretold ${foretold}`}, read ${read}`,
  between: (bias: string, low: string, high: string): string => `${bias} (${low} to ${high})`,
  describe: (rounds: readonly RoundRead[]): string =>
    rounds
      .map(({ round, interval }, i) => {
        const { predictedBiasMm: bias, biasMm, stale } = round;
        const beyond = beyondOf(round);
        const foretold =
          bias === null
            ? null
            : interval
              ? roundsPlotEn.between(signed(bias), signed(interval.low), signed(interval.high))
              : signed(bias);
        const read = `${beyond ? `${roundsPlotEn.bound[beyond]} ` : ''}${signed(biasMm)} mm${stale ? `, ${roundsPlotEn.stale}` : ''}`;
        return roundsPlotEn.one(i + 1, foretold, read);
      })
      .join('. ') + '.',
};
export const roundsPlot: Words<typeof roundsPlotEn> = inLanguage(roundsPlotEn, german.roundsPlot);

const roundsEn = {
  title: 'Rounds',
  hint: 'repeats, from above',
  round: (number: number): string => `Round ${number}`,
  at: (pivots: string): string => `pivots at ${pivots}`,
  biasMeans: 'Bias is the medial gap less the lateral gap, in mm.',
  bias: (expected: string | null, read: string): string =>
    expected === null ? `bias ${read}` : `bias expected ${expected}, read ${read}`,
  repeats: (count: number, spreadMm: number): string => `${count} readings, spread ${shown(spreadMm)} mm`,
  reading: (medialMm: number, lateralMm: number): string =>
    `medial ${shown(medialMm)}, lateral ${shown(lateralMm)}`,
  by: 'by',
  none: 'Nothing read yet.',
};
export const rounds: Words<typeof roundsEn> = inLanguage(roundsEn, german.rounds);
