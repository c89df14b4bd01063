/** Where a day and an hour of the shop's clock begin, beside a clock that is looked at every minute. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../core/index.ts';
import { beginOf } from '../../server/days.ts';

const MIN = 60_000;

/** The first minute, within a day and a half, at which a clock in this zone shows this day and time or a later one. */
function lookedFor(day: string, time: string, timeZone: string): number {
  const clock = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'short' });
  const noon = Date.parse(`${day}T12:00:00Z`);
  for (let ms = noon - 36 * 60 * MIN; ms < noon + 36 * 60 * MIN; ms += MIN)
    if (clock.format(ms) >= `${day} ${time}`) return ms;
  throw new Error(`${timeZone} has no ${day} ${time}`);
}

describe('the beginning of a day', () => {
  it.each([
    ['Europe/Vienna', ['2026-01-09', '2026-03-29', '2025-10-26']],
    // Midnight is skipped here, and comes twice there.
    ['America/Santiago', ['2025-09-07', '2026-04-05', '2026-04-04']],
    ['Atlantic/Azores', ['2025-10-26', '2026-03-29']],
    ['Africa/Cairo', ['2026-04-24', '2025-10-31', '2025-10-30']],
    // Half an hour, and quarters of one from the world's clock.
    ['Australia/Lord_Howe', ['2025-10-05', '2026-04-05']],
    ['Pacific/Chatham', ['2025-09-28', '2026-04-05']],
    ['Asia/Kathmandu', ['2026-01-09']],
    ['Pacific/Kiritimati', ['2026-01-09']],
  ] as const)('[NUM-1] is the first moment at which the clock shows it: %s', (timeZone, days) => {
    for (const day of days)
      for (const hour of [0, 1, 2, 3, 4, 23]) {
        const time = `${String(hour).padStart(2, '0')}:00`;
        const found = beginOf(dayOf(day)!, hour * 60, timeZone);
        expect(new Date(found).toISOString(), `${day} ${time}`).toBe(
          new Date(lookedFor(day, time, timeZone)).toISOString(),
        );
      }
  });
});
