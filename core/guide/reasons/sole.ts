/** Why numbers of a sole are null. */
import type { Side } from '../../frame.ts';
import type { RacePlace } from '../../maths/racing.ts';
import type { Edge, Zone } from '../../maths/routing.ts';
import { slot } from '../../record/slots.ts';
import { SOLE_PRESETS } from '../../maths/standards.ts';
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { listed } from '../words.ts';
import { undescribed } from './cuff.ts';
import { because, unknown } from './reason.ts';
import type { ReasonsOf, Why } from './reason.ts';

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

/** No longest screw. */
const bottomless: Why = ({ side, own }) =>
  own.now.boot?.soleMaterialMm === undefined
    ? because(
        'missing',
        `Enter how much solid material the ${side} sole has over its underside: a point must stay outside.`,
      )
    : because(
        'withheld',
        `The ${side} sole is too thin for these screws: none would grip and stay outside the boot.`,
      );

const fourScrews = Object.fromEntries(
  (['toe', 'heel'] as const).flatMap((zone) =>
    (['medial', 'lateral'] as const).flatMap((edge) =>
      (['maxMm', 'usefulMm'] as const).map((end) => [`sole.screws.${zone}.${edge}.${end}`, bottomless]),
    ),
  ),
) as Record<`sole.screws.${Zone}.${Edge}.${'maxMm' | 'usefulMm'}`, Why>;

const MEASURE: Readonly<Record<RacePlace, (side: Side) => string>> = {
  standHeightMm: (side) => `Not checked: measure from the ski’s running surface to the ${side} sole.`,
  soleHeightMm: (side) =>
    `Not checked: measure from the ${side} sole’s underside to the base of the heel inside.`,
};

const raceLimit = <P extends RacePlace>(place: P) => {
  const unmeasured: Why = ({ side }) => because('unread', MEASURE[place](side));
  const limitless: Why = () =>
    because('missing', 'Not checked: enter the limit from the rules of your season.');
  return {
    [`sole.racing.${place}.isMm`]: unmeasured,
    [`sole.racing.${place}.maxMm`]: limitless,
    [`sole.racing.${place}.provenance`]: limitless,
    [`sole.racing.${place}.roomMm`]: (g: Ground) =>
      g.plan.sole.racing?.[place].isMm === null ? unmeasured(g) : limitless(g),
  } as Record<`sole.racing.${P}.${'isMm' | 'maxMm' | 'provenance' | 'roomMm'}`, Why>;
};

const raceLimits = { ...raceLimit('standHeightMm'), ...raceLimit('soleHeightMm') };

export const SOLE: ReasonsOf<'sole'> = {
  'sole.cantDeg': (g) => unknown(g, slot.sole(g.side), g.own.now.missing.sole!),
  'sole.plate': (g) =>
    g.own.sole.grounds?.work.method === 'plane'
      ? because('not-due', `The ${g.side} sole is planed: it gets no plates.`)
      : idle(g),
  'sole.planing': (g) =>
    g.own.sole.grounds?.work.method === 'plate'
      ? because('not-due', `The ${g.side} boot gets plates: its sole is not planed.`)
      : idle(g),
  'sole.screws': (g) => {
    const work = g.own.sole.grounds?.work;
    if (!work) return idle(g);
    return work.method === 'plane'
      ? because('not-due', `The ${g.side} sole is planed: no plate is screwed to it.`)
      : because(
          'missing',
          'Enter the plate screws’ diameter, head depth and margin: no length is told without.',
        );
  },
  ...fourScrews,
  'sole.wantedStand': () => because('not-due', 'Nobody asked for a difference: both boots stand level.'),
  'sole.racing': () => because('not-due', 'The session is not marked as racing.'),
  ...raceLimits,
  'sole.racing.allowed': () =>
    because('unread', 'Nothing could be checked: neither height is measured against a limit.'),
  'sole.rout': idle,
  'sole.lugLeft': idle,
  'sole.standHeightMm': idle,
  'sole.conforms': unjudged,
};
