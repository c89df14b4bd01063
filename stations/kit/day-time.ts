/** Times of a day as people type them. */

/** `9`, `9:00`, `9.30`, `0930`: as `09:30`; null for what is no time of a day. */
export function dayTime(typed: string): string | null {
  const [, hour, minute = '00'] = /^(\d{1,2})(?:[:.]?(\d{2}))?$/.exec(typed.trim()) ?? [];
  if (hour === undefined || Number(minute) > 59 || Number(hour) * 60 + Number(minute) > 24 * 60) return null;
  return `${hour.padStart(2, '0')}:${minute}`;
}
