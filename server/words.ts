/** Words as people look for them: what is written and what is typed are put into one spelling, and compared by it. */

/** Letters that Unicode does not take apart into a letter and a mark. */
const APART: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'a',
  œ: 'o',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  þ: 'th',
  ı: 'i',
};

/**
 * Lower case without accents, and `ae`, `oe`, `ue` as the one letter they stand for where there is no umlaut on the
 * keyboard: "Müller", "Mueller" and "Muller" are one spelling. What somebody has typed of a word so far stays the
 * beginning of it: "mue" and "mu" both begin "mueller".
 */
export const fold = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[ßæœøłđðþı]/g, (letter) => APART[letter]!)
    .replace(/([aou])e/g, '$1');

/** The words of a text, folded. Numbers joined by hyphens stay together: `1-41` is a ticket. */
export const wordsOf = (text: string): string[] => [
  ...new Set(fold(text).match(/\p{N}+(?:-\p{N}+)+|[\p{L}\p{N}]+/gu) ?? []),
];

/** What a word that somebody is typing may be: the beginning of a word, or a day. */
export interface Sought {
  /** Words that begin so, all of them. */
  readonly begins: readonly string[];
  /** The beginning of a day word (`dayWords`), or all of one; null when what is typed is no day. */
  readonly day: string | null;
}

const two = (digits: string): string => digits.padStart(2, '0');

/** The words under which a day (`2026-01-09`) is found. No text has such words: they hold a sign. */
export const dayWords = (day: string): string[] => [`@${day}`, `@--${day.slice(5)}`];

/** `9.1.`, `9.1.2026`, `9.1.26`, `1.2026`, `2026-01`, `2026`; null for no day. */
function dayOf(typed: string): string | null {
  if (/^\d{4}(-\d{0,2}){0,2}$/.test(typed)) return `@${typed}`;
  const [, ofMonth, ofYear] = /^(\d{1,2})\.(\d{4})$/.exec(typed) ?? [];
  if (ofMonth !== undefined) return `@${ofYear}-${two(ofMonth)}-`;
  const [, day, month, year = ''] = /^(\d{1,2})\.(\d{1,2})\.?(\d{0,4})$/.exec(typed) ?? [];
  if (day === undefined || month === undefined || Number(month) > 12) return null;
  // `20` is more likely the beginning of a year than the year 2020.
  const full = year.length === 4 ? year : year.length === 2 && year !== '20' ? `20${year}` : null;
  return `@${full ?? '-'}-${two(month)}-${two(day)}`;
}

/** All that is typed must be found: one `Sought` for each word. Past eight words nobody types. */
export const soughtIn = (typed: string): Sought[] =>
  typed
    .split(/\s+/)
    .map((word) => {
      const day = dayOf(word);
      // With a point in it, it is a day and nothing else; a bare number may be a boot's.
      return { begins: day !== null && word.includes('.') ? [] : wordsOf(word), day };
    })
    .filter(({ begins, day }) => begins.length > 0 || day !== null)
    .slice(0, 8);

/** Bounds of all words that begin so, the upper one not in it. */
export const range = (begin: string): [string, string] => [begin, `${begin}\u{10FFFF}`];
