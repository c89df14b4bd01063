/** Repeatability: what must hold whatever was read. Published studies are in tests/outside. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaugeStudy, shopError } from '../../../core/maths/gauge.ts';
import { normalCdf } from '../../../core/maths/normal.ts';
import { normalQuantile } from '../../../core/maths/quantile.ts';
import { chiSquareQuantile, studentQuantile } from '../../../core/maths/spread-quantile.ts';
import { agreement, icc, sdInterval, withinSubject } from '../../../core/maths/repeatability.ts';

const reading = fc.double({ min: -60, max: 60, noNaN: true });
/** Read on a scale of half millimetres, so that ties and equal rows come up. */
const coarse = fc.integer({ min: 0, max: 8 }).map((n) => n / 2);
const anyReading = fc.oneof(reading, coarse, fc.constant(0.1));
const tableOf = (rows: number, columns: number) =>
  fc.array(fc.array(anyReading, { minLength: columns, maxLength: columns }), {
    minLength: rows,
    maxLength: rows,
  });
const anyTable = fc
  .tuple(fc.integer({ min: 2, max: 6 }), fc.integer({ min: 2, max: 4 }))
  .chain(([n, k]) => tableOf(n, k));
const anyStudy = fc
  .tuple(fc.integer({ min: 2, max: 5 }), fc.integer({ min: 2, max: 3 }), fc.integer({ min: 2, max: 3 }))
  .chain(([p, o, r]) => fc.array(tableOf(o, r), { minLength: p, maxLength: p }));

const numbers = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(numbers)
      : [];
const finite = (value: unknown) => {
  for (const n of numbers(value)) expect(Number.isFinite(n)).toBe(true);
};

describe('whatever was read', () => {
  it('that only crosses has no agreement to speak of', () => {
    expect(
      icc([
        [0, 1.5],
        [1.5, 0],
      ]),
    ).toMatchObject({ oneWay: -1, agreement: null, consistency: -1 });
  });

  it('every number is finite', () => {
    fc.assert(
      fc.property(anyTable, anyStudy, (table, study) => {
        finite([withinSubject(table), icc(table), gaugeStudy(study), shopError(gaugeStudy(study)!)]);
        finite(agreement(table.map((row) => [row[0]!, row[1]!])));
        finite(sdInterval(withinSubject(table)!));
      }),
    );
  });

  it('the sums of squares add up to the total, and the components to theirs', () => {
    fc.assert(
      fc.property(anyStudy, (table) => {
        const study = gaugeStudy(table)!;
        const all = table.flat(2);
        const total = all.reduce((sum, y) => sum + (y - study.mean) ** 2, 0);
        const parts = study.part.ss + study.technician.ss + study.interaction.ss + study.error.ss;
        expect(Math.abs(parts - total)).toBeLessThanOrEqual(1e-8 * (1 + total));
        const { variance: v } = study;
        expect(v.part + v.technician + v.interaction + v.repeatability).toBeCloseTo(v.total, 8);
        expect(study.reading.df).toBeGreaterThanOrEqual(1 - 1e-9);
      }),
    );
  });

  it('turning the sign of every reading, or adding the same to all, changes no spread', () => {
    fc.assert(
      fc.property(anyTable, fc.integer({ min: -20, max: 20 }), (table, shift) => {
        const turned = table.map((row) => row.map((y) => shift - y));
        expect(withinSubject(turned)!.sd).toBeCloseTo(withinSubject(table)!.sd, 8);
      }),
    );
  });

  it('who is first turns the limits of agreement round', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(anyReading, anyReading), { minLength: 2, maxLength: 12 }), (pairs) => {
        const [one, other] = [agreement(pairs)!, agreement(pairs.map(([a, b]) => [b, a]))!];
        expect(other.mean.is).toBeCloseTo(-one.mean.is, 9);
        expect(other.lower.low).toBeCloseTo(-one.upper.high, 9);
        expect(other.upper.is).toBeCloseTo(-one.lower.is, 9);
      }),
    );
  });
});

describe('too few readings', () => {
  it('say nothing', () => {
    expect(withinSubject([[1], [2], []])).toBeNull();
    expect(agreement([[1, 2]])).toBeNull();
    expect(icc([[1, 2]])).toBeNull();
    expect(icc([[1], [2]])).toBeNull();
    expect(icc([[1, 2], [3]])).toBeNull();
    expect(gaugeStudy([])).toBeNull();
    expect(
      gaugeStudy([
        [[1], [2]],
        [[3], [4]],
      ]),
    ).toBeNull();
    expect(
      gaugeStudy([
        [
          [1, 1],
          [2, 2],
        ],
        [[3, 3]],
      ]),
    ).toBeNull();
  });

  it('that are all equal have no correlation and no share', () => {
    // Three tenths have a mean that a float misses by a hair.
    const same = [
      [0.1, 0.1, 0.1],
      [0.1, 0.1, 0.1],
    ];
    expect(withinSubject(same)).toEqual({ sd: 0, df: 4 });
    expect(icc(same)).toBeNull();
    expect(gaugeStudy([same, same])).toMatchObject({
      studyPercent: null,
      distinct: null,
      reading: { sd: 0 },
    });
  });
});

describe('quantiles', () => {
  it('the normal one is the inverse of Φ', () => {
    for (let p = 0.0001; p < 1; p += 0.0101) expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 6);
    expect(normalQuantile(1e-12)).toBeCloseTo(-7.03448, 4);
  });

  it('of many degrees of freedom come to the normal one', () => {
    for (const p of [0.01, 0.2, 0.8, 0.975]) {
      expect(studentQuantile(p, 1e6)).toBeCloseTo(normalQuantile(p), 4);
      const df = 1e5;
      expect((chiSquareQuantile(p, df) - df) / Math.sqrt(2 * df)).toBeCloseTo(normalQuantile(p), 1);
    }
  });

  it('Student’s with one degree is the tangent, with two its closed form', () => {
    for (const p of [0.6, 0.9, 0.975, 0.999]) {
      expect(studentQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5))).toBeCloseTo(1, 8);
      const a = 2 * p - 1;
      expect(studentQuantile(p, 2) / (a * Math.sqrt(2 / (1 - a * a)))).toBeCloseTo(1, 8);
      expect(studentQuantile(1 - p, 2)).toBeCloseTo(-studentQuantile(p, 2), 8);
    }
  });

  it('the chi-square with two degrees is −2·log(1 − p)', () => {
    for (const p of [0.001, 0.025, 0.5, 0.95])
      expect(chiSquareQuantile(p, 2)).toBeCloseTo(-2 * Math.log(1 - p), 9);
  });
});

describe('the interval of a standard deviation', () => {
  it('is wide after few readings and narrows with more', () => {
    const few = sdInterval({ sd: 1.5, df: 10 });
    expect(few.low).toBeCloseTo(1.048, 3);
    expect(few.high).toBeCloseTo(2.632, 3);
    const many = sdInterval({ sd: 1.5, df: 200 });
    expect(many.high - many.low).toBeLessThan(few.high - few.low);
    expect(sdInterval({ sd: 1.5, df: 10 }, 0.8).high).toBeLessThan(few.high);
  });
});
