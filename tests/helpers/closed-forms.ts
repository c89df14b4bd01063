/** The closed forms among a plan's numbers, written down a second time from the formulas' texts alone. */
import type { Explanation } from '../../core/index.ts';

const RAD = Math.PI / 180;
const sin = (degrees: number) => Math.sin(degrees * RAD);
const cos = (degrees: number) => Math.cos(degrees * RAD);
const tan = (degrees: number) => Math.tan(degrees * RAD);
const asin = (ratio: number) => Math.asin(Math.max(-1, Math.min(1, ratio))) / RAD;
const atan = (ratio: number) => Math.atan(ratio) / RAD;

type Take = (name: string) => number;
type Closed = (take: Take) => number;

const cuffLean: Closed = (i) => i('f') + asin((i('u_medial') - i('u_lateral')) / i('w'));
const biasAfter: Closed = (i) => i('D') - 2 * i('k') * i('h') * (sin(i('lean′')) - sin(i('lean')));
const gaps = (bias: Closed): Record<string, Closed> => ({
  medialMm: (i) => (i('S') + bias(i)) / 2,
  lateralMm: (i) => (i('S') - bias(i)) / 2,
});

const half = (i: Take, zone: string): number => (i(`W_${zone}`) / 2) * tan(Math.abs(i('δ')));
const rise: Closed = (i) => i('L') * tan(i('β'));
const centre =
  (zone: 'toe' | 'heel'): Closed =>
  (i) => {
    const toe = Math.max(i('t_min') + half(i, 'toe'), i('t_min') + half(i, 'heel') - rise(i));
    return zone === 'toe' ? toe : toe + rise(i);
  };
const plate = (zone: 'toe' | 'heel'): Record<string, Closed> => ({
  thinEdgeMm: (i) => centre(zone)(i) - half(i, zone),
  thickEdgeMm: (i) => centre(zone)(i) + half(i, zone),
  centreMm: centre(zone),
  medialMm: (i) => centre(zone)(i) + (i(`W_${zone}`) / 2) * tan(i('δ')),
  lateralMm: (i) => centre(zone)(i) - (i(`W_${zone}`) / 2) * tan(i('δ')),
});

const deepest: Closed = (i) => i('t') - i('c') + i('depth') - i('margin');

const under = (prefix: string, of: Record<string, Closed>): Record<string, Closed> =>
  Object.fromEntries(Object.entries(of).map(([key, closed]) => [`${prefix}.${key}`, closed]));

/** Ends of a cant, by the quadratic that the formula writes out. */
const cantEnd =
  (sign: 1 | -1): Closed =>
  (i) => {
    const [off, z] = [i('k0') - i('target'), i('z')];
    const p = i('r') ** 2 - z ** 2 * i('c');
    const q = i('r') * off - z ** 2 * i('b');
    return (-q + sign * Math.sqrt(Math.max(0, q ** 2 - p * (off ** 2 - z ** 2 * i('a'))))) / p;
  };

const CLOSED: Readonly<Record<string, Closed>> = {
  'stance.cantRange.lowDeg': cantEnd(-1),
  'stance.cantRange.highDeg': cantEnd(1),
  'fit.mondoMm': (i) => (i('marked') <= 36 ? 10 : 1) * i('marked'),
  'fit.pairMm': (i) => Math.max(i('foot'), i('other foot')),
  'fit.overMm': (i) => i('mondo') - i('foot'),
  ...Object.fromEntries(
    ['lateral', 'medial'].flatMap((adjuster): [string, Closed][] => [
      [`cuff.hardware.${adjuster}.minMm`, (i) => i('neutral') - i('down')],
      [`cuff.hardware.${adjuster}.maxMm`, (i) => i('neutral') + i('up')],
    ]),
  ),
  'cuff.leanDeg': cuffLean,
  'cuff.target.leanDeg': cuffLean,
  'cuff.twoHeights.parallel.target.leanDeg': cuffLean,
  'cuff.correctionDeg': (i) => asin(sin(i('lean')) + i('D') / (2 * i('k') * i('h'))) - i('lean'),
  'cuff.move.medialMm': (i) => i('to') - i('from'),
  'cuff.move.lateralMm': (i) => i('to') - i('from'),
  ...under('cuff.predicted', gaps(biasAfter)),
  ...under('cuff.twoHeights.parallel.predicted', gaps(biasAfter)),
  ...under(
    'cuff.expected',
    gaps((i) => i('D')),
  ),
  'cuff.shortBy.leanDeg': (i) => i('lean*') - i('end'),
  'cuff.shortBy.biasMm': (i) => i('D') - 2 * i('k') * i('h') * (sin(i('end')) - sin(i('lean'))),
  'cuff.shortBy.pivotMm': (i) => {
    const wanted = i('w') * sin(i('lean*') - i('f'));
    return Math.max(wanted - i('s_max'), i('s_min') - wanted);
  },
  ...Object.fromEntries(
    ['lateral', 'medial'].flatMap((adjuster): [string, Closed][] => [
      [
        `cuff.extension.${adjuster}.byMm`,
        (i) => Math.min(i('missing') - i('taken'), Math.max(0, i('edge') - i('least'))),
      ],
      [`cuff.extension.${adjuster}.edgeLeftMm`, (i) => i('edge') - i('cut')],
    ]),
  ),
  'cuff.extension.shortMm': (i) => i('missing') - i('cut_lateral') - i('cut_medial'),
  'cuff.twoHeights.angleDeg': (i) => atan((i('m1') - i('m2')) / (i('h1') - i('h2'))),
  'cuff.twoHeights.offsetMm': (i) => i('m1') - (i('h1') * (i('m1') - i('m2'))) / (i('h1') - i('h2')),
  'cuff.twoHeights.offsetSdMm': (i) => {
    const q = i('h1') / (i('h1') - i('h2'));
    return Math.hypot(i('σ') * Math.sqrt(((1 - q) ** 2 + q ** 2) / 2), ((1 - q) * i('sP')) / 2);
  },
  'stance.cantDeg': (i) => (i('target') - i('k0')) / i('r'),
  'stance.cantSdDeg': (i) => Math.sqrt(i('a') + 2 * i('b') * i('δ*') + i('c') * i('δ*') ** 2) / i('r'),
  'sole.cantDeg': (i) => i('δ'),
  ...under('sole.plate.toe', plate('toe')),
  ...under('sole.plate.heel', plate('heel')),
  ...Object.fromEntries(
    (['toe', 'heel'] as const).flatMap((zone): [string, Closed][] => {
      const fall: Closed = (i) => Math.max(0, zone === 'toe' ? rise(i) : -rise(i));
      const across: Closed = (i) => i(`W_${zone}`) * tan(i('δ'));
      return [
        [`sole.planing.${zone}.medialMm`, (i) => fall(i) + Math.max(0, -across(i))],
        [`sole.planing.${zone}.lateralMm`, (i) => fall(i) + Math.max(0, across(i))],
        [`sole.planing.${zone}.centreMm`, (i) => fall(i) + half(i, zone)],
        ...['medial', 'lateral'].flatMap((edge): [string, Closed][] => [
          [`sole.screws.${zone}.${edge}.minMm`, (i) => i('t') - i('c') + 2 * i('d')],
          [`sole.screws.${zone}.${edge}.maxMm`, deepest],
          [`sole.screws.${zone}.${edge}.usefulMm`, (i) => Math.min(deepest(i), i('t') - i('c') + 3 * i('d'))],
        ]),
      ];
    }),
  ),
  'sole.racing.standHeightMm.roomMm': (i) => i('max') - i('is'),
  'sole.racing.soleHeightMm.roomMm': (i) => i('max') - i('is'),
  'sole.standHeightMm': (i) => (i('raised_toe') + i('raised_heel')) / 2,
  'foreAft.rampDeg': (i) => atan((i('heel') - i('toe')) / i('span')),
  'foreAft.deltaDeg': (i) => atan((i('heel') - i('toe')) / i('L')) + i('wedge'),
  'foreAft.netRampDeg': (i) => i('ramp') + i('delta'),
  'foreAft.netForwardLeanDeg': (i) => i('forward lean') + i('delta'),
  'foreAft.degPerHeelMm': (i) => atan(1 / i('L')),
};

/** Deviations are compared where the sine's slope is not flat: a cuff that would have to lie down says nothing. */
const CORRECTION_SD: Closed = (i) => {
  const a = 1 / (2 * i('k') * i('h'));
  const b = (-i('D') * a) / i('k');
  const variance = (a * i('sd')) ** 2 + (b * i('s')) ** 2 + 2 * a * b * i('c');
  return Math.sqrt(Math.max(0, variance)) / cos(i('lean*')) / RAD;
};

const OVER_OR_UNDER: Closed = (i) => i('h0') - i('nominal');

/** A number's value from its listed inputs; null where its formula is no closed form. Throws on a missing input. */
export function recomputed({ path, inputs }: Explanation): number | null {
  const has = (name: string) => inputs.some((input) => input.name === name);
  const take: Take = (name) => {
    const found = inputs.filter((input) => input.name === name);
    if (found.length !== 1) throw new Error(`${path} lists ${found.length} inputs named ${name}`);
    return found[0]!.value;
  };
  const name = path.split('.').slice(2).join('.');
  if (name === 'cuff.correctionSdDeg') return cos(take('lean*')) > 0.1 ? CORRECTION_SD(take) : null;
  if (name.startsWith('sole.rout.'))
    return Math.max(
      0,
      has('t') ? take('t') + OVER_OR_UNDER(take) : take('lifter') - take('r') + OVER_OR_UNDER(take),
    );
  if (name.startsWith('sole.lugLeft.'))
    return take('h0') - take('depth') - (has('r') ? take('r') : 0) - take('loose');
  return CLOSED[name]?.(take) ?? null;
}

/** Paths of the numbers under `value`, in order. */
export function numberPaths(value: unknown, path: string): string[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numberPaths(inner, `${path}.${key}`));
}

/** Paths of the nulls under `value`, in order. */
export function nullPaths(value: unknown, path: string): string[] {
  if (value === null) return [path];
  if (typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => nullPaths(inner, `${path}.${key}`));
}
