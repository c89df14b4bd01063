/** The description of a pair, typed once or twice. */
import type { FactDraft } from '../session.ts';
import { sameCode } from '../tags.ts';
import { bootForm } from '../words/boot.ts';
import { amid, Sided } from '../words/common.ts';
import { scan } from '../words/scan.ts';
import { sameJson, SIDES } from '../../../core/index.ts';
import type { Side } from '../../../core/index.ts';
import { describe, emptyBoot } from './draft.ts';
import type { BootDraft, Description } from './draft.ts';
import { rememberBoot } from './known.ts';

export interface BootsDraft {
  /** One description stands for both. */
  same: boolean;
  left: BootDraft;
  right: BootDraft;
}

/** One description stands for both, whatever tags they carry. */
export function areSame(left: BootDraft, right: BootDraft): boolean {
  const [one, other] = [left, right].map(({ kept: { tag: _tag, ...kept }, ...rest }) => ({ ...rest, kept }));
  return sameJson(one, other);
}

export const emptyBoots = (): BootsDraft => ({ same: true, left: emptyBoot(), right: emptyBoot() });

/** Two `boot.described`, or one sentence that names what is still needed. */
export function bootFacts(
  boots: BootsDraft,
): { ok: true; facts: FactDraft[] } | { ok: false; problem: string } {
  const made = { left: describe(boots.left), right: describe(boots.same ? boots.left : boots.right) };
  const missing = SIDES.filter((side) => !boots.same || side === 'left').flatMap((side) => {
    const one = made[side];
    if (one.ok) return [];
    return boots.same ? one.missing : one.missing.map((label) => `${Sided(side)} ${amid(label)}`);
  });
  if (!made.left.ok || !made.right.ok) return { ok: false, problem: bootForm.missing(missing) };
  const tagOf = (side: Side) => boots[side].kept.tag?.trim() ?? '';
  if (tagOf('left') !== '' && sameCode(tagOf('left'), tagOf('right')))
    return { ok: false, problem: scan.sameTag };
  // The tag is one boot's own, also where the description stands for both.
  const tagged = (side: Side, { tag: _shared, ...payload }: Description) => {
    const tag = tagOf(side);
    return { kind: 'boot.described' as const, side, ...payload, ...(tag === '' ? {} : { tag }) };
  };
  return { ok: true, facts: [tagged('left', made.left.payload), tagged('right', made.right.payload)] };
}

export function rememberBoots(boots: BootsDraft): void {
  rememberBoot(boots.left);
  if (!boots.same) rememberBoot(boots.right);
}
