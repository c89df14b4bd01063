/**
 * Values that are possible and look wrong: asked about before they are stored, never changed, never refused.
 *
 * Where the plan foretells a number, the question comes from its own spread; the other limits are common practice, no
 * source, set so that a slip of the finger is seen and a rare leg is asked about once.
 */
import { ADJUSTERS, otherSide } from '../frame.ts';
import type { Adjuster, Side } from '../frame.ts';
import { gapsFor, shift } from '../maths/cuff.ts';
import type { Draft } from '../record/basis.ts';
import type { Fact } from '../record/facts.ts';
import type { Kind, Payload } from '../record/kinds.ts';
import { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { mm } from '../units.ts';
import type { Mm } from '../units.ts';
import { photoSd } from './evidence.ts';
import { sceneOf } from './scene.ts';
import { settingsOf, sideNow } from './side.ts';

/** One question. Lengths in mm; `atLeastMm` to `atMostMm` is where the value was looked for. */
export type Doubt =
  | ({ readonly code: 'gap'; readonly side: Side; readonly place: Adjuster } & Outside)
  | ({ readonly code: 'gap-sum'; readonly side: Side } & Outside)
  | ({ readonly code: 'stance-width' } & Outside)
  | ({ readonly code: 'knee-offset'; readonly side: Side } & Outside)
  | ({ readonly code: 'pivot'; readonly side: Side; readonly place: Adjuster } & Outside)
  | ({ readonly code: 'knee-height'; readonly side: Side } & Unlike)
  | ({ readonly code: 'sole-length'; readonly side: Side } & Unlike)
  | ({ readonly code: 'sole-height'; readonly side: Side; readonly zone: 'toe' | 'heel' } & Unlike);
export type DoubtCode = Doubt['code'];

interface Outside {
  readonly isMm: Mm;
  readonly atLeastMm: Mm;
  readonly atMostMm: Mm;
}
/** Unlike its counterpart: the other leg, the other boot, the other edge. */
interface Unlike {
  readonly isMm: Mm;
  readonly otherMm: Mm;
}

/** Standard deviations past which a reading is asked about, as a wrong side is. */
const FAR = 3;
/** Limits of what is likely, all in mm. */
export const UNLIKELY = {
  /** A stance further from the last one than this; common practice, no source. */
  stanceMovedMm: 40,
  /** The first stance is looked for here; from memory, low. */
  stanceMm: { min: 100, max: 450 },
  /** Knees of one skier differ less; from memory, low. */
  kneeHeightsMm: 25,
  /** Soles of one pair differ less, and those of one model are alike; common practice, no source. */
  soleLengthsMm: 10,
  /** Both edges of one zone; common practice, no source. */
  soleEdgesMm: 3,
} as const;

const outside = (isMm: number, atLeastMm: number, atMostMm: number): Outside | null =>
  isMm < atLeastMm - 1e-9 || isMm > atMostMm + 1e-9
    ? { isMm: mm(isMm), atLeastMm: mm(atLeastMm), atMostMm: mm(atMostMm) }
    : null;

const unlike = (isMm: number, otherMm: number, mostMm: number): Unlike | null =>
  Math.abs(isMm - otherMm) > mostMm ? { isMm: mm(isMm), otherMm: mm(otherMm) } : null;

/** A new entry as it is typed: its kind, and what the kind holds. */
type Typed<K extends Kind> = { readonly kind: K } & Payload<K>;
export type Asked = { [K in Kind]: Typed<K> }[Kind];

/** The newest reading at this setting foretells the next one there; else all that may be taken together with it. */
function gapDoubts(log: Log, read: Typed<'cuff.read'>): Doubt[] {
  if (read.contact !== 'none' && read.pressure === 'press') return [];
  const { sides, settings } = sceneOf(log);
  const { side } = read;
  const { now, sight } = sides[side];
  const last = sight.grounds?.newest.fact;
  const here = now.hardware && now.set && sight.grounds?.joint?.at(shift(now.hardware, now.set));
  if (!last || !here) {
    const sum = outside(read.medialMm + read.lateralMm, settings.gapSumAskMinMm, settings.gapSumAskMaxMm);
    // A leg that touches on one side leaves no room there to be summed.
    return sum && read.contact === 'none' ? [{ code: 'gap-sum', side, ...sum }] : [];
  }
  const alike =
    last.to === read.to &&
    last.liner === read.liner &&
    last.heightMm === read.heightMm &&
    Math.abs(last.stanceWidthMm - read.stanceWidthMm) <= settings.stanceWidthPoolMm;
  if (!alike) return [];
  const gaps = gapsFor(mm(last.medialMm + last.lateralMm), here.biasMm);
  const sigma = settings.gapErrorMm;
  // The spread of what is foretold, and of reading it.
  const far = FAR * Math.hypot(Math.sqrt(2 * sigma ** 2 + here.sdMm ** 2) / 2, sigma, photoSd(read));
  return ADJUSTERS.flatMap((place): Doubt[] => {
    const foretold = gaps[`${place}Mm`];
    const found = outside(read[`${place}Mm`], Math.max(0, foretold - far), Math.max(0, foretold) + far);
    return found ? [{ code: 'gap', side, place, ...found }] : [];
  });
}

/** Of all readings, of the cuffs and of the knees: the skier stands one way. */
function stanceDoubts(log: Log, widthMm: number): Doubt[] {
  const last = log.facts
    .flatMap((fact) =>
      (fact.kind === 'cuff.read' || fact.kind === 'stance.read') && log.struckBy(fact.id) === null
        ? [fact.stanceWidthMm]
        : [],
    )
    .at(-1);
  const { stanceMovedMm, stanceMm } = UNLIKELY;
  const found =
    last === undefined
      ? outside(widthMm, stanceMm.min, stanceMm.max)
      : outside(widthMm, last - stanceMovedMm, last + stanceMovedMm);
  return found ? [{ code: 'stance-width', ...found }] : [];
}

function kneeDoubts(log: Log, read: Typed<'stance.read'>): Doubt[] {
  const { side } = read;
  const of = (which: Side) => log.live('stance.read').filter((fact) => fact.side === which);
  const other = of(otherSide(side)).at(-1);
  const height = other && unlike(read.kneeHeightMm, other.kneeHeightMm, UNLIKELY.kneeHeightsMm);
  // On the same wedge, at the same mark, a knee stands where it stood.
  const now = JSON.stringify(log.now(slot.sole(side)));
  const last = of(side).findLast(
    (fact) => fact.kneeMark === read.kneeMark && JSON.stringify(log.asOf(slot.sole(side), fact.id)) === now,
  );
  const far = FAR * Math.SQRT2 * settingsOf(log).kneeErrorMm;
  const offset = last && outside(read.kneeOffsetMm, last.kneeOffsetMm - far, last.kneeOffsetMm + far);
  return [
    ...(height ? [{ code: 'knee-height', side, ...height } as const] : []),
    ...(offset ? [{ code: 'knee-offset', side, ...offset } as const] : []),
  ];
}

function pivotDoubts(log: Log, set: Typed<'cuff.set'>): Doubt[] {
  const { side } = set;
  const { hardware } = sideNow(log, side);
  return ADJUSTERS.flatMap((place): Doubt[] => {
    const reach = hardware?.[place];
    const isMm = set[`${place}Mm`];
    const found = reach && isMm !== undefined && outside(isMm, reach.minMm, reach.maxMm);
    return found ? [{ code: 'pivot', side, place, ...found }] : [];
  });
}

function lengthDoubts(log: Log, boot: Typed<'boot.described'>, all: readonly Asked[]): Doubt[] {
  const { side } = boot;
  const theirs = (fact: { readonly side: Side }) => fact.side === otherSide(side);
  const typed = all.filter((each) => each.kind === 'boot.described').find(theirs);
  // Of two boots that are entered together one is asked about.
  if (typed && side === 'left') return [];
  const other = typed ?? log.live('boot.described').filter(theirs).at(-1);
  if (!other) return [];
  const most = other.model === boot.model && other.mondo === boot.mondo ? 1 : UNLIKELY.soleLengthsMm;
  const found = unlike(boot.soleLengthMm, other.soleLengthMm, most);
  return found ? [{ code: 'sole-length', side, ...found }] : [];
}

function soleDoubts(measured: Typed<'sole.measured'>): Doubt[] {
  return (['toe', 'heel'] as const).flatMap((zone): Doubt[] => {
    const { heightMedialMm, heightLateralMm } = measured[zone];
    const found = unlike(heightMedialMm, heightLateralMm, UNLIKELY.soleEdgesMm);
    return found ? [{ code: 'sole-height', side: measured.side, zone, ...found }] : [];
  });
}

function doubtsIn(log: Log, asked: Asked, all: readonly Asked[]): Doubt[] {
  switch (asked.kind) {
    case 'cuff.read':
      return [...gapDoubts(log, asked), ...stanceDoubts(log, asked.stanceWidthMm)];
    case 'stance.read':
      return [...kneeDoubts(log, asked), ...stanceDoubts(log, asked.stanceWidthMm)];
    case 'cuff.set':
      return pivotDoubts(log, asked);
    case 'boot.described':
      return lengthDoubts(log, asked, all);
    case 'sole.measured':
      return soleDoubts(asked);
    default:
      return [];
  }
}

/**
 * What is to be asked before these entries are stored, each question once; empty where all looks right.
 * @param facts what is on record
 * @param drafts the entries, as they would be added together
 */
export function doubtsOf(facts: readonly Fact[], drafts: readonly (Asked & Draft)[]): Doubt[] {
  const log = new Log(facts);
  const found = drafts.flatMap((draft) => doubtsIn(log, draft, drafts));
  return found.filter(
    (doubt, i) => found.findIndex((each) => JSON.stringify(each) === JSON.stringify(doubt)) === i,
  );
}
