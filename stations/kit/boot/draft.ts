/** A boot's description while it is typed, and what becomes of it. */
import type { SOLE_STANDARDS } from '../../../core/index.ts';
import type { FactOf, Payload } from '../../../core/index.ts';
import { parseNumber, shown } from '../numbers.ts';
import { bootForm } from '../words/boot.ts';
import { parsePlaces, placesText } from './places.ts';

export type Pivots = Payload<'boot.described'>['hardware']['pivots'];
type SoleStandard = (typeof SOLE_STANDARDS)[number];

/** As typed: all numbers are still text. */
export interface BootDraft {
  model: string;
  mondo: string;
  soleLength: string;
  soleStandard: SoleStandard;
  pivots: Pivots | null;
  spacing: string;
  height: string;
  lean: string;
  lateralUp: string;
  lateralDown: string;
  medialUp: string;
  medialDown: string;
  mark: string;
  /** Places that are not equal millimetres, as `A −4; B 0; C 3.5`; empty when the marks are equal or absent. */
  lateralPlaces: string;
  medialPlaces: string;
  walkMode: boolean;
  /** What a description says beyond this form: it goes on as it was. */
  kept: Partial<Description>;
}

export const emptyBoot = (): BootDraft => ({
  model: '',
  mondo: '',
  soleLength: '',
  soleStandard: 'iso5355-a',
  pivots: null,
  spacing: '',
  height: '',
  lean: '',
  lateralUp: '',
  lateralDown: '',
  medialUp: '',
  medialDown: '',
  mark: '',
  lateralPlaces: '',
  medialPlaces: '',
  walkMode: false,
  kept: {},
});

export type Description = Omit<Payload<'boot.described'>, 'side'>;
export type Described =
  | { readonly ok: true; readonly payload: Description }
  | { readonly ok: false; readonly missing: readonly string[] };

/** The payload without its side, or the labels of what is still needed. */
/** What the form does not ask of the hardware, and does not lose either. */
function keptOf(hardware: Description['hardware'] | undefined): Partial<Description['hardware']> {
  const { holeEdgeMm, slotsMayLengthen, minHoleEdgeMm } = hardware ?? {};
  return {
    ...(holeEdgeMm === undefined ? {} : { holeEdgeMm }),
    ...(slotsMayLengthen === undefined ? {} : { slotsMayLengthen }),
    ...(minHoleEdgeMm === undefined ? {} : { minHoleEdgeMm }),
  };
}

export function describe(draft: BootDraft): Described {
  const missing: string[] = [];
  const need = (text: string, label: string): number => {
    const value = parseNumber(text);
    if (value === null) missing.push(label);
    return value ?? NaN;
  };
  if (draft.model.trim() === '') missing.push(bootForm.model);
  const mondo = need(draft.mondo, bootForm.mondo);
  const soleLengthMm = need(draft.soleLength, bootForm.soleLength);
  if (draft.pivots === null) missing.push(bootForm.pivots);
  const spacing = need(draft.spacing, bootForm.spacing);
  const height = need(draft.height, bootForm.height);
  const lateral =
    draft.pivots !== 'dual' && draft.pivots !== 'single'
      ? { upMm: 0, downMm: 0 }
      : {
          upMm: need(draft.lateralUp, bootForm.lateralUp),
          downMm: need(draft.lateralDown, bootForm.lateralDown),
        };
  const medial =
    draft.pivots === 'dual'
      ? { upMm: need(draft.medialUp, bootForm.medialUp), downMm: need(draft.medialDown, bootForm.medialDown) }
      : null;
  const lateralPlaces = draft.pivots === 'fixed' ? [] : parsePlaces(draft.lateralPlaces);
  const medialPlaces = draft.pivots === 'dual' ? parsePlaces(draft.medialPlaces) : [];
  if (lateralPlaces === null) missing.push(bootForm.lateralPlaces);
  if (medialPlaces === null) missing.push(bootForm.medialPlaces);
  if (missing.length > 0) return { ok: false, missing };

  const { hardware, walkMode: _walk, ...kept } = draft.kept;
  const positions = {
    ...(lateralPlaces?.length ? { lateral: lateralPlaces } : {}),
    ...(medialPlaces?.length ? { medial: medialPlaces } : {}),
  };
  const lean = parseNumber(draft.lean);
  const mark = draft.pivots === 'fixed' ? null : parseNumber(draft.mark);
  const payload = {
    ...kept,
    model: draft.model.trim(),
    mondo,
    soleLengthMm,
    soleStandard: draft.soleStandard,
    ...(draft.walkMode ? { walkMode: true } : {}),
    hardware: {
      ...keptOf(hardware),
      pivots: draft.pivots,
      pivotSpacingMm: spacing,
      readingHeightMm: height,
      ...(lean === null ? {} : { factoryLeanDeg: lean }),
      travel: medial ? { lateral, medial } : { lateral },
      ...(mark === null ? {} : { markMm: mark }),
      ...(lateralPlaces?.length ? { positions } : {}),
    },
  };
  return { ok: true, payload: payload as unknown as Description };
}

/** A description that was entered, as text again: to correct it, or for the next pair of the same model. */
export function draftOf(fact: FactOf<'boot.described'>): BootDraft {
  const { model, mondo, soleLengthMm, soleStandard, hardware, walkMode, ...rest } = fact;
  const { id: _id, kind: _kind, at: _at, by: _by, basis: _basis, v: _v, side: _side, ...kept } = rest;
  const text = (value: number | undefined) => (value === undefined ? '' : shown(value, 2).replace('−', '-'));
  const { lateral, medial } = hardware.travel;
  return {
    model,
    mondo: text(mondo),
    soleLength: text(soleLengthMm),
    soleStandard,
    pivots: hardware.pivots,
    spacing: text(hardware.pivotSpacingMm),
    height: text(hardware.readingHeightMm),
    lean: text(hardware.factoryLeanDeg),
    lateralUp: text(lateral.upMm),
    lateralDown: text(lateral.downMm),
    medialUp: text(medial?.upMm),
    medialDown: text(medial?.downMm),
    mark: text(hardware.markMm),
    lateralPlaces: placesText(hardware.positions?.lateral),
    medialPlaces: placesText(hardware.positions?.medial),
    walkMode: walkMode ?? false,
    kept: { ...kept, hardware },
  };
}
