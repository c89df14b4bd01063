/** What may be read beside the two gaps of a leg, on request: gaps at a lower height, and the room at shin and calf. */
import type { FactOf, Mm, Payload, Side } from '../../core/index.ts';
import { parseNumber, shown } from '../kit/numbers.ts';
import { Sided } from '../kit/words/common.ts';
import { further as words } from '../kit/words/further.ts';
import { faultIn } from '../kit/within.ts';

/** Bounds as the record has them. */
export const FURTHER = {
  lowerHeight: { unit: 'mm', min: 0, max: 320 },
  lowerMedial: { unit: 'mm', min: 0, max: 60 },
  lowerLateral: { unit: 'mm', min: 0, max: 60 },
  shin: { unit: 'mm', min: 0, max: 120 },
  calf: { unit: 'mm', min: 0, max: 120 },
} as const;
export type FurtherName = keyof typeof FURTHER;

export interface FurtherDraft extends Record<FurtherName, string> {
  contact: Payload<'cuff.read'>['contact'];
  pressure: 'graze' | 'press';
}
export const emptyFurther = (lowerHeight = ''): FurtherDraft => ({
  lowerHeight,
  lowerMedial: '',
  lowerLateral: '',
  contact: 'none',
  pressure: 'graze',
  shin: '',
  calf: '',
});

/** Two heights nearer together than this cannot part tilt from offset. */
export const LEAST_APART_MM = 30;

const touches = ({ contact }: FurtherDraft, place: 'medial' | 'lateral'): boolean =>
  contact === place || contact === 'both';

/** A side that touches reads 0, whatever was typed before it was said. */
const gapAt = (draft: FurtherDraft, place: 'medial' | 'lateral'): number | null =>
  touches(draft, place) ? 0 : parseNumber(draft[place === 'medial' ? 'lowerMedial' : 'lowerLateral']);

/** A height alone, as it is held from the last reading, says nothing. */
const lowerBegun = (draft: FurtherDraft): boolean =>
  draft.contact !== 'none' || draft.lowerMedial.trim() !== '' || draft.lowerLateral.trim() !== '';

export const furtherEmpty = (draft: FurtherDraft | undefined): boolean =>
  !draft || (!lowerBegun(draft) && draft.shin.trim() === '' && draft.calf.trim() === '');

/** Why it cannot be entered as it stands, in a sentence; null when it can. */
export function furtherProblem(side: Side, draft: FurtherDraft | undefined): string | null {
  if (!draft || furtherEmpty(draft)) return null;
  for (const name of Object.keys(FURTHER) as FurtherName[]) {
    const wrong = draft[name].trim() === '' ? null : faultIn(draft[name], FURTHER[name]);
    if (wrong) return `${Sided(side)}, ${words.fields[name]}: ${wrong}`;
  }
  const whole =
    gapAt(draft, 'medial') !== null &&
    gapAt(draft, 'lateral') !== null &&
    parseNumber(draft.lowerHeight) !== null;
  return lowerBegun(draft) && !whole ? `${Sided(side)}: ${words.whole}` : null;
}

/** Whether the lower height is too near to the usual one. */
export function tooNear(draft: FurtherDraft, readingHeightMm: Mm | undefined): boolean {
  const lower = parseNumber(draft.lowerHeight);
  return lower !== null && readingHeightMm !== undefined && readingHeightMm - lower < LEAST_APART_MM;
}

type Further = Pick<Payload<'cuff.read'>, 'lower' | 'shinMm' | 'calfMm'>;

/** The fields of the entry; none where nothing was read. */
export function furtherOf(draft: FurtherDraft | undefined): Further {
  if (!draft) return {};
  const [medialMm, lateralMm] = [gapAt(draft, 'medial'), gapAt(draft, 'lateral')];
  const heightMm = parseNumber(draft.lowerHeight);
  const lower =
    lowerBegun(draft) && medialMm !== null && lateralMm !== null && heightMm !== null
      ? { medialMm, lateralMm, heightMm, contact: draft.contact }
      : null;
  const [shinMm, calfMm] = [parseNumber(draft.shin), parseNumber(draft.calf)];
  return {
    ...(lower ? { lower } : {}),
    ...(shinMm === null ? {} : { shinMm }),
    ...(calfMm === null ? {} : { calfMm }),
  } as Further;
}

/** What an entry says beside the gaps, as it was typed; undefined where it says nothing. */
export function furtherAgain({
  lower,
  shinMm,
  calfMm,
  pressure,
}: FactOf<'cuff.read'>): FurtherDraft | undefined {
  if (!lower && shinMm === undefined && calfMm === undefined) return undefined;
  const text = (value: number | undefined) => (value === undefined ? '' : shown(value, 2));
  return {
    lowerHeight: text(lower?.heightMm),
    lowerMedial: text(lower?.medialMm),
    lowerLateral: text(lower?.lateralMm),
    contact: lower?.contact ?? 'none',
    pressure: pressure ?? 'graze',
    shin: text(shinMm),
    calf: text(calfMm),
  };
}

/** In one line, for the button that leads to it. */
export function furtherText(side: Side, draft: FurtherDraft | undefined): string | null {
  if (!draft || furtherEmpty(draft)) return null;
  const { lower, shinMm, calfMm } = furtherOf(draft);
  const said = [
    ...(lower ? [words.lowerSays(lower.medialMm, lower.lateralMm, lower.heightMm)] : []),
    ...(shinMm === undefined ? [] : [words.shinSays(shinMm)]),
    ...(calfMm === undefined ? [] : [words.calfSays(calfMm)]),
  ];
  return `${Sided(side)}: ${said.join(', ') || '…'}`;
}
