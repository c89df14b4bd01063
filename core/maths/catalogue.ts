/**
 * Every calculation of this folder, to be asked for by itself: what it means, what it takes and gives with units,
 * bounds and signs, its formula, its source, and one worked example.
 *
 * A function, so that nothing of it is made where nobody asks.
 */
import {
  foreaftCalculations,
  racingCalculations,
  screwCalculations,
  shellCalculations,
  standardsCalculations,
} from './catalogue/boot.ts';
import { cuffCalculations } from './catalogue/cuff.ts';
import type { Calculations } from './catalogue/entry.ts';
import {
  estimateCalculations,
  normalCalculations,
  quantileCalculations,
  spreadQuantileCalculations,
} from './catalogue/estimate.ts';
import { hardwareCalculations, slotCalculations } from './catalogue/hardware.ts';
import {
  durationCalculations,
  floorCalculations,
  forecastCalculations,
  queueCalculations,
} from './catalogue/queue.ts';
import { learnedCalculations } from './catalogue/learned.ts';
import { reachCalculations } from './catalogue/reach.ts';
import { gaugeCalculations, repeatabilityCalculations } from './catalogue/repeatability.ts';
import { routingCalculations, soleCalculations } from './catalogue/sole.ts';
import { shareCalculations } from './catalogue/share.ts';
import { stanceCalculations, wedgeCalculations } from './catalogue/stance.ts';

export type { Calculation, Calculations, Given } from './catalogue/entry.ts';

/** By the file that each is in, and in it by the name of its function. No two share a name. */
export const catalogue = (): Readonly<Record<string, Calculations>> => ({
  hardware: hardwareCalculations(),
  slot: slotCalculations(),
  cuff: cuffCalculations(),
  estimate: estimateCalculations(),
  learned: learnedCalculations(),
  reach: reachCalculations(),
  stance: stanceCalculations(),
  wedge: wedgeCalculations(),
  sole: soleCalculations(),
  routing: routingCalculations(),
  standards: standardsCalculations(),
  racing: racingCalculations(),
  screw: screwCalculations(),
  foreaft: foreaftCalculations(),
  shell: shellCalculations(),
  repeatability: repeatabilityCalculations(),
  gauge: gaugeCalculations(),
  duration: durationCalculations(),
  floor: floorCalculations(),
  forecast: forecastCalculations(),
  queue: queueCalculations(),
  normal: normalCalculations(),
  quantile: quantileCalculations(),
  share: shareCalculations(),
  'spread-quantile': spreadQuantileCalculations(),
});
