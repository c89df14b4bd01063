/** Words of the shop's numbers. */
import { dayOf } from '../../../core/index.ts';
import type { Bucket, BucketOf, Halfway, Period, PeriodOf, Share, Stage } from '../../../core/index.ts';
import { inLanguage, locale } from '../language.ts';
import type { Words } from '../language.ts';
import { shown } from '../numbers.ts';
import { FEW, percentTogether as percent } from '../shop-numbers.ts';
import * as german from './de/shop-numbers.ts';

const numbersEn = {
  title: 'Numbers of the shop',
  which: 'Which time',
  periods: { day: 'Day', week: 'Week', month: 'Month', season: 'Season', days: 'From – to' } satisfies Record<
    PeriodOf | 'days',
    string
  >,
  before: 'The time before',
  after: 'The time after',
  now: 'Today',
  from: 'First day',
  to: 'Last day',
  wrongDays: 'The last day lies before the first one.',
  noDay: 'Both days are needed.',
  tooLong: 'At most a hundred years at once.',
  season: (years: string): string => `Season ${years}`,
  seasonHint: '1 September to 31 August',
  csv: 'As a table for other programs (CSV)',
  untilNow: 'Still running: counted until now.',
  future: 'This time has not begun yet.',
  nothing: 'Nothing was taken in, closed or handed over in this time.',
  never: 'Nothing yet: no job was taken in.',
  firstWas: (day: string): string => `The first job was taken in on ${day}.`,
  toFirst: 'Go to the first job',
  uncounted: (n: number): string =>
    `${n} ${n === 1 ? 'session is' : 'sessions are'} still being counted: the numbers here grow until that is done.`,
  unreachable: 'The shop’s server does not answer, and it alone has the numbers.',
  sum: (opened: number, handed: number, unfit: number): string =>
    `${opened} taken in, ${handed} handed over${unfit ? `, ${unfit} released unfit` : ''}`,
  here: (n: number, paused: number): string =>
    `Of those taken in, ${n === 0 ? 'none is' : `${n} ${n === 1 ? 'is' : 'are'}`} still here${paused ? `, ${paused} of them paused` : ''}.`,
  jobs: {
    heading: 'Jobs',
    opened: 'Taken in',
    handed: 'Handed over',
    unfit: 'Released unfit',
    service: 'Service',
    all: 'All',
    toCome: 'to come',
    says: (bucket: string, opened: number, handed: number, unfit: number): string =>
      `${bucket}: ${opened} taken in, ${handed} handed over${unfit ? `, ${unfit} released unfit` : ''}`,
    none: 'No job came or left.',
  },
  even: {
    heading: 'Moves until even',
    title: 'Cuffs closed as even, by the moves that took',
    moves: (n: number, more: boolean): string =>
      `${n}${more ? ' or more' : ''} ${n === 1 ? 'move' : 'moves'}`,
    count: (n: number, all: number): string => `${n} of ${all}`,
    mean: (mean: number, cuffs: number): string =>
      `${cuffs} ${cuffs === 1 ? 'cuff' : 'cuffs'} closed as even, ${shown(mean)} moves each in the mean.`,
    otherwise: (n: number): string =>
      `${n} more ${n === 1 ? 'was' : 'were'} closed as ${n === 1 ? 'it is' : 'they are'}, or for another boot.`,
    inOne: 'Even with one move or none',
    none: 'No cuff was closed as even in this time.',
  },
  first: {
    heading: 'First move enough',
    title: 'First move enough, in per cent of the cuffs that were moved',
    none: 'No cuff that was moved was closed in this time.',
    says: (bucket: string, text: string): string => `${bucket}: ${text}`,
    within: 'true share, 9 of 10',
    share: 'share seen',
  },
  /** A count, and what it says of the true share. */
  share: (count: number, all: number, { share, low, high }: Share): string =>
    all < FEW
      ? `${count} of ${all}: too few to say, the true share may be ${percent(low)} to ${percent(high)}`
      : `${percent(share)} (${count} of ${all}); 9 of 10 times the true share lies within ${percent(low)} and ${percent(high)}`,
  shareShort: (count: number, all: number): string =>
    all === 0
      ? '–'
      : all < FEW
        ? `${count} of ${all}`
        : `${percent(count / all)} (${count}\u00a0of\u00a0${all})`,
  waits: {
    heading: 'Waiting by stage',
    lead: 'Waited and in hand: while the doors are open, by today’s opening hours and hands. By the clock: nights and closed days too.',
    none: 'No work came to its end in this time.',
    stage: 'Stage',
    times: (n: number): string => `${n} ${n === 1 ? 'time' : 'times'}`,
    waited: 'Waited',
    worked: 'In hand',
    whole: 'By the clock',
    both: 'half · 80 %',
    half: 'half within',
    most: '80 % within',
    stages: {
      first: 'First readings',
      pivots: 'Pivots',
      again: 'Readings after a move',
      stance: 'Stance',
      sole: 'Soles',
      check: 'Binding check',
      pickup: 'Ready, not picked up',
    } satisfies Record<Stage, string>,
    tooFew: 'too\u00a0few',
  },
  pieces: {
    heading: 'Piece by piece',
    show: (bucket: string): string => `Show ${bucket}`,
    piece: { hour: 'Hour', day: 'Day', week: 'Week', month: 'Month', season: 'Season' } satisfies Record<
      BucketOf,
      string
    >,
    even: 'Closed even',
    mean: 'Moves, mean',
    first: 'First move enough',
  },
  hour: (hour: number): string => `${hour}:00`,
  minutes: (n: number): string => `${n}\u00a0min`,
  hours: (h: number, min: number): string => (min === 0 ? `${h}\u00a0h` : `${h}\u00a0h\u00a0${min}\u00a0min`),
  days: (d: number, h: number): string => (h === 0 ? `${d}\u00a0d` : `${d}\u00a0d\u00a0${h}\u00a0h`),
};
export const numbersWords: Words<typeof numbersEn> = inLanguage(numbersEn, german.numbersWords);

/** Minutes as a person says them; `days`: of the clock, where a day has 24 hours. */
export function spanText(minutes: number, days = false): string {
  const whole = Math.round(minutes);
  if (whole < 90) return numbersWords.minutes(whole);
  const hours = Math.round(minutes / 60);
  if (days && hours >= 36) return numbersWords.days(Math.floor(hours / 24), hours % 24);
  return hours >= 10 ? numbersWords.hours(hours, 0) : numbersWords.hours(Math.floor(whole / 60), whole % 60);
}

/** Half within this, 80 % within that. */
export function halfwayText(of: Halfway, n: number, days = false): string {
  if (!of) return '–';
  const most = n < FEW ? numbersWords.waits.tooFew : spanText(of.mostMin, days);
  return `${spanText(of.medianMin, days)} · ${most}`;
}

const DAY_MS = 86_400_000;
const formatOf = (options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat(locale, { timeZone: 'UTC', ...options });
const FULL = formatOf({ weekday: 'short', day: 'numeric', month: 'long', year: 'numeric' });
const SPAN = formatOf({ day: 'numeric', month: 'long', year: 'numeric' });
const MONTH = formatOf({ month: 'long', year: 'numeric' });
const SHORT = {
  day: formatOf({ weekday: 'short', day: 'numeric', month: 'short' }),
  month: formatOf({ month: 'short', year: 'numeric' }),
  axisDay: formatOf({ day: 'numeric', month: 'short' }),
  axisMonth: formatOf({ month: 'short' }),
};
const seasonYears = (day: number): string => {
  const year = new Date(day * DAY_MS).getUTCFullYear();
  return `${year}/${String((year + 1) % 100).padStart(2, '0')}`;
};

/** What a period is called. */
export function periodText(of: PeriodOf | 'days', { from, to }: Period): string {
  switch (of) {
    case 'day':
      return FULL.format(from * DAY_MS);
    case 'month':
      return MONTH.format(from * DAY_MS);
    case 'season':
      return numbersWords.season(seasonYears(from));
    case 'week':
    case 'days':
      return SPAN.formatRange(from * DAY_MS, (to - 1) * DAY_MS);
    default:
      return of satisfies never;
  }
}

/** What a piece is called, in a row of a table. */
export function pieceText(by: BucketOf, { from, to, hour }: Pick<Bucket, 'from' | 'to' | 'hour'>): string {
  const [first, last] = [dayOf(from)! * DAY_MS, dayOf(to)! * DAY_MS];
  if (hour !== null) return numbersWords.hour(hour);
  if (by === 'month') return SHORT.month.format(first);
  if (by === 'season') return seasonYears(first / DAY_MS);
  return from === to ? SHORT.day.format(first) : SHORT.day.formatRange(first, last);
}

/** The same under an axis. */
export function axisText(by: BucketOf, { from, hour }: Pick<Bucket, 'from' | 'hour'>): string {
  const first = dayOf(from)! * DAY_MS;
  if (hour !== null) return String(hour);
  if (by === 'month') return SHORT.axisMonth.format(first);
  if (by === 'season') return seasonYears(first / DAY_MS);
  return SHORT.axisDay.format(first);
}

export const dayWords = (text: string): string => FULL.format(dayOf(text)! * DAY_MS);
