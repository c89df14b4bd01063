/** Where the numbers that were read at a cuff come from: the reading shown, two heights, and the rounds so far. */
import { bias, shift } from '../../maths/cuff.ts';
import { estimate } from '../../maths/estimate.ts';
import type { Observation } from '../../maths/estimate.ts';
import { slot } from '../../record/slots.ts';
import { evidence, lineOffset, observation, photoSd, priorOf } from '../evidence.ts';
import { apart, pressed } from '../readings.ts';
import type { JudgedReading } from '../readings.ts';
import type { Round } from '../shape.ts';
import { around, input, setting, stated } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input, Interval } from './formula.ts';

const ofIds = (g: Ground, ids: readonly string[]): JudgedReading[] =>
  g.own.sight.readings.filter(({ fact }) => ids.includes(fact.id));

/** What is averaged: free readings, or the newest press alone, since a press is a bound. */
const averaged = (readings: readonly JudgedReading[]): JudgedReading[] => {
  const free = readings.filter((r) => !pressed(r));
  return free.length ? free : readings.slice(-1);
};

const gaps = (readings: readonly JudgedReading[], key: 'medialMm' | 'lateralMm'): Input[] =>
  readings.flatMap(({ fact }, i) =>
    input(`${key === 'medialMm' ? 'medial' : 'lateral'}${i + 1}`, fact[key], 'mm', [fact.id]),
  );

const biases = (readings: readonly JudgedReading[]): Input[] =>
  readings.flatMap(({ fact }, i) => input(`D${i + 1}`, bias(fact), 'mm', [fact.id]));

/** Readings as the joint estimate takes them: each bias carried to the reading height, at the shift of its setting. */
export function observations(g: Ground, readings: readonly JudgedReading[]): Input[] {
  const { log, settings } = g.scene;
  const { hardware } = g.own.now;
  if (!hardware) return [];
  const seen = (r: JudgedReading): Observation => observation(hardware, r, settings, lineOffset(log, g.side));
  return readings.flatMap((r, i) => {
    const { biasMm, shiftMm } = seen(r);
    const set = log.asOf(slot.pivots(g.side), r.fact.id);
    return [
      ...input(`D${i + 1}`, biasMm, 'mm', [r.fact.id]),
      ...input(`x${i + 1}`, shiftMm, 'mm', set.is === 'one' ? set.facts : []),
      ...(photoSd(r.fact) > 0 ? input(`sP${i + 1}`, photoSd(r.fact), 'mm', [r.fact.id]) : []),
    ];
  });
}

/** What was known before the first reading: of the response, of the leg, and of how well gaps are read. */
export function priors(g: Ground): Input[] {
  const learned = stated(g, slot.response(g.side));
  const leg = stated(g, slot.leg(g.side));
  const prior = g.own.sight.grounds?.prior;
  return [
    ...input('k0', prior?.response.k ?? g.plan.cuff.response.k, '1', learned),
    ...(learned.length
      ? input('τ', prior?.response.sd ?? g.plan.cuff.response.sd, '1', learned)
      : setting(g, 'τ', 'responsePriorSd')),
    ...input('m0', prior?.leg?.mLegMm, 'mm', leg),
    ...input('s0', prior?.leg?.sdMm, 'mm', leg),
    ...setting(g, 'σ', 'gapErrorMm'),
  ];
}

const MEAN = 'mean of the repeats';
const READ = 'cuff.read; core/guide/cuff.ts';

const shown = (g: Ground): JudgedReading[] => averaged(ofIds(g, g.plan.cuff.reading?.facts ?? []));

const gap = (key: 'medialMm' | 'lateralMm'): Formula => ({
  unit: 'mm',
  formula: MEAN,
  source: READ,
  inputs: (g) => gaps(shown(g), key),
});

const roundAt = (g: Ground): Round => g.plan.cuff.rounds[g.at[0]!]!;
const inRound = (g: Ground): JudgedReading[] => averaged(ofIds(g, roundAt(g).facts));

const roundSet = (key: 'medialMm' | 'lateralMm'): Formula => ({
  unit: 'mm',
  formula: 'as recorded when it was read',
  source: 'cuff.set; core/guide/rounds.ts',
  inputs: (g) => {
    const set = g.scene.log.asOf(slot.pivots(g.side), roundAt(g).facts[0]!);
    return input(key, roundAt(g).set[key], 'mm', set.is === 'one' ? set.facts : []);
  },
});

/** Readings before a round that may be taken together with it. */
function earlier(g: Ground): JudgedReading[] {
  const { readings } = g.own.sight;
  const first = readings.findIndex(({ fact }) => fact.id === roundAt(g).facts[0]);
  return evidence(readings.slice(0, first)).filter(
    (r) => apart(r, readings[first]!, g.scene.settings) === null,
  );
}

/** What was known of the bias at a round's setting before it was read there. */
function foretold(g: Ground, { set, predictedBiasMm }: Round): Interval | null {
  const { hardware } = g.own.now;
  if (!hardware) return null;
  const { log, settings } = g.scene;
  const prior = priorOf(log, g.side, settings);
  const seen = earlier(g).map((r) => observation(hardware, r, settings, lineOffset(log, g.side)));
  return around(predictedBiasMm, estimate(prior, seen)?.at(shift(hardware, set)).sdMm);
}

const ROUND = 'core/guide/rounds.ts';

export const READINGS = {
  'cuff.reading.medialMm': gap('medialMm'),
  'cuff.reading.lateralMm': gap('lateralMm'),
  'cuff.reading.biasMm': {
    unit: 'mm',
    formula: 'mean medial − mean lateral',
    source: 'core/maths/cuff.ts, bias',
    inputs: (g) => [...gaps(shown(g), 'medialMm'), ...gaps(shown(g), 'lateralMm')],
  },
  'cuff.reading.repeats': {
    unit: '1',
    formula: 'count of the readings taken as one measurement',
    source: READ,
    inputs: (g) => biases(ofIds(g, g.plan.cuff.reading?.facts ?? [])),
  },
  'cuff.reading.spreadMm': {
    unit: 'mm',
    formula: 'largest D − smallest D',
    source: READ,
    inputs: (g) => biases(shown(g)),
  },
  'cuff.rounds.*.set.medialMm': roundSet('medialMm'),
  'cuff.rounds.*.set.lateralMm': roundSet('lateralMm'),
  'cuff.rounds.*.medialMm': {
    unit: 'mm',
    formula: MEAN,
    source: ROUND,
    inputs: (g) => gaps(inRound(g), 'medialMm'),
  },
  'cuff.rounds.*.lateralMm': {
    unit: 'mm',
    formula: MEAN,
    source: ROUND,
    inputs: (g) => gaps(inRound(g), 'lateralMm'),
  },
  'cuff.rounds.*.biasMm': {
    unit: 'mm',
    formula: 'mean medial − mean lateral',
    source: ROUND,
    inputs: (g) => [...gaps(inRound(g), 'medialMm'), ...gaps(inRound(g), 'lateralMm')],
  },
  'cuff.rounds.*.predictedBiasMm': {
    unit: 'mm',
    formula: '2·(m − k·x) at its setting, most likely by the readings before it',
    source: 'core/maths/estimate.ts, likeliest',
    inputs: (g) => [...observations(g, earlier(g)), ...priors(g)],
    interval: (g) => foretold(g, roundAt(g)),
  },
} satisfies Partial<FormulasOf<'cuff'>>;

/** The reading whose two heights are shown. */
const twoHeights = (g: Ground): JudgedReading | undefined =>
  ofIds(g, g.plan.cuff.reading?.facts ?? []).findLast(({ fact }) => fact.lower?.contact === 'none');

function heights(g: Ground): Input[] {
  const reading = twoHeights(g);
  const lower = reading?.fact.lower;
  if (!reading || !lower) return [];
  const { fact, heightMm } = reading;
  return [
    ...input('m1', bias(fact) / 2, 'mm', [fact.id]),
    ...input(
      'h1',
      heightMm,
      'mm',
      [fact.heightMm === undefined ? stated(g, slot.boot(g.side)) : fact.id].flat(),
    ),
    ...input('m2', bias(lower) / 2, 'mm', [fact.id]),
    ...input('h2', lower.heightMm, 'mm', [fact.id]),
  ];
}

/** What the picture adds, where a gap of that reading was read off one; else 0. */
const fromPicture = (g: Ground): Input[] => {
  const fact = twoHeights(g)?.fact;
  return fact ? input('sP', photoSd(fact), 'mm', [fact.id]) : [];
};

const TWO = 'core/maths/cuff.ts, tiltAndOffset';

export const TWO_HEIGHTS = {
  'cuff.twoHeights.angleDeg': {
    unit: '°',
    formula: 'atan((m1 − m2)/(h1 − h2))',
    source: TWO,
    inputs: heights,
  },
  'cuff.twoHeights.offsetMm': {
    unit: 'mm',
    formula: 'm1 − h1·(m1 − m2)/(h1 − h2)',
    source: TWO,
    inputs: heights,
    interval: ({ plan: { cuff } }) =>
      cuff.twoHeights && around(cuff.twoHeights.offsetMm, cuff.twoHeights.offsetSdMm),
  },
  'cuff.twoHeights.offsetSdMm': {
    unit: 'mm',
    formula: '√(σ²·((1 − q)² + q²)/2 + ((1 − q)·sP/2)²), q = h1/(h1 − h2)',
    source: TWO,
    inputs: (g) => [
      ...setting(g, 'σ', 'gapErrorMm'),
      ...fromPicture(g),
      ...heights(g).filter(({ name }) => name.startsWith('h')),
    ],
  },
} satisfies Partial<FormulasOf<'cuff'>>;
