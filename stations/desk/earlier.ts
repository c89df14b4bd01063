/** The boots of last time, out of what a client had done here before. */
import { SIDES } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { ask } from '../kit/api.ts';
import { archive } from '../kit/archive.ts';
import { areSame } from '../kit/boot/boots.ts';
import type { BootsDraft } from '../kit/boot/boots.ts';
import { draftOf } from '../kit/boot/draft.ts';
import { latest } from '../kit/entries.ts';

/** Both boots as a session described them last; null where one was not. */
function bootsIn(facts: readonly Fact[]): BootsDraft | null {
  const [left, right] = SIDES.map((side) => latest(facts, 'boot.described', (fact) => fact.side === side));
  if (!left || !right) return null;
  const drafts = { left: draftOf(left), right: draftOf(right) };
  return { same: areSame(drafts.left, drafts.right), ...drafts };
}

/** Of the newest session that described boots; null without one, and while the server does not say. */
export async function bootsOfLastTime(ref: string): Promise<BootsDraft | null> {
  const before = await archive.ofClient(ref);
  const described = before.ok ? before.value.found.find(({ models }) => models.length > 0) : undefined;
  if (!described) return null;
  const file = await ask<{ facts: Fact[] }>('GET', `/api/sessions/${described.session}/export`);
  return file.ok ? bootsIn(file.value.facts) : null;
}
