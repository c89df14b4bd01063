/** Where the numbers of a knee and its cant come from. */
import { slopePrior } from '../../maths/stance.ts';
import type { KneeLine } from '../../maths/stance.ts';
import { slot } from '../../record/slots.ts';
import { around, input, setting, Z90 } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input } from './formula.ts';

const line = (g: Ground): KneeLine | null => {
  const solved = g.own.stance.grounds?.solved;
  return solved && 'line' in solved ? solved.line : null;
};

const readFacts = (g: Ground): readonly string[] => g.own.stance.facts;

/** The cant under a knee reading is the sole's and the boot board's, as its author knew them. */
function wedgeFacts({ scene: { log }, side }: Ground, id: string): string[] {
  return [slot.sole(side), slot.inside(side, 'boardCantDeg')].flatMap((name) => {
    const state = log.asOf(name, id);
    return state.is === 'one' ? [...state.facts] : [];
  });
}

function posterior(g: Ground): Input[] {
  const { readings, heightMm, rules } = g.own.stance.grounds ?? {};
  if (!readings?.length || !heightMm || !rules) return [];
  const { mean, sd } = slopePrior(heightMm, rules.slopeShare);
  const height = readings.map(({ fact }) => fact.id);
  return [
    ...readings.flatMap(({ fact, wedgeDeg }, i) => [
      ...input(`δ${i + 1}`, wedgeDeg, '°', wedgeFacts(g, fact.id)),
      ...input(`k${i + 1}`, fact.kneeOffsetMm, 'mm', [fact.id]),
    ]),
    ...input('H', heightMm, 'mm', height),
    ...setting(g, 'q', 'kneeSlopeShare'),
    ...input('r0', mean, 'mm/°', height),
    ...input('s0', sd, 'mm/°', height),
    ...setting(g, 'σ', 'kneeErrorMm'),
  ];
}

const k0 = (g: Ground): Input[] => input('k0', line(g)?.offsetMm, 'mm', readFacts(g));
const r = (g: Ground): Input[] => input('r', line(g)?.slopeMmPerDeg, 'mm/°', readFacts(g));
const cant = (g: Ground): Input[] => input('δ*', g.plan.stance.cantDeg, '°', readFacts(g));
const target = (g: Ground): Input[] => setting(g, 'target', 'kneeTargetMm');

const LINE = 'normal equations, ki = k0 + r·δi + error; core/maths/stance.ts, kneeLine';

const covariance = (g: Ground): Input[] => [
  ...input('a', line(g)?.covariance[0], 'mm²', readFacts(g)),
  ...input('b', line(g)?.covariance[1], 'mm²/°', readFacts(g)),
  ...input('c', line(g)?.covariance[2], 'mm²/°²', readFacts(g)),
];

const cantEnd = (which: 'lower' | 'upper'): Formula => ({
  unit: '°',
  formula: `${which} end of (k0 + r·δ − target)² ≤ z²·(a + 2·b·δ + c·δ²)`,
  source: 'Fieller 1954; core/maths/stance.ts, cantRange',
  inputs: (g) => [...target(g), ...k0(g), ...r(g), ...covariance(g), ...input('z', Z90, '1', [])],
});

export const STANCE: FormulasOf<'stance'> = {
  'stance.offsetMm': {
    unit: 'mm',
    formula: 'mean of k0, (k0, r) from ki = k0 + r·δi + error of σ, r before N(r0, s0²), r0 = q·H·tan 1°',
    source: LINE,
    inputs: posterior,
    interval: (g) => around(g.plan.stance.offsetMm, Math.sqrt(line(g)?.covariance[0] ?? 0)),
  },
  'stance.slopeMmPerDeg': {
    unit: 'mm/°',
    formula: 'mean of r, (k0, r) from ki = k0 + r·δi + error of σ, r before N(r0, s0²), r0 = q·H·tan 1°',
    source: LINE,
    inputs: posterior,
    interval: (g) => around(g.plan.stance.slopeMmPerDeg, Math.sqrt(line(g)?.covariance[2] ?? 0)),
  },
  'stance.cantDeg': {
    unit: '°',
    formula: '(target − k0)/r',
    source: 'core/maths/stance.ts, cantFor; its interval by cantRange (Fieller 1954)',
    inputs: (g) => [...target(g), ...k0(g), ...r(g)],
    interval: ({ plan: { stance } }) =>
      stance.cantRange && { low: stance.cantRange.lowDeg, high: stance.cantRange.highDeg, share: 0.9 },
  },
  'stance.cantRange.lowDeg': cantEnd('lower'),
  'stance.cantRange.highDeg': cantEnd('upper'),
  'stance.cantSdDeg': {
    unit: '°',
    formula: '√(a + 2·b·δ* + c·δ*²)/r, a, b, c the covariance of (k0, r)',
    source: 'propagation of the first order; core/maths/stance.ts, cantFor',
    inputs: (g) => [...covariance(g), ...cant(g), ...r(g)],
  },
  'stance.roundedDeg': {
    unit: '°',
    formula: 'δ* to whole steps, half steps toward zero',
    source: 'core/maths/stance.ts, toStep',
    inputs: (g) => [...cant(g), ...setting(g, 'step', 'plateStepDeg')],
  },
  'stance.nextWedgeDeg': {
    unit: '°',
    formula:
      'the wedge, in steps up to the limit, whose reading takes most off the variance of the cant; before the first reading 0',
    source: 'core/maths/wedge.ts, nextWedge',
    inputs: (g) => [
      ...k0(g),
      ...r(g),
      ...target(g),
      ...setting(g, 'σ', 'kneeErrorMm'),
      ...setting(g, 'step', 'plateStepDeg'),
      ...setting(g, 'limit', 'maxCantDeg'),
    ],
  },
};
