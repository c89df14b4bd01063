/**
 * English sentences of the plan with their German. `{side:en}` is left or right with its ending, `{adj}` innen or außen,
 * `{n}` a number, `{x}` a phrase, `{list}` several `{day}` and `{time}` when, and `{raw}` what stays as it is. The first that fits is taken.
 */
import { CATALOGUE } from './catalogue.ts';
import { CAUTIONS } from './cautions.ts';
import { GENERAL } from './general.ts';
import { MISSING } from './missing.ts';
import { NEXT } from './next.ts';
import { PHRASES } from './phrases.ts';
import { PROBLEMS } from './problems.ts';
import { PROVENANCE } from './provenance.ts';
import { REASONS } from './reasons.ts';
import { REFUSALS } from './refusals.ts';
import { RESTS } from './rests.ts';
import { SERVER } from './server.ts';
import { STEPS } from './steps.ts';

export type Sentences = readonly (readonly [english: string, german: string])[];

export const SENTENCES: Sentences = [
  ...CAUTIONS,
  ...NEXT,
  ...STEPS,
  ...MISSING,
  ...PROBLEMS,
  ...REASONS,
  ...SERVER,
  ...CATALOGUE,
  ...GENERAL,
  ...PHRASES,
  ...RESTS,
  ...PROVENANCE,
  ...REFUSALS,
];
