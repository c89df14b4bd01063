/** What an author knew decides what an entry means. */
import { describe, expect, it } from 'vitest';
import { basisFor, plan } from '../../core/index.ts';
import { story, withMarks, DUAL } from '../helpers/facts.ts';

const left = (facts: Parameters<typeof plan>[0]) => plan(facts).sides.left.cuff;
const codes = (facts: Parameters<typeof plan>[0]) => plan(facts).problems.map((p) => p.code);

describe('basis', () => {
  it('[BAS-1] two settings that did not know of each other are a conflict until a third names both', () => {
    const s = story();
    s.read('left', 12, 6);
    const seen = basisFor(s.facts, { kind: 'cuff.set', side: 'left' });
    const a = s.set('left', -1, 1, { basis: seen });
    const b = s.set('left', -2, 1, { basis: seen });
    expect(left(s.facts)).toMatchObject({ set: null, leanDeg: null, verdict: 'unread', target: null });
    expect(plan(s.facts).problems).toContainEqual(expect.objectContaining({ code: 'conflict', fact: b }));
    s.set('left', -2, 1, { basis: [a, b] });
    expect(left(s.facts).set).toEqual({ medialMm: 1, lateralMm: -2 });
    expect(codes(s.facts)).not.toContain('conflict');
  });

  it('[BAS-1] equal values are no conflict', () => {
    const s = story();
    const seen = basisFor(s.facts, { kind: 'cuff.set', side: 'left' });
    s.set('left', -1, 1, { basis: seen });
    s.set('left', -1, 1, { basis: seen });
    expect(left(s.facts).set).toEqual({ medialMm: 1, lateralMm: -1 });
    expect(codes(s.facts)).toEqual([]);
  });

  it('[BAS-2] a pivot moved and moved back is the same boot', () => {
    const s = story();
    s.read('left', 12, 6);
    const before = left(s.facts);
    s.set('left', -1, 1);
    expect(left(s.facts).reading).toBeNull();
    s.set('left', 0, 0);
    expect(left(s.facts)).toEqual(before);
  });

  it('[BAS-2] a footbed confirmed twice is the same footbed, a swapped one is not, and put back it is again', () => {
    const s = story();
    const footbed = (outcome: 'done' | 'open', note?: string) =>
      s.add(
        'ready.checked',
        { side: 'left', item: 'footbed', outcome, ...(note && { note }) },
        { role: 'measuring' },
      );
    footbed('done', 'cork');
    s.read('left', 12, 6);
    footbed('done');
    expect(left(s.facts).reading?.stale).toBe(false);
    footbed('done', 'foam');
    expect(left(s.facts)).toMatchObject({ verdict: 'unread', target: null, reading: { stale: true } });
    footbed('open');
    footbed('done', 'cork');
    expect(left(s.facts).reading?.stale).toBe(false);
  });

  it('[BAS-3] a struck setting is read as its replacement', () => {
    const s = story();
    const wrong = s.set('left', -1, 1);
    s.read('left', 12, 6);
    const right = s.set('left', -2, 1, { basis: [wrong] });
    s.add('struck', { fact: wrong, reason: 'misread the dial', replacedBy: right }, { role: 'bench' });
    expect(left(s.facts)).toMatchObject({
      set: { lateralMm: -2, medialMm: 1 },
      verdict: 'uneven',
      reading: { stale: false },
    });
  });

  it('[BAS-3] without a replacement what rested on it is stale', () => {
    const s = story();
    const wrong = s.set('left', -1, 1);
    s.read('left', 12, 6);
    s.add('struck', { fact: wrong, reason: 'never done' }, { role: 'bench' });
    expect(left(s.facts)).toMatchObject({
      set: { lateralMm: 0, medialMm: 0 },
      verdict: 'unread',
      target: null,
    });
    expect(codes(s.facts)).toContain('stale');
  });

  it('[BAS-4] a moved pivot supersedes a reading, and it stays evidence', () => {
    const s = story();
    s.read('left', 14, 4);
    s.set('left', -1, 1);
    const cuff = left(s.facts);
    expect(cuff).toMatchObject({ verdict: 'unread', reading: null, correctionDeg: null });
    expect(cuff.expected!.medialMm + cuff.expected!.lateralMm).toBeCloseTo(18, 9);
    expect(cuff.expected!.medialMm - cuff.expected!.lateralMm).toBeLessThan(10);
    expect(cuff.rounds).toHaveLength(1);
    expect(codes(s.facts)).toEqual([]);
  });

  it.each([
    ['shell.worked', { side: 'left', spot: 'medial malleolus', method: 'punch' }],
    ['inside.set', { side: 'left', heelLiftMm: 3 }],
    ['ready.checked', { side: 'left', item: 'shell', outcome: 'open' }],
  ] as const)('[BAS-4] %s spoils a reading', (kind, payload) => {
    const s = story();
    s.read('left', 14, 4);
    s.add(kind, payload as never);
    expect(left(s.facts)).toMatchObject({ verdict: 'unread', reading: { stale: true } });
    expect(plan(s.facts).sides.right.cuff.reading).toBeNull();
  });

  it('[BAS-4] a later test wedge or fitted plate does not spoil a cuff reading', () => {
    const s = story();
    s.read('left', 14, 4);
    const before = left(s.facts);
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    expect(left(s.facts)).toEqual(before);
  });

  it('[BAS-5] without a basis the list’s order is the basis', () => {
    const s = story(withMarks(DUAL, 1));
    s.read('left', 14, 4);
    s.set('left', -2, 1);
    s.read('left', 10, 8);
    const bare = left(s.facts);
    const based = story(withMarks(DUAL, 1));
    const add = (kind: 'cuff.read' | 'cuff.set') => ({
      basis: basisFor(based.facts, { kind, side: 'left' }),
    });
    based.read('left', 14, 4, {}, add('cuff.read'));
    based.set('left', -2, 1, add('cuff.set'));
    based.read('left', 10, 8, {}, add('cuff.read'));
    expect(left(based.facts)).toEqual(bare);
  });

  it('[BAS-6] striking a strike brings the entry back', () => {
    const s = story();
    const id = s.read('left', 14, 4);
    const before = plan(s.facts);
    const strike = s.add('struck', { fact: id, reason: 'undo' }, { role: 'measuring' });
    expect(left(s.facts)).toMatchObject({ verdict: 'unread', reading: null });
    s.add('struck', { fact: strike, reason: 'it was right' }, { role: 'measuring' });
    expect(plan(s.facts)).toEqual(before);
  });

  it('[BAS-6] a strike that may not be, does nothing and is named', () => {
    const s = story();
    s.read('left', 14, 4);
    const before = left(s.facts);
    s.add('struck', { fact: s.facts.at(-1)!.id, reason: 'not mine' }, { role: 'bench' });
    expect(left(s.facts)).toEqual(before);
    expect(codes(s.facts)).toContain('bad-strike');
  });
});
