/** One cuff: from its readings to verdict, correction, and the move that this hardware can make. */
import type { Side } from '../frame.ts';
import { correct, gapsFor, shift } from '../maths/cuff.ts';
import type { Correction, Sight } from '../maths/cuff.ts';
import type { BiasEstimate, Estimate, Observation, Prior } from '../maths/estimate.ts';
import { lean, spread, spreadRange } from '../maths/hardware.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import { criticalRange } from '../maths/repeatability.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { deg, mm, sinDeg, toDeg, rad } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { evidence, jointEstimate, lineOffset, observation, priorOf } from './evidence.ts';
import { edgeProblems, extensionOf } from './extension.ts';
import { apart, counts, judge } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import { leanOf, moveOf } from './move.ts';
import { notPooled, repeatsOf, viewOf, widthProblems } from './pool.ts';
import { twoHeightsOf } from './two-heights.ts';
import { roundsOf } from './rounds.ts';
import type { CuffPlan, CuffVerdict, Problem, ReadingView, Reason } from './shape.ts';
import type { SideNow } from './side.ts';
import { capital, mmWords, percent } from './words.ts';

/** Is any travel left in the direction that takes a press away? */
function roomToward(hardware: HardwareNow, set: Pair, contact: 'medial' | 'lateral'): boolean {
  const { min, max } = spreadRange(hardware);
  return contact === 'lateral' ? max - spread(set) > 1e-6 : spread(set) - min > 1e-6;
}

function verdictOf(
  hardware: HardwareNow,
  set: Pair,
  { pressure, contact }: ReadingView,
  biasMm: Mm,
  correction: Correction,
  settings: Settings,
): CuffVerdict {
  if (pressure === 'press')
    return roomToward(hardware, set, contact as 'medial' | 'lateral') ? 'contact' : 'out-of-travel';
  if (Math.abs(biasMm) <= settings.evenToleranceMm) return 'even';
  return correction.canImprove ? 'uneven' : 'out-of-travel';
}

/** Standard deviation of the correction, degrees, by propagation through `D/(2kh)`, bias and response together. */
function correctionSd(
  hardware: HardwareNow,
  set: Pair,
  seen: BiasEstimate,
  sight: Sight,
  correctionDeg: Deg,
): Deg {
  const k = sight.response;
  const { sd } = seen.response;
  const perMm = 1 / (2 * k * hardware.readingHeightMm);
  const perK = (-seen.biasMm * perMm) / k;
  const variance = (perMm * seen.sdMm) ** 2 + (perK * sd) ** 2 + 2 * perMm * perK * seen.covariance;
  const slope = Math.sqrt(Math.max(1e-6, 1 - sinDeg(deg(lean(hardware, set) + correctionDeg)) ** 2));
  return toDeg(rad(Math.sqrt(Math.max(0, variance)) / slope));
}

function unread(now: SideNow, response: CuffPlan['response']): CuffPlan {
  const { hardware, set } = now;
  return {
    hardware,
    set,
    response,
    leanDeg: hardware && set && leanOf(hardware, set),
    reading: null,
    verdict: 'unread',
    biasMm: null,
    biasSdMm: null,
    correctionDeg: null,
    correctionSdDeg: null,
    bound: null,
    target: null,
    move: null,
    predicted: null,
    limitedBy: null,
    chanceEven: null,
    chanceEvenAfter: null,
    expected: null,
    shortBy: null,
    extension: null,
    twoHeights: null,
    rounds: [],
    readAgain: null,
    moveOn: null,
  };
}

/** Chances and spreads, where an exact reading gives them. */
interface Seen {
  readonly sight: Sight;
  readonly now: BiasEstimate | null;
  readonly joint: Estimate | null;
}

/** The least response that a correction is divided by: below, the readings say that the cuff moved the wrong way. */
const LEAST_RESPONSE = 0.25;

function see(
  hardware: HardwareNow,
  set: Pair,
  newest: Observation,
  prior: Prior,
  observations: readonly Observation[],
): Seen {
  const joint = jointEstimate(prior, observations);
  const now = joint?.at(shift(hardware, set)) ?? null;
  if (!now) return { sight: { biasMm: newest.biasMm, response: prior.response.k }, now: null, joint: null };
  return { sight: { biasMm: now.biasMm, response: Math.max(LEAST_RESPONSE, now.response.k) }, now, joint };
}

/** A cuff that reads even is worth a reading more, while the skier stands, below this chance that it is. */
const DOUBTED = 0.8;
/** One that reads uneven is worth it above this chance, before anybody walks to the bench, up to so many readings. */
const [MAYBE, MOST_BEFORE_A_MOVE] = [0.3, 3];
/** Below this chance a cuff that reads even, and was read again, may as well lie beyond the line. */
const BARELY = 0.7;
/** What a move must be expected to make of it, to be worth a walk to the bench. */
const SURE = 0.85;

function readAgain(
  view: ReadingView,
  verdict: CuffVerdict,
  chanceEven: number | null,
  settings: Settings,
): string | null {
  if (view.pressure === 'press') return 'A press only says at least: read again after the move.';
  // Of two gaps, each with that error, the bias has √2 times as much.
  const sdMm = Math.SQRT2 * settings.gapErrorMm;
  if (view.spreadMm !== null && view.spreadMm > criticalRange(view.repeats) * sdMm)
    return `The repeats differ by ${mmWords(view.spreadMm)}: let the skier settle and read once more.`;
  if (chanceEven === null) return null;
  if (verdict === 'even' && chanceEven < DOUBTED && view.repeats < 2)
    return `Even by ${percent(chanceEven)} only: one more reading before closing is worth it.`;
  if (verdict === 'uneven' && chanceEven > MAYBE && view.repeats < MOST_BEFORE_A_MOVE)
    return `Perhaps even already (${percent(chanceEven)}): read once more before moving.`;
  return null;
}

/** Why a cuff that reads even is worth one more move all the same. */
function moveOn(
  view: ReadingView,
  verdict: CuffVerdict,
  now: number | null,
  after: number | null,
): string | null {
  if (verdict !== 'even' || view.repeats < 2 || now === null || now >= BARELY) return null;
  if (after === null || after < SURE) return null;
  return `Even by ${percent(now)} only, though read again: this move is expected to make it ${percent(after)}.`;
}

/** What is expected at today's pivots after a move, before anybody reads there. */
function awaiting(
  plan: CuffPlan,
  hardware: HardwareNow,
  set: Pair,
  newest: JudgedReading,
  joint: Estimate | null,
  settings: Settings,
): CuffPlan {
  const here = joint?.at(shift(hardware, set));
  if (!here) return plan;
  const sum = mm(newest.fact.medialMm + newest.fact.lateralMm);
  return {
    ...plan,
    expected: gapsFor(sum, here.biasMm),
    chanceEven: here.chanceWithin(mm(settings.evenToleranceMm)),
    response: here.response,
  };
}

/** What the numbers of a cuff were made from, for those who ask where one comes from or carry the leg elsewhere. */
export interface CuffGrounds {
  /** The reading that the others are held against: the newest at today's pivots, else the newest of all. */
  readonly newest: JudgedReading;
  /** The readings that the joint estimate rests on, the newest among them. */
  readonly used: readonly JudgedReading[];
  readonly prior: Prior;
  /** Null while only bounds are known. */
  readonly joint: Estimate | null;
  /** What the correction is made from; null where nobody has read at today's pivots. */
  readonly sight: Sight | null;
}

export interface CuffSight {
  readonly cuff: CuffPlan;
  readonly readings: readonly JudgedReading[];
  readonly problems: readonly Problem[];
  /** Why no longer slot is told; null when one is. */
  readonly unextended: Reason | null;
  /** Null where no reading counts, or the cuff is too narrow to say anything of the leg. */
  readonly grounds: CuffGrounds | null;
}

/** One cuff whose pivots are known, with its readings judged. */
interface Bench {
  readonly now: SideNow;
  readonly hardware: HardwareNow;
  readonly set: Pair;
  readonly settings: Settings;
  readonly prior: Prior;
  readonly readings: readonly JudgedReading[];
  readonly empty: CuffPlan;
  observe(reading: JudgedReading): Observation;
}

/** What may be taken together with one reading, itself among it. */
const alike = ({ readings, settings }: Bench, with_: JudgedReading): JudgedReading[] =>
  evidence(readings).filter((r) => apart(r, with_, settings) === null);

/** Nobody has read at today's pivots: what is expected there, or the reading that went stale. */
function unreadHere(bench: Bench): Pick<CuffSight, 'cuff' | 'grounds'> {
  const { hardware, set, settings, prior, readings, empty } = bench;
  const last = evidence(readings).at(-1);
  const stale = readings.findLast((r) => r.here && !r.refused.length);
  const base = { ...empty, reading: stale ? viewOf([stale]) : null };
  if (!last) return { cuff: base, grounds: null };
  const used = alike(bench, last);
  const joint = jointEstimate(prior, used.map(bench.observe));
  return {
    cuff: stale ? base : awaiting(base, hardware, set, last, joint, settings),
    grounds: { newest: last, used, prior, joint, sight: null },
  };
}

function findings(
  side: Side,
  fact: string,
  seen: BiasEstimate | null,
  heights: ReturnType<typeof twoHeightsOf>,
): Problem[] {
  const problem = (code: string, text: string): Problem => ({ fact, side, code, text });
  return [
    ...(seen && seen.response.k < LEAST_RESPONSE
      ? [
          problem(
            'response-odd',
            `The ${side} gaps hardly followed the pivots, or went the other way: are sides, signs and pivot screws right?`,
          ),
        ]
      : []),
    ...(heights.tooClose
      ? [
          problem(
            'heights-close',
            `The two heights of the ${side} reading lie less than 30 mm apart: they cannot part tilt from offset.`,
          ),
        ]
      : []),
    ...(heights.plan && !heights.plan.agree
      ? [
          problem(
            'heights-disagree',
            `An even gap and a parallel ${side} cuff are two different settings here: look at seat, padding and footbed.`,
          ),
        ]
      : []),
  ];
}

/** Read at today's pivots: verdict, correction, and what this hardware makes of it. */
function readHere(
  bench: Bench,
  here: readonly JudgedReading[],
): Pick<CuffSight, 'cuff' | 'grounds' | 'problems'> {
  const { now, hardware, set, settings, prior, readings, empty } = bench;
  const newest = here.at(-1)!;
  const pool = repeatsOf(newest, here, settings);
  const reading = viewOf(pool);
  const problems = [
    ...notPooled(newest, readings, settings),
    ...widthProblems(now.side, reading, newest, settings),
  ];
  if (reading.pressure === 'press' && reading.contact === 'both')
    return { cuff: { ...empty, reading, verdict: 'too-narrow' }, problems, grounds: null };

  const used = alike(bench, newest);
  const {
    sight,
    now: seen,
    joint,
  } = see(hardware, set, bench.observe(newest), prior, used.map(bench.observe));
  const correction = correct(hardware, sight, set);
  const verdict = verdictOf(hardware, set, reading, sight.biasMm, correction, settings);
  const sum = mm(newest.fact.medialMm + newest.fact.lateralMm);
  const { target } = correction;
  const predicted = target && gapsFor(sum, correction.biasAfterMm);
  const tolerance = mm(settings.evenToleranceMm);
  const chanceEven = seen?.chanceWithin(tolerance) ?? null;
  const chanceEvenAfter = target && joint ? joint.at(shift(hardware, target)).chanceWithin(tolerance) : null;
  const again = readAgain(reading, verdict, chanceEven, settings);
  const further = again === null ? moveOn(reading, verdict, chanceEven, chanceEvenAfter) : null;
  const heights = twoHeightsOf(hardware, set, pool, sight, sum, settings);
  return {
    problems: [...problems, ...findings(now.side, newest.fact.id, seen, heights)],
    grounds: { newest, used, prior, joint, sight },
    cuff: {
      ...empty,
      reading,
      verdict,
      biasMm: sight.biasMm,
      biasSdMm: seen?.sdMm ?? null,
      correctionDeg: correction.correctionDeg,
      correctionSdDeg: seen && correctionSd(hardware, set, seen, sight, correction.correctionDeg),
      bound: seen ? 'exact' : 'at-least',
      target: target && { ...target, leanDeg: leanOf(hardware, target) },
      move:
        target && moveOf(now.side, hardware, set, target, predicted!, verdict === 'even' && !further, !seen),
      predicted,
      limitedBy: correction.limitedBy,
      chanceEven,
      chanceEvenAfter,
      response: seen?.response ?? prior.response,
      shortBy: correction.shortBy,
      twoHeights: heights.plan,
      readAgain: again,
      moveOn: further,
    },
  };
}

/** Readings that should not have been taken like this, and those that no longer hold. */
const faults = (side: Side, readings: readonly JudgedReading[]): Problem[] => [
  ...readings.flatMap((r) => [...r.refused]),
  ...readings
    .filter((r) => r.staleBecause.length && !r.refused.length)
    .map((r) => ({
      fact: r.fact.id,
      side,
      code: 'stale',
      text: `${capital(side)} reading ${r.fact.id} is stale: ${r.staleBecause.join('; ')}.`,
    })),
];

/** Everything that follows from the readings of one side. */
export function cuffOf(log: Log, now: SideNow, settings: Settings): CuffSight {
  const { side, hardware, set } = now;
  const prior = priorOf(log, side, settings);
  const empty = unread(now, prior.response);
  const extend = (cuff: CuffPlan): Pick<CuffSight, 'cuff' | 'unextended'> => {
    const longer = extensionOf(log, now, cuff);
    return 'code' in longer
      ? { cuff, unextended: longer }
      : { cuff: { ...cuff, extension: longer }, unextended: null };
  };
  if (!hardware || !set) return { ...extend(empty), readings: [], problems: [], grounds: null };

  const readings = judge(log, side, hardware, set);
  const offset = lineOffset(log, side);
  const observe = (r: JudgedReading) => observation(hardware, r, settings, offset);
  const rounds = roundsOf(hardware, readings, prior, settings, observe);
  const bench: Bench = {
    now,
    hardware,
    set,
    settings,
    prior,
    readings,
    observe,
    empty: { ...empty, rounds },
  };
  const here = readings.filter((r) => r.here && counts(r));
  const seen = here.length ? readHere(bench, here) : { ...unreadHere(bench), problems: [] };
  return {
    ...extend(seen.cuff),
    grounds: seen.grounds,
    readings,
    problems: [...faults(side, readings), ...seen.problems, ...edgeProblems(log, now)],
  };
}
