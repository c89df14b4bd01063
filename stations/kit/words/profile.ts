/** What the drawings of a sole's work say: profiles across, and how long a screw may be. */
import { shown } from '../numbers.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/profile.ts';

const profileEn = {
  title: (zone: string): string => `${zone}, cut across`,
  seen: (over: boolean): string => (over ? 'seen from the heel, upside down' : 'seen from the heel'),
  times: (n: number): string => (n === 1 ? 'to scale' : `heights × ${n}`),
  plate: 'plate',
  planed: 'plane off',
  lifter: 'lifter',
  rout: 'rout off the top of the lug',
  left: 'lug that is left',
  key: {
    plate: 'Below: plate, thickness at both edges in mm.',
    planed: 'Below: what is planed off at both edges, in mm.',
    lifter: (mm: number): string => `Then a flat lifter of ${shown(mm, 2)} mm.`,
    rout: 'On top, hatched: what is routed off the lug, in mm.',
    left: 'In the gap of the picture: what is left of the lug, in mm.',
    noRout: 'Routing: not told.',
  },

  screws: 'Screws: length in mm',
  screwsHint: 'Long enough to grip, and its point outside the boot.',
  window: (min: number, max: number): string => `${shown(min)} to ${shown(max)} mm`,
  useful: (mm: number): string => `over ${shown(mm)} mm adds no grip`,
  atLeast: (min: number): string => `at least ${shown(min)} mm`,
  inside: 'point in the boot',
  under: (cant: string): string => `Under the boot now: ${cant}`,
};
export const profile: Words<typeof profileEn> = inLanguage(profileEn, german.profile);
