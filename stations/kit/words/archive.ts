/** Words of the archive: the sessions of all seasons, found and read again. */
import type { Standing } from '../../../core/index.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/archive.ts';

const archiveEn = {
  title: 'All seasons',
  find: 'Ticket, name, boot, tag or day',
  findHint: 'The beginning of each word is enough: hub 120, or 9.1.2026',
  which: 'Which sessions',
  standings: { all: 'All', open: 'Open', finished: 'Finished' } satisfies Record<Standing, string>,
  list: 'Sessions found',
  found: (n: number): string => `${n} ${n === 1 ? 'session' : 'sessions'}`,
  more: (shown: number, n: number): string => `The latest ${shown}, and ${n} more: type another word`,
  none: 'No session has all of that. Is a word misspelt? Its beginning is enough.',
  empty: 'There are no sessions yet.',
  unread: (n: number): string =>
    `${n} older ${n === 1 ? 'session is' : 'sessions are'} still being read, and found soon.`,
  unreachable:
    'The shop’s server does not answer, and it alone has all seasons. What stands on the board is here.',
  nameless: 'no name kept',
  bootless: 'boots not described',
  takenIn: (day: string): string => `taken in ${day}`,
  lastOn: (day: string): string => `last entry ${day}`,
  open: 'open',
  finished: 'finished',

  history: 'Here before',
  earlier: (n: number): string => `and ${n} earlier`,
  firstTime: 'No session here yet.',
  knownHere: (n: number): string => (n === 0 ? '' : `${n} known by that name, below`),

  reopen: 'Open it again',
  finishedHint:
    'This job is finished: it is read, and nothing in it is changed. Opening it again strikes the hand-over.',
};
export const archiveWords: Words<typeof archiveEn> = inLanguage(archiveEn, german.archive);

/** A day with its year, in the shop's zone. */
export function dayIn(timeZone: string): (ms: number) => string {
  const format = new Intl.DateTimeFormat(locale, {
    timeZone,
    day: 'numeric',
    month: 'short',
    year: 'numeric',
  });
  return (ms) => format.format(ms);
}
