/** Boots described at this station before: a shop sees the same models again and again. */
import { emptyBoot } from './draft.ts';
import type { BootDraft } from './draft.ts';

const KEY = 'fibula.boots-described';
const KEPT = 12;

/** Newest first. */
export function knownBoots(): BootDraft[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? (kept as BootDraft[]).map((boot) => ({ ...emptyBoot(), ...boot })) : [];
  } catch {
    return [];
  }
}

/** Remembers the model, not this one boot: its tag is left out. */
export function rememberBoot(draft: BootDraft): void {
  const { tag: _tag, ...kept } = draft.kept;
  const others = knownBoots().filter((boot) => boot.model !== draft.model || boot.mondo !== draft.mondo);
  localStorage.setItem(KEY, JSON.stringify([{ ...draft, kept }, ...others].slice(0, KEPT)));
}
