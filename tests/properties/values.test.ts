/** Compared are values, not ids; and what the record says that cannot be right is said to be wrong. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { check } from './check.ts';
import { codes, story } from './story.ts';

describe('[BAS-2] values, not ids', () => {
  const place = fc.integer({ min: -4, max: 4 });

  it('pivots moved and moved back make the reading current again; elsewhere it is superseded, not stale', () => {
    check(
      80,
      fc.tuple(fc.boolean(), place, place, fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 4 })),
      ([basis, m, l, moves]) => {
        const s = story({ basis });
        s.set('left', m, l);
        const read = s.read('left', 12, 7);
        const before = plan(s.facts).sides.left.cuff;
        for (const [a, b] of moves) s.set('left', a, b);
        const away = plan(s.facts).sides.left.cuff;
        const [lastM, lastL] = moves.at(-1)!;
        if (lastM !== m || lastL !== l) expect(away).toMatchObject({ reading: null, verdict: 'unread' });
        s.set('left', m, l);
        const back = plan(s.facts).sides.left.cuff;
        expect(back.reading).toMatchObject({ facts: [read], stale: false });
        expect(back).toEqual(before);
        expect(codes(s)).toEqual([]);
      },
    );
  });

  it('a footbed confirmed again is the same footbed; another is not', () => {
    for (const basis of [true, false]) {
      const s = story({ basis });
      s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done', note: 'cork' });
      s.read('left', 12, 7);
      const before = plan(s.facts);
      s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done', note: 'cork' });
      s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done' });
      expect(plan(s.facts)).toEqual(before);
      s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done', note: 'foam' });
      expect(plan(s.facts).sides.left.cuff).toMatchObject({
        reading: { stale: true },
        verdict: 'unread',
        correctionDeg: null,
      });
      s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done', note: 'cork' });
      expect(plan(s.facts)).toEqual(before);
    }
  });

  it('a later wedge or plate spoils no reading; a reading over it is refused', () => {
    const s = story({ basis: true });
    s.read('left', 12, 7);
    const before = plan(s.facts).sides.left.cuff;
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    expect(plan(s.facts).sides.left.cuff).toEqual(before);
    const over = s.read('left', 3, 3);
    expect(plan(s.facts).problems).toContainEqual(
      expect.objectContaining({ fact: over, code: 'sole-canted' }),
    );
    expect(plan(s.facts).sides.left.cuff).toEqual(before);
  });
});

describe('what is asked for next', () => {
  it('is never a cuff reading over a sole that is canted now, even to renew a stale one', () => {
    const s = story({ basis: true });
    s.read('left', 14, 4);
    s.add('ready.checked', { side: 'left', item: 'footbed', outcome: 'done', note: 'cork' });
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    const next = plan(s.facts).next.filter((a) => a.side === 'left');
    expect(next.map((a) => a.do)).not.toContain('cuff.read');
    expect(next.map((a) => a.do)).toContain('sole.set');
  });

  it('is no end of travel where a press has said nothing of how far', () => {
    const s = story();
    s.read('left', 0, 0, { contact: 'lateral', pressure: 'press' });
    expect(plan(s.facts).sides.left.cuff.verdict).toBe('contact');
  });
});

describe('what is wrong with the record', () => {
  it('is said of boots handed over with a test wedge under one of them', () => {
    const s = story({ basis: true });
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    const handed = s.add('handed.over', { acknowledgedBy: 'owner' });
    expect(plan(s.facts).problems.map((p) => p.fact)).toContain(handed);
  });

  it('is asked of a reading that fits the other leg far better: the sides may be exchanged', () => {
    const s = story({ basis: true });
    for (let i = 0; i < 3; i++) {
      s.read('left', 16, 4);
      s.read('right', 4, 16);
    }
    expect(codes(s)).toEqual([]);
    const exchanged = s.read('left', 4, 16);
    expect(plan(s.facts).problems.map((p) => p.fact)).toContain(exchanged);
  });

  it('a reading to the liner foretells nothing of a round read to the shell', () => {
    const s = story({ basis: true });
    s.read('left', 14, 4, { to: 'liner' });
    s.set('left', 1, -1);
    s.read('left', 10, 8);
    expect(plan(s.facts).sides.left.cuff.rounds.at(-1)?.predictedBiasMm).toBeNull();
  });
});
