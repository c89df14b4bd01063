/**
 * The language of this station: chosen once as a page loads, so that no word changes under a person's hands. Another one
 * is a choice in the station's menu, which loads the page again.
 */

export type Language = 'en' | 'de';
export const LANGUAGES: readonly Language[] = ['en', 'de'];

/** What each calls itself: the same in every language, so that anybody finds the own one. */
export const languageName: Readonly<Record<Language, string>> = { en: 'English', de: 'Deutsch' };

const KEPT = 'fibula.language';

export const isLanguage = (text: string | null | undefined): text is Language =>
  LANGUAGES.some((each) => each === text);

/** What the address asks for, as a paper's does; else what was chosen here; else what the device speaks, if that is one of ours; else English. */
function chosen(): Language {
  if (typeof localStorage === 'undefined') return 'en'; // outside a browser
  const asked = new URLSearchParams(globalThis.location?.search).get('in');
  if (isLanguage(asked)) return asked;
  const kept = localStorage.getItem(KEPT);
  if (isLanguage(kept)) return kept;
  return /^de\b/i.test(navigator.language) ? 'de' : 'en';
}

export const language: Language = chosen();

/** Dates, numbers and a screen reader's voice follow it. */
export const locale = { en: 'en-GB', de: 'de-DE' }[language];

/** Kept on this device. The page has to be loaded again for it to speak it. */
export const keepLanguage = (wanted: Language): void => localStorage.setItem(KEPT, wanted);

/**
 * The same words in another language: each text a text, each function with the same arguments, nothing missing and nothing
 * more. What does not fit does not compile.
 */
export type Words<T> = T extends string
  ? string
  : T extends (...args: infer A) => infer R
    ? (...args: A) => Words<R>
    : T extends object
      ? { readonly [K in keyof T]: Words<T[K]> }
      : T;

/** The words of this station's language. */
export const inLanguage = <T>(en: T, de: T): T => ({ en, de })[language];
