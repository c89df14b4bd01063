/**
 * The plan's own sentences, and the server's, in this station's language. The core and the server say them in English; as
 * in gettext, the English sentence is the name of the message, and the catalogue finds its numbers and names in it.
 */
import { inLanguage } from '../language.ts';
import * as german from './de/plan.ts';

/** A sentence in this station's language; one that no catalogue has stays as it is, so that none is ever lost. */
export const planText: (english: string) => string = inLanguage(
  (english: string) => english,
  german.planText,
);

/** What the server said; in another language than its own, `ours` where the catalogue lacks it. */
export const fromServer = (english: string, ours: string): string =>
  inLanguage(english, german.germanOf(english) ?? '') || ours;
