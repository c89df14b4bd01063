/** Words of the work under a boot. */
import type { Side } from '../../../core/index.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/sole.ts';

const soleEn = {
  hold: 'hold for one second',
  holding: 'keep holding',
  notAgreed: 'not before the owner has agreed, on record: ask the front desk',
  nothingTold: 'nothing is told for this sole yet',

  seenFrom: (side: Side, from: 'above' | 'below'): string =>
    from === 'above'
      ? `${Sided(side)} sole from above, toe up`
      : `${Sided(side)} sole from below, as it lies upside down, toe up`,
  toe: 'toe',
  heel: 'heel',
  medial: 'medial',
  lateral: 'lateral',
  corners: {
    'toe.medial': 'toe medial',
    'toe.lateral': 'toe lateral',
    'heel.medial': 'heel medial',
    'heel.lateral': 'heel lateral',
  },
  plateTitle: 'Plate, thickness in mm',
  planeTitle: 'Plane off, mm',
  routTitle: 'Rout off the lugs, mm',
  standHeight: (mm: number): string => `The boot stands ${shown(mm)} mm higher afterwards.`,

  before: (side: Side): string => `Measure the ${side} sole before any work`,
  after: (side: Side): string => `Measure the finished ${side} sole`,
  zones: { toe: 'Toe', heel: 'Heel' },
  fields: {
    heightMedialMm: 'medial height',
    heightLateralMm: 'lateral height',
    widthMm: 'width',
    parallelMm: 'medial to lateral',
  },
  enterBefore: 'Enter the sole as brought',
  enterAfter: 'Enter the finished sole',
  measureAgain: 'Measure again',

  fitTold: 'Fitted as told',
  fitHint: (thinEdgeMm: number): string => `thin edge ${shown(thinEdgeMm, 2)} mm`,
  lifterIs: (mm: number): string => `lifter ${shown(mm, 2)} mm`,
  else: 'Did something else',
  elseTitle: (side: Side): string => `${Sided(side)} boot: what is under it now`,
  thinEdge: 'Thin edge',
  lifter: 'Lifter',
  lifterHint: 'flat, under a planed sole; empty: none',
  elseEnter: 'This is fitted',
  told: (cant: string): string => `chosen: ${cant}`,

  held: 'Not yet',
  agreeFirst: 'The owner agrees to the work on the soles first: it cannot be undone.',
  checkedTitle: 'Finished sole against its standard',
  checkedHead: { where: 'Where', is: 'Measured', limit: 'Limit', state: 'Judged' },
  pass: 'pass',
  out: 'out of limits',
  unchecked: 'not checked',
  limit: (min: number, max: number): string => `${shown(min, 2)} to ${shown(max, 2)} mm`,
  most: (max: number): string => `at most ${shown(max, 2)} mm`,
  noLimit: 'nobody entered one',
  notMeasured: 'not measured',
  source: 'Limit',
  racing: { standHeightMm: 'Racing: stand height on the ski', soleHeightMm: 'Racing: sole to heel base' },
  soleHeight: 'Sole height inside',
  soleHeightHint: 'underside to the base of the heel; empty: not measured',
  wedgeOff: 'The test wedge is out',
  waiting: 'Soles that wait',
} as const;
export const sole: Words<typeof soleEn> = inLanguage(soleEn, german.sole);

const words: Record<string, string> = sole.fields;
const zones: Record<string, string> = sole.zones;

/** A place of the standard in words: `toe.heightMedialMm` is `Toe, medial height`. */
export function placeWords(where: string): string {
  const [zone = '', field = ''] = where.split('.');
  return `${zones[zone] ?? zone}, ${words[field] ?? field}`;
}
