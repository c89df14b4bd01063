/** A boot found by the code of its tag, or by what a person reads on it: ticket and side letter. */
import { SIDES } from '../../core/index.ts';
import type { JobRow, Side } from '../../core/index.ts';

export interface FoundBoot {
  readonly row: JobRow;
  readonly side: Side;
}

/** Scanners differ in case and in blanks at the ends; nothing else of a code is touched. */
const bare = (code: string): string => code.trim().toLowerCase();
export const sameCode = (a: string, b: string): boolean => bare(a) === bare(b);

const LETTERS = { left: 'l', right: 'r' } as const;
/** `4-12 R` and `4-12-R` are the right boot of ticket 4-12. */
const byTicket = (row: JobRow, side: Side, code: string): boolean => {
  const typed = bare(code);
  const ticket = bare(row.ticket);
  return typed.startsWith(ticket) && typed.slice(ticket.length).replace(/^[\s-]/, '') === LETTERS[side];
};

/** Boots of jobs that are still open: a tag goes on to another boot once its own has left. */
export function bootsByCode(rows: readonly JobRow[], code: string): FoundBoot[] {
  if (bare(code) === '') return [];
  const open = rows.filter((row) => !row.closed);
  const found = (fits: (row: JobRow, side: Side) => boolean) =>
    open.flatMap((row) => SIDES.filter((side) => fits(row, side)).map((side) => ({ row, side })));
  const tagged = found((row, side) => {
    const tag = row.tags?.[side];
    return tag !== undefined && sameCode(tag, code);
  });
  return tagged.length > 0 ? tagged : found((row, side) => byTicket(row, side, code));
}

/** Open jobs under this ticket. */
export const jobsByTicket = (rows: readonly JobRow[], code: string): JobRow[] =>
  rows.filter((row) => !row.closed && sameCode(row.ticket, code));
