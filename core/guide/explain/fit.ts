/** Where sizes and shell gaps come from. */
import { otherSide } from '../../frame.ts';
import type { Side } from '../../frame.ts';
import { MONDO_STEP } from '../../maths/shell.ts';
import { slot } from '../../record/slots.ts';
import { assessed } from '../fit.ts';
import { input, recorded, stated } from './formula.ts';
import type { FormulasOf, Ground, Input } from './formula.ts';
import { bootFacts } from './hardware.ts';

const foot = (g: Ground, name: string, side: Side): Input[] =>
  input(
    name,
    assessed(g.scene.log, side, 'footLengthMm'),
    'mm',
    stated(g, slot.assessed(side, 'footLengthMm')),
  );
const pair = (g: Ground): Input[] => [
  ...foot(g, 'foot', g.side),
  ...foot(g, 'other foot', otherSide(g.side)),
];

export const FIT: FormulasOf<'fit'> = {
  'fit.mondoMm': {
    unit: 'mm',
    formula: 'as marked; centimetres times ten',
    source: 'boot.described; core/maths/shell.ts, markedMm',
    inputs: (g) => input('marked', g.own.now.boot?.mondo, '1', bootFacts(g)),
  },
  'fit.footMm': recorded('mm', 'assessed', (g) => foot(g, 'foot', g.side)),
  'fit.pairMm': {
    unit: 'mm',
    formula: 'max(foot, other foot)',
    source: 'ISO 9407:2019; core/maths/shell.ts, mondopoint',
    inputs: pair,
  },
  'fit.wantedMm': {
    unit: 'mm',
    formula: 'step·floor(max(foot, other foot)/step + 1/2)',
    source: 'the nearest size, halfway the larger: common practice; core/maths/shell.ts, mondopoint',
    inputs: (g) => [...pair(g), ...input('step', MONDO_STEP, 'mm', [])],
  },
  'fit.overMm': {
    unit: 'mm',
    formula: 'mondo − foot',
    source: 'core/guide/fit.ts',
    inputs: (g) => [...input('mondo', g.plan.fit.mondoMm, 'mm', bootFacts(g)), ...foot(g, 'foot', g.side)],
  },
  'fit.shellGapMm': recorded('mm', 'assessed', (g) =>
    input('gap', g.plan.fit.shellGapMm, 'mm', stated(g, slot.assessed(g.side, 'shellGapMm'))),
  ),
};
