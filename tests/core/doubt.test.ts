/** Values that look wrong, asked about before they are stored. */
import { describe, expect, it } from 'vitest';
import { doubtsOf, mm, plan } from '../../core/index.ts';
import type { Doubt, Payload } from '../../core/index.ts';
import { DUAL, HELD, KNEE, SINGLE, Story, story, WHOLE_BOOT, withMarks } from '../helpers/facts.ts';

const ask = (told: Story, ...drafts: object[]): Doubt[] => doubtsOf(told.facts, drafts as never);
const codes = (told: Story, ...drafts: object[]) => ask(told, ...drafts).map(({ code }) => code);

const gaps = (side: 'left' | 'right', medialMm: number, lateralMm: number, more: object = {}) => ({
  kind: 'cuff.read',
  side,
  medialMm,
  lateralMm,
  contact: 'none',
  to: 'shell',
  liner: 'out',
  stanceWidthMm: 240,
  widestAt: 'middle',
  posture: HELD,
  ...more,
});

describe('a gap', () => {
  it('[ASK-1] is asked about where the other readings foretell another, and only that gap', () => {
    const told = story();
    told.read('left', 12, 8);
    expect(codes(told, gaps('left', 13, 7))).toEqual([]);
    expect(ask(told, gaps('left', 21, 8))).toMatchObject([
      { code: 'gap', side: 'left', place: 'medial', isMm: 21 },
    ]);
    // By hand: one reading, so D is as sure as it was read, 1.5·√2; what is foretold ±√(2·1.5² + 4.5)/2 = 1.5, and read
    // with 1.5 more: 3·1.5·√2 = 6.36 to each side.
    const [doubt] = ask(told, gaps('left', 12, 30)) as [Extract<Doubt, { code: 'gap' }>];
    expect(doubt.place).toBe('lateral');
    expect(doubt.atMostMm).toBeCloseTo(8 + 6.364, 1);
    expect(doubt.atLeastMm).toBeCloseTo(8 - 6.364, 1);
    expect(codes(told, gaps('left', 12, 14.3))).toEqual([]);
    expect(codes(told, gaps('left', 12, 14.5))).toEqual(['gap']);
  });

  it('[ASK-1] is foretold at the pivots as they stand now, as the plan expects it', () => {
    const told = story(withMarks(DUAL, 1));
    told.read('left', 16, 4);
    told.set('left', -2, 2);
    const { expected } = plan(told.facts).sides.left.cuff;
    expect(expected!.medialMm).toBeLessThan(10);
    expect(codes(told, gaps('left', expected!.medialMm, expected!.lateralMm))).toEqual([]);
    // The gaps went the other way than the pivots.
    expect(codes(told, gaps('left', 20, 0.5))).toEqual(['gap', 'gap']);
    // The other leg has no readings to foretell anything.
    expect(codes(told, gaps('right', 16, 4))).toEqual([]);
  });

  it('[ASK-2] without anything that foretells it is asked about with its neighbour', () => {
    expect(codes(story(), gaps('left', 15, 14))).toEqual([]);
    expect(ask(story(), gaps('left', 42, 8))).toEqual([
      { code: 'gap-sum', side: 'left', isMm: 50, atLeastMm: 4, atMostMm: 30 },
    ]);
    expect(codes(story(), gaps('left', 1, 1.5))).toEqual(['gap-sum']);
    const wide = story();
    wide.add('settings.used', { gapSumAskMaxMm: 60 } as never);
    expect(codes(wide, gaps('left', 42, 8))).toEqual([]);
  });

  it('[ASK-9] a press, and what was read another way, is not asked about', () => {
    const told = story();
    told.read('left', 12, 8);
    const press = { contact: 'lateral', pressure: 'press' };
    expect(codes(told, gaps('left', 24, 0, press))).toEqual([]);
    expect(codes(told, gaps('left', 24, 0, { contact: 'lateral', pressure: 'graze' }))).toEqual([
      'gap',
      'gap',
    ]);
    for (const other of [{ to: 'liner' }, { liner: 'in' }, { heightMm: 120 }])
      expect(codes(told, gaps('left', 24, 1, other))).toEqual([]);
    expect(codes(told, gaps('left', 24, 1, { stanceWidthMm: 255 }))).toEqual([]);
  });
});

describe('a stance', () => {
  it('[ASK-3] far from the last one is asked about once, for both legs', () => {
    const told = story();
    told.read('left', 12, 8);
    const moved = { stanceWidthMm: 320 };
    expect(ask(told, gaps('left', 12, 8, moved), gaps('right', 10, 9, moved))).toEqual([
      { code: 'stance-width', isMm: 320, atLeastMm: 200, atMostMm: 280 },
    ]);
    expect(codes(told, gaps('left', 12, 8, { stanceWidthMm: 280 }))).toEqual([]);
  });

  it('[ASK-3] that is the first is asked about where hardly anybody stands', () => {
    for (const [width, asked] of [
      [63, ['stance-width']],
      [100, []],
      [240, []],
      [450, []],
      [640, ['stance-width']],
    ] as const)
      expect(codes(story(), gaps('left', 12, 8, { stanceWidthMm: width })), `${width}`).toEqual(asked);
  });

  it('[ASK-3] is held against the last reading that stands: a struck one is none', () => {
    const told = story();
    told.read('left', 12, 8);
    const wrong = told.read('left', 12, 8, { stanceWidthMm: 400 });
    expect(codes(told, gaps('left', 12, 8))).toEqual(['stance-width']);
    told.add('struck', { fact: wrong, reason: 'typing error' }, { role: 'measuring' });
    expect(codes(told, gaps('left', 12, 8))).toEqual([]);
  });
});

describe('a knee', () => {
  const knee = (side: 'left' | 'right', kneeOffsetMm: number, more: object = {}) => ({
    kind: 'stance.read',
    side,
    kneeOffsetMm,
    ...KNEE,
    ...more,
  });
  const readOnce = () => {
    const told = story();
    told.add('stance.read', { side: 'left', kneeOffsetMm: -4, ...KNEE });
    return told;
  };

  it('[ASK-4] unlike the other leg in its height is asked about', () => {
    expect(codes(story(), knee('right', 0, { kneeHeightMm: 648 }))).toEqual([]);
    expect(codes(readOnce(), knee('right', 0, { kneeHeightMm: 490 }))).toEqual([]);
    expect(ask(readOnce(), knee('right', 0, { kneeHeightMm: 648 }))).toEqual([
      { code: 'knee-height', side: 'right', isMm: 648, otherMm: 468 },
    ]);
  });

  it('[ASK-5] that jumps on the same wedge is asked about, and not on another', () => {
    // 3·√2·5 = 21.2 mm.
    expect(codes(readOnce(), knee('left', 17))).toEqual([]);
    expect(codes(readOnce(), knee('left', 18))).toEqual(['knee-offset']);
    expect(codes(readOnce(), knee('left', 18, { kneeMark: 'patella' }))).toEqual([]);
    const wedged = readOnce();
    wedged.add('sole.set', { side: 'left', cantDeg: 2, state: 'test-wedge' });
    expect(codes(wedged, knee('left', 18))).toEqual([]);
  });
});

describe('hardware', () => {
  it('[ASK-6] a pivot outside its travel is asked about', () => {
    const set = (lateralMm: number, medialMm?: number) => ({
      kind: 'cuff.set',
      side: 'left',
      lateralMm,
      ...(medialMm === undefined ? {} : { medialMm }),
    });
    expect(codes(story(), set(-4, 4))).toEqual([]);
    expect(ask(story(), set(-4.5, 4))).toEqual([
      { code: 'pivot', side: 'left', place: 'lateral', isMm: -4.5, atLeastMm: -4, atMostMm: 4 },
    ]);
    expect(codes(story(SINGLE), set(5))).toEqual([]);
    expect(codes(story(SINGLE), set(5.5))).toEqual(['pivot']);
    const longer = story(SINGLE);
    longer.add('pivot.reworked', {
      side: 'left',
      adjuster: 'lateral',
      method: 'slot',
      newUpMm: 8,
      newDownMm: 5,
    } as Payload<'pivot.reworked'>);
    expect(codes(longer, set(7))).toEqual([]);
  });

  it('[ASK-7] a sole unlike that of the other boot is asked about, once', () => {
    const boot = (side: 'left' | 'right', soleLengthMm: number, model = 'Larkspur 110') => ({
      ...WHOLE_BOOT,
      kind: 'boot.described',
      side,
      soleLengthMm,
      model,
    });
    const none = new Story().open();
    expect(codes(none, boot('left', 305))).toEqual([]);
    expect(codes(none, boot('left', 305), boot('right', 305))).toEqual([]);
    expect(ask(none, boot('left', 305), boot('right', 350))).toEqual([
      { code: 'sole-length', side: 'right', isMm: 350, otherMm: 305 },
    ]);
    // One model and size has one sole; two models may differ.
    expect(codes(none, boot('left', 305), boot('right', 308))).toEqual(['sole-length']);
    expect(codes(none, boot('left', 305), boot('right', 308, 'Tarn 95'))).toEqual([]);
    expect(codes(new Story().open().boot('right', DUAL), boot('left', 325, 'Tarn 95'))).toEqual([
      'sole-length',
    ]);
  });

  it('[ASK-8] a zone that is not even is asked about', () => {
    const zone = (heightMedialMm: number, heightLateralMm: number) => ({
      heightMedialMm: mm(heightMedialMm),
      heightLateralMm: mm(heightLateralMm),
      widthMm: mm(69),
    });
    const sole = (toe: object, heel: object) => ({
      kind: 'sole.measured',
      side: 'left',
      when: 'before',
      toe,
      heel,
    });
    expect(codes(story(), sole(zone(19.2, 19), zone(30, 31)))).toEqual([]);
    expect(ask(story(), sole(zone(19.2, 29.1), zone(30, 31)))).toEqual([
      { code: 'sole-height', side: 'left', zone: 'toe', isMm: 19.2, otherMm: 29.1 },
    ]);
  });

  it('[ASK-1] nothing is asked of entries that hold no such value', () => {
    expect(codes(story(), { kind: 'ready.checked', side: 'left', item: 'footbed', outcome: 'done' })).toEqual(
      [],
    );
  });
});
