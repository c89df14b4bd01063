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

  seenFrom: (side: Side): string => `${Sided(side)} sole from above, toe up`,
  toe: 'toe',
  heel: 'heel',
  medial: 'medial',
  lateral: 'lateral',
  plateTitle: 'Plate, thickness in mm',
  routTitle: 'Rout off the lugs, mm',
  leftTitle: 'Lug that is left, mm',
  standHeight: (mm: number): string => `The boot stands ${shown(mm)} mm higher afterwards.`,
  noRout: 'Routing: not told',

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
  checkedHead: { where: 'Where', is: 'Measured', state: 'Judged' },
  pass: 'pass',
  out: (min: number, max: number): string => `out of limits: must be ${shown(min)} to ${shown(max)} mm`,
  unchecked: 'not checked: nobody entered a limit',
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
