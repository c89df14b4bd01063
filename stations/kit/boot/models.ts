/** Between the shop's catalogue and a boot's description: what is the model's, and what is this one boot's. */
import type { CatalogueBoot } from '../../../core/index.ts';
import { draftOf } from './draft.ts';
import type { BootDraft, Description } from './draft.ts';

/** What a model keeps of a description: neither its size nor its tag nor what is in this boot. */
export function modelOf(described: Description, source: string): CatalogueBoot {
  const { mondo: _m, soleLengthMm: _s, inserts: _i, tag: _t, ...model } = described;
  return { ...model, source };
}

/** A description to go on with: the size is still to be typed. */
export function draftOfModel({ source: _source, ...model }: CatalogueBoot): BootDraft {
  const fact = { kind: 'boot.described', side: 'left', ...model };
  return draftOf(fact as unknown as Parameters<typeof draftOf>[0]);
}
