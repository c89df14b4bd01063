/** Where the numbers of a cuff's hardware, and of where its pivots stand, come from. */
import type { Adjuster } from '../../frame.ts';
import { ADJUSTERS } from '../../frame.ts';
import { lean } from '../../maths/hardware.ts';
import type { Pair } from '../../maths/hardware.ts';
import type { FactOf } from '../../record/facts.ts';
import { slot } from '../../record/slots.ts';
import { input, recorded, stated } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input } from './formula.ts';

export const bootFacts = (g: Ground): string[] => stated(g, slot.boot(g.side));
export const pivotFacts = (g: Ground): string[] => stated(g, slot.pivots(g.side));
export const soleFacts = (g: Ground): string[] => stated(g, slot.sole(g.side));
/** The described boot and all that was reworked on its pivots. */
export const hardwareFacts = (g: Ground): string[] => [
  ...bootFacts(g),
  ...ADJUSTERS.flatMap((adjuster) => stated(g, slot.reworked(g.side, adjuster))),
];

export const w = (g: Ground): Input[] => input('w', g.own.now.hardware?.pivotSpacingMm, 'mm', bootFacts(g));
export const h = (g: Ground): Input[] => input('h', g.own.now.hardware?.readingHeightMm, 'mm', bootFacts(g));
/** The factory lean as it is counted: 0 where nobody knows it. */
export const f = (g: Ground): Input[] =>
  input('f', g.own.now.hardware && (g.own.now.hardware.factoryLeanDeg ?? 0), '°', bootFacts(g));

export const pivots = (
  set: Pair | null,
  names: readonly [string, string],
  facts: readonly string[],
): Input[] => [
  ...input(names[0], set?.medialMm, 'mm', facts),
  ...input(names[1], set?.lateralMm, 'mm', facts),
];

/** Lean of the cuff at a pair, as the formulas count it. */
export const leanAt = (g: Ground, name: string, set: Pair | null, facts: readonly string[]): Input[] => {
  const { hardware } = g.own.now;
  return hardware && set ? input(name, lean(hardware, set), '°', [...bootFacts(g), ...facts]) : [];
};

export const leanNow = (g: Ground): Input[] => leanAt(g, 'lean', g.own.now.set, pivotFacts(g));

const DESCRIBED = 'boot.described';
const SET = 'cuff.set, or a cuff brought to neutral';

/** Ends of an adjuster's travel: as described, or as the newest rework left it. */
const end = (adjuster: Adjuster, way: 'up' | 'down'): Formula => ({
  unit: 'mm',
  formula: way === 'up' ? 'neutral + up' : 'neutral − down',
  source: 'boot.described, or pivot.reworked since; core/guide/side.ts',
  inputs: (g) => {
    const state = g.scene.log.now(slot.reworked(g.side, adjuster));
    const rework = state.is === 'one' ? (state.value as FactOf<'pivot.reworked'>) : null;
    const facts = state.is === 'one' ? state.facts : bootFacts(g);
    const described = g.own.now.boot?.hardware.travel[adjuster];
    const [up, down] = rework ? [rework.newUpMm, rework.newDownMm] : [described?.upMm, described?.downMm];
    return [
      ...input('neutral', rework?.neutralShiftMm ?? 0, 'mm', rework ? facts : []),
      ...input(way, way === 'up' ? up : down, 'mm', facts),
    ];
  },
});

const stop = (adjuster: Adjuster): Formula => ({
  unit: 'mm',
  formula: 'neutral + count·mark; unequal positions as described',
  source: 'boot.described; core/maths/hardware.ts, marks',
  inputs: (g) => [
    ...input('mark', g.own.now.hardware?.markMm, 'mm', bootFacts(g)),
    ...input('position', g.own.now.hardware?.[adjuster]?.stops?.[g.at[0]!]?.mm, 'mm', hardwareFacts(g)),
  ],
});

const SINE = 'plane trigonometry of a rigid cuff on two pivots; core/maths/hardware.ts, lean';

export const HARDWARE = {
  'cuff.hardware.pivotSpacingMm': recorded('mm', DESCRIBED, w),
  'cuff.hardware.readingHeightMm': recorded('mm', DESCRIBED, h),
  'cuff.hardware.factoryLeanDeg': recorded('°', DESCRIBED, f),
  'cuff.hardware.markMm': recorded('mm', DESCRIBED, (g) =>
    input('mark', g.own.now.hardware?.markMm, 'mm', bootFacts(g)),
  ),
  'cuff.hardware.lateral.minMm': end('lateral', 'down'),
  'cuff.hardware.lateral.maxMm': end('lateral', 'up'),
  'cuff.hardware.lateral.stops.*.mm': stop('lateral'),
  'cuff.hardware.medial.minMm': end('medial', 'down'),
  'cuff.hardware.medial.maxMm': end('medial', 'up'),
  'cuff.hardware.medial.stops.*.mm': stop('medial'),
  'cuff.set.medialMm': recorded('mm', SET, (g) =>
    input('u_medial', g.own.now.set?.medialMm, 'mm', pivotFacts(g)),
  ),
  'cuff.set.lateralMm': recorded('mm', SET, (g) =>
    input('u_lateral', g.own.now.set?.lateralMm, 'mm', pivotFacts(g)),
  ),
  'cuff.leanDeg': {
    unit: '°',
    formula: 'f + asin((u_medial − u_lateral)/w)',
    source: SINE,
    inputs: (g) => [...f(g), ...pivots(g.own.now.set, ['u_medial', 'u_lateral'], pivotFacts(g)), ...w(g)],
  },
} satisfies Partial<FormulasOf<'cuff'>>;
