/** Where a number comes from, in words: what stands around the numbers. */
import type { SidePlan } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/why.ts';

const whyEn = {
  ask: 'Why?',
  title: (leg: string): string => `${leg}: where the numbers come from`,
  numbers: 'Numbers',
  formula: 'Formula',
  symbol: 'Symbol',
  meaning: 'What it is',
  value: 'Value',
  from: 'From',
  within: (low: string, high: string): string => `9 times of 10 between ${low} and ${high}`,
  noInterval: 'Recorded, counted or chosen: no interval.',
  assumed: 'a default, or fixed',
  missing: 'Not worked out yet',
  nothing: 'Nothing is worked out for this leg yet.',
  source: 'Worked out in',
};
export const why: Words<typeof whyEn> = inLanguage(whyEn, german.why);

/** A part of the plan, as the stations name it. */
export type Topic = keyof SidePlan;

const topicWordEn: Record<Topic, string> = {
  fit: 'Shell fit',
  cuff: 'Cuff lean',
  stance: 'Knee and cant',
  sole: 'Sole',
  foreAft: 'Fore and aft',
};
export const topicWord: Words<typeof topicWordEn> = inLanguage(topicWordEn, german.topicWord);
