/** Rows of the board, sorted and found as people look for them. */
import type { JobRow, NextAction, Role } from '../../core/index.ts';

export const turnsOf = (row: JobRow, role: Role): readonly NextAction[] =>
  row.paused || row.closed ? [] : row.next.filter((action) => action.role === role);

/** Late first: by promise, then by how long the job has been where it is. */
export const byUrgency = (a: JobRow, b: JobRow): number =>
  Number(a.closed) - Number(b.closed) ||
  (a.promisedAt ? Date.parse(a.promisedAt) : Infinity) -
    (b.promisedAt ? Date.parse(b.promisedAt) : Infinity) ||
  a.sinceMs - b.sinceMs ||
  a.ticket.localeCompare(b.ticket, 'en', { numeric: true });

export function fits(row: JobRow, name: string | undefined, typed: string): boolean {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const hay = `${row.ticket} ${name ?? ''} ${row.service} ${row.stage ?? ''}`.toLowerCase();
  return words.every((word) => hay.includes(word));
}
