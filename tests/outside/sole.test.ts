/**
 * Plates against printed wedge tables, and their corners against planes got another way: through three points by
 * a cross product, and by turning a flat plate as a rigid body.
 */
import fc from 'fast-check';
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { corners, foreAftRise, planing, plates } from '../../core/maths/sole.ts';
import { deg, mm } from '../../core/units.ts';

const both = (width: number) => ({ toe: mm(width), heel: mm(width) });

describe('a wedge rises by W·tan δ (plane trigonometry, exact maths)', () => {
  it.each([
    [69, 0.5, 0.6022],
    [69, 1, 1.2044],
    [69, 1.5, 1.8068],
    [69, 2, 2.4095],
    [69, 3, 3.6161],
    [62, 1, 1.0822],
    [100, 1, 1.7455],
  ])('%d mm wide at %d°: %d mm, as a plate and as a planer takes it', (width, angle, rise) => {
    const { toe } = plates(both(width), deg(angle), mm(3));
    expect(toe.thickEdgeMm - toe.thinEdgeMm).toBeCloseTo(rise, 4);
    expect(planing(both(width), deg(angle)).heel.lateralMm).toBeCloseTo(rise, 4);
  });

  it('a one-sided wedge is tan θ, not the 2·tan(θ/2) of a symmetric taper: 0.17633 and .17498 at 10° (1902 taper table, read)', () => {
    const { toe } = plates(both(100), deg(10), mm(0));
    expect(toe.thickEdgeMm / 100).toBeCloseTo(0.17633, 5);
    expect(Math.abs(toe.thickEdgeMm / 100 - 0.17498)).toBeGreaterThan(0.001);
  });

  it('a quarter inch in twelve is 1.1935° (workshop example, secondary, exact maths)', () => {
    expect(foreAftRise(deg(1.1935), mm(12))).toBeCloseTo(0.25, 4);
  });

  it('about the centre line the edges move by ±0.602 mm, about one edge the other by 1.204 mm (69 mm, 1°, exact maths)', () => {
    const { toe } = plates(both(69), deg(1), mm(3));
    expect(toe.medialMm - toe.centreMm).toBeCloseTo(0.602, 3);
    expect(planing(both(69), deg(1)).toe.lateralMm).toBeCloseTo(1.204, 3);
  });
});

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const tilts = [real(-4, 4), real(-3, 3), real(55, 75), real(55, 75), real(200, 300)] as const;

/** Both zones' edges as points in space: x lateral, y toward the heel from the toe zone, z the thickness. */
function edgePoints(cant: number, foreAft: number, toeW: number, heelW: number, spacing: number) {
  const rise = foreAftRise(deg(foreAft), mm(spacing));
  const { toe, heel } = plates({ toe: mm(toeW), heel: mm(heelW) }, deg(cant), mm(3), rise);
  return {
    toe,
    points: [
      [-toeW / 2, 0, toe.medialMm],
      [toeW / 2, 0, toe.lateralMm],
      [-heelW / 2, spacing, heel.medialMm],
      [heelW / 2, spacing, heel.lateralMm],
    ] as [number, number, number][],
  };
}

describe('a plate tilted two ways', () => {
  it('its four edges lie in one plane: the one through three of them holds the fourth (ml-matrix)', () => {
    fc.assert(
      fc.property(...tilts, (cant, foreAft, toeW, heelW, spacing) => {
        const { points } = edgePoints(cant, foreAft, toeW, heelW, spacing);
        const [a, b, c] = solve(
          new Matrix(points.slice(0, 3).map(([x, y]) => [x, y, 1])),
          Matrix.columnVector(points.slice(0, 3).map(([, , z]) => z)),
        ).to1DArray() as [number, number, number];
        const [x, y, z] = points[3]!;
        expect(a * x + b * y + c).toBeCloseTo(z, 8);
        // The plane's slopes are the two angles, whichever way they are read.
        expect(Math.atan(-a) * (180 / Math.PI)).toBeCloseTo(cant, 8);
        expect(Math.atan(b) * (180 / Math.PI)).toBeCloseTo(foreAft, 8);
      }),
    );
  });

  it('the corners of one piece lie in that same plane', () => {
    fc.assert(
      fc.property(...tilts, real(20, 120), (cant, foreAft, toeW, heelW, spacing, length) => {
        const { toe, points } = edgePoints(cant, foreAft, toeW, heelW, spacing);
        const [p, q, r] = points as [
          [number, number, number],
          [number, number, number],
          [number, number, number],
        ];
        const u = [q[0] - p[0], q[1] - p[1], q[2] - p[2]] as const;
        const v = [r[0] - p[0], r[1] - p[1], r[2] - p[2]] as const;
        const normal = [
          u[1] * v[2] - u[2] * v[1],
          u[2] * v[0] - u[0] * v[2],
          u[0] * v[1] - u[1] * v[0],
        ] as const;
        const height = (x: number, y: number) =>
          p[2] - (normal[0] * (x - p[0]) + normal[1] * (y - p[1])) / normal[2];
        const at = corners(toe, mm(length), deg(foreAft));
        expect(at.toeMedialMm).toBeCloseTo(height(-toeW / 2, -length / 2), 8);
        expect(at.toeLateralMm).toBeCloseTo(height(toeW / 2, -length / 2), 8);
        expect(at.heelMedialMm).toBeCloseTo(height(-toeW / 2, length / 2), 8);
        expect(at.heelLateralMm).toBeCloseTo(height(toeW / 2, length / 2), 8);
      }),
    );
  });

  it('turning a flat plate about one axis and then the other gives its angles to 0.006° (rigid rotation, exact maths)', () => {
    const turned = (cant: number, foreAft: number) => {
      // The normal (0, 0, 1) turned by the cant about y, then by the fore-aft angle about x.
      const [d, b] = [(cant * Math.PI) / 180, (foreAft * Math.PI) / 180];
      const normal = [Math.sin(d), -Math.cos(d) * Math.sin(b), Math.cos(d) * Math.cos(b)] as const;
      return {
        cant: (Math.atan(normal[0] / normal[2]) * 180) / Math.PI,
        foreAft: (Math.atan(-normal[1] / normal[2]) * 180) / Math.PI,
      };
    };
    // Read as slopes of a plane or as turns, the order of two small angles hardly matters over the real range.
    for (let cant = -4; cant <= 4; cant += 0.5)
      for (let foreAft = -3; foreAft <= 3; foreAft += 0.5) {
        expect(Math.abs(turned(cant, foreAft).cant - cant)).toBeLessThan(0.006);
        expect(Math.abs(turned(cant, foreAft).foreAft - foreAft)).toBeLessThan(1e-9);
      }
  });
});
