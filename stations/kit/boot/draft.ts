/** A boot's description while it is typed, and what becomes of it. */
import type { SOLE_STANDARDS } from '../../../core/index.ts';
import type { FactOf, Payload, Side } from '../../../core/index.ts';
import { parseNumber, shown } from '../numbers.ts';
import { bootForm } from '../words/boot.ts';

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
});

export type Described =
  | { readonly ok: true; readonly payload: Omit<Payload<'boot.described'>, 'side'> }
  | { readonly ok: false; readonly missing: readonly string[] };

/** The payload without its side, or the labels of what is still needed. */
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
  const pivotSpacingMm = need(draft.spacing, bootForm.spacing);
  const readingHeightMm = need(draft.height, bootForm.height);
  const moves = draft.pivots === 'dual' || draft.pivots === 'single';
  const lateral = moves
    ? {
        upMm: need(draft.lateralUp, bootForm.lateralUp),
        downMm: need(draft.lateralDown, bootForm.lateralDown),
      }
    : { upMm: 0, downMm: 0 };
  const medial =
    draft.pivots === 'dual'
      ? { upMm: need(draft.medialUp, bootForm.medialUp), downMm: need(draft.medialDown, bootForm.medialDown) }
      : null;
  if (missing.length > 0 || draft.pivots === null) return { ok: false, missing };
  const factoryLeanDeg = parseNumber(draft.lean);
  const markMm = moves ? parseNumber(draft.mark) : null;
  const payload = {
    model: draft.model.trim(),
    mondo,
    soleLengthMm,
    soleStandard: draft.soleStandard,
    hardware: {
      pivots: draft.pivots,
      pivotSpacingMm,
      readingHeightMm,
      ...(factoryLeanDeg === null ? {} : { factoryLeanDeg }),
      travel: medial ? { lateral, medial } : { lateral },
      ...(markMm === null ? {} : { markMm }),
    },
  };
  return { ok: true, payload: payload as Omit<Payload<'boot.described'>, 'side'> };
}

/** A description that was entered, as text again: to correct it, or for the next pair of the same model. */
export function draftOf({
  model,
  mondo,
  soleLengthMm,
  soleStandard,
  hardware,
}: FactOf<'boot.described'>): BootDraft {
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
  };
}

const KEY = 'fibula.boots-described';
const KEPT = 12;

/** Boots described at this station before, newest first: a shop sees the same models again and again. */
export function knownBoots(): BootDraft[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    return Array.isArray(kept) ? (kept as BootDraft[]).map((boot) => ({ ...emptyBoot(), ...boot })) : [];
  } catch {
    return [];
  }
}

export function rememberBoot(draft: BootDraft): void {
  const others = knownBoots().filter((boot) => boot.model !== draft.model || boot.mondo !== draft.mondo);
  localStorage.setItem(KEY, JSON.stringify([draft, ...others].slice(0, KEPT)));
}

/** The drafts of both boots as entries of a session. */
export const describedFacts = (payloads: Readonly<Record<Side, Omit<Payload<'boot.described'>, 'side'>>>) =>
  (['left', 'right'] as const).map((side) => ({ kind: 'boot.described' as const, side, ...payloads[side] }));
