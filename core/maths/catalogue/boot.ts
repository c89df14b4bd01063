/** Calculations about the boot as measured: standards, racing heights, screws, fore-aft, shell. */
import { z } from 'zod';
import { degIn, mmIn, numberIn } from '../../bounds.ts';
import { deg, mm } from '../../units.ts';
import { foreAft, slopeOf } from '../foreaft.ts';
import { RACE_RULES, raceCheck, soleHeightWith } from '../racing.ts';
import type { RaceClass } from '../racing.ts';
import { leastThinEdge, screwsThatFit, screwWindow } from '../screw.ts';
import { markedMm, MONDO_STEP, mondopoint, SHELL_GAP_BANDS, shellGapBand } from '../shell.ts';
import { conformance, SOLE_PRESETS, taper } from '../standards.ts';
import type { SoleStandard } from '../standards.ts';
import { calculation, DEFINITION, TRIGONOMETRY } from './entry.ts';
import type { Calculations, Given } from './entry.ts';
import { thinEdgeMm, zones } from './fields.ts';

const object = z.strictObject;
const keysOf = <K extends string>(of: Readonly<Record<K, unknown>>) => z.enum(Object.keys(of) as [K, ...K[]]);

const soleZone = object({
  heightMedialMm: mmIn(0, 80),
  heightLateralMm: mmIn(0, 80),
  widthMm: mmIn(30, 130),
});
const ZONE = { heightMedialMm: 19.4, heightLateralMm: 18.9, widthMm: 69 };

const FAILURES: Readonly<Record<string, Given>> = {
  'failures[].where': ['', 'which measure is outside its limits'],
  'failures[].is': ['mm', 'as measured'],
  'failures[].min': ['mm', 'least allowed'],
  'failures[].max': ['mm', 'most allowed'],
  failures: ['', 'empty: none'],
  unchecked: ['', 'not measured, or its limit unknown'],
};

export const standardsCalculations = (): Calculations => ({
  taper: calculation({
    means: 'How far a zone’s top is from parallel to its sole',
    input: soleZone,
    gives: { taperMm: ['mm', 'medial − lateral height'] },
    formula: 'h_medial − h_lateral',
    source: DEFINITION,
    example: { input: ZONE, output: { taperMm: 0.5 } },
    run: (zone) => ({ taperMm: taper(zone) }),
  }),
  conformance: calculation({
    means: 'A finished sole against the limits of its standard, as this program knows them',
    input: object({ standard: keysOf<SoleStandard>(SOLE_PRESETS), measured: zones(soleZone) }),
    gives: { conforms: ['', 'null: no limit is known'], ...FAILURES },
    formula: '|measured − nominal| ≤ tolerance',
    source: 'limits from memory and secondary sources, each with its provenance: check against your copy',
    example: {
      input: {
        standard: 'iso5355-a',
        measured: {
          toe: { ...ZONE, heightLateralMm: 17.9 },
          heel: { ...ZONE, heightMedialMm: 30, heightLateralMm: 30 },
        },
      },
      output: {
        conforms: false,
        failures: [{ where: 'toe.heightLateralMm', is: 17.9, min: 18, max: 20 }],
        unchecked: ['toe.parallelMm', 'heel.widthMm', 'heel.parallelMm'],
      },
    },
    run: (is) => conformance(is.measured, SOLE_PRESETS[is.standard]),
  }),
});

export const racingCalculations = (): Calculations => ({
  soleHeightWith: calculation({
    means: 'Height of the sole inside once a plate is under it, at its thick edge',
    input: object({ beforeMm: mmIn(0, 100), thickEdgeMm: mmIn(0, 60) }),
    gives: { soleHeightMm: ['mm', ''] },
    formula: 'before + thick edge',
    source: 'arithmetic; the worst reading of a rule that does not say where it measures',
    example: { input: { beforeMm: 38, thickEdgeMm: 4 }, output: { soleHeightMm: 42 } },
    run: (is) => ({ soleHeightMm: soleHeightWith(is.beforeMm, is.thickEdgeMm) }),
  }),
  raceCheck: calculation({
    means: 'Heights against what competition rules allow',
    input: object({
      raceClass: keysOf<RaceClass>(RACE_RULES),
      standHeightMm: mmIn(0, 150).nullable().default(null),
      soleHeightMm: mmIn(0, 150).nullable().default(null),
    }),
    gives: {
      allowed: ['', 'null: nothing could be checked'],
      ...FAILURES,
      'roomMm.standHeightMm': ['mm', 'what may be added; negative: too much; null: unchecked'],
      'roomMm.soleHeightMm': ['mm', 'the same'],
    },
    formula: 'height ≤ most',
    source: 'secondary, or from memory: check against the rules of your season',
    example: {
      input: { raceClass: 'general', soleHeightMm: 42 },
      output: {
        allowed: true,
        failures: [],
        unchecked: ['standHeightMm'],
        roomMm: { standHeightMm: null, soleHeightMm: 1 },
      },
    },
    run: ({ raceClass, ...is }) => raceCheck(is, RACE_RULES[raceClass]),
  }),
});

const screw = {
  plateMm: mmIn(0, 60),
  headDepthMm: mmIn(0, 20),
  diameterMm: mmIn(1, 10),
  materialMm: mmIn(0, 60).nullable().default(null).describe('solid material under the plate; null: unknown'),
  marginMm: mmIn(0, 20).describe('to be left before the inside'),
};
const SCREW = { plateMm: 3, headDepthMm: 0, diameterMm: 4, materialMm: 14, marginMm: 3 };
const GRIP =
  'our own derivation; two to three diameters: Lincoln, Gomes & Braden, Mechanical Fastening of Plastics, abstract of ch. 6';

export const screwCalculations = (): Calculations => ({
  screwWindow: calculation({
    means: 'How long a screw may be: long enough to grip, short enough to stay outside the boot',
    input: object(screw),
    gives: {
      fits: ['', 'null: the depth is unknown; false: too thin for any'],
      minMm: ['mm', 'least length'],
      maxMm: ['mm', 'most'],
      usefulMm: ['mm', 'longer adds no grip'],
      shortByMm: ['mm', 'material that is missing'],
    },
    formula: '(t − c) + 2·d ≤ l ≤ (t − c) + depth − margin',
    source: GRIP,
    example: { input: SCREW, output: { fits: true, minMm: 11, maxMm: 14, usefulMm: 14 } },
    run: (place) => screwWindow(place),
  }),
  screwsThatFit: calculation({
    means: 'Of the lengths in the drawer, those inside the window',
    input: object({ ...screw, lengthsMm: z.array(mmIn(1, 120)).max(100) }),
    gives: { lengthsMm: ['mm', 'shortest first; none while the depth is unknown'] },
    formula: 'minMm ≤ l ≤ maxMm',
    source: GRIP,
    example: { input: { ...SCREW, lengthsMm: [16, 12, 10, 14] }, output: { lengthsMm: [12, 14] } },
    run: ({ lengthsMm, ...place }) => ({ lengthsMm: screwsThatFit(screwWindow(place), lengthsMm) }),
  }),
  leastThinEdge: calculation({
    means: 'Least thin edge of a plate: the shop’s, or what the screw heads need',
    input: object({ shopMm: thinEdgeMm, headDepthMm: mmIn(0, 20).nullable().default(null) }),
    gives: { thinEdgeMm: ['mm', ''] },
    formula: 'max(shop, head depth + 1)',
    source: 'from memory, low',
    example: { input: { shopMm: 3, headDepthMm: 2.7 }, output: { thinEdgeMm: 3.7 } },
    run: (is) => ({ thinEdgeMm: leastThinEdge(is.shopMm, is.headDepthMm) }),
  }),
});

const unknown = <T extends z.ZodType>(of: T) => of.nullable().default(null as never);

export const foreaftCalculations = (): Calculations => ({
  slopeOf: calculation({
    means: 'Slope between two heights',
    input: object({ heelMm: mmIn(0, 150), toeMm: mmIn(0, 150), spanMm: mmIn(50, 420) }),
    gives: { slopeDeg: ['°', 'heel higher positive'] },
    formula: 'atan((heel − toe)/span)',
    source: TRIGONOMETRY,
    example: { input: { heelMm: 28, toeMm: 20, spanMm: 180 }, output: { slopeDeg: 2.545 } },
    run: (is) => ({ slopeDeg: slopeOf(is.heelMm, is.toeMm, is.spanMm) }),
  }),
  foreAft: calculation({
    means: 'Ramp, delta, and what they add up to',
    input: object({
      boardHeelMm: unknown(mmIn(0, 100)),
      boardToeMm: unknown(mmIn(0, 100)),
      boardSpanMm: unknown(mmIn(50, 400)),
      standHeelMm: unknown(mmIn(0, 150)),
      standToeMm: unknown(mmIn(0, 150)),
      soleLengthMm: unknown(mmIn(150, 420)),
      forwardLeanDeg: unknown(degIn(-10, 45)),
      wedgeDeg: degIn(-8, 8).default(deg(0)),
    }),
    gives: {
      rampDeg: ['°', 'slope of the foot in the boot; null, as all here: not measured'],
      deltaDeg: ['°', 'slope of the sole on the ski'],
      netRampDeg: ['°', 'slope of the foot against the ski'],
      netForwardLeanDeg: ['°', 'lean of the shaft against the ski, toward the toe positive'],
      degPerHeelMm: ['°/mm', 'what one millimetre under the heel changes'],
    },
    formula: 'ramp = atan((heel − toe)/span); delta alike + wedge; net = ramp + delta, forward lean + delta',
    source: 'plane angles add exactly',
    example: {
      input: {
        boardHeelMm: 28,
        boardToeMm: 20,
        boardSpanMm: 180,
        standHeelMm: 26,
        standToeMm: 24,
        soleLengthMm: 310,
        forwardLeanDeg: 13,
      },
      output: {
        rampDeg: 2.545,
        deltaDeg: 0.37,
        netRampDeg: 2.914,
        netForwardLeanDeg: 13.37,
        degPerHeelMm: 0.185,
      },
    },
    run: ({ wedgeDeg, ...reading }) => foreAft(reading, wedgeDeg),
  }),
});

const footMm = mmIn(120, 380);
const ascending = (bands: readonly { readonly toMm: number }[]): boolean =>
  bands.every(({ toMm }, i) => i === 0 || toMm > bands[i - 1]!.toMm);

export const shellCalculations = (): Calculations => ({
  markedMm: calculation({
    means: 'A boot’s size in millimetres from what is marked on it',
    input: object({ marked: numberIn(15, 360) }),
    gives: { sizeMm: ['mm', 'Mondopoint'] },
    formula: 'marked, or ten times it up to 36: centimetres',
    source: 'ISO 9407:2019, sizes in mm; marking in cm is common practice',
    example: { input: { marked: 26.5 }, output: { sizeMm: 265 } },
    run: ({ marked }) => ({ sizeMm: markedMm(marked) }),
  }),
  mondopoint: calculation({
    means: 'Mondopoint of a pair of feet, and the sizes on either side',
    input: object({ leftMm: footMm, rightMm: footMm, stepMm: mmIn(1, 20).default(MONDO_STEP) }),
    gives: {
      lengthMm: ['mm', 'of the longer foot'],
      longer: ['', 'left, right or both'],
      belowMm: ['mm', 'size below'],
      aboveMm: ['mm', 'size above'],
      nearestMm: ['mm', 'nearest size; halfway, the larger'],
    },
    formula: 'length of the longer foot',
    source: 'ISO 9407:2019; the step is common practice [secondary: introduction of ISO/TS 19407:2015]',
    example: {
      input: { leftMm: 262, rightMm: 266 },
      output: { lengthMm: 266, longer: 'right', belowMm: 265, aboveMm: 270, nearestMm: 265 },
    },
    run: (is) => mondopoint(is.leftMm, is.rightMm, is.stepMm),
  }),
  shellGapBand: calculation({
    means: 'The class of the room behind the heel in the bare shell',
    input: object({
      gapMm: mmIn(0, 60),
      bands: z
        .array(object({ name: z.string().min(1).max(40), toMm: mmIn(0, 60) }))
        .max(20)
        .refine(ascending, { error: 'must ascend' })
        .default([...SHELL_GAP_BANDS]),
    }),
    gives: {
      'band.name': ['', ''],
      'band.toMm': ['mm', 'up to and with this'],
      band: ['', 'null: over the last'],
    },
    formula: 'the first band that holds the gap',
    source: 'common practice, no source; figures from memory, low',
    example: { input: { gapMm: mm(12) }, output: { band: { name: 'performance', toMm: 15 } } },
    run: (is) => ({ band: shellGapBand(is.gapMm, is.bands) }),
  }),
});
