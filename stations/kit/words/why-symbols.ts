/** What each symbol of a formula stands for. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/why-symbols.ts';
import type { Topic } from './why.ts';

const symbolsEn = {
  w: 'pivots apart',
  h: 'reading height above the pivots',
  f: 'lean at factory neutral',
  lean: 'lean of the cuff now',
  'lean*': 'lean that evens the gaps',
  'lean′': 'lean after the move',
  end: 'lean at the end of the travel',
  u_medial: 'medial adjuster, up from neutral',
  u_lateral: 'lateral adjuster, up from neutral',
  from_medial: 'medial adjuster now',
  from_lateral: 'lateral adjuster now',
  from: 'adjuster now',
  to: 'adjuster after the move',
  s_min: 'end of the travel inward',
  s_max: 'end of the travel outward',
  mark: 'one mark',
  position: 'this place, as described',
  neutral: 'neutral after the rework',
  up: 'travel upward',
  down: 'travel downward',
  medialMm: 'medial adjuster as set',
  lateralMm: 'lateral adjuster as set',
  S: 'both gaps together',
  D: 'bias: medial gap less lateral gap',
  sd: 'deviation of the bias',
  k: 'response: how much of a lean reaches the leg',
  s: 'deviation of the response',
  e: 'counted as even up to',
  x: 'place of the cuff’s centre',
  sP: 'deviation from the picture',
  τ: 'deviation of the response before',
  σ: 'error of one reading',
  q: 'share of the leg that turns',
  H: 'knee height',
  r: 'how far a degree moves the knee',
  target: 'where the knee should stand',
  step: 'steps of plates and wedges',
  limit: 'most cant that is made here',
  least: 'least allowed',
  missing: 'pivot travel missing',
  taken: 'what the other slot gives first',
  edge: 'from the hole to the edge',
  cut: 'cut off it',
  cut_lateral: 'lateral slot longer by',
  cut_medial: 'medial slot longer by',
  t: 'plate at this corner',
  t_min: 'thin edge',
  W_toe: 'sole’s width at the toe',
  W_heel: 'sole’s width at the heel',
  β: 'wedge fore and aft',
  L: 'sole’s length, toe to heel',
  h0: 'lug’s height before the work',
  nominal: 'lug’s height by the standard',
  lifter: 'lifter',
  depth: 'routing depth',
  loose: 'insert that comes off',
  raised_toe: 'how much higher at the toe',
  raised_heel: 'how much higher at the heel',
  is: 'as measured',
  min: 'least allowed',
  max: 'most allowed',
  heel: 'height at the heel',
  toe: 'height at the toe',
  span: 'between both measuring points',
  wedge: 'wedge in the plates',
  ramp: 'ramp inside the boot',
  delta: 'delta of the binding',
};

export const symbols: Words<typeof symbolsEn> = inLanguage(symbolsEn, german.symbols);

/** The same letter means another thing in another part of the plan. */
const inTopicEn = {
  cuff: {
    k0: 'response before any reading',
    m0: 'leg’s place known from before',
    s0: 'its deviation',
    δ: 'angle between leg and cuff',
    c: 'how bias and response go together',
  },
  stance: {
    k0: 'knee from the line, standing flat',
    r0: 'slope expected from the knee height',
    s0: 'its deviation',
    'δ*': 'cant that puts the knee on the line',
    a: 'variance of the knee’s place',
    b: 'covariance of place and slope',
    c: 'variance of the slope',
    z: 'deviations on either side',
  },
  sole: {
    δ: 'cant',
    r: 'planed off',
    c: 'how deep the screw’s head sits',
    d: 'screw’s diameter',
    margin: 'to stay before the inside',
    depth: 'routing depth, or the sole’s solid material',
    over: 'higher than the other boot',
  },
  foreAft: {
    'forward lean': 'lean of the cuff against the sole',
  },
  fit: {
    step: 'step of sizes',
    foot: 'length of this foot',
    'other foot': 'length of the other foot',
    mondo: 'size of the boot',
    marked: 'as marked on the boot',
    gap: 'as measured',
  },
};

export const inTopic: Words<typeof inTopicEn> = inLanguage(inTopicEn, german.inTopic);

/** One of several inputs of a kind: `D2`, `medial1`. */
const numberedEn = {
  cuff: {
    sP: (n: string): string => `deviation from the picture, reading ${n}`,
    D: (n: string): string => `bias of reading ${n}`,
    x: (n: string): string => `cuff’s centre at reading ${n}`,
    medial: (n: string): string => `medial gap, reading ${n}`,
    lateral: (n: string): string => `lateral gap, reading ${n}`,
    m: (n: string): string => `half the bias, ${n === '1' ? 'upper' : 'lower'} height`,
    h: (n: string): string => `${n === '1' ? 'upper' : 'lower'} height`,
  },
  stance: {
    δ: (n: string): string => `cant under reading ${n}`,
    k: (n: string): string => `knee from the line, reading ${n}`,
  },
  sole: {},
  foreAft: {},
  fit: {},
};
export const numbered: Words<typeof numberedEn> = inLanguage(numberedEn, german.numbered);

const own = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;

/** What a symbol stands for; undefined where no word is known. */
export function symbolWord(topic: Topic, symbol: string): string | undefined {
  const known = own(inTopic[topic], symbol) ?? own(symbols, symbol);
  if (known) return known;
  const [, letter, index] = /^(\D+)(\d+)$/.exec(symbol) ?? [];
  return letter && index ? own(numbered[topic], letter)?.(index) : undefined;
}
