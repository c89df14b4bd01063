/** The pair's drawing measured back: one unit of the sheet is one millimetre, so every length on it can be read off. */
import { describe, expect, it } from 'vitest';
import { degAsin, otherSide, plan, SIDES } from '../../core/index.ts';
import type { Side, SidePlan } from '../../core/index.ts';
import {
  bootShape,
  FORM,
  lateralIsRight,
  leanFromPivots,
  sheetOf,
} from '../../stations/kit/drawing/geometry.ts';
import type { BootShape, LookFrom, Point } from '../../stations/kit/drawing/geometry.ts';
import { leansOf, TIMES, tipOf, turnOf } from '../../stations/kit/drawing/lean.ts';
import { DUAL, SINGLE, story, withMarks } from '../helpers/facts.ts';

const HALF_TENTH = 0.05;
const LOOKS: readonly LookFrom[] = ['front', 'behind'];
const away = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y);
const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** How far a line from `low` to `high` leans from plumb toward lateral, degrees. */
function leanIn([low, high]: readonly [Point, Point], side: Side, from: LookFrom): number {
  const outward = lateralIsRight(side, from) ? 1 : -1;
  return (Math.atan2(outward * (high.x - low.x), low.y - high.y) * 180) / Math.PI;
}

/** Turned clockwise on a sheet whose y runs down, as CSS turns. Source: CSS Transforms 1, `rotate()`. */
function turned(point: Point, about: Point, degrees: number): Point {
  const [sin, cos] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  const [x, y] = [point.x - about.x, point.y - about.y];
  return { x: about.x + x * cos - y * sin, y: about.y + x * sin + y * cos };
}

const pivotOf = (shape: BootShape, adjuster: 'lateral' | 'medial') =>
  shape.pivots.find((pivot) => pivot.adjuster === adjuster)!;

/** Both legs read alike: the left bias outward. Marks of 1 mm. */
function wasRead(medialMm = 14, lateralMm = 6) {
  const told = story(withMarks(DUAL, 1));
  for (const side of SIDES) told.read(side, medialMm, lateralMm);
  return told;
}

const sidePlan = (told: ReturnType<typeof story>, side: Side = 'left'): SidePlan =>
  plan(told.facts).sides[side];

describe.each(SIDES)('the %s leg', (side) => {
  it.each(LOOKS)('from %s: its gaps measured back are the gaps that were read', (from) => {
    for (const [medialMm, lateralMm] of [
      [14, 6],
      [3.5, 17.5],
      [9, 9],
      [0.5, 26],
    ] as const) {
      const gaps = bootShape(side, sidePlan(wasRead(medialMm, lateralMm), side), from).gaps!;
      expect(Math.abs(away(gaps.medial.leg, gaps.medial.wall) - medialMm)).toBeLessThan(HALF_TENTH);
      expect(Math.abs(away(gaps.lateral.leg, gaps.lateral.wall) - lateralMm)).toBeLessThan(HALF_TENTH);
    }
  });

  it.each(LOOKS)('from %s: each gap lies on its own side, the leg between the walls', (from) => {
    const gaps = bootShape(side, sidePlan(wasRead(), side), from).gaps!;
    const outward = lateralIsRight(side, from) ? 1 : -1;
    const order = [gaps.medial.wall, gaps.medial.leg, gaps.lateral.leg, gaps.lateral.wall].map(
      ({ x }) => outward * x,
    );
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });

  it.each(LOOKS)('from %s: its cuff leans as the plan says, at every setting', (from) => {
    for (const [lateralMm, medialMm] of [
      [0, 0],
      [-4, 4],
      [4, -4],
      [-1, 2],
    ] as const) {
      const told = wasRead();
      told.set(side, lateralMm, medialMm);
      const at = sidePlan(told, side);
      const shape = bootShape(side, at, from);
      expect(Math.abs(leanIn(shape.cuff!.centre, side, from) - at.cuff.leanDeg!)).toBeLessThan(0.05);
      const walls = (['lateral', 'medial'] as const).map((name) => shape.cuff![name][2]!);
      const pivotLine = middle(pivotOf(shape, 'lateral').at, pivotOf(shape, 'medial').at);
      // Half way between the walls, at the reading height, is the cuff's centre there.
      const centre = middle(walls[0]!, walls[1]!);
      const foot = { x: pivotLine.x, y: 0 };
      expect(Math.abs(leanIn([foot, centre], side, from) - at.cuff.leanDeg!)).toBeLessThan(0.05);
    }
  });

  it.each(LOOKS)('from %s: its pivots stand at their positions, in their window, on their marks', (from) => {
    const told = wasRead();
    told.set(side, -2, 3);
    const at = sidePlan(told, side);
    const shape = bootShape(side, at, from);
    for (const [adjuster, mm] of [
      ['lateral', -2],
      ['medial', 3],
    ] as const) {
      const pivot = pivotOf(shape, adjuster);
      // The pivot line at factory neutral is the sheet's 0, up is minus.
      expect(pivot.at.y).toBeCloseTo(-mm, 6);
      const [low, high] = pivot.window!;
      expect([-low.y, -high.y]).toEqual([
        at.cuff.hardware![adjuster]!.minMm,
        at.cuff.hardware![adjuster]!.maxMm,
      ]);
      expect(pivot.marks.map(({ y }) => 0 - y)).toEqual(
        at.cuff.hardware![adjuster]!.stops!.map(({ mm }) => mm),
      );
    }
    const [lateral, medial] = [pivotOf(shape, 'lateral').at, pivotOf(shape, 'medial').at];
    expect(Math.abs(lateral.x - medial.x)).toBeCloseTo(at.cuff.hardware!.pivotSpacingMm, 6);
    expect((lateral.x - medial.x) * (lateralIsRight(side, from) ? 1 : -1)).toBeGreaterThan(0);
  });

  it.each(LOOKS)('from %s: what is recommended is drawn at its lean and at its places', (from) => {
    const at = sidePlan(wasRead(), side);
    const shape = bootShape(side, at, from);
    expect(at.cuff.target!.leanDeg).not.toBeCloseTo(at.cuff.leanDeg!, 1);
    expect(Math.abs(leanIn(shape.target!.centre, side, from) - at.cuff.target!.leanDeg!)).toBeLessThan(0.05);
    for (const adjuster of ['lateral', 'medial'] as const) {
      const to = at.cuff.target![`${adjuster}Mm`];
      const pivot = pivotOf(shape, adjuster);
      if (to === at.cuff.set![`${adjuster}Mm`]) expect(pivot.to).toBeNull();
      else expect(-pivot.to!.y).toBeCloseTo(to, 6);
    }
  });

  it.each(LOOKS)('from %s: what is recommended comes out of the cuff as it is', (from) => {
    const shape = bootShape(side, sidePlan(wasRead(), side), from);
    const { about, deg } = shape.tip!;
    const back = turned(shape.target!.centre[1], about, -deg);
    // The same line from the pivots, not the same point of it: a lean keeps the rim's height, a turn its distance.
    expect(leanIn([about, back], side, from)).toBeCloseTo(leanIn(shape.cuff!.centre, side, from), 6);
    expect(about).toEqual(shape.cuff!.centre[0]);
  });

  it('shows the expected gaps after a move, until it is read', () => {
    const told = wasRead();
    const { target } = sidePlan(told, side).cuff;
    told.set(side, target!.lateralMm, target!.medialMm);
    const at = sidePlan(told, side);
    const gaps = bootShape(side, at, 'front').gaps!;
    for (const adjuster of ['lateral', 'medial'] as const) {
      const expected = at.cuff.expected![`${adjuster}Mm`];
      expect(expected).toBeGreaterThan(0);
      expect(Math.abs(away(gaps[adjuster].leg, gaps[adjuster].wall) - expected)).toBeLessThan(HALF_TENTH);
    }
    told.read(side, 11, 9.5);
    const read = bootShape(side, sidePlan(told, side), 'front').gaps!;
    expect([read.medial.mm, read.lateral.mm]).toEqual([11, 9.5]);
  });

  it.each([-3, -1.5, 2])('on a cant of %s° the whole boot tips, and keeps every length', (cantDeg) => {
    const told = wasRead();
    const flat = bootShape(side, sidePlan(told, side), 'front');
    told.add('sole.set', { side, cantDeg, state: 'test-wedge' });
    const tipped = bootShape(side, sidePlan(told, side), 'front');
    const line = (shape: BootShape) => {
      const [lateral, medial] = [pivotOf(shape, 'lateral').at, pivotOf(shape, 'medial').at];
      return (Math.atan2(lateral.y - medial.y, Math.abs(lateral.x - medial.x)) * 180) / Math.PI;
    };
    // Outward: the lateral pivot goes down the sheet.
    expect(line(tipped) - line(flat)).toBeCloseTo(cantDeg, 6);
    expect(leanIn(tipped.cuff!.centre, side, 'front') - leanIn(flat.cuff!.centre, side, 'front')).toBeCloseTo(
      cantDeg,
      6,
    );
    for (const adjuster of ['lateral', 'medial'] as const)
      expect(away(tipped.gaps![adjuster].leg, tipped.gaps![adjuster].wall)).toBeCloseTo(
        away(flat.gaps![adjuster].leg, flat.gaps![adjuster].wall),
        6,
      );
  });
});

/** Every point of a shape, in one order. */
const pointsOf = (shape: BootShape): Point[] => [
  ...shape.sole,
  ...shape.shell,
  ...shape.toeCap,
  ...shape.cuff!.lateral,
  ...shape.cuff!.medial,
  ...shape.target!.centre,
  ...shape.leg!.outline,
  ...shape.pivots.flatMap(({ at, to }) => (to ? [at, to] : [at])),
];

it('is mirrored for the other side, and for the other look', () => {
  const { left } = plan(wasRead().facts).sides;
  const points = pointsOf(bootShape('left', left, 'front'));
  const mirrored = points.map(({ x, y }) => ({ x: -x, y }));
  const close = (found: readonly Point[], wanted: readonly Point[]) => {
    expect(found).toHaveLength(wanted.length);
    for (const [i, { x, y }] of found.entries()) expect(away({ x, y }, wanted[i]!)).toBeLessThan(1e-9);
  };
  close(pointsOf(bootShape('right', left, 'front')), mirrored);
  close(pointsOf(bootShape('left', left, 'behind')), mirrored);
  close(pointsOf(bootShape('right', left, 'behind')), points);
});

it('keeps all of both boots on its sheet', () => {
  const { left, right } = plan(wasRead(24, 1).facts).sides;
  const sheet = sheetOf([left.cuff.hardware!.readingHeightMm, right.cuff.hardware!.readingHeightMm]);
  for (const [side, each] of [
    ['left', left],
    ['right', right],
  ] as const)
    for (const { x, y } of pointsOf(bootShape(side, each, 'front'))) {
      expect(x).toBeGreaterThan(sheet.left);
      expect(x).toBeLessThan(sheet.left + sheet.width);
      expect(y).toBeGreaterThan(sheet.top);
      expect(y).toBeLessThanOrEqual(FORM.pivotHeight + 1e-9);
    }
});

it('draws no cuff where the pivots are unknown, and no gap where none was read', () => {
  const told = story(withMarks(DUAL, 1));
  expect(bootShape('left', sidePlan(told), 'front')).toMatchObject({ gaps: null, leg: null, target: null });
  told.add('cuff.set', { side: 'left', lateralMm: 1 }, { basis: [] });
  told.add('cuff.set', { side: 'left', lateralMm: -2, medialMm: 1 }, { basis: [] });
  const shape = bootShape('left', sidePlan(told), 'front');
  expect(sidePlan(told).cuff.set).toBeNull();
  expect(shape.cuff).toBeNull();
});

describe('the magnified lean', () => {
  it('of the cuff and of what is recommended is the plan’s own, of the leg what the gaps say', () => {
    const at = sidePlan(wasRead());
    const leans = leansOf(at);
    expect(leans.cuff).toBe(at.cuff.leanDeg);
    expect(leans.to).toBe(at.cuff.target!.leanDeg);
    const drawn = leanIn(bootShape('left', at, 'front').leg!.centre, 'left', 'front');
    expect(Math.abs(leans.leg! - drawn)).toBeLessThan(0.05);
  });

  it.each(SIDES)('of the %s leg is enlarged by a known factor, outward to its own side', (side) => {
    for (const from of LOOKS)
      for (const angle of [-4, -0.5, 0, 1.25, 6]) {
        const tip = tipOf(angle, 70, side, from);
        expect(leanIn([{ x: 0, y: 0 }, tip], side, from)).toBeCloseTo(angle * TIMES, 6);
        expect(away({ x: 0, y: 0 }, tip)).toBeCloseTo(70, 6);
      }
  });

  it.each(SIDES)('of the %s leg turns from what is to what is recommended', (side) => {
    for (const from of LOOKS) {
      const [is, to] = [1, -0.75];
      const back = turned(tipOf(to, 70, side, from), { x: 0, y: 0 }, -turnOf(is, to, side, from).deg);
      const start = tipOf(is, 70, side, from);
      expect(away(back, start)).toBeLessThan(1e-9);
    }
  });

  it('stops short of lying down', () => {
    expect(leanIn([{ x: 0, y: 0 }, tipOf(20, 70, 'left', 'front')], 'left', 'front')).toBeLessThan(70);
  });

  it('of a boot whose factory lean nobody knows is the change from factory', () => {
    const { factoryLeanDeg: _unknown, ...bare } = SINGLE as typeof SINGLE & { factoryLeanDeg: number };
    const told = story(bare as typeof SINGLE);
    told.set('left', -3);
    const at = sidePlan(told);
    expect(at.cuff.leanDeg).toBeNull();
    expect(leanFromPivots(at.cuff, at.cuff.set!)).toBeCloseTo(degAsin(3 / 82), 9);
    expect(leansOf(at).cuff).toBeCloseTo(degAsin(3 / 82), 9);
  });
});

it('puts the right leg of a skier who is faced on the viewer’s left', () => {
  for (const side of SIDES) {
    const x = bootShape(side, sidePlan(wasRead(), side), 'front').badge.x;
    expect(Math.sign(x)).toBe(side === 'right' ? -1 : 1);
    expect(lateralIsRight(side, 'front')).toBe(!lateralIsRight(otherSide(side), 'front'));
  }
});
