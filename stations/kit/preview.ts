/** What would follow from entries that are typed and not yet made: the plan as it would be, and nothing is kept. */
import { basisFor, parseStrict, plan } from '../../core/index.ts';
import type { Fact, Plan, Role } from '../../core/index.ts';
import type { FactDraft } from './session.ts';

/** Null when one of the drafts could not be entered as it stands. */
export function preview(
  facts: readonly Fact[],
  role: Exclude<Role, 'server'>,
  drafts: readonly FactDraft[],
): Plan | null {
  const known = [...facts];
  for (const draft of drafts) {
    const last = known.at(-1);
    if (!last) return null;
    const basis = basisFor(known, draft);
    const made = parseStrict({
      ...draft,
      id: `preview-${known.length}`,
      at: last.at,
      by: { role, station: 'preview' },
      ...(basis.length > 0 ? { basis } : {}),
    });
    if (!made.ok) return null;
    known.push(made.fact);
  }
  return plan(known);
}
