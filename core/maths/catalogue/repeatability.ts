/** Calculations of core/maths/repeatability and gauge: how far a reading can be trusted. */
import { z } from 'zod';
import { numberIn } from '../../bounds.ts';
import { gaugeStudy, shopError, toleranceShare } from '../gauge.ts';
import {
  agreement,
  criticalRange,
  icc,
  minimalChange,
  repeatabilityCoefficient,
  sdInterval,
  standardError,
  withinSubject,
} from '../repeatability.ts';
import { calculation } from './entry.ts';
import type { Calculations, Given } from './entry.ts';
import { anyReading, level, unitIn } from './fields.ts';

const object = z.strictObject;
const READ = 'as read';

const rows = z.array(z.array(anyReading).max(100)).max(1000).describe('for each thing its readings');
const sd = unitIn(0, 10_000, READ);
const df = unitIn(1, 1e6, 'degrees of freedom');

const estimated = (path: string, means: string): Readonly<Record<string, Given>> => ({
  [`${path}.is`]: [READ, means],
  [`${path}.low`]: [READ, 'its confidence interval'],
  [`${path}.high`]: [READ, 'its confidence interval'],
});

const within = (): Calculations => ({
  withinSubject: calculation({
    means: 'Standard deviation of repeated readings of one thing',
    input: object({ rows }),
    gives: { sd: [READ, ''], df: ['1', 'degrees of freedom it rests on'] },
    formula: 's_w = √(Σ squares about each row’s mean / df); null without repeats',
    source: 'Bland & Altman, Measurement error, BMJ 1996;313:744',
    example: {
      input: {
        rows: [
          [10, 12],
          [7, 7],
          [9, 8],
        ],
      },
      output: { sd: 0.913, df: 3 },
    },
    run: (is) => withinSubject(is.rows),
  }),
  repeatabilityCoefficient: calculation({
    means: 'What two readings of one thing differ by less than in 95 % of cases',
    input: object({ withinSd: sd }),
    gives: { coefficient: [READ, ''] },
    formula: '1.96·√2·s_w',
    source: 'Bland & Altman, BMJ 1996;313:744',
    example: { input: { withinSd: 1.5 }, output: { coefficient: 4.158 } },
    run: (is) => ({ coefficient: repeatabilityCoefficient(is.withinSd) }),
  }),
  criticalRange: calculation({
    means: 'How many standard deviations readings of one thing lie apart at most, in 95 % of cases',
    input: object({ readings: z.int().min(2).max(10).describe('of one thing') }),
    gives: { range: ['1', 'from the least to the greatest'] },
    formula: 'f(n), the 95 % quantile of the range of n normal values, to a tenth',
    source: 'ISO 5725-6:1994, table 1; from memory, worked out again',
    example: { input: { readings: 3 }, output: { range: 3.3 } },
    run: (is) => ({ range: criticalRange(is.readings) }),
  }),
  sdInterval: calculation({
    means: 'What a standard deviation may truly be',
    input: object({ sd, df, level }),
    gives: { low: [READ, ''], high: [READ, ''] },
    formula: 's·√(ν/χ²)',
    source: 'chi-square distribution of a sample variance, exact for normal errors',
    example: { input: { sd: 1.5, df: 10 }, output: { low: 1.048, high: 2.632 } },
    run: (is) => sdInterval(is, is.level),
  }),
  standardError: calculation({
    means: 'Standard error of measurement from a spread and an intraclass correlation',
    input: object({ sd, icc: numberIn(-1, 1) }),
    gives: { sem: [READ, ''] },
    formula: 'SD·√(1 − ICC)',
    source: 'Weir, J Strength Cond Res 2005;19:231–240',
    example: { input: { sd: 10, icc: 0.91 }, output: { sem: 3 } },
    run: (is) => ({ sem: standardError(is.sd, is.icc) }),
  }),
  minimalChange: calculation({
    means: 'Least change that is no chance, at 95 %',
    input: object({ sem: sd }),
    gives: { change: [READ, ''] },
    formula: 'SEM·1.96·√2',
    source: 'Weir, J Strength Cond Res 2005;19:231–240',
    example: { input: { sem: 3 }, output: { change: 8.316 } },
    run: (is) => ({ change: minimalChange(is.sem) }),
  }),
});

const between = (): Calculations => ({
  icc: calculation({
    means: 'Intraclass correlations of single readings',
    input: object({ rows }),
    gives: {
      oneWay: ['1', 'ICC(1,1)'],
      agreement: ['1', 'ICC(2,1), absolute agreement'],
      consistency: ['1', 'ICC(3,1); null where only the columns vary'],
    },
    formula: 'mean squares of a one-way and a two-way analysis; null for under 2 × 2, gaps, or all alike',
    source: 'Shrout & Fleiss, Psychol Bull 1979;86:420–428',
    example: {
      // Table 2 of the source: six targets, four judges.
      input: {
        rows: [
          [9, 2, 5, 8],
          [6, 1, 3, 2],
          [8, 4, 6, 8],
          [7, 1, 2, 6],
          [10, 5, 6, 9],
          [6, 2, 4, 7],
        ],
      },
      output: { oneWay: 0.166, agreement: 0.29, consistency: 0.715 },
    },
    run: (is) => icc(is.rows),
  }),
  agreement: calculation({
    means: 'Limits of agreement between two technicians who read the same things',
    input: object({
      pairs: z.array(object({ first: anyReading, second: anyReading })).max(1000),
      times: numberIn(1, 4).default(1.96),
      level,
    }),
    gives: {
      pairs: ['1', 'how many'],
      ...estimated('mean', 'how much higher the first reads'),
      sd: [READ, 'of the differences'],
      ...estimated('lower', 'lower limit'),
      ...estimated('upper', 'upper limit'),
    },
    formula: 'mean ± times·s; standard errors s/√n and √(3·s²/n); null under two pairs',
    source: 'Bland & Altman, Lancet 1986;327:307–310; 1.96 since their 1999 paper',
    example: {
      input: {
        pairs: [
          { first: 10, second: 9 },
          { first: 8, second: 8 },
          { first: 12, second: 10 },
          { first: 7, second: 8 },
        ],
      },
      output: {
        pairs: 4,
        mean: { is: 0.5, low: -1.554, high: 2.554 },
        sd: 1.291,
        lower: { is: -2.03, low: -5.588, high: 1.528 },
        upper: { is: 3.03, low: -0.528, high: 6.588 },
      },
    },
    run: (is) =>
      agreement(
        is.pairs.map(({ first, second }) => [first, second] as const),
        is.times,
        is.level,
      ),
  }),
});

export const repeatabilityCalculations = (): Calculations => ({ ...within(), ...between() });

const table = z
  .array(z.array(z.array(anyReading).max(20)).max(20))
  .max(100)
  .describe('parts × technicians × repeats');
/** Three boots on a dummy leg, two technicians, two readings each. */
const TABLE = [
  [
    [6, 7],
    [9, 7],
  ],
  [
    [1, 2],
    [2, 3],
  ],
  [
    [-4, -3],
    [-2, -3],
  ],
];
const MONTGOMERY =
  'Montgomery, Design and Analysis of Experiments, two-factor random model; names as in the AIAG’s Measurement Systems Analysis, 4th ed. [secondary]';
const NO_STUDY = 'null: gaps in the table, or under two of anything';

export const gaugeCalculations = (): Calculations => ({
  gaugeStudy: calculation({
    means: 'A crossed gauge study: what the readings vary by',
    input: object({ table }),
    gives: {
      mean: [READ, ''],
      part: ['', 'ss, df, ms, f of the parts'],
      technician: ['', 'the same of the technicians'],
      interaction: ['', 'the same of how a technician takes a part'],
      error: ['', 'the same of repeats; f null'],
      variance: [`${READ}²`, 'its components'],
      studyPercent: ['%', 'of the total deviation; null when nothing varies'],
      readingShare: ['1', 'of the total variance'],
      distinct: ['1', 'classes told apart; null without reading error'],
      'reading.sd': [READ, 'of one reading by any technician'],
      'reading.df': ['1', 'its degrees of freedom'],
    },
    formula: `two-way analysis of variance with random effects; ${NO_STUDY}`,
    source: MONTGOMERY,
    example: {
      input: { table: TABLE },
      output: {
        mean: 2.083,
        part: { ss: 210.167, df: 2, ms: 105.083, f: 1261 },
        technician: { ss: 4.083, df: 1, ms: 4.083, f: 49 },
        interaction: { ss: 0.167, df: 2, ms: 0.083, f: 0.111 },
        error: { ss: 4.5, df: 6, ms: 0.75, f: null },
        variance: {
          part: 26.25,
          technician: 0.667,
          interaction: 0,
          repeatability: 0.75,
          reproducibility: 0.667,
          gauge: 1.417,
          total: 27.667,
        },
        studyPercent: 22.628,
        readingShare: 0.051,
        distinct: 6.069,
        reading: { sd: 1.19, df: 2.41 },
      },
    },
    run: (is) => gaugeStudy(is.table),
  }),
  toleranceShare: calculation({
    means: 'How much of a tolerance the reading takes',
    input: object({ table, tolerance: unitIn(0.01, 10_000, READ) }),
    gives: { share: ['1', ''] },
    formula: `6·s/tolerance; ${NO_STUDY}`,
    source: MONTGOMERY,
    example: { input: { table: TABLE, tolerance: 6 }, output: { share: 1.19 } },
    run: (is) => {
      const study = gaugeStudy(is.table);
      return study && { share: toleranceShare(study, is.tolerance) };
    },
  }),
  shopError: calculation({
    means: 'A shop’s error of one reading by any of its technicians, and what it may truly be',
    input: object({ table, level }),
    gives: {
      sd: [READ, ''],
      df: ['1', 'by Satterthwaite'],
      low: [READ, 'of its interval'],
      high: [READ, 'of its interval'],
    },
    formula: `√(repeatability + technician + interaction); s·√(ν/χ²); ${NO_STUDY}`,
    source: `${MONTGOMERY}; Satterthwaite, Biometrics Bull 1946;2:110–114`,
    example: { input: { table: TABLE }, output: { sd: 1.19, df: 2.41, low: 0.645, high: 5.726 } },
    run: (is) => {
      const study = gaugeStudy(is.table);
      return study && shopError(study, is.level);
    },
  }),
});
