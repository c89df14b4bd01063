/** Words of the promise that the queue suggests. */
import type { FloorRole } from '../../../core/index.ts';
import { inLanguage } from '../language.ts';
import type { Words } from '../language.ts';
import * as german from './de/suggested.ts';

const place: Record<FloorRole, string> = {
  measuring: 'measuring',
  bench: 'the bench',
  desk: 'the front desk',
};
const suggestedEn = {
  today: 'Today',
  tomorrow: 'Tomorrow',
  after: (day: string, time: string): string => `${day} after ${time}`,
  why: (ahead: number, narrow: FloorRole | null, seen: number): string =>
    `${ahead === 0 ? 'No job before it' : `${ahead} ${ahead === 1 ? 'job' : 'jobs'} before it`}` +
    `${narrow ? `; ${place[narrow]} is the narrow place` : ''}. ` +
    (seen < 20 ? 'Few jobs to learn from yet: a rough figure.' : 'Four in five such jobs are ready by then.'),
};
export const suggested: Words<typeof suggestedEn> = inLanguage(suggestedEn, german.suggested);
