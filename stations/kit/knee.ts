/** One knee as it is typed, and the entry it becomes; what stands under a boot, and what stood there before a wedge. */
import type { Fact, FactOf, Payload, Side } from '../../core/index.ts';
import { logOf } from './entries.ts';
import { parseNumber, shown } from './numbers.ts';
import type { FactDraft } from './session.ts';

export type Toward = 'medial' | 'lateral';

/** A sign is never typed: the size is a number, the direction a word. */
export interface KneeDraft {
  offset: string;
  toward: Toward | null;
  height: string;
  restood: boolean;
}

/** What is the same for both knees: how the skier stands, and which mark the knee is taken at. */
export interface KneeStance {
  width: string;
  mark: Payload<'stance.read'>['kneeMark'] | null;
  parallel: boolean;
  straightRunStance: boolean;
  midFlex: boolean;
}

/** A number as it would be typed; nothing where there is none. */
const held = (mm: number | undefined): string => (mm === undefined ? '' : shown(mm, 2));

/** Height and mark are held from this leg's own last reading; offset and standing afresh never are. */
export const emptyKnee = (last?: FactOf<'stance.read'>): KneeDraft => ({
  offset: '',
  toward: null,
  height: held(last?.kneeHeightMm),
  restood: false,
});

/** A reading as it was typed. */
export const typedKnee = (fact: FactOf<'stance.read'>): KneeDraft => ({
  offset: shown(Math.abs(fact.kneeOffsetMm), 2),
  toward: fact.kneeOffsetMm === 0 ? null : fact.kneeOffsetMm > 0 ? 'lateral' : 'medial',
  height: held(fact.kneeHeightMm),
  restood: fact.restood,
});

export const heldStance = (
  stance: FactOf<'stance.read'> | undefined,
  cuff: FactOf<'cuff.read'> | undefined,
): KneeStance => ({
  width: held(stance?.stanceWidthMm ?? cuff?.stanceWidthMm),
  mark: stance?.kneeMark ?? null,
  parallel: true,
  straightRunStance: true,
  midFlex: true,
});

/** A size and its direction as one number, `positive` toward lateral; null while either is missing. */
export function bySide(size: string, toward: Toward | null): number | null {
  const number = parseNumber(size);
  if (number === null || number < 0) return null;
  if (number === 0) return 0;
  return toward === null ? null : toward === 'lateral' ? number : -number;
}

/** A cant and its thick edge as one number: thick medial tips the boot outward, which is positive. */
export const byThickEdge = (size: string, thick: Toward | null): number | null => {
  const cant = bySide(size, thick);
  return cant === null || cant === 0 ? cant : -cant;
};

/** The entry of one knee; null while something is missing. */
export function kneeReading(side: Side, knee: KneeDraft, stance: KneeStance): FactDraft | null {
  const kneeOffsetMm = bySide(knee.offset, knee.toward);
  const kneeHeightMm = parseNumber(knee.height);
  const stanceWidthMm = parseNumber(stance.width);
  if (kneeOffsetMm === null || kneeHeightMm === null || stanceWidthMm === null || !stance.mark) return null;
  const { mark: kneeMark, parallel, straightRunStance, midFlex } = stance;
  return {
    kind: 'stance.read',
    side,
    kneeOffsetMm,
    kneeHeightMm,
    stanceWidthMm,
    kneeMark,
    restood: knee.restood,
    // The knee is read with the buckles closed as for skiing.
    posture: { parallel, straightRunStance, bucklesLight: false, midFlex },
  } as FactDraft;
}

/** What stands under the boot once its test wedge is out: what stood there before. */
export function withoutWedge(facts: readonly Fact[], side: Side): FactDraft {
  const before = logOf(facts)
    .live('sole.set')
    .findLast((fact) => fact.side === side && fact.state !== 'test-wedge');
  return {
    kind: 'sole.set',
    side,
    cantDeg: before?.cantDeg ?? 0,
    state: before?.state ?? 'neutralised',
  } as FactDraft;
}

/** Is a test wedge under this boot? The last thing said of its sole counts. */
export function wedgeIn(facts: readonly Fact[], side: Side): boolean {
  const log = logOf(facts);
  const set = log.live('sole.set').findLast((fact) => fact.side === side);
  const fitted = log.live('plate.fitted').findLast((fact) => fact.side === side);
  if (!set || set.state !== 'test-wedge') return false;
  return !fitted || log.facts.indexOf(set) > log.facts.indexOf(fitted);
}
