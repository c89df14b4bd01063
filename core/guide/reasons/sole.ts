/** Why numbers of a sole are null. */
import { slot } from '../../record/slots.ts';
import { SOLE_PRESETS } from '../../maths/standards.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { listed } from '../words.ts';
import { undescribed } from './cuff.ts';
import { because, unknown } from './reason.ts';
import type { ReasonsOf } from './reason.ts';

/** Nothing is proposed under this boot. */
function idle(g: Ground): Reason {
  const { side, own } = g;
  const { chosen, sole } = own;
  if (!own.now.boot) return undescribed(g);
  switch (chosen.is) {
    case 'open':
      return unknown(g, slot.cant(side), `The ${side} cant is not chosen.`);
    case 'stale':
      return because('stale', `Choose the ${side} cant again, since ${listed(chosen.because)}.`);
    case 'chosen':
      return sole.withheld.length
        ? because('withheld', sole.withheld.join(' '))
        : because('not-due', `No work under the ${side} boot was chosen.`);
    default:
      return chosen satisfies never;
  }
}

function unjudged(g: Ground): Reason {
  const { side, own } = g;
  const { sole, now } = own;
  if (sole.staleBecause.length)
    return because('stale', `Measure the ${side} sole again, since ${listed(sole.staleBecause)}.`);
  if (!sole.after)
    return unknown(g, slot.measured(side, 'after'), `The finished ${side} sole is not measured.`);
  return now.boot
    ? because('missing', `No limit of ${SOLE_PRESETS[now.boot.soleStandard].title} is known.`)
    : undescribed(g);
}

export const SOLE: ReasonsOf<'sole'> = {
  'sole.cantDeg': (g) => unknown(g, slot.sole(g.side), g.own.now.missing.sole!),
  'sole.plate': (g) =>
    g.own.sole.grounds?.work.method === 'plane'
      ? because('not-due', `The ${g.side} sole is planed: it gets no plates.`)
      : idle(g),
  'sole.rout': idle,
  'sole.lugLeft': idle,
  'sole.standHeightMm': idle,
  'sole.conforms': unjudged,
};
