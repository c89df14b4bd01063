/**
 * Repeatability against published studies, and against a general-purpose library. Each names its source and how sure
 * it is: `read` in the source, `secondary`, `memory` where it was recalled and worked out again.
 */
import { inverse, Matrix } from 'ml-matrix';
import { chiSquaredDistributionTable, errorFunction, mean, sampleVariance } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { gaugeStudy, shopError, toleranceShare } from '../../core/maths/gauge.ts';
import { chiSquareQuantile, studentQuantile } from '../../core/maths/spread-quantile.ts';
import {
  agreement,
  criticalRange,
  icc,
  minimalChange,
  repeatabilityCoefficient,
  standardError,
  withinSubject,
} from '../../core/maths/repeatability.ts';

// prettier-ignore
const WRIGHT = [
  [494, 490], [395, 397], [516, 512], [434, 401], [476, 470], [557, 611], [413, 415], [442, 431], [650, 638],
  [433, 429], [417, 420], [656, 633], [267, 275], [478, 492], [178, 165], [423, 372], [427, 421],
] as const;
// prettier-ignore
const MINI = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

describe('peak flow, 17 people (Bland & Altman, Lancet 1986;327:307–310; data read, results from memory and recomputed)', () => {
  const pairs = WRIGHT.map(([first], i) => [first, MINI[i]!] as const);
  const two = agreement(pairs, 2)!;

  it('mean difference −2.1, SD 38.8, standard error 9.4, CI −22.0 to 17.8', () => {
    expect(two.mean.is).toBeCloseTo(-2.1, 1);
    expect(two.sd).toBeCloseTo(38.8, 1);
    expect(two.sd / Math.sqrt(17)).toBeCloseTo(9.4, 1);
    // The paper rounds t and the standard error before it multiplies.
    expect(Math.abs(two.mean.low - -22.0)).toBeLessThan(0.1);
    expect(Math.abs(two.mean.high - 17.8)).toBeLessThan(0.1);
  });

  it('limits of agreement −79.7 and 75.5 by ±2 SD (unrounded −79.648 and 75.413), −78.097 and 73.862 by ±1.96', () => {
    expect(two.lower.is).toBeCloseTo(-79.648, 3);
    expect(two.upper.is).toBeCloseTo(75.413, 3);
    const exact = agreement(pairs)!;
    expect(exact.lower.is).toBeCloseTo(-78.097, 3);
    expect(exact.upper.is).toBeCloseTo(73.862, 3);
  });

  it('the limits’ own CIs −114.3 to −45.1 and 40.9 to 110.1', () => {
    const printed = [
      two.lower.low - -114.3,
      two.lower.high - -45.1,
      two.upper.low - 40.9,
      two.upper.high - 110.1,
    ];
    for (const off of printed) expect(Math.abs(off)).toBeLessThan(0.2);
  });

  it('two readings with the large meter: within-subject SD 15.307, repeatability 42.428, by twice the SD 43.2 (paper 21.6 about zero)', () => {
    const within = withinSubject(WRIGHT)!;
    expect(within.sd).toBeCloseTo(15.307, 3);
    expect(within.df).toBe(17);
    expect(repeatabilityCoefficient(within.sd)).toBeCloseTo(42.428, 2);
    // SD of the differences about zero is √2·s_w.
    expect(Math.abs(Math.SQRT2 * within.sd - 21.6)).toBeLessThan(0.06);
    expect(Math.abs(2 * Math.SQRT2 * within.sd - 43.2)).toBeLessThan(0.12);
    const repeats = agreement(WRIGHT)!;
    expect(repeats.mean.is).toBeCloseTo(4.9412, 4);
    expect(repeats.sd).toBeCloseTo(21.724, 3);
  });
});

// prettier-ignore
const IMPEDANCE = [
  [[37, 38, 37], [41, 41, 40], [41, 42, 41]], [[42, 41, 43], [42, 42, 42], [43, 42, 43]],
  [[30, 31, 31], [31, 31, 31], [29, 30, 28]], [[42, 43, 42], [43, 43, 43], [42, 42, 42]],
  [[28, 30, 29], [29, 30, 29], [31, 29, 29]], [[42, 42, 43], [45, 45, 45], [44, 46, 45]],
  [[25, 26, 27], [28, 28, 30], [29, 27, 27]], [[40, 40, 40], [43, 42, 42], [43, 43, 41]],
  [[25, 25, 25], [27, 29, 28], [26, 26, 26]], [[35, 34, 34], [35, 35, 34], [35, 34, 35]],
];

describe('thermal impedance, 10 parts × 3 people × 3 (Houf & Burman 1988, as printed in a statistics manual; data read, analysis recomputed, F as remembered from Montgomery)', () => {
  const study = gaugeStudy(IMPEDANCE)!;

  it('sums of squares 3935.956, 39.267, 48.511, 30.667 about a mean of 35.8', () => {
    expect(study.mean).toBeCloseTo(35.8, 9);
    expect(study.part.ss).toBeCloseTo(3935.9556, 3);
    expect(study.technician.ss).toBeCloseTo(39.2667, 3);
    expect(study.interaction.ss).toBeCloseTo(48.5111, 3);
    expect(study.error.ss).toBeCloseTo(30.6667, 3);
    expect([study.part, study.technician, study.interaction, study.error].map((s) => s.df)).toEqual([
      9, 2, 18, 60,
    ]);
    const sources = [study.part, study.technician, study.interaction, study.error];
    expect(sources.reduce((sum, { ss }) => sum + ss, 0)).toBeCloseTo(4054.4, 6);
    const meanSquares = [437.3284, 19.6333, 2.6951, 0.5111];
    sources.forEach(({ ss, df }, i) => expect(ss / df).toBeCloseTo(meanSquares[i]!, 4));
  });

  it('F 162.27, 7.28 and 5.27', () => {
    expect(study.part.f).toBeCloseTo(162.27, 2);
    expect(study.technician.f).toBeCloseTo(7.28, 2);
    expect(study.interaction.f).toBeCloseTo(5.27, 2);
  });

  it('components 48.293, 0.565, 0.728, 0.511; gauge 1.804 of 50.096', () => {
    const { variance } = study;
    expect(variance.part).toBeCloseTo(48.2926, 3);
    expect(variance.technician).toBeCloseTo(0.5646, 3);
    expect(variance.interaction).toBeCloseTo(0.728, 3);
    expect(variance.repeatability).toBeCloseTo(0.5111, 3);
    expect(variance.reproducibility).toBeCloseTo(1.2926, 3);
    expect(variance.gauge).toBeCloseTo(1.8037, 3);
    expect(variance.total).toBeCloseTo(50.0963, 3);
  });

  it('%GRR 18.97, ndc 7.296, six sigma over a tolerance of 40: 0.2015', () => {
    expect(study.studyPercent).toBeCloseTo(18.97, 2);
    expect(study.distinct).toBeCloseTo(7.296, 3);
    expect(toleranceShare(study, 40)).toBeCloseTo(0.2015, 3);
  });

  it('is what least squares on indicator columns leaves (ml-matrix)', () => {
    const cells = IMPEDANCE.flatMap((part, i) =>
      part.flatMap((repeats, j) => repeats.map((y) => ({ i, j, y }))),
    );
    const residual = (columns: (cell: { i: number; j: number }) => number[]) => {
      const design = new Matrix(cells.map((cell) => [1, ...columns(cell)]));
      const seen = Matrix.columnVector(cells.map((cell) => cell.y));
      const normal = inverse(design.transpose().mmul(design)).mmul(design.transpose());
      const off = Matrix.sub(seen, design.mmul(normal.mmul(seen)));
      return off.to1DArray().reduce((sum, e) => sum + e * e, 0);
    };
    const indicator = (n: number, at: number) => Array.from({ length: n - 1 }, (_, k) => (k === at ? 1 : 0));
    const none = residual(() => []);
    const parts = residual(({ i }) => indicator(10, i));
    const both = residual(({ i, j }) => [...indicator(10, i), ...indicator(3, j)]);
    const full = residual(({ i, j }) => indicator(30, 3 * i + j));
    expect(study.part.ss).toBeCloseTo(none - parts, 6);
    expect(study.technician.ss).toBeCloseTo(parts - both, 6);
    expect(study.interaction.ss).toBeCloseTo(both - full, 6);
    expect(study.error.ss).toBeCloseTo(full, 6);
  });

  it('gives a shop’s σ with its own uncertainty, no narrower than the technicians’ two degrees of freedom ask', () => {
    const error = shopError(study);
    expect(error.sd).toBeCloseTo(Math.sqrt(1.8037), 4);
    // (0.6544 + 0.8085 + 0.3407)² / (0.6544²/2 + 0.8085²/18 + 0.3407²/60), by hand
    expect(error.df).toBeCloseTo(12.89, 2);
    expect(error.low).toBeLessThan(error.sd);
    expect(error.high).toBeGreaterThan(error.sd);
  });
});

describe('four judges, six targets (Shrout & Fleiss, Psychol Bull 1979;86:420–428; from memory, recomputed)', () => {
  // prettier-ignore
  const ratings = [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]];

  it('ICC(1,1) .17, ICC(2,1) .29, ICC(3,1) .71', () => {
    const { oneWay, agreement: two, consistency } = icc(ratings)!;
    expect(oneWay).toBeCloseTo(0.17, 2);
    expect(two).toBeCloseTo(0.29, 2);
    expect(consistency).toBeCloseTo(0.71, 2);
  });
});

it('SD 10 and ICC 0.91: SEM 3.0, MDC 8.316 (Weir, J Strength Cond Res 2005;19:231–240; abstract read, formula from memory)', () => {
  expect(standardError(10, 0.91)).toBeCloseTo(3, 9);
  expect(minimalChange(3)).toBeCloseTo(8.316, 3);
  expect(minimalChange(1)).toBeCloseTo(2.7719, 4);
});

describe('a general-purpose library agrees (simple-statistics)', () => {
  it('on a table of chi-square quantiles, to its two digits', () => {
    let seen = 0;
    for (const [df, row] of Object.entries(
      chiSquaredDistributionTable as unknown as Record<string, Record<string, number>>,
    ))
      for (const [tail, printed] of Object.entries(row)) {
        // Its columns are upper tails; a few of the first rows' entries are rounded to nothing.
        expect(Math.abs(chiSquareQuantile(1 - Number(tail), Number(df)) - printed)).toBeLessThan(
          0.006 + 0.001 * printed,
        );
        seen++;
      }
    expect(seen).toBeGreaterThan(300);
  });

  it('on the variance of repeats', () => {
    const repeats = [8.5, 9, 10.5, 9.5, 9];
    expect(withinSubject([repeats])!.sd ** 2).toBeCloseTo(sampleVariance(repeats), 12);
    const rows = [repeats, [2, 4, 3, 3, 1]];
    expect(withinSubject(rows)!.sd ** 2).toBeCloseTo(mean(rows.map((row) => sampleVariance(row))), 12);
  });
});

describe('Student’s t (printed tables, memory, well known)', () => {
  it.each([
    [1, 0.975, 12.706],
    [5, 0.975, 2.571],
    [16, 0.975, 2.12],
    [30, 0.95, 1.697],
    [120, 0.975, 1.98],
  ])('%d degrees of freedom, %d: %d', (df, p, t) => {
    expect(studentQuantile(p, df)).toBeCloseTo(t, 3);
  });
});

describe('the range of n readings (ISO 5725-6:1994, table 1, from memory, and worked out again here)', () => {
  // P(range of n ≤ w) = n ∫ φ(z)·[Φ(z + w) − Φ(z)]ⁿ⁻¹ dz, the least of them at z. H. L. Harter, Ann Math Stat 1960;31:1122,
  // has the 95 % points 2.772, 3.314, 3.633, 3.858, 4.030, 4.170, 4.286, 4.387, 4.474; from memory.
  const POINTS = [2.772, 3.314, 3.633, 3.858, 4.03, 4.17, 4.286, 4.387, 4.474];
  const STEP = 0.005;
  const below = (z: number) => (1 + errorFunction(z / Math.SQRT2)) / 2;
  const atMost = (w: number, n: number): number => {
    let sum = 0;
    for (let z = -9; z < 9; z += STEP) sum += Math.exp((-z * z) / 2) * (below(z + w) - below(z)) ** (n - 1);
    return (n * sum * STEP) / Math.sqrt(2 * Math.PI);
  };

  it.each(POINTS.map((point, i) => ({ n: i + 2, point })))(
    '$n readings: $point, and to a tenth what is used',
    ({ n, point }) => {
      expect(atMost(point, n)).toBeCloseTo(0.95, 3);
      expect(criticalRange(n)).toBe(Math.round(point * 10) / 10);
    },
  );

  it('two readings: the repeatability coefficient', () => {
    expect(criticalRange(2)).toBeCloseTo(repeatabilityCoefficient(1), 1);
  });
});
