/** Where fore-aft angles come from. */
import type { FactOf } from '../../record/facts.ts';
import { slot } from '../../record/slots.ts';
import { wedgeSince } from '../foreaft.ts';
import { input, stated } from './formula.ts';
import type { FormulasOf, Ground, Input } from './formula.ts';
import { bootFacts } from './hardware.ts';

type Read = FactOf<'foreaft.read'>;

const read = (g: Ground, name: string, field: keyof Read, unit: 'mm' | '°' = 'mm'): Input[] => {
  const state = g.scene.log.now(slot.foreAft(g.side));
  return state.is === 'one'
    ? input(name, (state.value as Read)[field] as number | undefined, unit, state.facts)
    : [];
};
const length = (g: Ground): Input[] => input('L', g.own.now.boot?.soleLengthMm, 'mm', bootFacts(g));
const readFacts = (g: Ground): string[] => stated(g, slot.foreAft(g.side));
const angle = (g: Ground, name: string, value: number | null): Input[] =>
  input(name, value, '°', [...readFacts(g), ...bootFacts(g)]);

const SOURCE = 'plane angles, which add exactly; core/maths/foreaft.ts';

export const FORE_AFT: FormulasOf<'foreAft'> = {
  'foreAft.rampDeg': {
    unit: '°',
    formula: 'atan((heel − toe)/span)',
    source: SOURCE,
    inputs: (g) => [
      ...read(g, 'heel', 'boardHeelMm'),
      ...read(g, 'toe', 'boardToeMm'),
      ...read(g, 'span', 'boardSpanMm'),
    ],
  },
  'foreAft.deltaDeg': {
    unit: '°',
    formula: 'atan((heel − toe)/L) + wedge',
    source: SOURCE,
    inputs: (g) => [
      ...read(g, 'heel', 'standHeelMm'),
      ...read(g, 'toe', 'standToeMm'),
      ...length(g),
      ...input('wedge', wedgeSince(g.scene.log, g.side), '°', stated(g, slot.plate(g.side))),
    ],
  },
  'foreAft.netRampDeg': {
    unit: '°',
    formula: 'ramp + delta',
    source: SOURCE,
    inputs: (g) => [
      ...angle(g, 'ramp', g.plan.foreAft.rampDeg),
      ...angle(g, 'delta', g.plan.foreAft.deltaDeg),
    ],
  },
  'foreAft.netForwardLeanDeg': {
    unit: '°',
    formula: 'forward lean + delta',
    source: SOURCE,
    inputs: (g) => [
      ...read(g, 'forward lean', 'forwardLeanDeg', '°'),
      ...angle(g, 'delta', g.plan.foreAft.deltaDeg),
    ],
  },
  'foreAft.degPerHeelMm': {
    unit: '°/mm',
    formula: 'atan(1/L)',
    source: SOURCE,
    inputs: length,
  },
};
