/** A scanner that types: what is a code and what is not, by the keys alone. */
import { describe, expect, it } from 'vitest';
import type { JobRow } from '../../core/index.ts';
import { bootsByCode, jobsByTicket } from '../../stations/kit/tags.ts';

const row = (ticket: string, more: Partial<JobRow> = {}): JobRow =>
  ({ session: `s-${ticket}`, ticket, closed: false, ...more }) as JobRow;
const found = (rows: readonly JobRow[], code: string) =>
  bootsByCode(rows, code).map(({ row: { ticket }, side }) => `${ticket} ${side}`);

describe('a code', () => {
  const rows = [
    row('4-1', { tags: { left: 'KX-1', right: 'KX-2' } }),
    row('4-12', { tags: { right: 'kx-3' } }),
    row('4-3'),
  ];

  it('finds the boot that carries it, whatever its case and the blanks around it', () => {
    expect(found(rows, ' kx-2 ')).toEqual(['4-1 right']);
    expect(found(rows, 'KX-3')).toEqual(['4-12 right']);
    expect(found(rows, 'KX-30')).toEqual([]);
    expect(found(rows, '')).toEqual([]);
  });

  it('of ticket and side letter finds it as well, and not that of a longer ticket', () => {
    expect(['4-1-L', '4-1 r', '4-12R', '4-1'].map((code) => found(rows, code))).toEqual([
      ['4-1 left'],
      ['4-1 right'],
      ['4-12 right'],
      [],
    ]);
    expect(jobsByTicket(rows, '4-1')).toHaveLength(1);
  });

  it('goes on to another boot once its job is closed, and is told where two carry it', () => {
    const closed = row('3-9', { tags: { left: 'KX-1' }, closed: true });
    expect(found([...rows, closed], 'KX-1')).toEqual(['4-1 left']);
    expect(found([...rows, row('4-9', { tags: { left: 'KX-1' } })], 'KX-1')).toEqual([
      '4-1 left',
      '4-9 left',
    ]);
    expect(jobsByTicket([closed], '3-9')).toEqual([]);
  });

  it('that somebody put on as a tag counts before a ticket that reads alike', () => {
    expect(found([...rows, row('4-7', { tags: { left: '4-3-R' } })], '4-3-R')).toEqual(['4-7 left']);
  });
});
