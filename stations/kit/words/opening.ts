/** Words of the shop's open doors, and of the hands at its stations. */
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/opening.ts';

const openingEn = {
  title: 'Hours and hands',
  lead: 'What it is counted with when a job will be ready. No number of a boot rests on it.',
  hands: 'People who work at a time',
  days: 'Open doors',
  open: (day: string): string => `${day}: open`,
  from: (day: string): string => `${day} from`,
  to: (day: string): string => `${day} to`,
  closed: 'closed',
  save: 'Save hours and hands',
  saved: 'Saved. The times at which jobs will be ready are worked out anew.',
  badHands: 'Type a whole number from 1 to 20.',
  badDay: 'Type two times such as 9:00 and 18:00, the later one second.',
  allClosed: 'At least one day must be open.',
  unreachable: 'The shop’s server cannot be reached: nothing was saved.',
};
export const opening: Words<typeof openingEn> = inLanguage(openingEn, german.opening);

/** Monday to Sunday. The first of January 2024 was a Monday. */
export const dayNames: readonly string[] = Array.from({ length: 7 }, (_, i) =>
  new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }).format(
    new Date(Date.UTC(2024, 0, 1 + i)),
  ),
);
