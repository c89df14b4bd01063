/**
 * Periods of a shop: days, weeks from Monday, months, seasons from 1 September. A day is a number of days since 1 January
 * 1970 by the shop's calendar, so that no time zone and no hour that is skipped is in here; a period ends before `to`.
 */

export const PERIODS = ['day', 'week', 'month', 'season'] as const;
export type PeriodOf = (typeof PERIODS)[number];
export type BucketOf = 'hour' | PeriodOf;

export interface Period {
  readonly from: number;
  /** The day after its last. */
  readonly to: number;
}

const DAY_MS = 86_400_000;
/** 1 September, by the month's place in the year. Common practice, no source: no boots are skied then. */
const SEASON_MONTH = 8;

/** `2026-01-09`, checked to be a day of the calendar; null for anything else. */
export function dayOf(text: string): number | null {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00:00Z`) : NaN;
  // 30 February is read as 2 March.
  return Number.isFinite(ms) && dayText(ms / DAY_MS) === text ? ms / DAY_MS : null;
}

export const dayText = (day: number): string => new Date(day * DAY_MS).toISOString().slice(0, 10);

const monthDay = (year: number, month: number): number => Date.UTC(year, month, 1) / DAY_MS;

function startOf(of: PeriodOf, day: number, later: number): number {
  const date = new Date(day * DAY_MS);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
  switch (of) {
    case 'day':
      return day + later;
    case 'week':
      // 1 January 1970 was a Thursday.
      return day - ((((day + 3) % 7) + 7) % 7) + 7 * later;
    case 'month':
      return monthDay(year, month + later);
    case 'season':
      return monthDay((month < SEASON_MONTH ? year - 1 : year) + later, SEASON_MONTH);
    default:
      return of satisfies never;
  }
}

/** The period that holds this day, or the one so many later; negative: earlier. */
export const periodOf = (of: PeriodOf, day: number, later = 0): Period => ({
  from: startOf(of, day, later),
  to: startOf(of, day, later + 1),
});

/** The next span of days as long as this one; `later` −1: the one before. */
export const besideOf = ({ from, to }: Period, later: number): Period => ({
  from: from + later * (to - from),
  to: to + later * (to - from),
});

/** What a span is cut into so that it can be read: a day into hours, a month into days, a season into months. */
export function bucketFor({ from, to }: Period): BucketOf {
  const days = to - from;
  if (days <= 1) return 'hour';
  if (days <= 45) return 'day';
  if (days <= 190) return 'week';
  return days <= 1_100 ? 'month' : 'season';
}

/** A span cut at the bounds of days, weeks, months or seasons: its first and its last piece may be shorter. */
export function cut({ from, to }: Period, by: PeriodOf): Period[] {
  const pieces: Period[] = [];
  for (let at = from; at < to;) {
    const end = Math.min(to, periodOf(by, at).to);
    pieces.push({ from: at, to: end });
    at = end;
  }
  return pieces;
}
