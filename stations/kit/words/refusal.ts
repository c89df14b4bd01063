/** Why an entry was not taken, in words that name the field as the form does. */
import type { Refusal } from '../../../core/index.ts';
import { Sided } from './common.ts';

const FIELD: Readonly<Record<string, string>> = {
  medialMm: 'medial',
  lateralMm: 'lateral',
  stanceWidthMm: 'stance width',
  heightMm: 'height',
  cantDeg: 'cant',
  model: 'model',
  mondo: 'mondopoint',
  soleLengthMm: 'sole length',
  'hardware.pivotSpacingMm': 'pivot spacing',
  'hardware.readingHeightMm': 'reading height',
  'hardware.factoryLeanDeg': 'factory lean',
  'hardware.markMm': 'one mark',
  'hardware.travel.lateral.upMm': 'lateral travel up',
  'hardware.travel.lateral.downMm': 'lateral travel down',
  'hardware.travel.medial.upMm': 'medial travel up',
  'hardware.travel.medial.downMm': 'medial travel down',
  newUpMm: 'travel up now',
  newDownMm: 'travel down now',
  neutralShiftMm: 'neutral shifted by',
  edgeMm: 'shell left to the edge',
  amountMm: 'by how much',
  promisedAt: 'promised for',
  note: 'note',
  reason: 'why',
};

const GAP: Readonly<Record<string, string>> = { medialMm: 'medial gap', lateralMm: 'lateral gap' };
const PIVOT: Readonly<Record<string, string>> = {
  medialMm: 'medial adjuster',
  lateralMm: 'lateral adjuster',
};

/** `Right medial gap must be at most 60 (is 900).` */
export function notTaken(
  { field, wants }: Refusal,
  draft: { readonly kind: string; readonly side?: unknown },
): string {
  const own = draft.kind === 'cuff.read' ? GAP[field] : draft.kind === 'cuff.set' ? PIVOT[field] : undefined;
  const name = own ?? FIELD[field] ?? field;
  const side = draft.side === 'left' || draft.side === 'right' ? Sided(draft.side) : '';
  const subject = [side, name].filter(Boolean).join(' ');
  return subject === '' ? `${wants}.` : `${subject.charAt(0).toUpperCase()}${subject.slice(1)} ${wants}.`;
}
