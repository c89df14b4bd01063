import { describe, expect, it } from 'vitest';
import { plan } from '../../core/index.ts';
import { DUAL, HELD, story, Story } from '../helpers/facts.ts';

const status = (s: Story, step: string, side?: string) =>
  plan(s.facts).steps.find((x) => x.step === step && x.side === side)?.status;
const codes = (s: Story) => plan(s.facts).problems.map((p) => p.code);

describe('readiness and sole', () => {
  it('[RDY-1] a reading before the boot is ready counts for nothing, and says why', () => {
    const s = new Story().open().boot('left', DUAL).boot('right', DUAL);
    s.add('sole.set', { side: 'left', cantDeg: 0, state: 'as-brought' });
    s.set('left', 0, 0);
    s.read('left', 12, 6);
    expect(plan(s.facts).sides.left.cuff).toMatchObject({
      verdict: 'unread',
      reading: null,
      correctionDeg: null,
    });
    expect(codes(s)).toEqual(['not-ready']);
    expect(status(s, 'ready', 'left')).toBe('ready');
    expect(status(s, 'cuff', 'left')).toBe('blocked');
    expect(
      plan(s.facts)
        .next.filter((n) => n.side === 'left')
        .map((n) => n.item),
    ).toEqual(['footbed', 'shell', 'cuff-neutral']);
  });

  it('[RDY-2] neutral is 0, kept as found is where it was recorded', () => {
    const s = new Story().open().boot('left', DUAL);
    s.set('left', -2, 1);
    for (const item of ['footbed', 'shell'] as const)
      s.add('ready.checked', { side: 'left', item, outcome: 'not-needed' });
    s.add('ready.checked', { side: 'left', item: 'cuff-neutral', outcome: 'kept-as-found' });
    expect(plan(s.facts).sides.left.cuff.set).toEqual({ medialMm: 1, lateralMm: -2 });
    expect(status(s, 'ready', 'left')).toBe('done');
    s.add('ready.checked', { side: 'left', item: 'cuff-neutral', outcome: 'done' });
    expect(plan(s.facts).sides.left.cuff.set).toEqual({ medialMm: 0, lateralMm: 0 });
  });

  it('[RDY-2] kept as found without a record asks for it', () => {
    const s = new Story().open().boot('left', DUAL).ready('left');
    s.facts.splice(
      s.facts.findIndex((f) => f.kind === 'ready.checked' && f.item === 'cuff-neutral'),
      1,
    );
    s.add('ready.checked', { side: 'left', item: 'cuff-neutral', outcome: 'kept-as-found' });
    expect(status(s, 'cuff', 'left')).toBe('blocked');
    expect(plan(s.facts).next).toContainEqual(expect.objectContaining({ side: 'left', do: 'cuff.set' }));
  });

  it('[RDY-3] over a canted sole or an inner cant there are no numbers', () => {
    const canted = story();
    canted.add('sole.set', { side: 'left', cantDeg: 1.5, state: 'as-brought' });
    canted.read('left', 12, 6);
    expect(codes(canted)).toEqual(['sole-canted']);
    expect(plan(canted.facts).sides.left.cuff).toMatchObject({ verdict: 'unread', correctionDeg: null });
    expect(plan(canted.facts).next).toContainEqual(
      expect.objectContaining({ role: 'bench', side: 'left', do: 'sole.set' }),
    );
    const inner = story();
    inner.add('inside.set', { side: 'left', boardCantDeg: 1 });
    inner.read('left', 12, 6);
    expect(codes(inner)).toEqual(['sole-canted']);
  });

  it('[RDY-4] a sole that nobody looked at is not flat', () => {
    const s = story();
    s.facts.splice(
      s.facts.findIndex((f) => f.kind === 'sole.set'),
      1,
    );
    s.read('left', 12, 6);
    expect(codes(s)).toEqual(['sole-unknown']);
    expect(plan(s.facts).sides.left.cuff.correctionDeg).toBeNull();
    expect(plan(s.facts).next).toContainEqual(expect.objectContaining({ side: 'left', do: 'sole.set' }));
  });

  it('[RDY-5] a reading without its posture does not count', () => {
    const s = story();
    s.read('left', 12, 6, { posture: { ...HELD, midFlex: false } });
    expect(codes(s)).toEqual(['posture']);
    expect(plan(s.facts).sides.left.cuff.reading).toBeNull();
  });
});

describe('steps', () => {
  it('[STP-1] intake to hand-over for cuffs', () => {
    const s = story();
    const seen = () => plan(s.facts).steps.map((x) => `${x.step}${x.side ? ` ${x.side}` : ''}: ${x.status}`);
    expect(seen()).toEqual([
      'intake: done',
      'ready left: done',
      'ready right: done',
      'cuff left: ready',
      'cuff right: ready',
      'handover: blocked',
    ]);
    s.read('left', 13, 5);
    s.read('right', 9, 8);
    expect(seen().slice(3)).toEqual(['cuff left: waiting', 'cuff right: ready', 'handover: blocked']);
    expect(plan(s.facts).next).toMatchObject([
      { role: 'bench', side: 'left', do: 'cuff.set' },
      { role: 'measuring', side: 'right', do: 'cuff.closed' },
    ]);
    const { target } = plan(s.facts).sides.left.cuff;
    s.set('left', target!.lateralMm, target!.medialMm);
    expect(plan(s.facts).next[0]).toMatchObject({
      role: 'measuring',
      side: 'left',
      do: 'cuff.read',
      text: expect.stringContaining('again') as string,
    });
    s.read('left', 9, 9);
    s.add('cuff.closed', { side: 'left', decision: 'even' });
    s.add('cuff.closed', { side: 'right', decision: 'even' });
    expect(seen().slice(3)).toEqual(['cuff left: done', 'cuff right: done', 'handover: ready']);
    s.add('handed.over', { acknowledgedBy: 'owner' });
    expect(seen().at(-1)).toBe('handover: done');
    expect(plan(s.facts)).toMatchObject({ next: [], problems: [] });
  });

  it('[STP-1] an empty session asks to be opened, and another boot waives the cuff', () => {
    expect(plan([])).toMatchObject({ next: [{ role: 'desk', do: 'session.opened' }], problems: [] });
    const s = story();
    s.read('left', 0, 0, { contact: 'both', pressure: 'press' });
    s.add('cuff.closed', { side: 'left', decision: 'other-boot' });
    expect(status(s, 'cuff', 'left')).toBe('waived');
  });

  it('[STP-2] sole and binding come in once the sole was touched', () => {
    const s = story();
    expect(status(s, 'sole', 'left')).toBeUndefined();
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'fitted' });
    expect(status(s, 'sole', 'left')).toBeDefined();
    expect(status(s, 'binding')).toBeDefined();
    expect(plan(s.facts).cautions).toContainEqual(
      expect.objectContaining({ level: 'warning', step: 'binding' }),
    );
  });

  it('[STP-3] a wedge still under the boot blocks the hand-over', () => {
    const s = story();
    s.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    const handover = () => plan(s.facts).steps.at(-1)!;
    expect(handover().because.join()).toContain('test wedge');
    s.add('sole.set', { side: 'left', cantDeg: 0, state: 'neutralised' });
    expect(handover().because.join()).not.toContain('test wedge');
    expect(status(s, 'sole', 'left')).toBeUndefined();
  });

  it('[STP-4] stop means stop', () => {
    const s = story();
    s.add('health.asked', { outcome: 'stop' });
    expect(status(s, 'cuff', 'left')).toBe('blocked');
    expect(plan(s.facts).next).toMatchObject([{ role: 'desk', do: 'released.unfit' }]);
  });

  it('[STP-6] a slot without the owner’s agreement and the maker’s approval is a problem, with both none', () => {
    const slotted = { side: 'left', adjuster: 'lateral', method: 'slot', newUpMm: 5, newDownMm: 9 } as const;
    const s = story();
    s.add('pivot.reworked', slotted);
    expect(codes(s)).toEqual(['not-agreed', 'not-approved']);
    const agreement = { irreversible: ['slot'], agreedBy: 'owner' as const, warrantyTold: true };
    const agreed = story();
    agreed.add('work.agreed', agreement);
    agreed.add('pivot.reworked', slotted);
    expect(codes(agreed)).toEqual(['not-approved']);
    const approved = story();
    approved.add('work.agreed', { ...agreement, makerApproval: 'letter 7' });
    approved.add('pivot.reworked', slotted);
    expect(codes(approved)).toEqual([]);
  });

  it('[STP-7] a recheck starts as found and asks what changed', () => {
    const s = new Story().open('recheck').boot('left', DUAL);
    s.set('left', -2, 1);
    const ready = () => plan(s.facts).steps.find((x) => x.step === 'ready' && x.side === 'left')!;
    expect(ready().because.join()).toContain('what changed');
    for (const item of ['footbed', 'shell', 'cuff-neutral'] as const)
      s.add('ready.checked', { side: 'left', item, outcome: 'kept-as-found' });
    expect(ready().status).toBe('done');
    expect(plan(s.facts).sides.left.cuff.set).toEqual({ medialMm: 1, lateralMm: -2 });
    expect(status(s, 'stance', 'left')).toBeUndefined();
  });

  it('every caution stands at its step, with its signal word', () => {
    const { cautions } = plan(story().facts);
    expect(cautions).toContainEqual(
      expect.objectContaining({
        step: 'cuff',
        side: 'left',
        level: 'warning',
        text: expect.stringContaining('pivot bolt') as string,
      }),
    );
    expect(cautions).toContainEqual(
      expect.objectContaining({
        step: 'intake',
        level: 'warning',
        text: expect.stringContaining('clinician') as string,
      }),
    );
  });
});
