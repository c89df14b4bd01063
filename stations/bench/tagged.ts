/** The same boot with a tag on it. */
import type { FactOf } from '../../core/index.ts';
import type { FactDraft } from '../kit/session.ts';

export function tagged(boot: FactOf<'boot.described'>, tag: string): FactDraft {
  const { id: _id, at: _at, by: _by, basis: _basis, v: _v, ...described } = boot;
  return { ...described, tag };
}
