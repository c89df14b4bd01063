/** Undoing, striking and replacing: what stands afterwards, and what rested on what is gone. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jobOf, Log, mayStrike, plan, SIDES } from '../../core/index.ts';
import type { Fact, Kind } from '../../core/index.ts';
import { check } from './check.ts';
import { entry, honestIntent, someSession } from './sessions.ts';
import { AT, codes, story } from './story.ts';

const strike = (fact: string, id: string, more: object = {}): Fact =>
  ({
    id,
    kind: 'struck',
    at: AT,
    by: { role: 'desk', station: 'desk-1' },
    fact,
    reason: 'undo',
    ...more,
  }) as Fact;

describe('undo', () => {
  const undoable = fc
    .tuple(someSession, honestIntent)
    .map(([facts, intent]) => ({ facts, done: entry(intent, facts, 'done', 'any-1') }))
    .filter(({ facts, done }) => facts.length > 0 && mayStrike('desk', done) && done.kind !== 'struck');

  it('right after an entry brings back the plan from before it, whatever the entry', () => {
    check(200, undoable, ({ facts, done }) => {
      expect(plan([...facts, done, strike('done', 'undo')])).toEqual(plan(facts));
    });
  });

  it('[BAS-6] undone brings back the plan with it', () => {
    check(200, undoable, ({ facts, done }) => {
      expect(plan([...facts, done, strike('done', 'undo'), strike('undo', 'redo')])).toEqual(
        plan([...facts, done]),
      );
    });
  });

  it('brings back the row on the board too', () => {
    check(200, undoable, ({ facts, done }) => {
      const row = (list: readonly Fact[]) => ({ ...jobOf(new Log(list), plan(list)), paused: false });
      expect(row([...facts, done, strike('done', 'undo')])).toEqual(row(facts));
    });
  });

  it.each<[string, Kind, object]>([
    ['a pivot set by mistake', 'cuff.set', { side: 'left', medialMm: 2, lateralMm: -2 }],
    ['shell work entered by mistake', 'shell.worked', { side: 'left', spot: 'navicular', method: 'stretch' }],
    ['a heel lift entered by mistake', 'inside.set', { side: 'left', heelLiftMm: 3 }],
    [
      'another footbed entered by mistake',
      'ready.checked',
      { side: 'left', item: 'footbed', outcome: 'done', note: 'cork' },
    ],
    ['a wedge entered by mistake', 'sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' }],
  ])('of %s, with a reading in between: what is read afterwards counts', (_, kind, payload) => {
    const s = story({ basis: true });
    const wrong = s.add(kind, payload);
    const between = s.read('left', 12, 6);
    s.strike(wrong);
    const after = s.read('left', 14, 4);
    const { cuff } = plan(s.facts).sides.left;
    expect(cuff.reading).toMatchObject({ biasMm: 10, stale: false, facts: [after] });
    expect(cuff.verdict).toBe('uneven');
    // What was read in between rested on what never was.
    expect(plan(s.facts).problems.map((p) => p.fact)).not.toContain(after);
    expect(plan(s.facts).problems.map((p) => p.fact)).toContain(between);
  });
});

describe('what was entered just now', () => {
  const justNow = fc
    .tuple(fc.array(honestIntent, { maxLength: 16, size: 'max' }), fc.constantFrom(...SIDES))
    .map(([intents, side]) => {
      const s = story({ basis: true });
      for (const intent of intents) s.facts.push(entry(intent, s.facts, `h${s.facts.length}`, 'any-1'));
      return { s, side };
    })
    .filter(({ s }) => !codes(s).includes('conflict'));

  it('a reading, rests on what is so now: it is not stale', () => {
    check(120, justNow, ({ s, side }) => {
      const read = s.read(side, 11, 8);
      const stale = plan(s.facts).problems.filter((p) => p.fact === read && p.code === 'stale');
      expect(stale).toEqual([]);
    });
  });

  it('a decision on a cuff, is not reopened by what came before it', () => {
    check(120, justNow, ({ s, side }) => {
      s.add('cuff.closed', { side, decision: 'other-boot' });
      expect(plan(s.facts).steps.find((x) => x.step === 'cuff' && x.side === side)?.status).toBe('waived');
      s.add('cuff.closed', { side, decision: 'accepted' });
      const step = plan(s.facts).steps.find((x) => x.step === 'cuff' && x.side === side)!;
      const { reading } = plan(s.facts).sides[side].cuff;
      if (reading && !reading.stale) expect(step.status).toBe('done');
    });
  });
});

describe('a replacement', () => {
  it.each([true, false])(
    'of an earlier setting stands in its place, not on top of what came later (basis: %s)',
    (basis) => {
      const s = story({ basis });
      s.read('left', 14, 4);
      const wrong = s.set('left', 3, -2);
      const there = s.read('left', 11, 7);
      s.set('left', 2, -3);
      s.read('left', 10, 8);
      const right = s.set('left', 2, -2);
      s.strike(wrong, { reason: 'a typing error', replacedBy: right });
      const { cuff } = plan(s.facts).sides.left;
      // The pivots stand where the later move put them, and the reading in between was taken at 2 / −2.
      expect(cuff.set).toEqual({ medialMm: 2, lateralMm: -3 });
      expect(cuff.rounds.find((round) => round.facts.includes(there))?.set).toEqual({
        medialMm: 2,
        lateralMm: -2,
      });
    },
  );

  it('[BAS-3] of today’s setting makes the reading taken there one at the new numbers', () => {
    for (const basis of [true, false]) {
      const s = story({ basis });
      const wrong = s.set('left', 2, -3);
      s.read('left', 11, 7);
      const right = s.set('left', 2, -2);
      s.strike(wrong, { reason: 'a typing error', replacedBy: right });
      const { cuff } = plan(s.facts).sides.left;
      expect(cuff.set).toEqual({ medialMm: 2, lateralMm: -2 });
      expect(cuff.reading).toMatchObject({ biasMm: 4, stale: false });
    }
  });

  it('that names itself, or goes round in a ring, leaves nothing in its place', () => {
    const s = story();
    const [a, b] = [s.set('left', 1, -1), s.set('left', 2, -2)];
    s.read('left', 11, 7);
    s.strike(a, { replacedBy: b });
    s.strike(b, { replacedBy: a });
    const { cuff } = plan(s.facts).sides.left;
    expect(cuff.set).toEqual({ medialMm: 0, lateralMm: 0 });
    expect(cuff.reading?.stale ?? true).toBe(true);
  });
});
