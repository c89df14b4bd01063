/** Why numbers of a knee and its cant are null. */
import type { Ground } from '../explain/formula.ts';
import type { Reason } from '../shape.ts';
import { listed } from '../words.ts';
import { because } from './reason.ts';
import type { ReasonsOf } from './reason.ts';

function unsolved({ side, scene, own: { stance } }: Ground): Reason {
  if (!scene.cuffsClosed)
    return because('blocked', 'Both cuffs are closed first: a cant over open cuffs only hides the fault.');
  switch (stance.plan.verdict) {
    case 'contradictory':
      return because('contradictory', `The ${side} knee's readings contradict each other.`);
    case 'refer':
      return because('past-limit', `The ${side} knee asks for more than a plate may give: refer on.`);
    case 'blocked':
    case 'unread':
    case 'flat-enough':
    case 'cant': {
      const refused = stance.problems.find(({ code }) => code !== 'stale');
      if (stance.staleBecause.length)
        return because('stale', `Read the ${side} knee again, since ${listed(stance.staleBecause)}.`);
      return refused
        ? because('refused', refused.text)
        : because('unread', `Read where the ${side} knee stands, flat.`);
    }
    default:
      return stance.plan.verdict satisfies never;
  }
}

export const STANCE: ReasonsOf<'stance'> = {
  'stance.offsetMm': unsolved,
  'stance.slopeMmPerDeg': unsolved,
  'stance.cantDeg': unsolved,
  'stance.cantSdDeg': unsolved,
  'stance.cantRange': (g) =>
    g.plan.stance.cantDeg === null
      ? unsolved(g)
      : because(
          'unread',
          `The ${g.side} readings leave open whether a wedge moves the knee: read it on a wedge.`,
        ),
  'stance.roundedDeg': unsolved,
  'stance.thickEdge': unsolved,
  'stance.nextWedgeDeg': unsolved,
};
