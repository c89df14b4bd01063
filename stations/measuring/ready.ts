/** What one tap says of a boot that is as expected: only what has not been said of it yet. */
import type { Side } from '../../core/index.ts';
import { latest } from '../kit/entries.ts';
import type { FactDraft, Session } from '../kit/session.ts';
import { ITEMS } from '../kit/words/boot.ts';
import type { Item, Outcome } from '../kit/words/boot.ts';

const EXPECTED: Record<Item, Outcome> = {
  footbed: 'done',
  shell: 'not-needed',
  'cuff-neutral': 'done',
  'sole-flat': 'done',
  'pivot-play': 'done',
  'buckles-strap': 'done',
  liner: 'done',
  'heel-seated': 'done',
  'walk-lock': 'not-needed',
};

/** Boots that come again are as they were left, and nobody expects them at neutral. */
export function comesAgain(session: Session): boolean {
  const opened = latest(session.facts, 'session.opened');
  return opened?.service === 'recheck' && opened.linkedTo !== undefined;
}

export function expectedFacts(session: Session, side: Side): FactDraft[] {
  const said = (item: Item) =>
    latest(session.facts, 'ready.checked', (fact) => fact.side === side && fact.item === item)?.outcome;
  const walkMode = latest(session.facts, 'boot.described', (fact) => fact.side === side)?.walkMode;
  const again = comesAgain(session);
  const items = ITEMS.filter(
    (item) => (said(item) === undefined || said(item) === 'open') && !(again && item === 'cuff-neutral'),
  ).map((item) => ({
    kind: 'ready.checked' as const,
    side,
    item,
    outcome: item === 'walk-lock' && walkMode ? ('done' as const) : EXPECTED[item],
  }));
  const sole =
    session.plan.sides[side].sole.cantDeg === null && !again
      ? [{ kind: 'sole.set' as const, side, cantDeg: 0, state: 'as-brought' as const } as FactDraft]
      : [];
  return [...items, ...sole];
}
