/** What is varied: the hardware, how well a gap is read, and what else goes wrong on a shop floor. */
import { grat, tarn } from '../../../demo/boots.ts';
import type { BootModel } from '../../../demo/boots.ts';
import { mm } from '../../../core/index.ts';
import { ASSUMED } from './skiers.ts';
import type { Room } from './skiers.ts';

export interface Case {
  readonly name: string;
  readonly boot: BootModel;
  /** Standard deviation of one gap as it is read, mm. */
  readonly errorMm: number;
  readonly room: Room;
  /** Every other reading by a technician who sees the medial gap so much wider, mm. */
  readonly secondHandMm: number;
  /** The skier's stance drifts from reading to reading. */
  readonly drifts: boolean;
}

/** No marks: any place of the travel can be set. */
function fine(): BootModel {
  const { markMm: _mark, ...hardware } = tarn(265).hardware;
  return { ...tarn(265), hardware: { ...hardware, travel: both(9) } };
}
const both = (mmEach: number) => {
  const reach = { upMm: mm(mmEach), downMm: mm(mmEach) };
  return { lateral: reach, medial: reach };
};
const marked = (): BootModel => ({ ...tarn(265), hardware: { ...tarn(265).hardware, travel: both(9) } });
/** Round eccentrics: eleven places, not equally far apart. */
const round = (): BootModel => ({
  ...grat(265),
  hardware: { ...grat(265).hardware, factoryLeanDeg: tarn(265).hardware.factoryLeanDeg! },
});

const fits = { meanMm: ASSUMED.roomMeanMm, share: ASSUMED.roomShare };
const plain = { errorMm: 1, room: fits, secondHandMm: 0, drifts: false };

export const CASES: readonly Case[] = [
  { name: 'fine pivots', boot: fine(), ...plain },
  { name: 'marks of 1 mm', boot: marked(), ...plain },
  { name: 'round eccentrics', boot: round(), ...plain },
  { name: 'fine, error 0.5 mm', boot: fine(), ...plain, errorMm: 0.5 },
  { name: 'fine, error 2 mm', boot: fine(), ...plain, errorMm: 2 },
  { name: 'fine, two technicians', boot: fine(), ...plain, secondHandMm: ASSUMED.secondHandMm },
  { name: 'fine, stance drifts', boot: fine(), ...plain, drifts: true },
  { name: 'fine, one cuff for all', boot: fine(), ...plain, room: { ...fits, share: 1 } },
  { name: 'marks, grazing legs', boot: marked(), ...plain, room: { ...fits, meanMm: ASSUMED.tightMeanMm } },
];
