/** One boot as it was found and as it stands: what several papers show, from the facts and the plan. */
import { mm } from '../../core/index.ts';
import type { Adjuster, CuffPlan, Fact, FactOf, Pair, Plan, Side } from '../../core/index.ts';
import { leanFromPivots } from '../kit/drawing/geometry.ts';
import { latest, logOf } from '../kit/entries.ts';
import { wedgeIn } from '../kit/knee.ts';
import { shown, signed } from '../kit/numbers.ts';
import { moment } from '../kit/words/common.ts';
import { leanText, positionText } from '../kit/words/drawing.ts';
import { spotWord } from '../kit/words/foot.ts';
import { paper } from '../kit/words/paper.ts';
import { cantWords } from '../kit/words/stance.ts';

export interface Found {
  readonly pivots: Pair | null;
  readonly leanDeg: number | null;
  readonly gaps: Pair | null;
  readonly cantDeg: number | null;
}

const first = <K extends 'cuff.set' | 'sole.set' | 'boot.described' | 'plate.fitted' | 'shell.worked'>(
  facts: readonly Fact[],
  kind: K,
  side: Side,
  fits: (fact: FactOf<K>) => boolean = () => true,
): FactOf<K> | undefined =>
  (logOf(facts).live(kind) as FactOf<K>[]).find((fact) => fact.side === side && fits(fact));

/** Before any work. Null where nobody recorded it: what was set later says nothing of what was found. */
export function foundOf(facts: readonly Fact[], plan: Plan, side: Side): Found {
  const { cuff } = plan.sides[side];
  const set = first(facts, 'cuff.set', side, ({ state }) => state === 'as-found');
  const pivots = set ? { lateralMm: set.lateralMm, medialMm: set.medialMm ?? mm(0) } : null;
  const round = cuff.rounds[0];
  return {
    pivots,
    leanDeg:
      pivots && typeof cuff.hardware?.factoryLeanDeg === 'number' ? leanFromPivots(cuff, pivots) : null,
    gaps: round ? { medialMm: round.medialMm, lateralMm: round.lateralMm } : null,
    cantDeg: first(facts, 'sole.set', side, ({ state }) => state === 'as-brought')?.cantDeg ?? null,
  };
}

export const adjustersOf = ({ hardware }: CuffPlan): Adjuster[] =>
  (['lateral', 'medial'] as const).filter((adjuster) => hardware?.[adjuster]);

/** `Lateral pivot: 2 mm up (mark 2)`, a line for each adjuster. */
export function pivotLines(cuff: CuffPlan): { readonly name: string; readonly place: string }[] {
  const { set } = cuff;
  const adjusters = adjustersOf(cuff);
  if (cuff.hardware && adjusters.length === 0) return [{ name: paper.cuff, place: paper.pivotsFixed }];
  return adjusters.map((adjuster) => ({
    name: paper.pivot[adjuster],
    place: set ? placeText(cuff, adjuster, set[`${adjuster}Mm`]) : paper.unknown,
  }));
}

/** The number that the dial shows, and the same in words. */
const placeText = (cuff: CuffPlan, adjuster: Adjuster, at: number): string =>
  tied(`${signed(at, 2)} mm, ${positionText(cuff, adjuster, at)}`);

export const cuffLean = (cuff: CuffPlan): string => (cuff.set ? leanText(cuff.leanDeg) : paper.unknown);

export const cantText = (cantDeg: number | null): string =>
  cantDeg === null ? paper.unknown : cantWords(cantDeg);

export const fittedOf = (facts: readonly Fact[], side: Side): FactOf<'plate.fitted'> | undefined =>
  latest(facts, 'plate.fitted', (fact) => fact.side === side);

/** Whether the sole was altered here, and how. */
export function soleText(facts: readonly Fact[], side: Side): string {
  const fitted = fittedOf(facts, side);
  const under = fitted && (fitted.method === 'plate' ? paper.thinEdge(fitted.thinEdgeMm) : lifterOf(fitted));
  return tied(
    [
      fitted ? [paper.soles[fitted.method], ...(under ? [under] : [])].join(', ') : paper.soles.untouched,
      ...(wedgeIn(facts, side) ? [paper.wedge] : []),
    ].join('; '),
  );
}

/** A planed sole has no thin edge: what lies flat under it, if anything. */
const lifterOf = ({ lifterMm }: FactOf<'plate.fitted'>): string | null =>
  lifterMm ? paper.lifter(lifterMm) : null;

/** A number and its unit stay on one line. */
export const tied = (text: string): string => text.replaceAll(/(\d) (mm|%)/g, '$1\u00a0$2');

/** What was changed inside, and where the shell was worked; null for nothing. */
export function insideText(facts: readonly Fact[], side: Side): string | null {
  const log = logOf(facts);
  const set = log.live('inside.set').filter((fact) => fact.side === side);
  const lift = set.findLast(({ heelLiftMm }) => heelLiftMm !== undefined)?.heelLiftMm;
  const lean = set.findLast(({ forwardLeanPos }) => forwardLeanPos !== undefined)?.forwardLeanPos;
  const spots = log
    .live('shell.worked')
    .filter((fact) => fact.side === side)
    .map(({ spot }) => spotWord(spot));
  const said = [
    ...(lift ? [paper.lift(lift)] : []),
    ...(lean === undefined ? [] : [paper.lean(typeof lean === 'number' ? shown(lean) : lean)]),
    ...(spots.length > 0 ? [paper.shell([...new Set(spots)])] : []),
  ];
  return said.length > 0 ? said.join('; ') : null;
}

/** The last moment at which anything of it was set. */
export function setOn(facts: readonly Fact[], side: Side): string | null {
  const kinds = ['cuff.set', 'plate.fitted', 'sole.set', 'inside.set', 'shell.worked', 'cuff.closed'];
  const log = logOf(facts);
  const last = facts.findLast(
    (fact) =>
      kinds.includes(fact.kind) && 'side' in fact && fact.side === side && log.struckBy(fact.id) === null,
  );
  return last?.at ?? null;
}

/** Which state of the record a sheet shows: the same words from the same entries. */
export const stateText = (facts: readonly Fact[], timeZone: string): string =>
  paper.state(facts.length, moment(facts.at(-1)!.at, timeZone));

/** As read at today's setting; null where that is out of date or was never read: a card says what was seen, not what is hoped. */
export const gapsOf = ({ reading }: CuffPlan): Pair | null => (reading && !reading.stale ? reading : null);

/** `7 | 6`: medial and lateral, in millimetres. */
export const gapsText = (gaps: Pair | null): string =>
  gaps ? `${shown(gaps.medialMm)} | ${shown(gaps.lateralMm)}` : '–';
