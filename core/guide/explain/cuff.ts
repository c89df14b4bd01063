/** Where the numbers of a cuff come from: what its readings say, and what this hardware makes of it. */
import { evenLean, shift } from '../../maths/cuff.ts';
import type { BiasEstimate } from '../../maths/estimate.ts';
import { lean, spreadRange } from '../../maths/hardware.ts';
import type { HardwareNow, Pair } from '../../maths/hardware.ts';
import type { Deg, Mm } from '../../units.ts';
import { mm } from '../../units.ts';
import { EXTENSION } from './extension.ts';
import { around, input, setting } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input, Interval } from './formula.ts';
import {
  bootFacts,
  f,
  h,
  HARDWARE,
  hardwareFacts,
  leanAt,
  leanNow,
  pivotFacts,
  pivots,
  w,
} from './hardware.ts';
import { observations, priors, READINGS, TWO_HEIGHTS } from './readings.ts';

/** Facts of all the readings that the estimate rests on. */
const readFacts = (g: Ground): string[] => (g.own.sight.grounds?.used ?? []).map(({ fact }) => fact.id);
const newestFacts = (g: Ground): string[] => {
  const newest = g.own.sight.grounds?.newest;
  return newest ? [newest.fact.id] : [];
};
/** What a lean that evens the gap comes from: readings, boot, and where its pivots stand. */
const everything = (g: Ground): string[] => [...readFacts(g), ...hardwareFacts(g), ...pivotFacts(g)];

const posterior = (g: Ground, set: Pair | null): BiasEstimate | null => {
  const { hardware } = g.own.now;
  return (hardware && set && g.own.sight.grounds?.joint?.at(shift(hardware, set))) ?? null;
};
const now = (g: Ground): BiasEstimate | null => posterior(g, g.own.now.set);
const after = (g: Ground): BiasEstimate | null => posterior(g, g.plan.cuff.target);

const D = (g: Ground): Input[] => input('D', g.own.sight.grounds?.sight?.biasMm, 'mm', readFacts(g));
/** The response that a correction is divided by; never less than a quarter. */
const k = (g: Ground): Input[] =>
  input('k', g.own.sight.grounds?.sight?.response, '1', [
    ...readFacts(g),
    ...priors(g).flatMap(({ name, facts }) => (name === 'k0' ? facts : [])),
  ]);
const S = (g: Ground): Input[] => {
  const fact = g.own.sight.grounds?.newest.fact;
  return input('S', fact && fact.medialMm + fact.lateralMm, 'mm', newestFacts(g));
};

function wantedLean(g: Ground, hardware: HardwareNow): Deg | null {
  const { sight } = g.own.sight.grounds ?? {};
  return sight && g.own.now.set ? evenLean(hardware, sight, g.own.now.set) : null;
}
const wanted = (g: Ground): Input[] =>
  g.own.now.hardware ? input('lean*', wantedLean(g, g.own.now.hardware), '°', everything(g)) : [];

/** Ends of the travel as spreads, u_medial − u_lateral. */
function travel(g: Ground): Input[] {
  const { hardware } = g.own.now;
  if (!hardware) return [];
  const { min, max } = spreadRange(hardware);
  return [...input('s_min', min, 'mm', hardwareFacts(g)), ...input('s_max', max, 'mm', hardwareFacts(g))];
}

const marks = (g: Ground): Input[] => input('mark', g.own.now.hardware?.markMm, 'mm', bootFacts(g));

const MOVE = 'least predicted |bias|, then least movement; core/maths/hardware.ts, settable';

const target = (key: keyof Pair): Formula => ({
  unit: 'mm',
  formula: `u_${key.slice(0, -2)} of the settable pair nearest to u_medial − u_lateral = w·sin(lean* − f), on marks, s_min to s_max`,
  source: MOVE,
  inputs: (g) => [
    ...w(g),
    ...f(g),
    ...wanted(g),
    ...travel(g),
    ...marks(g),
    ...pivots(g.own.now.set, ['from_medial', 'from_lateral'], pivotFacts(g)),
  ],
});

const move = (key: keyof Pair): Formula => ({
  unit: 'mm',
  formula: 'to − from',
  source: 'core/guide/cuff.ts',
  inputs: (g) => [
    ...input('to', g.plan.cuff.target?.[key], 'mm', everything(g)),
    ...input('from', g.own.now.set?.[key], 'mm', pivotFacts(g)),
  ],
});

const moveMarks = (key: 'medialMm' | 'lateralMm'): Formula => ({
  ...move(key),
  unit: '1',
  formula: 'marks from one place to the other, up positive',
  source: 'core/maths/hardware.ts, marksBetween',
});

/** Gaps around the last sum: half its reading error and half the bias's own spread. */
function gapInterval(g: Ground, gap: Mm | undefined, seen: BiasEstimate | null): Interval | null {
  const sigma = g.scene.settings.gapErrorMm;
  return around(gap ?? null, seen && Math.sqrt(2 * sigma ** 2 + seen.sdMm ** 2) / 2);
}

const predicted = (key: keyof Pair): Formula => ({
  unit: 'mm',
  formula: `(S ${key === 'medialMm' ? '+' : '−'} D′)/2, D′ = D − 2·k·h·(sin lean′ − sin lean)`,
  source: 'core/maths/cuff.ts, biasAfter and gapsFor',
  inputs: (g) => [
    ...S(g),
    ...D(g),
    ...k(g),
    ...h(g),
    ...leanAt(g, 'lean′', g.plan.cuff.target ?? g.own.now.set, everything(g)),
    ...leanNow(g),
  ],
  interval: (g) => gapInterval(g, g.plan.cuff.predicted?.[key], after(g)),
});

const expected = (key: keyof Pair): Formula => ({
  unit: 'mm',
  formula: `(S ${key === 'medialMm' ? '+' : '−'} D)/2`,
  source: 'core/maths/cuff.ts, gapsFor',
  inputs: (g) => [...S(g), ...input('D', now(g)?.biasMm, 'mm', [...readFacts(g), ...pivotFacts(g)])],
  interval: (g) => gapInterval(g, g.plan.cuff.expected?.[key], now(g)),
});

const chance = (seen: (g: Ground) => BiasEstimate | null, formula: string): Formula => ({
  unit: '1',
  formula,
  source: 'core/maths/estimate.ts, chanceWithin',
  inputs: (g) => [
    ...input('D', seen(g)?.biasMm, 'mm', everything(g)),
    ...input('sd', seen(g)?.sdMm, 'mm', everything(g)),
    ...setting(g, 'e', 'evenToleranceMm'),
  ],
});

/** Everything that the joint estimate of leg and response rests on, and where it is asked. */
const estimated = (g: Ground): Input[] => {
  const { hardware, set } = g.own.now;
  return [
    ...observations(g, g.own.sight.grounds?.used ?? []),
    ...priors(g),
    ...(hardware && set
      ? input('x', shift(hardware, set), 'mm', [...hardwareFacts(g), ...pivotFacts(g)])
      : []),
  ];
};

const JOINT = 'normal equations, beside a press a grid; core/maths/estimate.ts';

/** Where the travel ends on the way to the wanted lean. */
const atEnd = (g: Ground): Input[] => {
  const { hardware } = g.own.now;
  const lean_ = hardware && wantedLean(g, hardware);
  if (!hardware || lean_ === null) return [];
  const { min, max } = spreadRange(hardware);
  const reached = lean_ > lean(hardware, { medialMm: min, lateralMm: mm(0) }) ? max : min;
  return leanAt(g, 'end', { medialMm: reached, lateralMm: mm(0) }, hardwareFacts(g));
};

const SHORT = 'core/maths/cuff.ts, aim';

const parallelAngle = (g: Ground): Input[] =>
  input('δ', g.plan.cuff.twoHeights?.angleDeg, '°', newestFacts(g));

const parallelTarget = (key: keyof Pair): Formula => ({
  ...target(key),
  formula: `u_${key.slice(0, -2)} of the settable pair nearest to u_medial − u_lateral = w·sin(lean + δ/k − f), on marks, s_min to s_max`,
  inputs: (g) => [...w(g), ...f(g), ...leanNow(g), ...parallelAngle(g), ...k(g), ...travel(g), ...marks(g)],
});

const parallelPredicted = (key: keyof Pair): Formula => ({
  ...predicted(key),
  inputs: (g) => [
    ...S(g),
    ...D(g),
    ...k(g),
    ...h(g),
    ...leanAt(g, 'lean′', g.plan.cuff.twoHeights?.parallel.target ?? null, everything(g)),
    ...leanNow(g),
  ],
  interval: (g) =>
    gapInterval(
      g,
      g.plan.cuff.twoHeights?.parallel.predicted?.[key],
      posterior(g, g.plan.cuff.twoHeights?.parallel.target ?? null),
    ),
});

const targetLean = (formula: string, pair: (g: Ground) => Pair | null | undefined): Formula => ({
  unit: '°',
  formula,
  source: 'core/maths/hardware.ts, lean',
  inputs: (g) => [...f(g), ...pivots(pair(g) ?? null, ['u_medial', 'u_lateral'], everything(g)), ...w(g)],
});

const LEAN = 'f + asin((u_medial − u_lateral)/w)';

export const CUFF: FormulasOf<'cuff'> = {
  ...HARDWARE,
  ...READINGS,
  ...TWO_HEIGHTS,
  ...EXTENSION,
  'cuff.biasMm': {
    unit: 'mm',
    formula: 'mean of 2·(m − k·x), (m, k) from Di = 2·(m − k·xi) + error; presses alone: the newest bound',
    source: JOINT,
    inputs: estimated,
    interval: ({ plan: { cuff } }) => around(cuff.biasMm, cuff.biasSdMm),
  },
  'cuff.biasSdMm': {
    unit: 'mm',
    formula: 'deviation of 2·(m − k·x), (m, k) from Di = 2·(m − k·xi) + error of σ√2',
    source: JOINT,
    inputs: estimated,
  },
  'cuff.response.k': {
    unit: '1',
    formula: 'mean of k, (m, k) from Di = 2·(m − k·xi) + error; without readings k0',
    source: JOINT,
    inputs: estimated,
    interval: ({ plan: { cuff } }) => around(cuff.response.k, cuff.response.sd),
  },
  'cuff.response.sd': {
    unit: '1',
    formula: 'deviation of k, (m, k) from Di = 2·(m − k·xi) + error of σ√2; without readings τ',
    source: JOINT,
    inputs: estimated,
  },
  'cuff.correctionDeg': {
    unit: '°',
    formula: 'asin(sin lean + D/(2·k·h)) − lean',
    source: 'core/maths/cuff.ts, evenLean',
    inputs: (g) => [...leanNow(g), ...D(g), ...k(g), ...h(g)],
    interval: ({ plan: { cuff } }) => around(cuff.correctionDeg, cuff.correctionSdDeg),
  },
  'cuff.correctionSdDeg': {
    unit: '°',
    formula: '√((a·sd)² + (b·s)² + 2·a·b·c)/cos lean*, a = 1/(2·k·h), b = −D·a/k',
    source: 'propagation of the first order; core/guide/cuff.ts, correctionSd',
    inputs: (g) => [
      ...input('sd', now(g)?.sdMm, 'mm', readFacts(g)),
      ...input('s', now(g)?.response.sd, '1', readFacts(g)),
      ...input('c', now(g)?.covariance, 'mm', readFacts(g)),
      ...D(g),
      ...k(g),
      ...h(g),
      ...wanted(g),
    ],
  },
  'cuff.target.medialMm': target('medialMm'),
  'cuff.target.lateralMm': target('lateralMm'),
  'cuff.target.leanDeg': targetLean(LEAN, (g) => g.plan.cuff.target),
  'cuff.move.medialMm': move('medialMm'),
  'cuff.move.lateralMm': move('lateralMm'),
  'cuff.move.medialMarks': moveMarks('medialMm'),
  'cuff.move.lateralMarks': moveMarks('lateralMm'),
  'cuff.predicted.medialMm': predicted('medialMm'),
  'cuff.predicted.lateralMm': predicted('lateralMm'),
  'cuff.expected.medialMm': expected('medialMm'),
  'cuff.expected.lateralMm': expected('lateralMm'),
  'cuff.chanceEven': chance(now, 'P(|bias| ≤ e), bias as estimated at the pivots as set'),
  'cuff.chanceEvenAfter': chance(after, 'P(|bias| ≤ e), bias as estimated at the target'),
  'cuff.shortBy.leanDeg': {
    unit: '°',
    formula: 'lean* − end',
    source: SHORT,
    inputs: (g) => [...wanted(g), ...atEnd(g)],
  },
  'cuff.shortBy.biasMm': {
    unit: 'mm',
    formula: 'D − 2·k·h·(sin end − sin lean)',
    source: SHORT,
    inputs: (g) => [...D(g), ...k(g), ...h(g), ...atEnd(g), ...leanNow(g)],
  },
  'cuff.shortBy.pivotMm': {
    unit: 'mm',
    formula: 'w·sin(lean* − f), over s_max or under s_min',
    source: SHORT,
    inputs: (g) => [...w(g), ...wanted(g), ...f(g), ...travel(g)],
  },
  'cuff.twoHeights.parallel.correctionDeg': {
    unit: '°',
    formula: 'δ/k',
    source: 'core/guide/cuff.ts, twoHeightsOf',
    inputs: (g) => [...parallelAngle(g), ...k(g)],
  },
  'cuff.twoHeights.parallel.target.medialMm': parallelTarget('medialMm'),
  'cuff.twoHeights.parallel.target.lateralMm': parallelTarget('lateralMm'),
  'cuff.twoHeights.parallel.target.leanDeg': targetLean(LEAN, (g) => g.plan.cuff.twoHeights?.parallel.target),
  'cuff.twoHeights.parallel.predicted.medialMm': parallelPredicted('medialMm'),
  'cuff.twoHeights.parallel.predicted.lateralMm': parallelPredicted('lateralMm'),
};
