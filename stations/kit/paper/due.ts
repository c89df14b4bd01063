/** Which papers are due, and the moments whose papers can be had again. Both follow from the facts. */
import { SIDES } from '../../../core/index.ts';
import type { Fact, FactOf, Plan, Side } from '../../../core/index.ts';
import { latest, logOf } from '../entries.ts';
import type { Paper } from './papers.ts';

/** Kinds that only desk and server write: with nothing else, the boots may still be at home. */
const BEFORE_THE_BOOTS: readonly string[] = [
  'session.opened',
  'service.changed',
  'health.asked',
  'settings.used',
  'leg.known',
  'response.known',
];

export const isClosed = (facts: readonly Fact[]): boolean =>
  logOf(facts).live('handed.over').length + logOf(facts).live('released.unfit').length > 0;

/** Boots that the bench is told something of. */
export const bootsAtBench = (plan: Plan): Side[] =>
  SIDES.filter((side) => plan.next.some((action) => action.role === 'bench' && action.side === side));

/** In the order in which they are printed. */
export function papersDue(facts: readonly Fact[], plan: Plan): Paper[] {
  const stage = plan.steps.find(({ status }) => status !== 'done' && status !== 'waived')?.step ?? null;
  const leaving = stage === 'handover' || stage === null || isClosed(facts);
  if (leaving) return ['inside', 'card', 'record'];
  if (facts.every(({ kind }) => BEFORE_THE_BOOTS.includes(kind))) return ['booking', 'ticket'];
  return [
    ...(stage === 'intake' || stage === 'ready' ? (['ticket', 'tags'] as const) : []),
    ...(bootsAtBench(plan).length > 0 ? (['bench'] as const) : []),
  ];
}

export type Moment = FactOf<'handed.over'> | FactOf<'released.unfit'>;

/** Each time that the boots left, the newest first. */
export const moments = (facts: readonly Fact[]): Moment[] => {
  const left = [...logOf(facts).live('handed.over'), ...logOf(facts).live('released.unfit')];
  return left.toSorted((a, b) => facts.indexOf(b) - facts.indexOf(a));
};

/** The session as it stood when this was entered, that entry with it: what was printed then is printed again. */
export const factsAt = (facts: readonly Fact[], id: string): readonly Fact[] =>
  facts.slice(0, facts.findIndex((fact) => fact.id === id) + 1);

const LETTER = { left: 'L', right: 'R' } as const;

/** What a scanner reads off a ticket. */
export const ticketCode = (facts: readonly Fact[]): string => latest(facts, 'session.opened')?.ticket ?? '';
/** Off a boot: its own tag where it carries one, else ticket and side letter. Every station knows both. */
export const bootCode = (facts: readonly Fact[], side: Side): string =>
  latest(facts, 'boot.described', (fact) => fact.side === side)?.tag ??
  `${ticketCode(facts)}-${LETTER[side]}`;
