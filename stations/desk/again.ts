/** Another session for a skier whom the shop knows: a second pair beside this one, or these boots again. */
import type { Fact, Payload, Side } from '../../core/index.ts';
import { SIDES } from '../../core/index.ts';
import { latest } from '../kit/entries.ts';
import type { FactDraft } from '../kit/session.ts';

type Opened = Payload<'session.opened'>;

export interface AgainDraft {
  /** `recheck`: the same boots, as they were left. `pair`: other boots of the same skier. */
  readonly what: 'recheck' | 'pair';
  /** Of a second pair; a recheck is its own. */
  readonly service: Opened['service'];
  readonly ticket: string;
  readonly promisedAt: string | null;
}

/** The description of one boot as it was entered last, for a session of its own. */
function describedAgain(facts: readonly Fact[], side: Side): FactDraft[] {
  const was = latest(facts, 'boot.described', (fact) => fact.side === side);
  if (!was) return [];
  const { id: _id, at: _at, by: _by, basis: _basis, v: _v, ...draft } = was;
  return [draft];
}

/**
 * The first entries of a session linked to the one with these facts; none where it was never opened. Nobody is
 * spared a question: health is asked again, and how the boots stand is looked at before it counts.
 */
export function againFacts(session: string, facts: readonly Fact[], draft: AgainDraft): FactDraft[] {
  const was = latest(facts, 'session.opened');
  if (!was) return [];
  const { clientRef, racing, youth, raceClass } = was;
  const opened: FactDraft = {
    kind: 'session.opened',
    ticket: draft.ticket,
    clientRef,
    service: draft.what === 'recheck' ? 'recheck' : draft.service,
    linkedTo: session,
    ...(draft.promisedAt === null ? {} : { promisedAt: draft.promisedAt }),
    ...(racing === undefined ? {} : { racing }),
    ...(youth === undefined ? {} : { youth }),
    ...(raceClass === undefined ? {} : { raceClass }),
  };
  return draft.what === 'recheck'
    ? [opened, ...SIDES.flatMap((side) => describedAgain(facts, side))]
    : [opened];
}
