/** Why an entry was not taken, in words that name the field as the form does. */
import type { Refusal, Side } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { Sided } from './common.ts';
import * as german from './de/refusal.ts';
import { planText } from './plan.ts';

const fieldsEn = {
  field: {
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
  } as Readonly<Record<string, string>>,
  gap: { medialMm: 'medial gap', lateralMm: 'lateral gap' } as Readonly<Record<string, string>>,
  pivot: { medialMm: 'medial adjuster', lateralMm: 'lateral adjuster' } as Readonly<Record<string, string>>,
  side: (side: Side): string => Sided(side),
};
export const fields: Words<typeof fieldsEn> = inLanguage(fieldsEn, german.fields);

/** `Right medial gap must be at most 60 (is 900).` */
export function notTaken(
  { field, wants: wantsEn }: Refusal,
  draft: { readonly kind: string; readonly side?: unknown },
): string {
  const wants = planText(wantsEn);
  const own =
    draft.kind === 'cuff.read'
      ? fields.gap[field]
      : draft.kind === 'cuff.set'
        ? fields.pivot[field]
        : undefined;
  const name = own ?? fields.field[field] ?? field;
  const side = draft.side === 'left' || draft.side === 'right' ? fields.side(draft.side) : '';
  const subject = [side, name].filter(Boolean).join(' ');
  return subject === '' ? `${wants}.` : `${subject.charAt(0).toUpperCase()}${subject.slice(1)} ${wants}.`;
}
