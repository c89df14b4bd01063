/** One skier through one practice: read, decide, move, until the cuff is closed or given up. */
import { readGaps, trueGaps } from '../../../demo/leg.ts';
import type { Pivots } from '../../../demo/leg.ts';
import type { Random } from '../../../demo/random.ts';
import type { Case } from './cases.ts';
import type { Practice, Visit } from './practice.ts';
import { ASSUMED } from './skiers.ts';
import type { Skier } from './skiers.ts';

/** A person would have called somebody by then. */
const MOST_ROUNDS = 8;
/** Readings more at one setting, however often they are asked for. */
const MOST_MORE = 3;
/** Half of nine tenths of a normal distribution. */
const NINE_TENTHS = 1.6449;

export interface Outcome {
  readonly end: 'closed' | 'given-up' | 'not-closed';
  /** Times that the pivots were moved. */
  readonly rounds: number;
  readonly readings: number;
  /** Medial less lateral gap as they truly are at the end, mm. */
  readonly trulyOffMm: number;
  /** For each estimate of the bias that had an interval: whether it held the truth. */
  readonly held: readonly boolean[];
}

const NEUTRAL: Pivots = { medialMm: 0, lateralMm: 0 };

export function work(skier: Skier, of: Case, practice: Practice, each: 1 | 2, random: Random): Outcome {
  const visits: Visit[] = [];
  const held: boolean[] = [];
  let set = NEUTRAL;
  let readings = 0;
  const truth = () => {
    const { medialMm, lateralMm } = trueGaps(skier.leg, skier.cuff, set);
    return medialMm - lateralMm;
  };
  const read = () => {
    const stance = of.drifts ? random.normal(ASSUMED.stanceSdMm) : 0;
    const leg = { ...skier.leg, placeMm: skier.leg.placeMm + ASSUMED.placePerStance * stance };
    const gaps = readGaps(trueGaps(leg, skier.cuff, set), of.errorMm, random);
    const second = readings % 2 === 1 && gaps.medialMm > 0 ? of.secondHandMm : 0;
    readings += 1;
    return {
      ...gaps,
      medialMm: gaps.medialMm + Math.round(second * 2) / 2,
      stanceWidthMm: Math.round(240 + stance),
    };
  };
  for (let rounds = 0; ; rounds++) {
    visits.push({ set, readings: Array.from({ length: each }, read) });
    let { next, cuff } = practice(of, visits);
    for (let more = 0; next.do === 'read'; more++) {
      if (more === MOST_MORE) {
        next = cuff?.verdict === 'even' ? { do: 'close' } : { do: 'give-up' };
        break;
      }
      const last = visits.pop()!;
      visits.push({ set, readings: [...last.readings, read()] });
      ({ next, cuff } = practice(of, visits));
    }
    if (cuff && cuff.bound === 'exact' && cuff.biasMm !== null && cuff.biasSdMm !== null)
      held.push(Math.abs(truth() - cuff.biasMm) <= NINE_TENTHS * cuff.biasSdMm);
    const end = (how: Outcome['end']): Outcome => ({ end: how, rounds, readings, trulyOffMm: truth(), held });
    if (next.do === 'close') return end('closed');
    if (next.do === 'give-up') return end('given-up');
    if (rounds === MOST_ROUNDS) return end('not-closed');
    set = next.to;
  }
}
