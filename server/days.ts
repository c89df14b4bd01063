/** Days as a shop counts them, and which days' copies are kept. */

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
