/**
 * English sentences of the plan with their German. `{side:en}` is left or right with its ending, `{adj}` innen or außen,
 * `{n}` a number, `{x}` a phrase, `{list}` several `{day}` and `{time}` when, and `{raw}` what stays as it is. The first that fits is taken.
 * Those that only a later part of a page says come with it (`teach`).
 */
import { CATALOGUE } from './catalogue.ts';
import { GENERAL } from './general.ts';
import { MISSING } from './missing.ts';
import { NEXT } from './next.ts';
import { PHRASES } from './phrases.ts';
import { REFUSALS } from './refusals.ts';
import { RESTS } from './rests.ts';
import { STEPS } from './steps.ts';

export type Sentences = readonly (readonly [english: string, german: string])[];

export const SENTENCES: Sentences = [
  ...NEXT,
  ...STEPS,
  ...MISSING,
  ...CATALOGUE,
  ...GENERAL,
  ...PHRASES,
  ...RESTS,
  ...REFUSALS,
];
