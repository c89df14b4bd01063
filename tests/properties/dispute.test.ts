/** Entries that did not know of each other: a dispute where they differ, none where they agree, settled by one more. */
import { describe, expect, it } from 'vitest';
import { basisFor, plan, SIDES } from '../../core/index.ts';
import type { Kind } from '../../core/index.ts';
import { codes, story } from './story.ts';
import type { Story } from './story.ts';

describe('[BAS-1] two entries that did not know of each other', () => {
  /** Both rest on the same heads. */
  const apart = (s: Story, kind: Kind, a: object, b: object): [string, string] => {
    const basis = basisFor(s.facts, { kind, ...a });
    return [s.add(kind, { ...a, basis }), s.add(kind, { ...b, basis })];
  };
  const left = (more: object) => ({ side: 'left', ...more });

  const disputes: [string, Kind, object, object][] = [
    ['pivots', 'cuff.set', left({ medialMm: 1, lateralMm: -1 }), left({ medialMm: 2, lateralMm: -2 })],
    [
      'the cant of the sole',
      'sole.set',
      left({ cantDeg: 1, state: 'test-wedge' }),
      left({ cantDeg: 2, state: 'test-wedge' }),
    ],
    [
      'the footbed',
      'ready.checked',
      left({ item: 'footbed', outcome: 'done', note: 'cork' }),
      left({ item: 'footbed', outcome: 'done', note: 'foam' }),
    ],
    ['the heel lift', 'inside.set', left({ heelLiftMm: 3 }), left({ heelLiftMm: 5 })],
    [
      'reworked travel',
      'pivot.reworked',
      left({ adjuster: 'lateral', method: 'other', newUpMm: 5, newDownMm: 5 }),
      left({ adjuster: 'lateral', method: 'other', newUpMm: 7, newDownMm: 5 }),
    ],
    [
      'the decision on a cuff',
      'cuff.closed',
      left({ decision: 'accepted' }),
      left({ decision: 'other-boot' }),
    ],
    [
      'the service',
      'service.changed',
      { service: 'full', reason: 'asked' },
      { service: 'recheck', reason: 'asked' },
    ],
    ['health', 'health.asked', { outcome: 'proceed' }, { outcome: 'refer' }],
  ];

  it.each(disputes)(
    '%s: different values are a problem that names one of them; equal ones are none',
    (_, kind, a, b) => {
      const s = story({ basis: true });
      const before = codes(s).filter((code) => code === 'conflict');
      expect(before).toEqual([]);
      apart(s, kind, a, a);
      expect(codes(s)).not.toContain('conflict');
      const t = story({ basis: true });
      const pair = apart(t, kind, a, b);
      const found = plan(t.facts).problems.filter((p) => p.code === 'conflict');
      expect(found).toHaveLength(1);
      expect(pair).toContain(found[0]!.fact);
    },
  );

  it.each(disputes)('%s: settled by one more entry that knows both, and by nothing less', (_, kind, a, b) => {
    const s = story({ basis: true });
    const [one, two] = apart(s, kind, a, b);
    const settling = basisFor(s.facts, { kind, ...a });
    expect(settling).toEqual(expect.arrayContaining([one, two]));
    s.add(kind, { ...a, basis: settling.filter((id) => id !== two) });
    expect(codes(s)).toContain('conflict');
    s.add(kind, a);
    expect(codes(s)).not.toContain('conflict');
  });

  it('pivots in dispute leave every number of that cuff null, and the other cuff alone', () => {
    const s = story({ basis: true });
    for (const side of SIDES) s.read(side, 14, 4);
    const before = plan(s.facts).sides;
    apart(s, 'cuff.set', left({ medialMm: 1, lateralMm: -1 }), left({ medialMm: 2, lateralMm: -2 }));
    const { cuff } = plan(s.facts).sides.left;
    expect(cuff).toMatchObject({
      set: null,
      leanDeg: null,
      correctionDeg: null,
      target: null,
      predicted: null,
    });
    expect(plan(s.facts).sides.right).toEqual(before.right);
  });

  it('a sole in dispute is never handed over: it may be canted', () => {
    const s = story({ basis: true });
    for (const side of SIDES) {
      s.read(side, 9, 9);
      s.add('cuff.closed', { side, decision: 'even' });
    }
    expect(plan(s.facts).steps.find((x) => x.step === 'handover')?.status).toBe('ready');
    apart(s, 'sole.set', left({ cantDeg: 1, state: 'fitted' }), left({ cantDeg: 2, state: 'test-wedge' }));
    const { steps } = plan(s.facts);
    expect(steps.find((x) => x.step === 'handover')?.status).toBe('blocked');
    expect(steps.map((x) => x.step)).toEqual(expect.arrayContaining(['sole', 'binding']));
  });

  it('a service in dispute is never handed over: the fuller one may have been agreed', () => {
    const s = story({ basis: true });
    for (const side of SIDES) {
      s.read(side, 9, 9);
      s.add('cuff.closed', { side, decision: 'even' });
    }
    apart(s, 'service.changed', { service: 'full', reason: 'asked' }, { service: 'cuffs', reason: 'asked' });
    expect(plan(s.facts).steps.find((x) => x.step === 'handover')?.status).toBe('blocked');
  });

  it('boots handed over twice are handed over, whoever is said to have taken them', () => {
    const s = story({ basis: true });
    for (const side of SIDES) {
      s.read(side, 9, 9);
      s.add('cuff.closed', { side, decision: 'even' });
    }
    apart(s, 'handed.over', { acknowledgedBy: 'owner' }, { acknowledgedBy: 'guardian' });
    const { steps, next } = plan(s.facts);
    expect(steps.find((x) => x.step === 'handover')?.status).toBe('done');
    expect(next).toEqual([]);
  });

  it('the inside in dispute is settled by naming it, and what is read then counts', () => {
    const s = story({ basis: true });
    apart(s, 'inside.set', left({ heelLiftMm: 3 }), left({ heelLiftMm: 5 }));
    s.read('left', 14, 4);
    expect(plan(s.facts).sides.left.cuff.correctionDeg).toBeNull();
    s.add('inside.set', left({ heelLiftMm: 3 }));
    s.read('left', 14, 4);
    expect(plan(s.facts).sides.left.cuff.reading).toMatchObject({ biasMm: 10, stale: false });
  });
});
