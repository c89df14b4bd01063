/**
 * Pivots and gaps against two independent solutions of the rigid body: nonlinear least squares (ml-matrix) and a
 * physics engine (planck), neither of which holds a formula of the core.
 *
 * What the core leaves out, and what it comes to:
 * - The pins stand further apart when they stand at different heights, and the middle of the bar moves by up to
 *   w/2·(1 − cos φ), or the turn is that of the tangent instead of the sine. Both move the cuff centre, so half the
 *   bias: at most 0.9 mm in the farthest corner of the range (pivots 60 mm apart, 12 mm of spread: 11.5°), and
 *   under 0.5 mm for every move a leg can ask for (both gaps together are 30 mm at most, so the centre moves by
 *   15 mm at most). One gap is read to 1.5 mm.
 * - Walls that lean are further apart across the leg, by 1/cos: both gaps open alike. That leaves the bias alone and
 *   changes the sum: by 1 mm where the centre moves 10 mm, and up to 2.7 mm in the farthest corner.
 */
import { describe, expect, it } from 'vitest';
import { deg, mm, toRad } from '../../core/index.ts';
import type { HardwareNow, Pair } from '../../core/index.ts';
import { bias, biasAfter, evenLean, gapsFor, shift, spreadFor } from '../../core/maths/cuff.ts';
import { tilt } from '../../core/maths/hardware.ts';
import { settlePose } from './physics-cuff.ts';
import { gapsAt, holesOf, markOf, solvePose } from './rigid-cuff.ts';
import type { Joints, Pose } from './rigid-cuff.ts';

const SPACINGS = [60, 75, 92, 110];
const HEIGHTS = [80, 115, 150, 185, 220];
const PLACES = [-6, -4, -2, 0, 2, 4, 6];
const FACTORY = [-4, -2, 0, 2, 4];
const NEUTRAL: Pose = { x: 0, y: 0, turn: 0 };
/** Half the room in the cuff and half the leg, at the reading height. */
const ROOM = 65;
const LEG = 55;
/** One gap reading, standard deviation. */
const READING_ERROR = 1.5;

const hardware = (spacing: number, height: number, factory: number): HardwareNow => ({
  pivots: 'dual',
  pivotSpacingMm: mm(spacing),
  readingHeightMm: mm(height),
  factoryLeanDeg: deg(factory),
  lateral: null,
  medial: null,
  markMm: null,
});
const pair = (medialUp: number, lateralUp: number): Pair => ({
  medialMm: mm(medialUp),
  lateralMm: mm(lateralUp),
});

interface Compared {
  /** How far the core says that the centre moves. */
  readonly moved: number;
  /** Its error on the centre, on half the bias of the gaps, and on the worse of the two gaps. */
  readonly centre: number;
  readonly halfBias: number;
  readonly gap: number;
  /** By how much both gaps opened alike. */
  readonly opened: number;
}

function* compared(joints: Joints): Generator<Compared> {
  for (const spacing of SPACINGS)
    for (const medialUp of PLACES)
      for (const lateralUp of PLACES) {
        const pose = solvePose(joints, spacing, medialUp, lateralUp);
        for (const height of HEIGHTS)
          for (const factoryDeg of FACTORY) {
            const boot = hardware(spacing, height, factoryDeg);
            const factory = toRad(deg(factoryDeg));
            const leg = { x: markOf(NEUTRAL, height, factory)[0] + 3, half: LEG };
            const before = gapsAt(NEUTRAL, height, factory, ROOM, leg);
            const after = gapsAt(pose, height, factory, ROOM, leg);
            const read = { medialMm: mm(before.medial), lateralMm: mm(before.lateral) };
            const [from, to] = [pair(0, 0), pair(medialUp, lateralUp)];
            const moved = shift(boot, to) - shift(boot, from);
            const told = gapsFor(
              mm(before.medial + before.lateral),
              biasAfter(boot, { biasMm: bias(read), response: 1 }, from, to),
            );
            const truly = markOf(pose, height, factory)[0] - markOf(NEUTRAL, height, factory)[0];
            yield {
              moved,
              centre: Math.abs(truly - moved),
              halfBias: Math.abs((after.medial - after.lateral - (told.medialMm - told.lateralMm)) / 2),
              gap: Math.max(Math.abs(after.medial - told.medialMm), Math.abs(after.lateral - told.lateralMm)),
              opened: (after.medial + after.lateral - before.medial - before.lateral) / 2,
            };
          }
      }
}

const worst = (rows: readonly Compared[], of: (row: Compared) => number, within = Infinity): number =>
  Math.max(...rows.filter((row) => Math.abs(row.moved) <= within).map(of));

describe.each(['pinned', 'shared'] as const)(
  'a rigid cuff with %s joints (least squares, ml-matrix)',
  (joints) => {
    const rows = [...compared(joints)];

    it('is covered: pivots 60 to 110 mm apart, read 80 to 220 mm up, ±6 mm, factory lean ±4°', () => {
      expect(rows).toHaveLength(4 * 49 * 25);
      expect(worst(rows, (r) => Math.abs(r.moved))).toBeGreaterThan(43);
    });

    it('stands with its centre within 0.9 mm of the core’s everywhere, within 0.5 mm where a leg can ask for it', () => {
      expect(worst(rows, (r) => r.centre)).toBeLessThan(0.9);
      expect(worst(rows, (r) => r.centre, 15)).toBeLessThan(0.5);
      expect(0.9).toBeLessThan(READING_ERROR);
    });

    it('gives a bias as far from the core’s as its centre is, and no further', () => {
      for (const row of rows) expect(row.halfBias).toBeCloseTo(row.centre, 9);
    });

    it('gives each gap within 0.9 mm of the core’s for moves to 7 mm, within 1.45 mm to 10 mm, within 3.2 mm everywhere', () => {
      expect(worst(rows, (r) => r.gap, 7)).toBeLessThan(0.9);
      expect(worst(rows, (r) => r.gap, 10)).toBeLessThan(1.45);
      expect(worst(rows, (r) => r.gap)).toBeLessThan(3.2);
    });

    it('opens or closes both gaps alike by its walls’ 1/cos, which is the rest of that difference', () => {
      for (const row of rows) expect(row.gap).toBeLessThanOrEqual(row.centre + Math.abs(row.opened) + 1e-9);
      expect(worst(rows, (r) => Math.abs(r.opened), 10)).toBeLessThan(1.1);
      expect(worst(rows, (r) => Math.abs(r.opened))).toBeLessThan(2.7);
    });

    it('keeps its holes where its joints hold them', () => {
      for (const [spacing, medialUp, lateralUp] of [
        [60, 6, -6],
        [84, 3, -2],
        [110, -6, 6],
      ] as const) {
        const { lateral, medial } = holesOf(solvePose(joints, spacing, medialUp, lateralUp), spacing);
        expect(Math.hypot(lateral[0] - medial[0], lateral[1] - medial[1])).toBeCloseTo(spacing, 9);
        if (joints === 'shared') expect(lateral[0] - spacing / 2).toBeCloseTo(-(medial[0] + spacing / 2), 7);
        else
          expect([lateral[0], lateral[1], medial[1]]).toEqual(
            [spacing / 2, lateralUp, medialUp].map((held) => expect.closeTo(held, 7)),
          );
      }
    });
  },
);

describe('sin φ = (u_medial − u_lateral)/w', () => {
  it('is the turn of a pinned cuff to a millionth of a degree, of a shared one to 0.24° (at 11.5°)', () => {
    let apart = 0;
    for (const spacing of SPACINGS)
      for (const medialUp of PLACES)
        for (const lateralUp of PLACES) {
          const told = tilt(mm(medialUp - lateralUp), mm(spacing));
          const turn = (joints: Joints) =>
            (solvePose(joints, spacing, medialUp, lateralUp).turn * 180) / Math.PI;
          expect(Math.abs(turn('pinned') - told)).toBeLessThan(1e-6);
          apart = Math.max(apart, Math.abs(turn('shared') - told));
        }
    expect(apart).toBeLessThan(0.24);
  });
});

describe('the same cuff in a physics engine (planck), stepped to rest', () => {
  // The engine's joints are left alone inside 0.005 mm; 220 mm up on 60 mm of pivots that is 0.02 mm.
  const SLOP = 0.02;

  it('stands where least squares puts it, to 0.02 mm at the reading height', () => {
    for (const spacing of [60, 85, 110])
      for (const medialUp of [-6, -3, 0, 3, 6])
        for (const lateralUp of [-6, -3, 0, 3, 6]) {
          const settled = settlePose(spacing, medialUp, lateralUp);
          const solved = solvePose('pinned', spacing, medialUp, lateralUp);
          for (const factory of [-0.07, 0, 0.07]) {
            const [a, b] = [markOf(settled, 220, factory), markOf(solved, 220, factory)];
            expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(SLOP);
          }
        }
  });

  it('comes to even gaps at the lean and the pivots that the core works out', () => {
    for (const [spacing, height, factory, reading] of [
      [84, 160, 1, { medialMm: mm(14), lateralMm: mm(4) }],
      [72, 180, -2, { medialMm: mm(3), lateralMm: mm(12) }],
      [100, 130, 3, { medialMm: mm(11), lateralMm: mm(8.5) }],
    ] as const) {
      const boot = hardware(spacing, height, factory);
      const sight = { biasMm: bias(reading), response: 1 };
      const spread = spreadFor(boot, evenLean(boot, sight, pair(0, 0)));
      const settled = settlePose(spacing, spread / 2, -spread / 2);
      const lean = toRad(deg(factory));
      // The leg stands where the reading put it: half the bias lateral of the cuff's centre at neutral.
      const leg = { x: markOf(NEUTRAL, height, lean)[0] + sight.biasMm / 2, half: LEG };
      const gaps = gapsAt(settled, height, lean, ROOM, leg);
      expect(Math.abs(gaps.medial - gaps.lateral)).toBeLessThan(0.25);
    }
  });
});
