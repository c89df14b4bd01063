/** One cuff: from its readings to verdict, correction, and the move that this hardware can make. */
import type { Side } from '../frame.ts';
import { aim, bias, biasAfter, correct, gapsFor, shift, tiltAndOffset } from '../maths/cuff.ts';
import type { Correction, Sight } from '../maths/cuff.ts';
import type { BiasEstimate, Estimate, Observation, Prior } from '../maths/estimate.ts';
import { lean, marksBetween, spread, spreadRange } from '../maths/hardware.ts';
import type { HardwareNow, Pair } from '../maths/hardware.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { deg, mm, sinDeg, toDeg, rad } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { evidence, jointEstimate, lineOffset, observation, priorOf } from './evidence.ts';
import { apart, counts, judge, pressed } from './readings.ts';
import type { JudgedReading } from './readings.ts';
import { roundsOf } from './rounds.ts';
import type { CuffPlan, CuffVerdict, Problem, ReadingView } from './shape.ts';
import type { SideNow } from './side.ts';
import { boot, capital, degWords, leansTo, mmWords, moveWords, percent, placeWords } from './words.ts';

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/** Repeats of one measurement, the newest last: at today's pivots, same surface, liner, stance width, height and kind. */
function repeatsOf(
  newest: JudgedReading,
  here: readonly JudgedReading[],
  settings: Settings,
): JudgedReading[] {
  return here.filter(
    (r) =>
      apart(r, newest, settings) === null &&
      r.heightMm === newest.heightMm &&
      pressed(r) === pressed(newest) &&
      (!pressed(r) || r.fact.contact === newest.fact.contact),
  );
}

function viewOf(pool: readonly JudgedReading[]): ReadingView {
  const newest = pool.at(-1)!;
  // A press is a bound and never averaged: the newest one stands for itself.
  const averaged = pressed(newest) ? [newest] : pool;
  const medialMm = mm(mean(averaged.map((r) => r.fact.medialMm)));
  const lateralMm = mm(mean(averaged.map((r) => r.fact.lateralMm)));
  const biases = averaged.map((r) => bias(r.fact));
  return {
    medialMm,
    lateralMm,
    biasMm: bias({ medialMm, lateralMm }),
    repeats: pool.length,
    spreadMm: biases.length > 1 ? mm(Math.max(...biases) - Math.min(...biases)) : null,
    contact: newest.fact.contact,
    pressure: newest.fact.contact === 'none' ? null : (newest.fact.pressure ?? null),
    stale: newest.staleBecause.length > 0,
    staleBecause: newest.staleBecause,
    facts: pool.map((r) => r.fact.id),
  };
}

function notPooled(newest: JudgedReading, readings: readonly JudgedReading[], settings: Settings): Problem[] {
  return readings.flatMap((r) => {
    const height =
      r.here && r.heightMm !== newest.heightMm
        ? 'taken at another height, it is carried and not averaged'
        : null;
    const why = counts(r) ? (apart(r, newest, settings) ?? height) : null;
    if (!why) return [];
    const { id, side } = r.fact;
    return [
      {
        fact: id,
        side,
        code: 'not-pooled',
        text: `Reading ${id} of the ${side} cuff is not taken together with ${newest.fact.id}: ${why}.`,
      },
    ];
  });
}

function widthProblems(side: Side, view: ReadingView, newest: JudgedReading, settings: Settings): Problem[] {
  if (pressed(newest)) return [];
  const sum = view.medialMm + view.lateralMm;
  const problem = (code: string, text: string): Problem => ({ fact: newest.fact.id, side, code, text });
  if (sum < settings.gapSumAskMinMm)
    return [
      problem('width-small', `The ${side} cuff leaves ${mmWords(sum)} in all: is it too narrow for the leg?`),
    ];
  if (sum > settings.gapSumAskMaxMm)
    return [
      problem(
        'width-large',
        `The ${side} cuff leaves ${mmWords(sum)} in all: is it too wide, or is the liner out?`,
      ),
    ];
  return [];
}

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

const leanOf = (hardware: HardwareNow, set: Pair): Deg | null =>
  hardware.factoryLeanDeg === null ? null : lean(hardware, set);

function moveOf(
  side: Side,
  hardware: HardwareNow,
  from: Pair,
  to: Pair,
  expect: Pair,
  verdict: CuffVerdict,
  atLeast: boolean,
): CuffPlan['move'] {
  const by = { medialMm: mm(to.medialMm - from.medialMm), lateralMm: mm(to.lateralMm - from.lateralMm) };
  const lateralMarks = marksBetween(hardware.lateral, from.lateralMm, to.lateralMm);
  const medialMarks = marksBetween(hardware.medial, from.medialMm, to.medialMm);
  const counted = {
    ...(medialMarks !== undefined && { medialMarks }),
    ...(lateralMarks !== undefined && { lateralMarks }),
  };
  const turned = lean(hardware, to) - lean(hardware, from);
  if (Math.abs(by.lateralMm) < 1e-6 && Math.abs(by.medialMm) < 1e-6)
    return { ...by, ...counted, text: `${boot(side)}: leave the pivots as they are.` };
  if (verdict === 'even')
    return { ...by, ...counted, text: `${boot(side)}: even as it is; nothing has to move.` };
  const one = (adjuster: string, move: number, marks: number | undefined, at: Mm): string =>
    Math.abs(move) < 1e-6
      ? `${adjuster} pivot stays at ${placeWords(at)}`
      : `${adjuster} pivot ${moveWords(move, marks)}, to ${placeWords(at)}`;
  const parts = [
    ...(hardware.lateral ? [one('lateral', by.lateralMm, lateralMarks, to.lateralMm)] : []),
    ...(hardware.medial ? [one('medial', by.medialMm, medialMarks, to.medialMm)] : []),
  ];
  const gaps = [
    `${mmWords(Math.max(0, expect.medialMm))} medial`,
    `${mmWords(Math.max(0, expect.lateralMm))} lateral`,
  ].join(' and ');
  const expected = atLeast
    ? 'A press only says at least: read again after the move.'
    : `Expect ${gaps}, then read again.`;
  const cuffTips = `The cuff tips ${degWords(Math.abs(turned))} ${leansTo(turned)}.`;
  return { ...by, ...counted, text: `${boot(side)}: ${parts.join('; ')}. ${cuffTips} ${expected}` };
}

function twoHeightsOf(
  hardware: HardwareNow,
  set: Pair,
  pool: readonly JudgedReading[],
  sight: Sight,
  sumMm: Mm,
  settings: Settings,
): { plan: CuffPlan['twoHeights']; tooClose: boolean } {
  const reading = pool.findLast((r) => r.fact.lower !== undefined && r.fact.lower.contact === 'none');
  const lower = reading?.fact.lower;
  if (!reading || !lower || pressed(reading)) return { plan: null, tooClose: false };
  const heights = {
    upper: { biasMm: bias(reading.fact), heightMm: reading.heightMm },
    lower: { biasMm: bias(lower), heightMm: lower.heightMm },
  };
  const found = tiltAndOffset(heights, mm(settings.gapErrorMm));
  if (!found) return { plan: null, tooClose: true };
  const wanted = deg(lean(hardware, set) + found.angleDeg / sight.response);
  const tiltLeft = (pair: Pair): Mm =>
    mm(2 * sight.response * hardware.readingHeightMm * (sinDeg(wanted) - sinDeg(lean(hardware, pair))));
  const parallel = aim(hardware, { ...sight, biasMm: tiltLeft(set) }, set, wanted, tiltLeft);
  const { target } = parallel;
  return {
    tooClose: false,
    plan: {
      ...found,
      agree: Math.abs(found.offsetMm) <= Math.max(settings.offsetLimitMm, 2 * found.offsetSdMm),
      parallel: {
        correctionDeg: parallel.correctionDeg,
        target: target && { ...target, leanDeg: leanOf(hardware, target) },
        predicted: target && gapsFor(sumMm, biasAfter(hardware, sight, set, target)),
      },
    },
  };
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
    twoHeights: null,
    rounds: [],
    readAgain: null,
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

function readAgain(
  view: ReadingView,
  verdict: CuffVerdict,
  chanceEven: number | null,
  settings: Settings,
): string | null {
  if (view.pressure === 'press') return 'A press only says at least: read again after the move.';
  if (view.spreadMm !== null && view.spreadMm > 4 * settings.gapErrorMm)
    return `The repeats differ by ${mmWords(view.spreadMm)}: let the skier settle and read once more.`;
  if (chanceEven === null || view.repeats > 1) return null;
  if (verdict === 'even' && chanceEven < 0.7)
    return `Even by ${percent(chanceEven)} only: one more reading before closing is worth it.`;
  if (verdict === 'uneven' && chanceEven > 0.3)
    return `It may be even already (${percent(chanceEven)}): one more reading before moving is worth it.`;
  return null;
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
  /** Null where no reading counts, or the cuff is too narrow to say anything of the leg. */
  readonly grounds: CuffGrounds | null;
}

/** Everything that follows from the readings of one side. */
export function cuffOf(log: Log, now: SideNow, settings: Settings): CuffSight {
  const { side, hardware, set } = now;
  const prior = priorOf(log, side, settings);
  const empty = unread(now, prior.response);
  if (!hardware || !set) return { cuff: empty, readings: [], problems: [], grounds: null };

  const readings = judge(log, side, hardware, set);
  const problems: Problem[] = readings.flatMap((r) => [...r.refused]);
  for (const r of readings)
    if (r.staleBecause.length && !r.refused.length)
      problems.push({
        fact: r.fact.id,
        side,
        code: 'stale',
        text: `${capital(side)} reading ${r.fact.id} is stale: ${r.staleBecause.join('; ')}.`,
      });

  const all = evidence(readings);
  const offset = lineOffset(log, side);
  const observe = (r: JudgedReading) => observation(hardware, r, settings, offset);
  const rounds = roundsOf(hardware, readings, prior, settings, observe);
  const here = readings.filter((r) => r.here && counts(r));
  const newest = here.at(-1);
  if (!newest) {
    const last = all.at(-1);
    const stale = readings.findLast((r) => r.here && !r.refused.length);
    const base = { ...empty, rounds, reading: stale ? viewOf([stale]) : null };
    if (!last) return { cuff: base, readings, problems, grounds: null };
    const used = all.filter((r) => apart(r, last, settings) === null);
    const joint = jointEstimate(prior, used.map(observe));
    return {
      cuff: stale ? base : awaiting(base, hardware, set, last, joint, settings),
      readings,
      problems,
      grounds: { newest: last, used, prior, joint, sight: null },
    };
  }

  const pool = repeatsOf(newest, here, settings);
  const reading = viewOf(pool);
  problems.push(...notPooled(newest, readings, settings), ...widthProblems(side, reading, newest, settings));
  if (reading.pressure === 'press' && reading.contact === 'both')
    return { cuff: { ...empty, rounds, reading, verdict: 'too-narrow' }, readings, problems, grounds: null };

  const used = all.filter((r) => apart(r, newest, settings) === null);
  const { sight, now: seen, joint } = see(hardware, set, observe(newest), prior, used.map(observe));
  if (seen && seen.response.k < LEAST_RESPONSE)
    problems.push({
      fact: newest.fact.id,
      side,
      code: 'response-odd',
      text: `The ${side} gaps hardly followed the pivots, or went the other way: are sides, signs and pivot screws right?`,
    });
  const correction = correct(hardware, sight, set);
  const verdict = verdictOf(hardware, set, reading, sight.biasMm, correction, settings);
  const sum = mm(newest.fact.medialMm + newest.fact.lateralMm);
  const { target } = correction;
  const predicted = target && gapsFor(sum, correction.biasAfterMm);
  const tolerance = mm(settings.evenToleranceMm);
  const chanceEven = seen?.chanceWithin(tolerance) ?? null;
  const twoHeights = twoHeightsOf(hardware, set, pool, sight, sum, settings);
  if (twoHeights.tooClose)
    problems.push({
      fact: newest.fact.id,
      side,
      code: 'heights-close',
      text: `The two heights of the ${side} reading lie less than 30 mm apart: they cannot part tilt from offset.`,
    });
  if (twoHeights.plan && !twoHeights.plan.agree)
    problems.push({
      fact: newest.fact.id,
      side,
      code: 'heights-disagree',
      text: `An even gap and a parallel ${side} cuff are two different settings here: look at seat, padding and footbed.`,
    });
  return {
    readings,
    problems,
    grounds: { newest, used, prior, joint, sight },
    cuff: {
      ...empty,
      reading,
      verdict,
      rounds,
      biasMm: sight.biasMm,
      biasSdMm: seen?.sdMm ?? null,
      correctionDeg: correction.correctionDeg,
      correctionSdDeg: seen && correctionSd(hardware, set, seen, sight, correction.correctionDeg),
      bound: seen ? 'exact' : 'at-least',
      target: target && { ...target, leanDeg: leanOf(hardware, target) },
      move: target && moveOf(side, hardware, set, target, predicted!, verdict, !seen),
      predicted,
      limitedBy: correction.limitedBy,
      chanceEven,
      chanceEvenAfter: target && joint ? joint.at(shift(hardware, target)).chanceWithin(tolerance) : null,
      response: seen?.response ?? prior.response,
      shortBy: correction.shortBy,
      twoHeights: twoHeights.plan,
      readAgain: readAgain(reading, verdict, chanceEven, settings),
    },
  };
}
