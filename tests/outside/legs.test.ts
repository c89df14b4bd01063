/**
 * Simulated legs, drawn from public statistics of human ones, read in a boot over one to three rounds: does each
 * 90 % interval hold the truth as often as it says?
 *
 * Assumed, beside the figures in anthropometry.ts:
 * - the pivots stand at the ankle's outer knob, and gaps are read at 0.36 to 0.44 of the shank above it, where the calf
 *   begins to be widest: about 160 mm;
 * - the shin leans outward by half the angle of femur and tibia, and passes the pivot line within 3 mm of its middle;
 * - where it says so, the gaps come to 10 mm in all, and a leg that would need more on one side presses there;
 * - the boot's response is spread as the settings say of boots nobody knows, 1 ± 0.2; a gap is read with an error of
 *   1.5 mm, a knee with one of 5 mm, both normal and independent;
 * - the knee moves with a cant as the settings' prior says, 0.75 ± 0.35 of the rigid leg.
 *
 * The room for chance is three binomial deviations. `FIBULA_SEED` draws other legs.
 */
import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, deg, mm, plan, sinDeg } from '../../core/index.ts';
import type { HardwareNow, Pair } from '../../core/index.ts';
import { correct, shift } from '../../core/maths/cuff.ts';
import { estimate } from '../../core/maths/estimate.ts';
import type { Observation } from '../../core/maths/estimate.ts';
import { lean, marks } from '../../core/maths/hardware.ts';
import { cantFor, cantRange, kneeLine, placeVariance, slopePrior } from '../../core/maths/stance.ts';
import type { StanceReading } from '../../core/maths/stance.ts';
import { START } from '../properties/check.ts';
import { story } from '../properties/story.ts';
import { BODIES } from './anthropometry.ts';
import { randomFrom } from './random.ts';
import type { Random } from './random.ts';

const Z90 = 1.6448536269514722;
const GAP_ERROR = DEFAULT_SETTINGS.gapErrorMm;
const AT_REST: Pair = { medialMm: mm(0), lateralMm: mm(0) };

interface Leg {
  readonly hardware: HardwareNow;
  readonly kneeHeightMm: number;
  /** Where it stands lateral of the cuff's centre at neutral, at the reading height. */
  readonly placeMm: number;
  readonly response: number;
}

function drawn(random: Random): Leg {
  const body = BODIES[random.uniform() < 0.5 ? 'men' : 'women'];
  const [one, other] = [random.normal(0, 1), random.normal(0, 1)];
  const shank = body.shankMm.mean + body.shankMm.sd * one;
  const knee = body.together * one + Math.sqrt(1 - body.together ** 2) * other;
  const height = shank * random.between(0.36, 0.44);
  const factory = deg(random.between(0, 2));
  const leans = random.normal(body.femurTibiaDeg.mean, body.femurTibiaDeg.sd) / 2;
  const reach = { minMm: mm(-5), maxMm: mm(5), stops: marks(mm(-5), mm(5), mm(0.5)) };
  return {
    hardware: {
      pivots: 'dual',
      pivotSpacingMm: mm(random.between(78, 92)),
      readingHeightMm: mm(height),
      factoryLeanDeg: factory,
      lateral: reach,
      medial: reach,
      markMm: mm(0.5),
    },
    kneeHeightMm: body.kneeHeightMm.mean + body.kneeHeightMm.sd * knee,
    placeMm: random.between(-3, 3) + height * (sinDeg(deg(leans)) - sinDeg(factory)),
    response: random.normal(1, DEFAULT_SETTINGS.responsePriorSd),
  };
}

const biasAt = (leg: Leg, set: Pair): number => 2 * (leg.placeMm - leg.response * shift(leg.hardware, set));

/** The share that held, against what was said; the legs come again with the printed number. */
function expectShare(held: number, of: number, said = 0.9, slack = 0): void {
  const room = 3 * Math.sqrt((said * (1 - said)) / of) + slack;
  expect(
    Math.abs(held / of - said),
    `${held} of ${of} held, ${said} said; FIBULA_SEED=${START} draws them again`,
  ).toBeLessThan(room);
}

const PRIOR = { response: { k: 1, sd: DEFAULT_SETTINGS.responsePriorSd }, leg: null };
const BIAS_SD = mm(GAP_ERROR * Math.SQRT2);

/** One reading; a side that has no room left is pressed, and says only at least or at most. */
function read(leg: Leg, set: Pair, random: Random, clearanceMm: number): Observation {
  const biasMm = biasAt(leg, set) + random.normal(0, BIAS_SD);
  const pressed = Math.abs(biasMm) > clearanceMm;
  return {
    shiftMm: shift(leg.hardware, set),
    biasMm: mm(pressed ? Math.sign(biasMm) * clearanceMm : biasMm),
    sdMm: BIAS_SD,
    bound: !pressed ? 'exact' : biasMm > 0 ? 'at-least' : 'at-most',
  };
}

/** What three rounds of reading and moving toward even leave known; true where the interval held, null without one. */
function rounds(leg: Leg, random: Random, clearanceMm: number) {
  const seen: Observation[] = [];
  let set = AT_REST;
  const known = [1, 2, 3].map((): boolean | null => {
    seen.push(read(leg, set, random, clearanceMm));
    const found = estimate(PRIOR, seen)?.at(shift(leg.hardware, set)) ?? null;
    const held = found && Math.abs(found.biasMm - biasAt(leg, set)) <= Z90 * found.sdMm;
    // While there are only bounds, the bound itself is what is moved by.
    const sight = { biasMm: found?.biasMm ?? seen.at(-1)!.biasMm, response: found?.response.k ?? 1 };
    set = correct(leg.hardware, sight, set).target ?? set;
    return held;
  });
  return { known, pressed: seen.some(({ bound }) => bound !== 'exact') };
}

describe('the bias', () => {
  it('lies in its 90 % interval in 90 of 100 legs, after one, two and three rounds', () => {
    const random = randomFrom(START);
    const trials = 5000;
    const held = [0, 0, 0];
    for (let trial = 0; trial < trials; trial++)
      rounds(drawn(random), random, Infinity).known.forEach((one, i) => (held[i]! += one ? 1 : 0));
    for (const count of held) expectShare(count, trials);
  });

  it('does so too where the cuff has so little room that one leg in five presses somewhere', () => {
    const random = randomFrom(START + 1);
    const held: boolean[] = [];
    let presses = 0;
    for (let trial = 0; trial < 600; trial++) {
      const { known, pressed } = rounds(drawn(random), random, 10);
      if (pressed) presses++;
      held.push(...known.filter((one) => one !== null).slice(-1));
    }
    expect(presses).toBeGreaterThan(60);
    // With a bound among them the posterior is no longer quite normal: one more hundredth.
    expectShare(held.filter(Boolean).length, held.length, 0.9, 0.01);
  });
});

describe('the correction', () => {
  it('that a plan gives lies in its 90 % interval in 90 of 100 legs, after one, two and three rounds', () => {
    const random = randomFrom(START + 2);
    const trials = 450;
    const held = [0, 0, 0];
    for (let trial = 0; trial < trials; trial++) {
      const leg = drawn(random);
      const { pivotSpacingMm, readingHeightMm, factoryLeanDeg } = leg.hardware;
      const travel = { upMm: 5, downMm: 5 };
      const s = story({
        hardware: {
          ...{ pivots: 'dual', pivotSpacingMm, readingHeightMm, factoryLeanDeg, markMm: 0.5 },
          travel: { lateral: travel, medial: travel },
        },
      });
      let set = AT_REST;
      for (const round of [0, 1, 2]) {
        const bias = biasAt(leg, set);
        const gap = (share: number) => 25 + (share * bias) / 2 + random.normal(0, GAP_ERROR);
        s.read('left', gap(1), gap(-1));
        const { cuff } = plan(s.facts).sides.left;
        // The lean at which the centre has moved as far as the true bias asks for, at the true response.
        const now = lean(leg.hardware, set);
        const even = sinDeg(now) + bias / (2 * leg.response * readingHeightMm);
        const truth = (Math.asin(even) * 180) / Math.PI - now;
        if (Math.abs(cuff.correctionDeg! - truth) <= Z90 * cuff.correctionSdDeg!) held[round]!++;
        set = { medialMm: cuff.target!.medialMm, lateralMm: cuff.target!.lateralMm };
        s.set('left', set.medialMm, set.lateralMm);
      }
    }
    // A ratio of two uncertain numbers is not quite normal: one more hundredth.
    for (const count of held) expectShare(count, trials, 0.9, 0.01);
  });
});

describe('the cant', () => {
  const target = mm(DEFAULT_SETTINGS.kneeTargetMm);
  const error = mm(DEFAULT_SETTINGS.kneeErrorMm);
  /** On the flat, on the flat again, on a wedge outward, on one inward. */
  const WEDGES = [0, 0, 1.5, -1.5];

  it.each([[2], [3], [4]])(
    'after %d readings: it lies in its 90 % range in 90 of 100 legs, and nearly so within 1.645 deviations',
    (count) => {
      const random = randomFrom(START + 10 + count);
      const trials = 5000;
      const shares = { held: 0, ended: 0, inRange: 0, given: 0, inSd: 0 };
      for (let trial = 0; trial < trials; trial++) {
        const prior = slopePrior(mm(drawn(random).kneeHeightMm), DEFAULT_SETTINGS.kneeSlopeShare);
        const slope = random.normal(prior.mean, prior.sd);
        const truth = random.between(-3, 3);
        const readings = WEDGES.slice(0, count).map((wedge): StanceReading => ({
          wedgeDeg: deg(wedge),
          offsetMm: mm(target + slope * (wedge - truth) + random.normal(0, error)),
        }));
        const line = kneeLine(readings, prior, error)!;
        const sd = Math.sqrt(placeVariance(line.covariance, truth));
        const holds = Math.abs(line.offsetMm + line.slopeMmPerDeg * truth - target) <= Z90 * sd;
        if (holds) shares.held++;
        const range = cantRange(line, target, Z90);
        if (range) {
          shares.ended++;
          const inside = truth >= range.lowDeg && truth <= range.highDeg;
          if (inside) shares.inRange++;
          expect(inside).toBe(holds);
        }
        if (line.slopeMmPerDeg > 0) {
          shares.given++;
          const { cantDeg, sdDeg } = cantFor(line, target);
          if (Math.abs(cantDeg - truth) <= Z90 * sdDeg) shares.inSd++;
        }
      }
      // As a statement on the knee it is exact; as a range of cants, wherever that has an end.
      expectShare(shares.held, trials);
      expectShare(shares.inRange, shares.ended);
      // By propagation to first order only: one more hundredth.
      expectShare(shares.inSd, shares.given, 0.9, 0.01);
    },
  );
});
