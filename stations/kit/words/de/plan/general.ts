/** Forms that hold any sentence about a boot, tried last; in the form of sentences.ts. */
import type { Sentences } from './sentences.ts';

export const GENERAL: Sentences = [
  ['{Side} boot: {parts}.', '{Side:er} Schuh: {parts}.'],
  ['{Side} boot: {x}', '{Side:er} Schuh: {x}'],
];
