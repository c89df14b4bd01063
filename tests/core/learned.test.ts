/** What one session teaches, and how lessons are weighed. */
import { describe, expect, it } from 'vitest';
import { doubtOf, isFarOff, lessonsOf, measuredResponse, mm } from '../../core/index.ts';
import type { ReadStop } from '../../core/index.ts';
import { DUAL, Story } from '../helpers/facts.ts';

const stop = (shiftMm: number, biasMm: number, jump = 0, sdMm = 2): ReadStop => ({
  shiftMm: mm(shiftMm),
  biasMm: mm(biasMm),
  sdMm: mm(sdMm),
  jump,
});
const begun = () => new Story().open().boot('left', DUAL).ready('left');
const set = (story: Story, lateralMm: number, medialMm: number) =>
  story.add('cuff.set', { side: 'left', lateralMm, medialMm });
const left = (story: Story) => lessonsOf(story.facts).find(({ side }) => side === 'left')!;

describe('the response of one boot', () => {
  it('[LRN-1] is that of its moves, and the leg’s place does not matter', () => {
    const seen = measuredResponse([stop(0, 8), stop(4, 2), stop(2, 5)])!;
    expect(seen.k).toBeCloseTo(0.75, 6);
    // Precision of a slope: Σ(2x − mean)²/s².
    expect(seen.weight).toBeCloseTo(32 / 4, 4);
    const elsewhere = measuredResponse([stop(0, -12), stop(4, -18), stop(2, -15)])!;
    expect(elsewhere.k).toBeCloseTo(seen.k, 6);
    expect(elsewhere.weight).toBeCloseTo(seen.weight, 4);
  });

  it('[LRN-1] is not told by one setting, nor over a pair that was left out', () => {
    expect(measuredResponse([])).toBeNull();
    expect(measuredResponse([stop(0, 8)])).toBeNull();
    expect(measuredResponse([stop(3, 8), stop(3, 7)])).toBeNull();
    expect(measuredResponse([stop(0, 8), stop(4, 2, Infinity)])).toBeNull();
    const parted = measuredResponse([stop(0, 8), stop(4, 20, Infinity), stop(0, 26)])!;
    expect(parted.k).toBeCloseTo(0.75, 5);
  });

  it('[LRN-3] far off counts as much as the oddest honest pair: it pulls on, and less the farther off it is', () => {
    const at = (observedMm: number) => ({ predictedMm: -8, observedMm, sdMm: 3 });
    expect(isFarOff(at(0.9))).toBe(false);
    expect(isFarOff(at(1.1))).toBe(true);
    for (const observed of [1.1, 4, 16]) {
      const { predictedMm, sdMm } = at(observed);
      const spread = Math.sqrt(sdMm ** 2 + doubtOf(at(observed)));
      expect((observed - predictedMm) / spread).toBeCloseTo(3, 9);
    }
    expect(doubtOf(at(-7))).toBe(0);
  });
});

describe('what a session teaches', () => {
  it('[LRN-1] each move that was read before and after, with what was foretold of it', () => {
    const story = begun();
    const before = story.read('left', 12, 6);
    set(story, -2, 2);
    const after = story.read('left', 9, 8.5);
    const { model, lessons, stops } = left(story);
    expect(model).toBe('Larkspur 110');
    expect(stops).toHaveLength(2);
    expect(lessons).toHaveLength(1);
    const [lesson] = lessons;
    expect(lesson).toMatchObject({ before, after, observedMm: 0.5 - 6 });
    // 160 mm up, 4 mm between pivots 84 mm apart: 2·160·(sin 3.729° − sin 1°) of bias, one for one.
    const tilt = Math.asin(4 / 84) + Math.PI / 180;
    const per = 2 * 160 * (Math.sin(tilt) - Math.sin(Math.PI / 180));
    expect(lesson!.predictedMm).toBeCloseTo(-per, 6);
    expect(lesson!.sdMm).toBeCloseTo(Math.hypot(0.2 * per, 3), 6);
  });

  it('[LRN-1] is foretold by the response that the session pinned', () => {
    const story = begun();
    story.add('response.known', { side: 'left', k: 0.8, sd: 0.05, pairs: 9 });
    story.read('left', 12, 6);
    set(story, -2, 2);
    story.read('left', 9, 8.5);
    const plain = begun();
    plain.read('left', 12, 6);
    set(plain, -2, 2);
    plain.read('left', 9, 8.5);
    const [learned, unlearned] = [left(story).lessons[0]!, left(plain).lessons[0]!];
    expect(learned.predictedMm).toBeCloseTo(0.8 * unlearned.predictedMm, 9);
    expect(learned.sdMm).toBeLessThan(unlearned.sdMm);
    expect(learned.observedMm).toBe(unlearned.observedMm);
  });

  it.each([
    ['a graze', { contact: 'lateral', pressure: 'graze', lateralMm: 0 }],
    ['a press', { contact: 'lateral', pressure: 'press', lateralMm: 0 }],
    ['another surface', { to: 'liner' }],
    ['another stance', { stanceWidthMm: 290 }],
    ['another height', { heightMm: 140 }],
    [
      'a posture that was not held',
      { posture: { parallel: false, straightRunStance: true, bucklesLight: true, midFlex: true } },
    ],
  ] as const)('[LRN-1] %s teaches nothing', (_what, more) => {
    const story = begun();
    story.read('left', 12, 6);
    set(story, -2, 2);
    story.read('left', 9, 8.5, more as never);
    expect(left(story).lessons).toEqual([]);
  });

  it('[LRN-1] a footbed that was changed between two readings parts them', () => {
    const story = begun();
    story.read('left', 12, 6);
    set(story, -2, 2);
    story.add(
      'ready.checked',
      { side: 'left', item: 'footbed', outcome: 'done', note: 'another one' },
      { role: 'measuring' },
    );
    story.read('left', 9, 8.5);
    expect(left(story).lessons).toEqual([]);
  });

  it('[LRN-1] a boot that was described anew as another one takes nothing over', () => {
    const story = begun();
    story.read('left', 12, 6);
    set(story, -2, 2);
    story.add('boot.described', {
      ...(story.facts.find(({ kind }) => kind === 'boot.described') as never as object),
      model: 'Bryony 95',
    } as never);
    story.read('left', 9, 8.5);
    expect(left(story)).toMatchObject({ model: 'Bryony 95', lessons: [] });
  });

  it('[LRN-1] what was struck teaches nothing, and teaches again when the strike is struck', () => {
    const story = begun();
    story.read('left', 12, 6);
    set(story, -2, 2);
    const after = story.read('left', 9, 8.5);
    const strike = story.add('struck', { fact: after, reason: 'misread' }, { role: 'measuring' });
    expect(left(story).lessons).toEqual([]);
    story.add('struck', { fact: strike, reason: 'it was right' }, { role: 'measuring' });
    expect(left(story).lessons).toHaveLength(1);
  });

  it('[LRN-5] says whether the first move was enough, once that is known', () => {
    const moved = () => {
      const story = begun();
      story.read('left', 12, 6);
      set(story, -2, 2);
      story.read('left', 9, 8.5);
      return story;
    };
    expect(left(moved()).firstEnough).toBeNull();
    const closed = moved();
    closed.add('cuff.closed', { side: 'left', decision: 'even' }, { role: 'measuring' });
    expect(left(closed).firstEnough).toBe(true);
    const accepted = moved();
    accepted.add('cuff.closed', { side: 'left', decision: 'accepted' }, { role: 'measuring' });
    expect(left(accepted).firstEnough).toBe(false);
    const again = moved();
    set(again, -3, 2);
    again.read('left', 8.5, 8.5);
    expect(left(again).firstEnough).toBe(false);
    const atOnce = begun();
    atOnce.read('left', 9, 8.5);
    atOnce.add('cuff.closed', { side: 'left', decision: 'even' }, { role: 'measuring' });
    expect(left(atOnce).firstEnough).toBeNull();
  });
});
