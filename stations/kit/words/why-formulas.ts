/**
 * Formulas and where they stand, in this station's language. The core says them in English; symbols and names of files
 * are the same in every language, and what is prose between them is translated.
 */
import { inLanguage } from '../language.ts';
import * as german from './de/why-formulas.ts';

export const formulaText: (english: string) => string = inLanguage(
  (english: string) => english,
  german.formulaText,
);
