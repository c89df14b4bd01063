/** Boots that would reach a leg. Expected numbers are worked by hand from the formulas beside them. */
import { describe, expect, it } from 'vitest';
import { legOf, plan, reach } from '../../core/index.ts';
import type { BootModel, KnownLeg, Side } from '../../core/index.ts';
import { DUAL, FIXED, SINGLE, Story, story, withMarks } from '../helpers/facts.ts';

const RAD = Math.PI / 180;
const sin = (degrees: number) => Math.sin(degrees * RAD);
const asin = (ratio: number) => Math.asin(ratio) / RAD;

function known(s: Story, side: Side = 'left'): KnownLeg {
  const leg = legOf(s.facts, side);
  if (leg.is !== 'known') throw new Error(leg.because);
  return leg;
}

const model = (name: string, hardware: object, k?: number): BootModel =>
  ({ model: name, hardware, ...(k && { response: { k, sd: 0.1 } }) }) as unknown as BootModel;

/** Upright at neutral, 80 mm between the pivots, one of them with this much travel either way. */
const upright = (travelMm: number, more: object = {}) => ({
  pivots: 'single',
  pivotSpacingMm: 80,
  readingHeightMm: 150,
  factoryLeanDeg: 0,
  travel: { lateral: { upMm: travelMm, downMm: travelMm } },
  ...more,
});

/** 12 mm medial and 6 lateral at neutral: m = 3, 160 mm up under a factory lean of 1°. */
function read(medialMm = 12, lateralMm = 6, more: object = {}): Story {
  const s = story();
  s.read('left', medialMm, lateralMm, more);
  return s;
}

describe('the leg in the shell’s frame', () => {
  it('[RCH-1] stands m beside the cuff’s centre at neutral', () => {
    const leg = known(read());
    const x = 160 * sin(1) + 3; // 5.792
    expect(leg.line.offsetMm).toBe(0);
    expect(leg.line.angleDeg).toBeCloseTo(Math.atan(x / 160) / RAD, 9);
    expect(leg.line.angleDeg).toBeCloseTo(2.073, 3);
    // m is half a bias, whose error is σ√2.
    expect(leg.sdMm).toBeCloseTo(1.5 / Math.SQRT2, 9);
    expect(leg).toMatchObject({ bound: 'exact', through: 'centre', facts: ['f13'] });
  });

  it('[RCH-1] is the same leg at another setting of the cuff', () => {
    const s = story();
    s.set('left', -2, 1);
    // The cuff's centre went out by 160·(sin(1° + asin(3/84)) − sin 1°), so a leg of m = 3 shows so much less.
    const out = 160 * (sin(1 + asin(3 / 84)) - sin(1));
    s.read('left', 9 + (3 - out), 9 - (3 - out));
    expect(known(s).line.angleDeg).toBeCloseTo(known(read()).line.angleDeg, 6);
  });

  it('[RCH-1] is still known after a move, before anybody reads again', () => {
    const s = read();
    s.set('left', -1, 1);
    expect(plan(s.facts).sides.left.cuff.reading).toBeNull();
    expect(known(s).line).toEqual(known(read()).line);
  });

  it('[RCH-1] is unknown, with the reason', () => {
    const because = (s: Story) => {
      const leg = legOf(s.facts, 'left');
      return leg.is === 'unknown' ? leg.because : 'known';
    };
    expect(because(new Story().open())).toContain('Describe the left boot');
    expect(because(story())).toContain('No reading');
    const { factoryLeanDeg: _, ...unsure } = DUAL;
    const s = story(unsure as typeof DUAL);
    s.read('left', 12, 6);
    expect(because(s)).toContain('factory lean');
    const narrow = story();
    narrow.read('left', 0, 0, { contact: 'both', pressure: 'press' });
    expect(because(narrow)).toContain('presses on both sides');
    const spoiled = read();
    spoiled.add('inside.set', { side: 'left', heelLiftMm: 3 });
    expect(because(spoiled)).toContain('No reading');
    const loose = read();
    const basis = loose.facts.map(({ id }) => id);
    for (const lateral of [-1, -2]) loose.set('left', lateral, 0, { basis });
    expect(because(loose)).toContain('disagree');
  });

  it('[RCH-2] two heights say where it crosses the pivot line', () => {
    // m = 3 at 160 mm and 2 at 80 mm: 1 mm at the pivot line.
    const leg = known(read(12, 6, { lower: { medialMm: 11, lateralMm: 7, heightMm: 80, contact: 'none' } }));
    expect(leg.through).toBe('two-heights');
    expect(leg.line.offsetMm).toBeCloseTo(1, 9);
    expect(leg.line.angleDeg).toBeCloseTo(Math.atan((160 * sin(1) + 2) / 160) / RAD, 9);
  });

  it('[RCH-2] a leg known from other boots says it where one height was read', () => {
    const s = story();
    s.add(
      'leg.known',
      { side: 'left', mLegMm: 3, sdMm: 5, line: { offsetMm: -2, angleDeg: 2 } },
      { role: 'server' },
    );
    s.read('left', 12, 6);
    const leg = known(s);
    expect(leg).toMatchObject({ through: 'known-leg', line: { offsetMm: -2 } });
    expect(leg.line.angleDeg).toBeCloseTo(Math.atan((160 * sin(1) + 3 + 2) / 160) / RAD, 9);
  });

  it('[RCH-6] a press is carried as a bound', () => {
    const s = story();
    s.read('left', 10, 0, { contact: 'lateral', pressure: 'press' });
    const leg = known(s);
    expect(leg).toMatchObject({ bound: 'at-least', sdMm: null });
    expect(leg.line.angleDeg).toBeCloseTo(Math.atan((160 * sin(1) + 5) / 160) / RAD, 9);
    const medial = story();
    medial.read('left', 0, 10, { contact: 'medial', pressure: 'press' });
    expect(known(medial).bound).toBe('at-most');
    expect(reach(known(medial), [model('a', upright(3))])).toMatchObject([{ bound: 'at-most' }]);
  });
});

describe('other boots', () => {
  it('[RCH-3] a lean inside the travel, and what is to spare', () => {
    const [a] = reach(known(read()), [model('a', upright(3))]);
    // m = 150·5.792/160 = 5.430; lean* = asin(m/150); the travel ends at asin(3/80).
    const wanted = asin((160 * sin(1) + 3) / 160);
    expect(a).toMatchObject({ model: 'a', reachable: true, residualMm: null, bound: 'exact' });
    expect(a!.leanDeg).toBeCloseTo(wanted, 9);
    expect(a!.leanDeg).toBeCloseTo(2.0747, 4);
    expect(a!.spareDeg).toBeCloseTo(asin(3 / 80) - wanted, 9);
    expect(a!.spareDeg).toBeCloseTo(0.0744, 4);
    // Outward on one lateral pivot is down: s* = 80·sin lean*.
    expect(a!.target).toMatchObject({
      medialMm: 0,
      lateralMm: expect.closeTo(-80 * sin(wanted), 9) as number,
    });
    expect(a!.biasMm).toBeCloseTo(0, 9);
  });

  it('[RCH-3] out of reach: the lean that is missing, and the bias left over', () => {
    const [a] = reach(known(read()), [model('a', upright(2))]);
    const wanted = asin((160 * sin(1) + 3) / 160);
    const m = (150 * (160 * sin(1) + 3)) / 160;
    expect(a).toMatchObject({ reachable: false, target: { medialMm: 0, lateralMm: -2 } });
    expect(a!.spareDeg).toBeCloseTo(asin(2 / 80) - wanted, 9);
    expect(a!.spareDeg).toBeLessThan(0);
    // 150·2/80 = 3.75 mm of 5.430 are made: twice the rest is left.
    expect(a!.residualMm).toBeCloseTo(2 * (m - 3.75), 9);
    expect(a!.biasMm).toBeCloseTo(2 * (m - 3.75), 9);
  });

  it('[RCH-3] marks leave a bias where the lean is reached', () => {
    const [a] = reach(known(read()), [model('a', upright(3, { markMm: 2 }))]);
    const m = (150 * (160 * sin(1) + 3)) / 160;
    expect(a).toMatchObject({ reachable: true, residualMm: null, target: { lateralMm: -2 } });
    expect(a!.biasMm).toBeCloseTo(2 * (m - 3.75), 9);
  });

  it('[RCH-3] a boot that answers a move by half needs twice the move', () => {
    const [a] = reach(known(read()), [model('a', upright(9), 0.5)]);
    expect(a!.leanDeg).toBeCloseTo(asin((2 * (160 * sin(1) + 3)) / 160), 9);
  });

  it('[RCH-3] a fixed cuff fits one lean only', () => {
    const [a] = reach(known(read()), [model('a', { ...FIXED, factoryLeanDeg: 2 })]);
    const m = (150 * (160 * sin(1) + 3)) / 160 - 150 * sin(2);
    expect(a!.reachable).toBe(false);
    expect(a!.residualMm).toBeCloseTo(2 * m, 9);
    expect(a!.target).toEqual({ medialMm: 0, lateralMm: 0 });
  });

  it.each([
    ['single readings', [[14, 5]]],
    [
      'repeats',
      [
        [14, 5],
        [13, 5],
      ],
    ],
    ['a leg beyond the travel', [[30, 2]]],
    ['a leg the other way', [[4, 13]]],
  ] as const)('[RCH-4] the own boot asks for what the plan says: %s', (_, gaps) => {
    for (const hardware of [DUAL, withMarks(DUAL, 1), SINGLE, withMarks(SINGLE, 1.5)]) {
      const s = story(hardware);
      for (const [medial, lateral] of gaps) s.read('left', medial, lateral);
      const { cuff } = plan(s.facts).sides.left;
      const [own] = reach(known(s), [model('own', hardware)]);
      expect(own!.leanDeg).toBeCloseTo(cuff.leanDeg! + cuff.correctionDeg!, 9);
      expect(own!.target!.lateralMm).toBeCloseTo(cuff.target!.lateralMm, 9);
      expect(own!.target!.medialMm).toBeCloseTo(cuff.target!.medialMm, 9);
      expect(own!.biasMm).toBeCloseTo(cuff.predicted!.medialMm - cuff.predicted!.lateralMm, 9);
      expect(own!.reachable).toBe(cuff.shortBy === null);
      if (cuff.shortBy) {
        expect(own!.spareDeg).toBeCloseTo(-Math.abs(cuff.shortBy.leanDeg), 9);
        expect(own!.residualMm).toBeCloseTo(cuff.shortBy.biasMm, 9);
      }
    }
  });

  it('[RCH-4] also from readings at several settings, with the response they taught', () => {
    const s = story(DUAL);
    s.read('left', 16, 4);
    s.set('left', -1.5, 1);
    s.read('left', 12, 8);
    const { cuff } = plan(s.facts).sides.left;
    const [own] = reach(known(s), [model('own', DUAL, cuff.response.k)]);
    expect(cuff.response.k).not.toBe(1);
    expect(own!.leanDeg).toBeCloseTo(cuff.leanDeg! + cuff.correctionDeg!, 9);
  });

  it('[RCH-5] most to spare first, and equal ones in the catalogue’s order', () => {
    const leg = known(read());
    const names = reach(leg, [
      model('short', upright(2)),
      model('long', upright(6)),
      model('twin', upright(6)),
      model('middle', upright(4)),
    ]).map((one) => one.model);
    expect(names).toEqual(['long', 'twin', 'middle', 'short']);
    expect(reach(leg, [])).toEqual([]);
  });

  it('[RCH-5] more travel is never less to spare, and a leg further out never asks for less lean', () => {
    const spare = (mm: number) => reach(known(read()), [model('a', upright(mm))])[0]!.spareDeg;
    for (let mm = 0; mm < 8; mm += 0.5) expect(spare(mm + 0.5)).toBeGreaterThanOrEqual(spare(mm));
    const wanted = (bias: number) => reach(known(read(9 + bias, 9)), [model('a', upright(3))])[0]!.leanDeg;
    for (let bias = -9; bias < 20; bias++) expect(wanted(bias + 1)).toBeGreaterThan(wanted(bias));
  });

  it('[RCH-5] left and right are alike, and a leg turned over asks for the lean turned over', () => {
    const right = story();
    right.read('right', 12, 6);
    const models = [model('a', upright(2)), model('b', upright(6))];
    expect(reach(known(right, 'right'), models)).toEqual(reach(known(read()), models));
    const level = { ...DUAL, factoryLeanDeg: 0 } as typeof DUAL;
    const lean = (medial: number, lateral: number) => {
      const s = story(level);
      s.read('left', medial, lateral);
      return reach(known(s), [model('a', upright(2))])[0]!;
    };
    const [out, inward] = [lean(13, 6), lean(6, 13)];
    expect(inward.leanDeg).toBeCloseTo(-out.leanDeg, 9);
    expect(inward.spareDeg).toBeCloseTo(out.spareDeg, 9);
    expect(inward.residualMm).toBeCloseTo(-out.residualMm!, 9);
  });
});
