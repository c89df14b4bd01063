/** Whether a closed cuff is still closed: a decision rests on the boot and the readings its author saw. */
import type { Side } from '../frame.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import type { CuffPlan, Problem } from './shape.ts';
import { changesSince } from './rests.ts';
import { mmWords } from './words.ts';

export type Closing =
  | { readonly is: 'open' }
  | { readonly is: 'closed'; readonly decision: FactOf<'cuff.closed'>['decision']; readonly fact: string }
  /** Closed once, and something it rested on has changed since. */
  | { readonly is: 'reopened'; readonly because: readonly string[] };

export function closingOf(log: Log, side: Side, cuff: CuffPlan): { closing: Closing; problems: Problem[] } {
  const state = log.now(slot.closed(side));
  if (state.is !== 'one') return { closing: { is: 'open' }, problems: [] };
  const fact = state.facts.at(-1)!;
  const closed = log.get(fact) as FactOf<'cuff.closed'>;
  const { decision } = closed;
  if (decision === 'other-boot') return { closing: { is: 'closed', decision, fact }, problems: [] };

  const because = changesSince(log, closed);
  if (because.length) return { closing: { is: 'reopened', because }, problems: [] };
  const problem = (code: string, text: string): Problem => ({ fact, side, code, text });
  if (cuff.reading?.stale)
    return { closing: { is: 'reopened', because: cuff.reading.staleBecause }, problems: [] };
  if (!cuff.reading)
    return {
      closing: { is: 'open' },
      problems: [
        problem(
          'closed-unread',
          `The ${side} cuff was closed without a reading that counts at the pivots as they are set.`,
        ),
      ],
    };
  if (decision === 'even' && cuff.verdict !== 'even') {
    const says =
      cuff.biasMm === null ? cuff.verdict : `${cuff.verdict}, a bias of ${mmWords(Math.abs(cuff.biasMm))}`;
    return {
      closing: { is: 'open' },
      problems: [
        problem('closed-not-even', `The ${side} cuff was closed as even, but its readings say ${says}.`),
      ],
    };
  }
  return { closing: { is: 'closed', decision, fact }, problems: [] };
}
