/** The page that shows all parts of the stations: for whoever builds or translates them. */
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/parts.ts';

const partsEn = {
  title: 'Parts',
  lead: 'Everything that the stations are made of, with the entries of a job of this shop. Nothing here is entered.',
  pick: 'Which job they show',
  none: 'No job is open: take somebody in at the desk first.',
  scale: 'Type',
  colours: 'Colours',
  acts: 'Acts',
  fields: 'Fields',
  says: 'What is said',
  drawings: 'Drawings',
  sheets: 'Sheets',
  open: 'Open it',
  size: (px: number): string => `${px} px: left boot, medial 16, lateral 3.5 mm`,
  plain: 'An act',
  hint: 'what it enters',
  hold: 'Hold to confirm',
  typed: 'What was typed',
  words: 'A line of words',
  number: 'A number',
  choice: 'One of these',
  one: 'This',
  other: 'That',
  instruction: 'Left boot: lateral pivot down 2 marks, to −2 mm.',
  know: 'Something to know.',
  stop: 'Something that stops the work.',
  here: 'Here',
};
export const parts: Words<typeof partsEn> = inLanguage(partsEn, german.parts);
