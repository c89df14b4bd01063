/** A shop's repeatability study: its order, and its result against published studies and a general-purpose library. */
import fc from 'fast-check';
import { mean, sampleVariance } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { resultOf, sigmaOf, studyTable, turnsIn } from '../../core/guide/study.ts';
import { studyOrder, studyResult } from '../../core/maths/study.ts';
import { StudyShape } from '../../core/record/study-shape.ts';
import type { Study } from '../../core/record/study.ts';

const size = fc.record({
  subjects: fc.integer({ min: 2, max: 12 }),
  technicians: fc.integer({ min: 1, max: 2 }),
  repeats: fc.integer({ min: 2, max: 4 }),
});
const seed = fc.integer({ min: 0, max: 2 ** 32 - 1 });

describe('the order of a study', () => {
  it('[STU-1] takes each subject by each technician once a round, never one twice in a row', () => {
    fc.assert(
      fc.property(size, seed, (of, by) => {
        const turns = studyOrder(of, by);
        const { subjects, technicians, repeats } = of;
        expect(turns).toHaveLength(subjects * technicians * repeats);
        expect(new Set(turns.map((turn) => JSON.stringify(turn))).size).toBe(turns.length);
        turns.forEach(({ repeat }, i) => expect(repeat).toBe(Math.floor(i / (subjects * technicians))));
        for (let i = 1; i < turns.length; i++) expect(turns[i]!.subject).not.toBe(turns[i - 1]!.subject);
        expect(studyOrder(of, by)).toEqual(turns);
      }),
    );
  });

  it('[STU-1] is another one for another seed, and comes to each place alike', () => {
    const first = Array.from(
      { length: 600 },
      (_, i) => studyOrder({ subjects: 6, technicians: 1, repeats: 2 }, i)[0]!.subject,
    );
    // 100 expected at each of six subjects; 60 to 140 is over four standard deviations.
    for (let subject = 0; subject < 6; subject++) {
      const count = first.filter((each) => each === subject).length;
      expect(count).toBeGreaterThan(60);
      expect(count).toBeLessThan(140);
    }
  });
});

// prettier-ignore
const WRIGHT = [
  [494, 490], [395, 397], [516, 512], [434, 401], [476, 470], [557, 611], [413, 415], [442, 431], [650, 638],
  [433, 429], [417, 420], [656, 633], [267, 275], [478, 492], [178, 165], [423, 372], [427, 421],
];
// prettier-ignore
const IMPEDANCE = [
  [[37, 38, 37], [41, 41, 40], [41, 42, 41]], [[42, 41, 43], [42, 42, 42], [43, 42, 43]],
  [[30, 31, 31], [31, 31, 31], [29, 30, 28]], [[42, 43, 42], [43, 43, 43], [42, 42, 42]],
  [[28, 30, 29], [29, 30, 29], [31, 29, 29]], [[42, 42, 43], [45, 45, 45], [44, 46, 45]],
  [[25, 26, 27], [28, 28, 30], [29, 27, 27]], [[40, 40, 40], [43, 42, 42], [43, 43, 41]],
  [[25, 25, 25], [27, 29, 28], [26, 26, 26]], [[35, 34, 34], [35, 35, 34], [35, 34, 35]],
];

describe('the result of a study', () => {
  it('[STU-2] of one technician is Bland and Altman’s (Lancet 1986, the large meter twice): 15.307 and 42.428', () => {
    const result = studyResult(WRIGHT.map((row) => [row]))!;
    expect(result.within.sd).toBeCloseTo(15.307, 3);
    expect(result.within.df).toBe(17);
    expect(result.repeatability).toBeCloseTo(42.428, 2);
    expect(result.reading).toEqual(result.within);
    expect(result.agreement!.mean.is).toBeCloseTo(4.9412, 4);
    expect(result.agreement!.sd).toBeCloseTo(21.724, 3);
    expect(result.gauge).toBeNull();
    // The library's mean of variances, and the closed form for pairs, √(Σd²/2n).
    expect(result.within.sd ** 2).toBeCloseTo(mean(WRIGHT.map((row) => sampleVariance(row))), 9);
    const squares = WRIGHT.reduce((sum, [a, b]) => sum + (a! - b!) ** 2, 0);
    expect(result.within.sd).toBeCloseTo(Math.sqrt(squares / (2 * WRIGHT.length)), 9);
    // ICC(1,1) = between over total, by hand from the same mean squares.
    const between = sampleVariance(WRIGHT.map((row) => mean(row)));
    const part = between - result.within.sd ** 2 / 2;
    expect(result.variance.part).toBeCloseTo(part, 6);
    expect(result.icc).toBeCloseTo(part / (part + result.within.sd ** 2), 6);
  });

  it('[STU-2] of several is that of the thermal impedance study: gauge 1.8037 of 50.0963', () => {
    const result = studyResult(IMPEDANCE)!;
    expect(result.reading.sd ** 2).toBeCloseTo(1.8037, 3);
    expect(result.within.sd ** 2).toBeCloseTo(0.5111, 3);
    expect(result.icc).toBeCloseTo(1 - 1.8037 / 50.0963, 4);
    expect(result.reading.low).toBeLessThan(result.reading.sd);
    expect(result.reading.high).toBeGreaterThan(result.reading.sd);
  });

  it('[STU-2] does not hang on the order in which it was taken', () => {
    const values = (subject: number, technician: number, repeat: number) => [
      8 + subject + 0.5 * technician + 0.3 * ((subject * 7 + technician * 3 + repeat * 5) % 4),
      11 - subject + 0.4 * ((subject * 5 + technician + repeat * 3) % 5),
    ];
    const of = (by: number) => {
      const empty: Study = {
        of: 'gap',
        seed: by,
        technicians: ['A', 'B'],
        subjects: 5,
        repeats: 3,
        startedAt: '2026-01-09T09:12:00+01:00',
        readings: [],
      };
      const readings = turnsIn(empty).map(({ subject, technician, repeat }) =>
        values(subject, technician, repeat),
      );
      expect(resultOf({ ...empty, readings: readings.slice(1) })).toBeNull();
      return { ...empty, readings };
    };
    const [one, other] = [of(1), of(2)];
    expect(turnsIn(one)).not.toEqual(turnsIn(other));
    expect(resultOf(one)!.within.sd).toBeCloseTo(resultOf(other)!.within.sd, 12);
    expect(resultOf(one)!.reading.sd).toBeCloseTo(resultOf(other)!.reading.sd, 12);
    expect(sigmaOf(resultOf(one)!)).toBe(sigmaOf(resultOf(other)!));
    // Ten things (two gaps of five), two technicians, three times: 40 within; a stand counts once.
    expect(resultOf(one)!.within.df).toBe(20);
    expect(studyTable(one)).toHaveLength(31);
    expect(studyTable(one)[0]).toEqual([
      'turn',
      'technician',
      'subject',
      'repeat',
      'medial mm',
      'lateral mm',
    ]);
  });

  it('is none of what has gaps, or too little', () => {
    expect(studyResult([[[1, 2]]])).toBeNull();
    expect(studyResult([[[1]], [[2]]])).toBeNull();
    expect(studyResult([[[1, 2]], [[3]]])).toBeNull();
    const result = studyResult([[[3, 3]], [[3, 3]]])!;
    expect([result.within.sd, result.icc]).toEqual([0, null]);
  });
});

it('what is sent of a study has bounds, and technicians that differ', () => {
  const whole = {
    of: 'gap',
    seed: 7,
    technicians: ['A', 'B'],
    subjects: 2,
    repeats: 2,
    startedAt: '2026-01-09T09:12:00+01:00',
    readings: [[8, 12]],
  };
  expect(StudyShape.safeParse(whole).success).toBe(true);
  for (const wrong of [
    { technicians: ['A', 'A'] },
    { technicians: [] },
    { subjects: 21 },
    { seed: 2 ** 32 },
    { readings: [[8]] },
    { readings: [[8, 61]] },
    { readings: Array.from({ length: 9 }, () => [8, 12]) },
    { name: 'someone' },
  ])
    expect(StudyShape.safeParse({ ...whole, ...wrong }).success, JSON.stringify(wrong)).toBe(false);
});
