/** Which papers are due when, what is printed once more as it was, and what the codes say. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { barsOf, qrOf } from '../../stations/kit/paper/codes.ts';
import { bootCode, factsAt, moments, papersDue, ticketCode } from '../../stations/kit/paper/due.ts';
import { sizeOf } from '../../stations/kit/paper/papers.ts';
import { DUAL, Story, story, withMarks } from '../helpers/facts.ts';

const due = (facts: readonly Fact[]) => papersDue(facts, plan(facts));

describe('papers are due', () => {
  it('booking card and ticket, while the boots may still be at home', () =>
    expect(due(new Story().open().facts)).toEqual(['booking', 'ticket']));

  it('ticket and tags, once the boots are here', () =>
    expect(due(new Story().open().boot('left', DUAL).boot('right', DUAL).facts)).toEqual(['ticket', 'tags']));

  it('bench cards, once the bench is told something', () => {
    const told = story(withMarks(DUAL, 1));
    expect(due(told.facts)).toEqual([]);
    told.read('left', 14, 6);
    expect(due(told.facts)).toEqual(['bench']);
  });

  it('labels, card and record, when the boots leave and after', () => {
    const told = story(withMarks(DUAL, 1));
    for (const side of ['left', 'right'] as const) {
      told.read(side, 8, 8);
      told.add('cuff.closed', { side, decision: 'even' });
    }
    expect(due(told.facts)).toEqual(['inside', 'card', 'record']);
    told.add('handed.over', { acknowledgedBy: 'owner' });
    expect(due(told.facts)).toEqual(['inside', 'card', 'record']);
  });
});

describe('a state that was printed', () => {
  it('is the list up to that hand-over, whatever came later; a struck one is none', () => {
    const told = story(DUAL);
    const first = told.add('handed.over', { acknowledgedBy: 'owner' });
    const before = [...told.facts];
    told.set('left', 2, 0, { role: 'bench' });
    const second = told.add('released.unfit', { what: 'cuff', acknowledgedBy: 'owner' });
    expect(moments(told.facts).map(({ id }) => id)).toEqual([second, first]);
    expect(factsAt(told.facts, first)).toEqual(before);
    told.add('struck', { fact: second, reason: 'typing error' }, { role: 'desk' });
    expect(moments([...told.facts]).map(({ id }) => id)).toEqual([first]);
  });
});

describe('codes', () => {
  const facts = () => new Story().open().boot('left', DUAL).boot('right', DUAL).facts;

  it('are the ticket, ticket and letter, or the boot’s own tag', () => {
    const told = facts();
    expect([ticketCode(told), bootCode(told, 'left'), bootCode(told, 'right')]).toEqual([
      '1-41',
      '1-41-L',
      '1-41-R',
    ]);
    Object.assign(
      told.find((fact) => fact.kind === 'boot.described' && fact.side === 'right')!,
      { tag: 'KX-102' },
    );
    expect(bootCode(told, 'right')).toBe('KX-102');
  });

  it('have the light margins that scanners need, and bars only for plain letters', () => {
    const qr = qrOf('4-12');
    const squares = [...qr.path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map(([, x, y]) => [Number(x), Number(y)]);
    for (const at of squares.flat()) {
      expect(at).toBeGreaterThanOrEqual(4);
      expect(at).toBeLessThan(qr.size - 4);
    }
    const bars = barsOf('4-12')!;
    expect(bars.bars[0]!.x).toBe(10);
    expect(bars.bars.at(-1)!.x + bars.bars.at(-1)!.width).toBe(bars.modules - 10);
    expect(barsOf('Ü-12')).toBeNull();
  });
});

it('a receipt is as long as it needs, all else has a size of its own', () => {
  expect(sizeOf({ paper: 'ticket', roll: 'receipt' })).toMatchObject({ widthMm: 80, heightMm: null });
  expect(sizeOf({ paper: 'ticket', roll: 'a6' })).toMatchObject({ widthMm: 105, heightMm: 148 });
  expect(sizeOf({ paper: 'bench', roll: 'receipt' })).toMatchObject({ widthMm: 148, heightMm: 210 });
});
