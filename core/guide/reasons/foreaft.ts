/** Why fore-aft angles are null. */
import { slot } from '../../record/slots.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { listed } from '../words.ts';
import { undescribed } from './cuff.ts';
import { because, unknown } from './reason.ts';
import type { ReasonsOf, Why } from './reason.ts';

const missing = (g: Ground, what: string): Reason => {
  const { read, staleBecause } = g.own.foreAft;
  if (staleBecause.length)
    return because('stale', `Read the ${g.side} fore-aft angles again, since ${listed(staleBecause)}.`);
  return read ? because('missing', what) : unknown(g, slot.foreAft(g.side), what);
};

const board: Why = (g) => missing(g, `Read the ${g.side} boot board's heights at heel and toe.`);
const stand: Why = (g) =>
  g.own.now.boot
    ? missing(g, `Read how high the ${g.side} boot stands on the ski, at heel and toe.`)
    : undescribed(g);

export const FORE_AFT: ReasonsOf<'foreAft'> = {
  'foreAft.rampDeg': board,
  'foreAft.deltaDeg': stand,
  'foreAft.netRampDeg': (g) => (g.plan.foreAft.rampDeg === null ? board(g) : stand(g)),
  'foreAft.netForwardLeanDeg': (g) =>
    g.plan.foreAft.deltaDeg === null
      ? stand(g)
      : missing(g, `Read the forward lean of the ${g.side} cuff against the sole.`),
  'foreAft.degPerHeelMm': undescribed,
};
