/** What the bench draws and asks of a session: slots, soles cut across, whether the skier has gone, tags on the board. */
import { describe, expect, it } from 'vitest';
import { jobOf, Log, mm, plan } from '../../core/index.ts';
import type { AdjusterReach, Fact, FactOf } from '../../core/index.ts';
import { goneSince } from '../../stations/kit/away.ts';
import { profilePicture } from '../../stations/kit/drawing/profile.ts';
import { slotPicture } from '../../stations/kit/drawing/slot.ts';
import { DUAL, story, withMarks } from '../helpers/facts.ts';

const reach = (minMm: number, maxMm: number): AdjusterReach => ({
  minMm: mm(minMm),
  maxMm: mm(maxMm),
  stops: null,
});

describe('a slot that is made longer', () => {
  const cut = { byMm: 2, edgeLeftMm: 6, leastEdgeMm: 5, way: 'down' } as const;

  it('is drawn to one scale: the travel, the cut, the edge and the least', () => {
    const at = slotPicture(reach(-4, 4), cut, 0, 160);
    // 8 mm of travel, 2 mm cut, 6 mm to the edge: 16 mm on 160 px.
    expect(at.was).toEqual({ top: 0, bottom: 80 });
    expect(at.cut).toEqual({ top: 80, bottom: 100 });
    expect([at.edge, at.least]).toEqual([160, 110]);
    expect([at.travelMm, at.thenMm]).toEqual([8, 10]);
  });

  it('is drawn the other way up where its upper end is cut', () => {
    const at = slotPicture(reach(-4, 4), { ...cut, way: 'up' }, 0, 160);
    expect(at.was).toEqual({ top: 80, bottom: 160 });
    expect(at.cut).toEqual({ top: 60, bottom: 80 });
    expect([at.edge, at.least]).toEqual([0, 50]);
  });

  it('shows no cut where none is made', () => {
    expect(slotPicture(reach(-1, 1), { ...cut, byMm: 0 }, 0, 100).cut).toBeNull();
  });
});

describe('a sole cut across', () => {
  const zone = {
    widthMm: 65,
    plate: { medialMm: mm(3), lateralMm: mm(5) },
    planed: null,
    lifterMm: 0,
    rout: { medialMm: mm(3), lateralMm: mm(5) },
  };
  const spanAt = (points: readonly { x: number; y: number }[], x: number) => {
    const ys = points.filter((point) => point.x === x).map(({ y }) => y);
    return Math.max(...ys) - Math.min(...ys);
  };
  /** Its edges from left to right. */
  const edges = (points: readonly { x: number; y: number }[]) =>
    [...new Set(points.map(({ x }) => x))].sort((a, b) => a - b).map((x) => spanAt(points, x));

  it('draws heights to the scale that it says', () => {
    const at = profilePicture('left', zone, false);
    const perMm = (130 / 65) * at.times;
    expect(Number.isInteger(at.times)).toBe(true);
    // From the heel, the lateral edge of a left boot is on the left.
    expect(edges(at.plate!).map((px) => px / perMm)).toEqual([5, 3]);
    expect(edges(at.rout!).map((px) => px / perMm)).toEqual([5, 3]);
  });

  it('mirrors the other boot, and turns by half a turn what lies upside down', () => {
    const perMm = 2 * profilePicture('left', zone, false).times;
    expect(edges(profilePicture('right', zone, false).plate!).map((px) => px / perMm)).toEqual([3, 5]);
    const over = profilePicture('left', zone, true);
    expect(edges(over.plate!).map((px) => px / perMm)).toEqual([3, 5]);
    expect(over.lowY).toBeLessThan(over.highY);
  });

  it('stays on its sheet however much is made', () => {
    const much = { ...zone, plate: { medialMm: mm(30), lateralMm: mm(40) } };
    for (const over of [false, true]) {
      const at = profilePicture('left', much, over);
      const ys = [...at.plate!, ...at.rout!, ...at.below, ...at.above!].map(({ y }) => y);
      expect(Math.min(...ys)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...ys)).toBeLessThanOrEqual(at.height);
    }
  });
});

describe('a skier', () => {
  const read = () => {
    const told = story(withMarks(DUAL, 1));
    told.read('left', 12, 8);
    return told;
  };
  const pause = { bootsAre: 'shelf', wedgesOut: true, pivotsTight: true };

  it('has gone with a pause, and is back with the next reading, not with work on the boots', () => {
    const told = read();
    expect(goneSince([...told.facts])).toBeNull();
    told.add('paused', pause);
    told.set('left', 1, 1);
    expect(goneSince([...told.facts])).toMatchObject({ bootsAre: 'shelf' });
    told.read('left', 10, 10);
    expect(goneSince([...told.facts])).toBeNull();
  });

  it('never went when the pause was struck', () => {
    const told = read();
    const fact = told.add('paused', pause);
    told.add('struck', { fact, reason: 'typing error' });
    expect(goneSince([...told.facts])).toBeNull();
  });
});

/** What the board says of tags follows from the facts alone. */
describe('the board', () => {
  it('tells the tag of each boot as it was described last', () => {
    const told = story();
    const job = (facts: readonly Fact[]) => jobOf(new Log(facts), plan(facts))!;
    expect(job(told.facts)).not.toHaveProperty('tags');
    const {
      id: _id,
      kind: _kind,
      at: _at,
      by: _by,
      ...described
    } = told.facts.find((fact) => fact.kind === 'boot.described') as FactOf<'boot.described'>;
    for (const tag of ['KX-1', 'KX-2']) told.add('boot.described', { ...described, tag });
    expect(job(told.facts).tags).toEqual({ left: 'KX-2' });
  });
});
