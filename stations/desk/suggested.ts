/** The moment that the queue gives, as a desk would say it: on the next quarter of an hour. */
import { locale } from '../kit/language.ts';
import { suggested as words } from '../kit/words/suggested.ts';

const QUARTER_MS = 900_000;

export interface Suggestion {
  readonly atMs: number;
  /** Days from today by this station's clock, and the time of day. */
  readonly days: number;
  readonly time: string;
}

const two = (n: number) => String(n).padStart(2, '0');

export function suggestionOf(promiseMs: number, nowMs: number): Suggestion {
  const atMs = Math.ceil(promiseMs / QUARTER_MS) * QUARTER_MS;
  const at = new Date(atMs);
  const now = new Date(nowMs);
  const midnight = (day: Date) => Date.UTC(day.getFullYear(), day.getMonth(), day.getDate());
  return {
    atMs,
    days: Math.round((midnight(at) - midnight(now)) / 86_400_000),
    time: `${two(at.getHours())}:${two(at.getMinutes())}`,
  };
}

/** Today, tomorrow, or the day's name. */
export function shopDay(atMs: number, nowMs: number, timeZone: string): string {
  const { days } = suggestionOf(atMs, nowMs);
  if (days <= 1) return days <= 0 ? words.today : words.tomorrow;
  return new Intl.DateTimeFormat(locale, {
    weekday: 'long',
    ...(days > 6 ? { day: 'numeric', month: 'long' } : {}),
    timeZone,
  }).format(atMs);
}
