/** Words of the rounds so far, in German. */
import { shown, signed } from '../../numbers.ts';
import { beyondOf } from '../../drawing/rounds.ts';
import type * as english from '../rounds.ts';
import { Of } from './sides.ts';

const widestAt = { front: 'vorn', middle: 'mittig', rear: 'hinten' } as const;

export const section: typeof english.section = {
  heading: 'Von oben, Zehe oben',
  title: (side) => `${Of(side, 'es')} Bein im Schaft, von oben, Zehe oben`,
  shin: 'Schienbein',
  calf: 'Wade',
  widest: (at) => `Am dicksten ${widestAt[at]}.`,
  unread: 'nicht gemessen',
  widestAt,
  gaps: (medialMm, lateralMm) => `Spalte ${shown(medialMm)} mm innen, ${shown(lateralMm)} mm außen`,
  room: (shin, calf) => `Platz am Schienbein ${shin}, an der Wade ${calf}`,
  describe: (side, read) => {
    const mm = (value: number | undefined) => (value === undefined ? section.unread : `${shown(value)} mm`);
    return `${Of(side, 'es')} Bein: ${widestAt[read.widestAt]} am dicksten; ${section.gaps(read.medialMm, read.lateralMm)}; ${section.room(mm(read.shinMm), mm(read.calfMm))}.`;
  },
};

export const roundsPlot: typeof english.roundsPlot = {
  title: (side) => `${Of(side, 'es')} Bein: Versatz jedes Durchgangs`,
  foretold: 'vorhergesagt, 9 von 10 Mal im Strich',
  read: 'gemessen',
  even: 'gilt als gleich',
  bound: { up: 'mindestens', down: 'höchstens' },
  stale: 'überholt',
  one: (number, foretold, read) =>
    `Durchgang ${number}: ${foretold === null ? 'nichts vorhergesagt' : `vorhergesagt ${foretold}`}, gemessen ${read}`,
  between: (bias, low, high) => `${bias} (${low} bis ${high})`,
  describe: (rounds) =>
    rounds
      .map(({ round, interval }, i) => {
        const { predictedBiasMm: bias, biasMm, stale } = round;
        const beyond = beyondOf(round);
        const foretold =
          bias === null
            ? null
            : interval
              ? roundsPlot.between(signed(bias), signed(interval.low), signed(interval.high))
              : signed(bias);
        const read = `${beyond ? `${roundsPlot.bound[beyond]} ` : ''}${signed(biasMm)} mm${stale ? `, ${roundsPlot.stale}` : ''}`;
        return roundsPlot.one(i + 1, foretold, read);
      })
      .join('. ') + '.',
};

export const rounds: typeof english.rounds = {
  title: 'Durchgänge',
  hint: 'Wiederholungen, von oben',
  round: (number) => `Durchgang ${number}`,
  at: (pivots) => `Drehpunkte bei ${pivots}`,
  biasMeans: 'Versatz ist der innere Spalt weniger dem äußeren, in mm.',
  bias: (expected, read) =>
    expected === null ? `Versatz ${read}` : `Versatz erwartet ${expected}, gemessen ${read}`,
  repeats: (count, spreadMm) => `${count} Messungen, Streuung ${shown(spreadMm)} mm`,
  reading: (medialMm, lateralMm) => `innen ${shown(medialMm)}, außen ${shown(lateralMm)}`,
  by: 'von',
  none: 'Noch nichts gemessen.',
};
