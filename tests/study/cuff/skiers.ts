/**
 * Legs for the study, drawn from a printed seed. What is measured of people has its source; what nobody has published is an
 * assumption with a name, and can be changed in one place.
 */
import type { Cuff, Leg } from '../../../demo/leg.ts';
import type { Random } from '../../../demo/random.ts';

/** ANSUR II (US Army, 2012, public): calf circumference of 4082 men, mm. Soldiers of 17 to 58, no skiers. */
const CALF = { mean: 392.26, sd: 29.71 };

export const ASSUMED = {
  /** Where legs stand at the reading height from the centre of a neutral cuff, lateral positive, mm. */
  placeMeanMm: 2,
  placeSdMm: 6,
  /** Gaps of a calf of average girth, both together, mm. */
  roomMeanMm: 20,
  /** In the study of grazing legs. */
  tightMeanMm: 9,
  /** People buy the cuff that their calf fits into: so much of what their girth differs by is left as room, from memory. */
  roomShare: 0.4,
  /** Response of boots, as the core expects it before any reading. */
  responseMean: 1,
  responseSd: 0.15,
  /** Bias of a second technician's reading of the medial gap, mm. */
  secondHandMm: 0.8,
  /** Stance widths of one skier from reading to reading, mm; a leg stands so much further lateral for each, from memory. */
  stanceSdMm: 12,
  placePerStance: 0.03,
} as const;

export interface Skier {
  readonly leg: Leg;
  readonly cuff: Cuff;
}

export interface Room {
  readonly meanMm: number;
  /** 0: every cuff has it. 1: one cuff for every calf there is. */
  readonly share: number;
}

export function skierOf(random: Random, cuff: Cuff, room: Room): Skier {
  // A girth that is larger by so much makes a round calf wider by a third of it.
  const girth = random.normal(CALF.sd);
  return {
    cuff,
    leg: {
      placeMm: ASSUMED.placeMeanMm + random.normal(ASSUMED.placeSdMm),
      roomMm: Math.max(2, room.meanMm - (room.share * girth) / Math.PI),
      response: Math.max(0.6, Math.min(1.4, ASSUMED.responseMean + random.normal(ASSUMED.responseSd))),
    },
  };
}
