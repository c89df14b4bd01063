/** Days as a shop counts them, and which days' copies are kept. */

const DAY_MS = 86_400_000;

/** Making one takes longer than all that is asked of it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatFor(timeZone: string): Intl.DateTimeFormat {
  let format = formats.get(timeZone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-CA', {
      timeZone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    });
    formats.set(timeZone, format);
  }
  return format;
}

/** The shop's date and time of day, as `2026-01-09` and `03:00`. */
export function shopTime(ms: number, timeZone: string): { day: string; time: string } {
  const parts = formatFor(timeZone).formatToParts(ms);
  const of = (type: string) => parts.find((part) => part.type === type)!.value;
  return { day: `${of('year')}-${of('month')}-${of('day')}`, time: `${of('hour')}:${of('minute')}` };
}

/** The moment at which the shop's clock shows this time of this day (a number of days since 1970), ms since 1970. */
export function momentOf(day: number, minutes: number, timeZone: string): number {
  const wanted = day * DAY_MS + minutes * 60_000;
  const offset = (ms: number) => {
    const shown = shopTime(ms, timeZone);
    return Date.parse(`${shown.day}T${shown.time}:00Z`) - Math.floor(ms / 60_000) * 60_000;
  };
  const near = wanted - offset(wanted);
  return wanted - offset(near);
}

/** Clocks are put forward and back at quarters of an hour all over the world, and by less than three hours. */
const [QUARTER_MS, EARLY_MS] = [900_000, 3 * 3_600_000];

/**
 * The first moment at which the shop's clock shows this time of this day or a later one: what lies before it is earlier by
 * the clock on the wall, also where an hour is skipped or comes twice.
 */
export function beginOf(day: number, minutes: number, timeZone: string): number {
  const wanted = new Date(day * DAY_MS + minutes * 60_000).toISOString().slice(0, 16);
  const shows = (ms: number): string => {
    const shown = shopTime(ms, timeZone);
    return `${shown.day}T${shown.time}`;
  };
  let ms = momentOf(day, minutes, timeZone) - EARLY_MS;
  while (shows(ms) < wanted) ms += QUARTER_MS;
  return ms;
}

/** How many copies are kept: the newest days, and the newest copy of each of the newest weeks and months. */
export interface Keep {
  readonly days: number;
  readonly weeks: number;
  readonly months: number;
}

/** Monday of the week of a day, as a number of days. */
const weekOf = (day: string): number => Math.floor((Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 3) / 7);

/**
 * Which of these days (`2026-01-09`) go. Counted by copies and never by age, so that neither a clock that jumps
 * nor a shop that is closed for a season loses one.
 */
export function daysToDrop(days: readonly string[], keep: Keep): string[] {
  const newest = [...days].sort().reverse();
  const kept = new Set(newest.slice(0, keep.days));
  const keepFirstOf = (groupOf: (day: string) => unknown, count: number) => {
    const seen = new Set<unknown>();
    for (const day of newest) {
      if (seen.has(groupOf(day))) continue;
      if (seen.size >= count) break;
      seen.add(groupOf(day));
      kept.add(day);
    }
  };
  keepFirstOf(weekOf, keep.weeks);
  keepFirstOf((day) => day.slice(0, 7), keep.months);
  return newest.filter((day) => !kept.has(day));
}
