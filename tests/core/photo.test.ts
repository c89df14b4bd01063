/** Gaps and angles read off a picture. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibrated, inOrder, rectangle } from '../../core/photo/calibration.ts';
import type { Calibration } from '../../core/photo/calibration.ts';
import { angleBetween, footOn, gapOfPoints, gapToLine } from '../../core/photo/measure.ts';
import type { Corners, Line, Point } from '../../core/photo/point.ts';
import { mm } from '../../core/units.ts';
import { check } from '../properties/check.ts';

const p = (x: number, y: number): Point => ({ x, y });
const ten: Calibration = { by: 'length', points: [p(0, 0), p(100, 0)], lengthMm: mm(50) };
const square: Corners = [p(0, 0), p(200, 0), p(200, 100), p(0, 100)];
const sheet: Calibration = { by: 'rectangle', points: square, widthMm: mm(100), heightMm: mm(50) };

describe('a gap and an angle', () => {
  it('[PHO-1] by a scale of two points: 100 pixels are 50 mm', () => {
    expect(gapOfPoints(ten, p(10, 10), p(40, 50))).toMatchObject({ ok: true, value: 25 });
    expect(gapToLine(ten, p(300, 30), [p(0, 0), p(100, 0)])).toMatchObject({ ok: true, value: 15 });
  });

  it('[PHO-1] by a rectangle seen square, the same', () => {
    const gap = gapOfPoints(sheet, p(10, 10), p(40, 50));
    expect(gap.ok && gap.value).toBeCloseTo(25, 9);
  });

  it('[PHO-2] clockwise is positive, whichever end of a line comes first', () => {
    const upright: Line = [p(100, 300), p(100, 0)];
    const leaning: Line = [p(100, 300), p(200, 300 - 100 / Math.tan(Math.PI / 18))];
    const both = [upright, [...upright].reverse() as unknown as Line];
    for (const first of both) {
      const right = angleBetween(ten, first, leaning);
      expect(right.ok && right.value).toBeCloseTo(10, 9);
      const left = angleBetween(ten, leaning, first);
      expect(left.ok && left.value).toBeCloseTo(-10, 9);
    }
  });
});

describe('[PHO-1] the square from a point to a line', () => {
  const edge: Line = [p(120, 80), p(260, 420)];

  it('meets it at the nearest place, in a square picture and in one that is seen from the side', () => {
    expect(footOn(ten, p(300, 30), [p(0, 0), p(100, 0)])).toEqual(p(300, 0));
    const seen: Corners = [p(90, 70), p(410, 120), p(380, 460), p(60, 330)];
    const aside: Calibration = { by: 'rectangle', points: seen, widthMm: mm(85.6), heightMm: mm(53.98) };
    for (const calibration of [ten, sheet, aside]) {
      const foot = footOn(calibration, p(300, 150), edge)!;
      const square = gapToLine(calibration, p(300, 150), edge);
      const across = gapOfPoints(calibration, p(300, 150), foot);
      if (!square.ok || !across.ok) throw new Error('no gap');
      expect(across.value).toBeCloseTo(square.value, 6);
      // Any other place of the line is further away.
      for (const by of [-20, 20]) {
        const [x, y] = [foot.x + (by * 140) / 367, foot.y + (by * 340) / 367];
        const other = gapOfPoints(calibration, p(300, 150), p(x, y));
        expect(other.ok && other.value).toBeGreaterThan(across.value);
      }
    }
  });

  it('is nowhere where the points say nothing', () => {
    expect(footOn({ ...sheet, points: [p(0, 0), p(1, 0), p(1, 1), p(0, 1)] }, p(9, 9), edge)).toBeNull();
    expect(footOn(ten, p(9, 9), [p(5, 5), p(5, 5)])).toBeNull();
  });
});

describe('[PHO-4] points that say nothing', () => {
  const why = (result: { ok: boolean; why?: string }) => (result.ok ? 'a value' : result.why);
  const of = (points: Corners) =>
    why(calibrated({ by: 'rectangle', points, widthMm: mm(100), heightMm: mm(50) }));

  it.each<[string, Corners, string]>([
    ['in order', square, 'a value'],
    ['the other way round', [square[0], square[3], square[2], square[1]], 'crossed'],
    ['crossed', [square[0], square[2], square[1], square[3]], 'crossed'],
    ['three on a line', [p(0, 0), p(100, 0), p(200, 0), p(0, 100)], 'on-one-line'],
    ['all on a line', [p(0, 0), p(100, 0), p(200, 0), p(300, 0)], 'on-one-line'],
    ['one inside the others', [p(0, 0), p(300, 0), p(140, 90), p(0, 300)], 'crossed'],
    ['two together', [p(0, 0), p(200, 0), p(200, 5), p(0, 100)], 'too-near'],
    ['all together', [p(7, 7), p(7, 7), p(7, 7), p(7, 7)], 'too-near'],
  ])('corners %s', (_, corners, says) => expect(of(corners)).toBe(says));

  it('a scale, a line, a gap of points too near', () => {
    const tiny: Calibration = { by: 'length', points: [p(0, 0), p(9, 9)], lengthMm: mm(50) };
    expect(why(gapOfPoints(tiny, p(0, 0), p(90, 0)))).toBe('too-near');
    expect(why(gapOfPoints(ten, p(0, 0), p(3, 0)))).toBe('too-near');
    expect(why(gapToLine(ten, p(50, 2), [p(0, 0), p(100, 0)]))).toBe('too-near');
    expect(why(angleBetween(ten, [p(0, 0), p(5, 5)], [p(0, 0), p(0, 90)]))).toBe('too-near');
  });

  it('past the horizon of a sheet that runs away from the camera', () => {
    const points: Corners = [p(80, 100), p(120, 100), p(200, 200), p(0, 200)];
    const away: Calibration = { by: 'rectangle', points, widthMm: mm(100), heightMm: mm(100) };
    expect(gapOfPoints(away, p(100, 180), p(100, 120)).ok).toBe(true);
    expect(why(gapOfPoints(away, p(100, 180), p(100, 60)))).toBe('past-horizon');
  });

  it('whatever the points, a number is finite and its deviation above zero', () => {
    const any = fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 300 }));
    const eight = fc.array(any, { minLength: 8, maxLength: 8 });
    check(400, eight, (places) => {
      const [a, b, c, d, e, f, g, h] = places.map(([x, y]) => p(x, y)) as [
        Point,
        Point,
        Point,
        Point,
        Point,
        Point,
        Point,
        Point,
      ];
      for (const by of [rectangle(inOrder([a, b, c, d]), mm(85.6), mm(53.98)), { ...ten, points: [a, b] }])
        for (const result of [
          gapOfPoints(by as Calibration, e, f),
          gapToLine(by as Calibration, e, [f, g]),
          angleBetween(by as Calibration, [e, f], [g, h]),
        ])
          if (result.ok) {
            expect(Number.isFinite(result.value)).toBe(true);
            expect(result.sd).toBeGreaterThan(0);
            expect(Number.isFinite(result.sd)).toBe(true);
          }
    });
  });
});

describe('corners', () => {
  it('come into order however they were picked', () => {
    check(50, fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }), (order) => {
      const picked = order.map((i) => square[i]!) as unknown as Corners;
      expect(inOrder(picked)).toEqual(square);
    });
  });

  it('take the longer edges for the longer sides', () => {
    const upright: Corners = [p(0, 0), p(100, 0), p(100, 160), p(0, 160)];
    expect(rectangle(upright, mm(85.6), mm(53.98))).toMatchObject({ widthMm: 53.98, heightMm: 85.6 });
    expect(rectangle(square, mm(53.98), mm(85.6))).toMatchObject({ widthMm: 85.6, heightMm: 53.98 });
  });
});

describe('[PHO-3] the picture turned, shifted and made larger', () => {
  const moves = fc.record({
    angle: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
    scale: fc.double({ min: 0.8, max: 4, noNaN: true }),
    x: fc.double({ min: -500, max: 500, noNaN: true }),
    y: fc.double({ min: -500, max: 500, noNaN: true }),
  });
  const trapezium: Corners = [p(40, 30), p(420, 60), p(390, 260), p(60, 300)];
  const both: Calibration[] = [
    { by: 'rectangle', points: trapezium, widthMm: mm(85.6), heightMm: mm(53.98) },
    { by: 'length', points: [p(40, 30), p(420, 60)], lengthMm: mm(85.6) },
  ];

  it.each(both)('changes no gap and no angle ($by)', (calibration) =>
    check(100, moves, ({ angle, scale, x, y }) => {
      const [cos, sin] = [Math.cos(angle) * scale, Math.sin(angle) * scale];
      const move = (q: Point) => p(cos * q.x - sin * q.y + x, sin * q.x + cos * q.y + y);
      const moved = { ...calibration, points: calibration.points.map(move) } as unknown as Calibration;
      const [a, b, c, d] = [p(100, 100), p(130, 290), p(200, 80), p(220, 310)];
      const pairs = [
        [gapOfPoints(calibration, a, c), gapOfPoints(moved, move(a), move(c), scale)],
        [gapToLine(calibration, a, [c, d]), gapToLine(moved, move(a), [move(c), move(d)], scale)],
        [
          angleBetween(calibration, [a, b], [c, d]),
          angleBetween(moved, [move(a), move(b)], [move(c), move(d)], scale),
        ],
      ] as const;
      for (const [was, is] of pairs) {
        if (!was.ok || !is.ok) throw new Error('no value');
        expect(is.value).toBeCloseTo(was.value, 6);
        // The same error on the leg: the picking error is that of the larger picture.
        expect(is.sd).toBeCloseTo(was.sd, 4);
      }
    }),
  );
});
