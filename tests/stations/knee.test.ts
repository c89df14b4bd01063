/** Knees as they are typed, and a cant in words: a sign is never typed and never shown without its word. */
import { describe, expect, it } from 'vitest';
import { plan, SIDES } from '../../core/index.ts';
import type { StancePlan } from '../../core/index.ts';
import { cornerAt, CORNERS, SHEET } from '../../stations/kit/drawing/sole.ts';
import {
  bySide,
  byThickEdge,
  emptyKnee,
  heldStance,
  kneeReading,
  wedgeIn,
  withoutWedge,
} from '../../stations/kit/knee.ts';
import { placeWords } from '../../stations/kit/words/sole.ts';
import {
  cantWords,
  intervalWords,
  offsetWords,
  proposedCant,
  sureWords,
} from '../../stations/kit/words/stance.ts';
import { DUAL, story } from '../helpers/facts.ts';

const stance = (more: Partial<Record<keyof StancePlan, unknown>>): StancePlan =>
  ({ ...plan(story().facts).sides.left.stance, ...more }) as StancePlan;

describe('a size and a direction', () => {
  it.each([
    ['9', 'lateral', 9],
    ['9,5', 'medial', -9.5],
    ['0', null, 0],
    ['0', 'medial', 0],
    ['9', null, null],
    ['-9', 'lateral', null],
    ['', 'lateral', null],
    ['nine', 'lateral', null],
  ] as const)('%j %s is %s', (size, toward, mm) => expect(bySide(size, toward)).toBe(mm));

  it('a cant that is thick medial tips outward', () => {
    expect(byThickEdge('1,5', 'medial')).toBe(1.5);
    expect(byThickEdge('2', 'lateral')).toBe(-2);
    expect(byThickEdge('0', 'lateral')).toBe(0);
    expect(byThickEdge('2', null)).toBeNull();
  });
});

describe('a reading', () => {
  const typed = { ...emptyKnee(), offset: '4', toward: 'medial' as const, height: '468', restood: true };
  const how = { ...heldStance(undefined, undefined), width: '240', mark: 'condyles' as const };

  it('is whole only with its direction, its height, the stance width and the mark', () => {
    expect(kneeReading('left', typed, how)).toMatchObject({
      kneeOffsetMm: -4,
      kneeHeightMm: 468,
      restood: true,
    });
    expect(kneeReading('left', { ...typed, toward: null }, how)).toBeNull();
    expect(kneeReading('left', { ...typed, height: '' }, how)).toBeNull();
    expect(kneeReading('left', typed, { ...how, width: '' })).toBeNull();
    expect(kneeReading('left', typed, { ...how, mark: null })).toBeNull();
  });

  it('holds height, width and mark from the last one, and never offset or standing afresh', () => {
    const told = story();
    told.read('left', 9, 9, { stanceWidthMm: 231 });
    const reading = kneeReading('left', typed, how)!;
    told.add('stance.read', reading as never);
    const last = told.facts.findLast((fact) => fact.kind === 'stance.read');
    expect(emptyKnee(last)).toEqual({ offset: '', toward: null, height: '468', restood: false });
    expect(heldStance(last, undefined)).toMatchObject({ width: '240', mark: 'condyles' });
    const cuff = told.facts.findLast((fact) => fact.kind === 'cuff.read');
    expect(heldStance(undefined, cuff)).toMatchObject({ width: '231', mark: null });
  });
});

describe('a test wedge', () => {
  it('leaves what stood there before it', () => {
    const told = story(DUAL);
    expect(wedgeIn([...told.facts], 'left')).toBe(false);
    told.add('sole.set', { side: 'left', cantDeg: 1, state: 'test-wedge' });
    told.add('sole.set', { side: 'left', cantDeg: 2, state: 'test-wedge' });
    expect(wedgeIn([...told.facts], 'left')).toBe(true);
    expect(wedgeIn([...told.facts], 'right')).toBe(false);
    expect(withoutWedge([...told.facts], 'left')).toMatchObject({ cantDeg: 0, state: 'as-brought' });
    told.add('plate.fitted', { side: 'left', cantDeg: 2, method: 'plate', thinEdgeMm: 3 });
    expect(wedgeIn([...told.facts], 'left')).toBe(false);
  });

  it('over a sole that was brought back to zero leaves it at zero', () => {
    const told = story(DUAL);
    told.add('sole.set', { side: 'left', cantDeg: 0, state: 'neutralised' });
    told.add('sole.set', { side: 'left', cantDeg: -1, state: 'test-wedge' });
    expect(withoutWedge([...told.facts], 'left')).toMatchObject({ cantDeg: 0, state: 'neutralised' });
  });
});

describe('a cant in words', () => {
  it('says where it is thick', () => {
    expect(cantWords(1.5)).toBe('1.5°, thick edge medial');
    expect(cantWords(-2)).toBe('2°, thick edge lateral');
    expect(cantWords(0)).toBe('flat');
    expect(cantWords(-0.04, 1)).toBe('flat');
  });

  it('has an interval with a word at each end', () => {
    const within = (lowDeg: number, highDeg: number) =>
      intervalWords(stance({ cantRange: { lowDeg, highDeg } }));
    expect(within(-3.1, -1.4)).toBe('1.4° to 3.1° lateral');
    expect(within(1.2, 2.8)).toBe('1.2° to 2.8° medial');
    expect(within(-0.3, 1.3)).toBe('0.3° lateral to 1.3° medial');
    expect(intervalWords(stance({ cantRange: null }))).toBeNull();
  });

  it('says how sure its side is', () => {
    const sure = (cantDeg: number, cantSdDeg: number) => sureWords(stance({ cantDeg, cantSdDeg }));
    expect(sure(-2, 0.5)).toBe('thick edge lateral: almost certain (over 99 %)');
    expect(sure(1, 0.5)).toBe('thick edge medial: very likely (over 95 %)');
    expect(sure(0.6, 0.5)).toContain('likely (over 84 %)');
    expect(sure(0.2, 0.5)).toContain('little more than a guess');
    expect(sure(0, 0.5)).toBeNull();
  });

  it('tells the knee’s place by word', () => {
    expect(offsetWords(stance({ offsetMm: 8.7, slopeMmPerDeg: 6.3 }))).toBe(
      'Flat, the knee stands 8.7 mm lateral of the line; 1° moves it 6.3 mm.',
    );
    expect(offsetWords(stance({ offsetMm: -4, slopeMmPerDeg: null }))).toBe(
      'Flat, the knee stands 4 mm medial of the line.',
    );
  });

  it('proposes what the readings carry, and nothing past the limit', () => {
    expect(proposedCant(stance({ verdict: 'cant', roundedDeg: -2 }))).toBe(-2);
    for (const verdict of ['flat-enough', 'refer', 'unread', 'contradictory', 'blocked'])
      expect(proposedCant(stance({ verdict, roundedDeg: null }))).toBe(0);
  });
});

describe('the sole from above', () => {
  it('has its medial corners toward the other boot, and is mirrored for the other side', () => {
    for (const corner of CORNERS) {
      const [left, right] = [cornerAt('left', corner), cornerAt('right', corner)];
      expect(left.x + right.x).toBe(SHEET.width);
      expect(left.y).toBe(right.y);
      expect(left.x > SHEET.width / 2).toBe(corner.endsWith('medial'));
    }
    for (const side of SIDES)
      expect(cornerAt(side, 'toe.medial').y).toBeLessThan(cornerAt(side, 'heel.medial').y);
  });

  it('names every place of its standard', () => {
    expect(placeWords('toe.heightMedialMm')).toBe('Toe, medial height');
    expect(placeWords('heel.parallelMm')).toBe('Heel, medial to lateral');
  });
});
