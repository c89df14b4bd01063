/** The cant a person chose, and whether it still stands on the readings it was chosen from. */
import type { Side } from '../frame.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import type { Problem } from './shape.ts';
import type { StanceSight } from './stance.ts';
import { degWords, listed } from './words.ts';

export type Chosen =
  | { readonly is: 'open' }
  | { readonly is: 'chosen'; readonly fact: FactOf<'cant.chosen'>; readonly id: string }
  | {
      readonly is: 'stale';
      readonly fact: FactOf<'cant.chosen'>;
      readonly id: string;
      readonly because: readonly string[];
    };

export interface ChosenCant {
  readonly chosen: Chosen;
  readonly problems: readonly Problem[];
}

/** What the choice lacks: re-stands and a wedge, or an override with its reason. */
export function lacking({ missing }: StanceSight): string[] {
  return [
    ...(missing.restands
      ? [`${missing.restands} more ${missing.restands === 1 ? 'reading' : 'readings'} after standing afresh`]
      : []),
    ...(missing.wedge ? ['a reading on a test wedge'] : []),
  ];
}

export function chosenCant(log: Log, side: Side, stance: StanceSight): ChosenCant {
  const state = log.now(slot.cant(side));
  if (state.is !== 'one') return { chosen: { is: 'open' }, problems: [] };
  const fact = state.value as FactOf<'cant.chosen'>;
  const id = state.facts.at(-1)!;
  const problem = (code: string, text: string): Problem => ({ fact: id, side, code, text });
  const problems: Problem[] = [];
  const missing = lacking(stance);
  if (missing.length && !fact.override)
    problems.push(
      problem(
        'cant-early',
        `The ${side} cant was chosen without ${listed(missing)}, and without saying why.`,
      ),
    );
  const { roundedDeg, verdict } = stance.plan;
  if (roundedDeg !== null && Math.abs(fact.cantDeg - roundedDeg) > 1e-9 && !fact.override)
    problems.push(
      problem(
        'cant-other',
        `The ${side} cant chosen is ${degWords(fact.cantDeg)}; the readings say ${degWords(roundedDeg)}. Say why.`,
      ),
    );
  if ((verdict === 'refer' || verdict === 'contradictory') && fact.cantDeg !== 0 && !fact.override)
    problems.push(
      problem(
        'cant-refused',
        `The ${side} readings give no plate (${verdict}), and one was chosen without saying why.`,
      ),
    );
  const known = log.membersKnown(slot.stance(side), id);
  const fresh = stance.facts.filter((one) => !known.includes(one));
  const gone = known.filter((one) => !stance.facts.includes(one));
  const because = [
    ...(fresh.length ? [`the ${side} knee was read again`] : []),
    ...(gone.length ? [`readings that the ${side} cant was chosen from no longer count`] : []),
  ];
  if (because.length && !fact.override) return { chosen: { is: 'stale', fact, id, because }, problems };
  if (problems.length) return { chosen: { is: 'open' }, problems };
  return { chosen: { is: 'chosen', fact, id }, problems };
}
