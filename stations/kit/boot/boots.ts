/** The description of a pair, typed once or twice. */
import type { FactDraft } from '../session.ts';
import { bootForm } from '../words/boot.ts';
import { Sided } from '../words/common.ts';
import { describe, describedFacts, emptyBoot, rememberBoot } from './draft.ts';
import type { BootDraft } from './draft.ts';

export interface BootsDraft {
  /** One description stands for both. */
  same: boolean;
  left: BootDraft;
  right: BootDraft;
}

export const emptyBoots = (): BootsDraft => ({ same: true, left: emptyBoot(), right: emptyBoot() });

/** Two `boot.described`, or one sentence that names what is still needed. */
export function bootFacts(
  boots: BootsDraft,
): { ok: true; facts: FactDraft[] } | { ok: false; problem: string } {
  const left = describe(boots.left);
  const right = boots.same ? left : describe(boots.right);
  if (left.ok && right.ok)
    return { ok: true, facts: describedFacts({ left: left.payload, right: right.payload }) };
  const missing = boots.same
    ? left.ok
      ? []
      : left.missing
    : (['left', 'right'] as const).flatMap((side) => {
        const one = side === 'left' ? left : right;
        return one.ok ? [] : one.missing.map((label) => `${Sided(side)} ${label.toLowerCase()}`);
      });
  return { ok: false, problem: bootForm.missing(missing) };
}

export function rememberBoots(boots: BootsDraft): void {
  rememberBoot(boots.left);
  if (!boots.same) rememberBoot(boots.right);
}
