/** Where the numbers of longer slots come from. */
import { otherAdjuster } from '../../frame.ts';
import type { Adjuster } from '../../frame.ts';
import { slot } from '../../record/slots.ts';
import { edgeOf } from '../extension.ts';
import { entered, input, recorded, stated } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input } from './formula.ts';
import { bootFacts } from './hardware.ts';

const edgeFacts = (g: Ground, adjuster: Adjuster): string[] => {
  const rework = stated(g, slot.reworked(g.side, adjuster));
  return rework.length ? rework : bootFacts(g);
};

const edge = (g: Ground, adjuster: Adjuster): Input[] =>
  input('edge', edgeOf(g.scene.log, g.own.now, adjuster), 'mm', edgeFacts(g, adjuster));

const least = (g: Ground): Input[] => {
  const own = g.own.now.boot?.hardware.minHoleEdgeMm;
  return own === undefined ? entered(g, 'least', 'minHoleEdgeMm') : input('least', own, 'mm', bootFacts(g));
};

/** All that the missing travel rests on: pivots, boot, and the readings of the leg. */
const missing = (g: Ground): Input[] =>
  input('missing', g.plan.cuff.shortBy?.pivotMm, 'mm', [...bootFacts(g), ...g.plan.cuff.reading!.facts]);

/** What the other slot takes first; nothing before the lateral one. */
const taken = (g: Ground, adjuster: Adjuster): Input[] => {
  const first = adjuster === 'medial' ? g.plan.cuff.extension?.[otherAdjuster(adjuster)] : null;
  return input('taken', first?.byMm ?? 0, 'mm', first ? edgeFacts(g, 'lateral') : []);
};

const by = (adjuster: Adjuster): Formula => ({
  unit: 'mm',
  formula: 'min(missing − taken, max(0, edge − least))',
  source: 'core/maths/slot.ts, lengthen',
  inputs: (g) => [...missing(g), ...taken(g, adjuster), ...edge(g, adjuster), ...least(g)],
});

const edgeLeft = (adjuster: Adjuster): Formula => ({
  unit: 'mm',
  formula: 'edge − cut',
  source: 'core/maths/slot.ts, lengthen',
  inputs: (g) => [
    ...edge(g, adjuster),
    ...input('cut', g.plan.cuff.extension?.[adjuster]?.byMm, 'mm', edgeFacts(g, adjuster)),
  ],
});

export const EXTENSION = {
  'cuff.extension.lateral.byMm': by('lateral'),
  'cuff.extension.lateral.edgeLeftMm': edgeLeft('lateral'),
  'cuff.extension.medial.byMm': by('medial'),
  'cuff.extension.medial.edgeLeftMm': edgeLeft('medial'),
  'cuff.extension.leastEdgeMm': recorded('mm', 'boot.described, else the setting minHoleEdgeMm', least),
  'cuff.extension.shortMm': {
    unit: 'mm',
    formula: 'missing − cut_lateral − cut_medial',
    source: 'core/maths/slot.ts, lengthen',
    inputs: (g) => [
      ...missing(g),
      ...input('cut_lateral', g.plan.cuff.extension?.lateral?.byMm ?? 0, 'mm', edgeFacts(g, 'lateral')),
      ...input('cut_medial', g.plan.cuff.extension?.medial?.byMm ?? 0, 'mm', edgeFacts(g, 'medial')),
    ],
  },
} satisfies Partial<FormulasOf<'cuff'>>;
