/** Words of the fore-aft angles: where each number is taken, and what the angles mean. */
import type { Side } from '../../../core/index.ts';
import type { PlaceName } from '../foreaft/reading.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { Sided } from './common.ts';
import * as german from './de/foreaft.ts';

const places: Record<PlaceName, string> = {
  boardHeelMm: 'Board at the heel',
  boardToeMm: 'Board at the toe',
  boardSpanMm: 'Between the two',
  standHeelMm: 'Stand at the heel',
  standToeMm: 'Stand at the toe',
  skiStandMm: 'Ski to sole',
  forwardLeanDeg: 'Forward lean',
};
const taken: Record<PlaceName, string> = {
  boardHeelMm: 'boot board, both over one base',
  boardToeMm: 'boot board, both over one base',
  boardSpanMm: 'along the board',
  standHeelMm: 'where the binding holds the heel',
  standToeMm: 'where the binding holds the toe',
  skiStandMm: 'running surface to sole, at its highest',
  forwardLeanDeg: 'cuff against the sole, toward the toe',
};

const foreAftEn = {
  title: 'Fore and aft',
  which: 'Which boot',
  boot: (side: Side): string => `${Sided(side)} boot`,
  places,
  taken,
  mark: (number: number, name: string): string => `${number} ${name}`,
  before: (value: string): string => `before: ${value}`,
  stale: 'Something in this boot has changed: take the numbers again.',
  picture: 'Where each number is taken, from the side, toe to the right.',
  needed: 'both heights of the boot board and the distance between them belong together',
  ramp: 'Ramp, in the boot',
  delta: 'Delta, under the boot',
  netRamp: 'Foot on the ski',
  netLean: 'Shaft on the ski',
  slope: (deg: number): string =>
    Math.abs(deg) < 0.05 ? 'level' : `${shown(Math.abs(deg))}° ${deg > 0 ? 'heel higher' : 'toe higher'}`,
  lean: (deg: number): string =>
    Math.abs(deg) < 0.05 ? 'upright' : `${shown(Math.abs(deg))}° ${deg > 0 ? 'forward' : 'backward'}`,
  perHeel: (deg: number): string => `1 mm under the heel is ${shown(deg, 2)}°`,
  notYet: 'not known',
  record: (sides: readonly Side[]): string =>
    sides.length === 1 ? `Record the ${sides[0]!} boot` : 'Record both boots',
  nothing: 'Nothing new to record',
  hint: 'board, stand and lean: what is not measured stays unknown',
};
export const foreAft: Words<typeof foreAftEn> = inLanguage(foreAftEn, german.foreAft);
