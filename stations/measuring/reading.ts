/** Four gaps as they are typed, and the entries they become. */
import type { FactOf, Mm, Payload, Side } from '../../core/index.ts';
import type { FactDraft } from '../kit/session.ts';
import { parseNumber, shown } from '../kit/numbers.ts';
import { furtherAgain, furtherEmpty, furtherOf } from './further.ts';
import type { FurtherDraft } from './further.ts';

export type Place = 'medial' | 'lateral';
export interface GapField {
  readonly side: Side;
  readonly place: Place;
}
/** The order in which a person works; nothing is ever copied from one side to the other. */
export const ORDER: readonly GapField[] = [
  { side: 'left', place: 'medial' },
  { side: 'left', place: 'lateral' },
  { side: 'right', place: 'medial' },
  { side: 'right', place: 'lateral' },
];

export interface LegDraft {
  medial: string;
  lateral: string;
  medialTouch: 'graze' | 'press' | null;
  lateralTouch: 'graze' | 'press' | null;
  /** Gaps that a person took from a photo: the marks, and the deviation. Typing over one takes it back. */
  photo?: Partial<Record<Place, FromPhoto>>;
  /** What was read beside the gaps, once somebody asked for it. */
  further?: FurtherDraft;
}

export interface FromPhoto {
  readonly marks: string;
  readonly text: string;
  readonly sdMm: Mm;
}

export interface Conditions {
  stanceWidth: string;
  widest: Record<Side, Payload<'cuff.read'>['widestAt'] | null>;
  to: Payload<'cuff.read'>['to'];
  liner: Payload<'cuff.read'>['liner'];
}

export interface ReadingDraft {
  legs: Record<Side, LegDraft>;
  posture: Payload<'cuff.read'>['posture'];
}

const emptyLeg = (): LegDraft => ({ medial: '', lateral: '', medialTouch: null, lateralTouch: null });
export const emptyReading = (): ReadingDraft => ({
  legs: { left: emptyLeg(), right: emptyLeg() },
  posture: { parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true },
});

/** What is held from each leg's own last reading; the stance width is the skier's, so either leg's will do. */
export function heldConditions(last: Partial<Record<Side, FactOf<'cuff.read'>>>): Conditions {
  const any = last.left ?? last.right;
  return {
    stanceWidth: any ? shown(any.stanceWidthMm, 2) : '',
    widest: { left: last.left?.widestAt ?? null, right: last.right?.widestAt ?? null },
    to: any?.to ?? 'shell',
    liner: any?.liner ?? 'in',
  };
}

/** An entry that was taken back, as it was typed: it is corrected, not typed anew. */
export function typedAgain(fact: FactOf<'cuff.read'>): LegDraft {
  const { contact, pressure, fromPhoto } = fact;
  const further = furtherAgain(fact);
  const touch = (place: Place) => (contact === place || contact === 'both' ? (pressure ?? 'graze') : null);
  const text = (place: Place) => shown(fact[`${place}Mm`], 2);
  const from = (place: Place) => {
    const sdMm = fromPhoto?.[`${place}SdMm`];
    // The marks of the medial gap stand first.
    const marks = fromPhoto?.marks.at(place === 'medial' ? 0 : -1);
    return sdMm === undefined || marks === undefined ? {} : { [place]: { marks, text: text(place), sdMm } };
  };
  return {
    medial: text('medial'),
    lateral: text('lateral'),
    medialTouch: touch('medial'),
    lateralTouch: touch('lateral'),
    ...(fromPhoto ? { photo: { ...from('medial'), ...from('lateral') } } : {}),
    ...(further ? { further } : {}),
  };
}

const gapOf = (leg: LegDraft, place: Place): number | null =>
  (place === 'medial' ? leg.medialTouch : leg.lateralTouch)
    ? 0
    : parseNumber(place === 'medial' ? leg.medial : leg.lateral);

export const isWhole = (leg: LegDraft): boolean =>
  gapOf(leg, 'medial') !== null && gapOf(leg, 'lateral') !== null;
export const isEmpty = (leg: LegDraft): boolean =>
  leg.medial.trim() === '' &&
  leg.lateral.trim() === '' &&
  !leg.medialTouch &&
  !leg.lateralTouch &&
  furtherEmpty(leg.further);

/** What of a leg's gaps is still as it was taken from a photo. */
function fromPhoto(leg: LegDraft): Payload<'cuff.read'>['fromPhoto'] {
  const of = (place: Place): FromPhoto | undefined => {
    const taken = leg.photo?.[place];
    return taken && !leg[`${place}Touch`] && leg[place] === taken.text ? taken : undefined;
  };
  const [medial, lateral] = [of('medial'), of('lateral')];
  const marks = [medial, lateral].flatMap((taken) => (taken ? [taken.marks] : []));
  if (marks.length === 0) return undefined;
  return {
    marks: [...new Set(marks)],
    ...(medial ? { medialSdMm: medial.sdMm } : {}),
    ...(lateral ? { lateralSdMm: lateral.sdMm } : {}),
  };
}

/** The entry of one leg; null while a gap, the stance width or the widest place is missing. */
export function readingOf(
  side: Side,
  leg: LegDraft,
  conditions: Conditions,
  posture: ReadingDraft['posture'],
): FactDraft | null {
  const medialMm = gapOf(leg, 'medial');
  const lateralMm = gapOf(leg, 'lateral');
  const stanceWidthMm = parseNumber(conditions.stanceWidth);
  const widestAt = conditions.widest[side];
  if (medialMm === null || lateralMm === null || stanceWidthMm === null || widestAt === null) return null;
  const taken = fromPhoto(leg);
  const beside = furtherOf(leg.further);
  // How hard it touches is said once: of the usual height where it touches there, else of the lower one.
  const lowerTouch = beside.lower && beside.lower.contact !== 'none' ? [leg.further!.pressure] : [];
  const upper = [leg.medialTouch, leg.lateralTouch].filter((touch) => touch !== null);
  const touching = upper.length > 0 ? upper : lowerTouch;
  const contact =
    leg.medialTouch && leg.lateralTouch
      ? 'both'
      : leg.medialTouch
        ? 'medial'
        : leg.lateralTouch
          ? 'lateral'
          : 'none';
  return {
    kind: 'cuff.read',
    side,
    medialMm,
    lateralMm,
    contact,
    to: conditions.to,
    liner: conditions.liner,
    stanceWidthMm,
    widestAt,
    posture: { ...posture },
    ...beside,
    ...(taken ? { fromPhoto: taken } : {}),
    ...(touching.length > 0 ? { pressure: touching.includes('press') ? 'press' : 'graze' } : {}),
  } as FactDraft;
}
