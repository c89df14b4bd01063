/** Open doors and hands, as the server tells them (`docs/protocol.md`), and times as people type them. */
import type { FloorRole } from '../../core/index.ts';

export interface Opening {
  readonly hands: Readonly<Record<FloorRole, number>>;
  /** Monday to Sunday; null: closed. */
  readonly days: readonly ({ readonly from: string; readonly to: string } | null)[];
}

/** `9`, `9:00`, `9.30`, `0930`: as `09:30`; null for what is no time of a day. */
export function clockTime(typed: string): string | null {
  const [, hour, minute = '00'] = /^(\d{1,2})(?:[:.]?(\d{2}))?$/.exec(typed.trim()) ?? [];
  if (hour === undefined || Number(minute) > 59 || Number(hour) * 60 + Number(minute) > 24 * 60) return null;
  return `${hour.padStart(2, '0')}:${minute}`;
}
