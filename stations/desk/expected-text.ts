/** Expected times in words: of today the time alone. */
import type { JobRow } from '../../core/index.ts';
import { locale } from '../kit/language.ts';
import { clock, moment } from '../kit/words/common.ts';
import { desk } from '../kit/words/desk.ts';
import type { Ready } from './expected.svelte.ts';

const HALF_DAY_MS = 43_200_000;
export const timeOf = (ms: number, nowMs: number, timeZone: string): string =>
  Math.abs(ms - nowMs) < HALF_DAY_MS ? clock(ms, timeZone) : moment(ms, timeZone);

/** The same without the date: `Thu 16:00`. */
export const dayTime = (ms: number, nowMs: number, timeZone: string): string =>
  Math.abs(ms - nowMs) < HALF_DAY_MS
    ? clock(ms, timeZone)
    : new Intl.DateTimeFormat(locale, {
        weekday: 'short',
        hour: '2-digit',
        minute: '2-digit',
        timeZone,
      }).format(ms);

/** What there is to say in one or two words. */
export function expectedShort(
  ready: Ready | null,
  row: JobRow,
  nowMs: number,
  timeZone: string,
  told = timeOf,
): string {
  if (row.closed || row.paused) return '';
  if (row.stage === 'handover') return `✓ ${desk.ready}`;
  return ready ? `≈ ${told(ready.medianMs, nowMs, timeZone)}` : '';
}
