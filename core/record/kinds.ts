/**
 * Every kind of fact: who may write it, and its payload with each field's bounds. These shapes outlive all
 * other code: fields are added, never changed or dropped.
 *
 * `object` makes every object of a payload: strict at the gate (nothing unknown is admitted), loose in a
 * reader (what a newer program wrote is kept and ignored).
 */
import { z } from 'zod';
import {
  cantDeg,
  day,
  degIn,
  factoryLeanDeg,
  gapMm,
  heightMm,
  key,
  mmIn,
  moment,
  name,
  numberIn,
  pivotMm,
  pivotSpacingMm,
  sha256,
  text,
} from '../bounds.ts';
import { ADJUSTERS, SIDES } from '../frame.ts';
import { LIMIT } from '../wire.ts';
import { ENTERED_NAMES, ENTERED_SETTINGS, SETTING_NAMES, SETTINGS } from './settings.ts';
import type { EnteredName, SettingName } from './settings.ts';

export const ROLES = ['desk', 'measuring', 'bench', 'server'] as const;
export type Role = (typeof ROLES)[number];

type ObjectMaker = typeof z.strictObject;

const side = z.enum(SIDES);
const yes = z.boolean();
/** Either words of the trade, or an angle where one was measured. */
const wordsOrAngle = z.union([text, degIn(-45, 45)]);

const stanceWidthMm = mmIn(40, 700);

const contact = z.enum(['none', 'medial', 'lateral', 'both']);
const pressure = z.enum(['graze', 'press']);

export const READY_ITEMS = ['footbed', 'shell', 'cuff-neutral'] as const;
export const ASKED_ITEMS = [
  'sole-flat',
  'pivot-play',
  'buckles-strap',
  'liner',
  'heel-seated',
  'walk-lock',
] as const;
export const SOLE_STANDARDS = [
  'iso5355-a',
  'iso5355-c',
  'iso23223-a',
  'iso23223-c',
  'iso9523-a',
  'iso9523-c',
  'other',
] as const;
export const RACE_CLASSES = ['general', 'masters', 'children'] as const;
export const SERVICES = ['cuffs', 'full', 'recheck'] as const;

const posture = (object: ObjectMaker) =>
  object({ parallel: yes, straightRunStance: yes, bucklesLight: yes, midFlex: yes });

const settingsUsed = (object: ObjectMaker) =>
  object(
    Object.fromEntries([
      ...SETTING_NAMES.map((n) => [n, numberIn(SETTINGS[n].min, SETTINGS[n].max).optional()]),
      ...ENTERED_NAMES.map((n) => [n, numberIn(ENTERED_SETTINGS[n].min, ENTERED_SETTINGS[n].max).optional()]),
    ]) as Record<SettingName | EnteredName, z.ZodOptional<z.ZodNumber>>,
  );

/** A boot's pivot hardware, as a description and the shop's catalogue say it. */
export const hardware = (object: ObjectMaker) => {
  const reach = object({ upMm: mmIn(0, 25), downMm: mmIn(0, 25) });
  const stops = z
    .array(object({ label: name(20), mm: pivotMm }))
    .min(1)
    .max(60);
  return object({
    pivots: z.enum(['dual', 'single', 'fixed']),
    pivotSpacingMm,
    readingHeightMm: heightMm,
    factoryLeanDeg: factoryLeanDeg.optional(),
    travel: object({ lateral: reach, medial: reach.optional() }),
    markMm: mmIn(0.1, 10).optional(),
    positions: object({ lateral: stops, medial: stops.optional() }).optional(),
    holeEdgeMm: mmIn(0, 80).optional(),
    // What the maker states of longer slots: whether at all, and how much shell must be left before an edge.
    slotsMayLengthen: yes.optional(),
    minHoleEdgeMm: mmIn(0, 80).optional(),
  });
};

const zone = (object: ObjectMaker) =>
  object({ heightMedialMm: mmIn(0, 80), heightLateralMm: mmIn(0, 80), widthMm: mmIn(30, 130) });

const edges = (object: ObjectMaker) => object({ medialMm: mmIn(0, 40), lateralMm: mmIn(0, 40) });

/** A place in a photo, in its own pixels: x to the right, y down. */
const pixel = (object: ObjectMaker) =>
  object({ x: numberIn(0, LIMIT.photoSidePx), y: numberIn(0, LIMIT.photoSidePx) });
const pixels = (object: ObjectMaker, count: number) => z.array(pixel(object)).length(count);

const kind = <P>(roles: readonly Role[], payload: (object: ObjectMaker) => P) => ({ roles, payload });

export const KINDS = {
  'session.opened': kind(['desk'], (object) =>
    object({
      ticket: name(40),
      clientRef: name(40),
      service: z.enum(SERVICES),
      linkedTo: name(64).optional(),
      promisedAt: moment.optional(),
      racing: yes.optional(),
      youth: yes.optional(),
      // Absent: children for a racing youth, else general.
      raceClass: z.enum(RACE_CLASSES).optional(),
      notes: text.optional(),
    }),
  ),
  'service.changed': kind(['desk'], (object) =>
    object({ service: z.enum(SERVICES), promisedAt: moment.optional(), reason: text }),
  ),
  'work.agreed': kind(['desk'], (object) =>
    object({
      irreversible: z.array(name(80)).max(40),
      // Not `by`, which is the envelope's: who wrote it down is not who agreed.
      agreedBy: z.enum(['owner', 'guardian']).optional(),
      // Reference of the boot maker's approval: without it nothing is proposed for inserts or rockered soles.
      makerApproval: name(200).optional(),
      price: numberIn(0, 1e6).optional(),
      deposit: numberIn(0, 1e6).optional(),
      reworkUntil: day.optional(),
      warrantyTold: yes,
    }),
  ),
  'health.asked': kind(['desk', 'measuring'], (object) =>
    object({ outcome: z.enum(['proceed', 'refer', 'stop']) }),
  ),
  assessed: kind(['measuring'], (object) =>
    object({
      side,
      footLengthMm: mmIn(120, 380).optional(),
      footWidthMm: mmIn(40, 160).optional(),
      calfGirthMm: mmIn(150, 650).optional(),
      dorsiflexionBentDeg: degIn(-30, 70).optional(),
      dorsiflexionStraightDeg: degIn(-30, 70).optional(),
      forefoot: wordsOrAngle.optional(),
      rearfoot: wordsOrAngle.optional(),
      arch: text.optional(),
      toeOutDeg: degIn(-45, 60).optional(),
      legLengthMm: mmIn(300, 1400).optional(),
      shinCurve: wordsOrAngle.optional(),
      // Behind the heel in the bare shell, toes lightly touching.
      shellGapMm: mmIn(0, 60).optional(),
      // Where the shell presses: names of landmarks, as in shell.worked.
      hotSpots: z.array(name(80)).max(20).optional(),
      note: text.optional(),
    }),
  ),
  // The boot that is to stand higher than the other, and on whose word: never this program's advice.
  'stand.wanted': kind(['desk', 'measuring'], (object) =>
    object({
      side,
      higherMm: mmIn(0, 40),
      onWordOf: z.enum(['clinician', 'skier']),
      note: text.optional(),
    }),
  ),
  paused: kind(['desk', 'measuring', 'bench'], (object) =>
    object({
      bootsAre: text,
      wedgesOut: yes,
      pivotsTight: yes,
      backAt: moment.optional(),
      note: text.optional(),
    }),
  ),
  'settings.used': kind(['server'], settingsUsed),
  'leg.known': kind(['server'], (object) =>
    object({
      side,
      mLegMm: mmIn(-80, 80),
      sdMm: mmIn(0.01, 100),
      line: object({ offsetMm: mmIn(-60, 60), angleDeg: degIn(-30, 30) }).optional(),
    }),
  ),
  // Across: positive when the floor falls to the skier's left. Along: positive when it falls toward the toes.
  'floor.checked': kind(['measuring'], (object) =>
    object({ crossDeg: degIn(-15, 15), alongDeg: degIn(-15, 15) }),
  ),
  'boot.described': kind(['desk', 'measuring', 'bench'], (object) =>
    object({
      side,
      model: name(120),
      // Mondopoint is millimetres (ISO 9407); boots are marked in centimetres. Both are taken.
      mondo: z.union([numberIn(15, 36), numberIn(150, 360)]),
      soleLengthMm: mmIn(150, 420),
      soleStandard: z.enum(SOLE_STANDARDS),
      hardware: hardware(object),
      soleWidthToeMm: mmIn(30, 130).optional(),
      soleWidthHeelMm: mmIn(30, 130).optional(),
      soleReplaceable: yes.optional(),
      soleInsertMm: mmIn(0, 40).optional(),
      // Distance of the centres of the two bearing zones: what a fore-aft wedge is measured over.
      zoneSpacingMm: mmIn(100, 400).optional(),
      // Solid material from the sole's underside up to the inside of the boot, at its thinnest.
      soleMaterialMm: mmIn(0, 60).optional(),
      inserts: z.union([yes, text]).optional(),
      walkMode: yes.optional(),
      tag: name(64).optional(),
    }),
  ),
  'response.known': kind(['server'], (object) =>
    object({ side, k: numberIn(0.1, 3), sd: numberIn(0.001, 1), pairs: z.int().min(0).max(1e6) }),
  ),
  'ready.checked': kind(['desk', 'measuring', 'bench'], (object) =>
    object({
      side,
      item: z.enum([...READY_ITEMS, ...ASKED_ITEMS]),
      outcome: z.enum(['done', 'not-needed', 'kept-as-found', 'open']),
      note: text.optional(),
    }),
  ),
  'inside.set': kind(['bench', 'measuring'], (object) =>
    object({
      side,
      boardHeelMm: mmIn(0, 80).optional(),
      heelLiftMm: mmIn(0, 40).optional(),
      boardCantDeg: cantDeg.optional(),
      forwardLeanPos: z.union([name(40), numberIn(-20, 20)]).optional(),
      spoiler: z.union([yes, text]).optional(),
      liner: object({ id: name(80), heated: yes }).optional(),
    }),
  ),
  'shell.worked': kind(['bench'], (object) =>
    object({
      side,
      spot: name(80),
      method: z.enum(['punch', 'grind', 'stretch']),
      amountMm: mmIn(0, 30).optional(),
    }),
  ),
  'pivot.reworked': kind(['bench'], (object) =>
    object({
      side,
      adjuster: z.enum(ADJUSTERS),
      method: z.enum(['slot', 'moved-hole', 'other']),
      newUpMm: mmIn(0, 25),
      newDownMm: mmIn(0, 25),
      neutralShiftMm: mmIn(-25, 25).optional(),
      edgeMm: mmIn(0, 80).optional(),
    }),
  ),
  'sole.set': kind(['measuring', 'bench'], (object) =>
    object({ side, cantDeg, state: z.enum(['as-brought', 'neutralised', 'test-wedge', 'fitted']) }),
  ),
  'cuff.set': kind(['bench', 'measuring'], (object) =>
    object({
      side,
      medialMm: pivotMm.optional(),
      lateralMm: pivotMm,
      state: z.enum(['as-found', 'set']).optional(),
    }),
  ),
  'cuff.read': kind(['measuring'], (object) =>
    object({
      side,
      medialMm: gapMm,
      lateralMm: gapMm,
      contact,
      pressure: pressure.optional(),
      to: z.enum(['shell', 'liner']),
      liner: z.enum(['in', 'out']),
      stanceWidthMm,
      widestAt: z.enum(['front', 'middle', 'rear']),
      heightMm: heightMm.optional(),
      lower: object({ medialMm: gapMm, lateralMm: gapMm, heightMm: mmIn(0, 320), contact }).optional(),
      shinMm: mmIn(0, 120).optional(),
      calfMm: mmIn(0, 120).optional(),
      posture: posture(object),
      // Absent: read on the boot. Otherwise the marks that gaps were taken from, and the deviation of each such gap.
      fromPhoto: object({
        marks: z.array(key).min(1).max(4),
        medialSdMm: mmIn(0, 20).optional(),
        lateralSdMm: mmIn(0, 20).optional(),
      }).optional(),
    }),
  ),
  'cuff.closed': kind(['measuring', 'bench', 'desk'], (object) =>
    object({ side, decision: z.enum(['even', 'accepted', 'other-boot']), note: text.optional() }),
  ),
  'stance.read': kind(['measuring'], (object) =>
    object({
      side,
      kneeOffsetMm: mmIn(-120, 120),
      kneeHeightMm: mmIn(200, 750),
      stanceWidthMm,
      kneeMark: z.enum(['patella', 'condyles']),
      restood: yes,
      posture: posture(object),
      toeOutDeg: degIn(-45, 60).optional(),
    }),
  ),
  'cant.chosen': kind(['measuring', 'bench'], (object) =>
    object({
      side,
      cantDeg,
      method: z.enum(['plate', 'plane']),
      foreAftDeg: degIn(-8, 8).optional(),
      override: text.optional(),
      note: text.optional(),
    }),
  ),
  'plate.fitted': kind(['bench'], (object) =>
    object({
      side,
      cantDeg,
      method: z.enum(['plate', 'plane']),
      thinEdgeMm: mmIn(0, 30),
      lifterMm: mmIn(0, 40).optional(),
      foreAftDeg: degIn(-8, 8).optional(),
      toe: edges(object).optional(),
      heel: edges(object).optional(),
    }),
  ),
  'sole.measured': kind(['bench'], (object) =>
    object({
      side,
      when: z.enum(['before', 'after']).optional(),
      toe: zone(object),
      heel: zone(object),
      // Underside of the sole to the base of the heel inside, as competition rules measure it.
      soleHeightMm: mmIn(0, 100).optional(),
    }),
  ),
  'foreaft.read': kind(['measuring', 'bench'], (object) =>
    object({
      side,
      boardHeelMm: mmIn(0, 100),
      boardToeMm: mmIn(0, 100),
      boardSpanMm: mmIn(50, 400),
      standHeelMm: mmIn(0, 150).optional(),
      standToeMm: mmIn(0, 150).optional(),
      // Running surface of the ski to the underside of the sole, at its highest.
      skiStandMm: mmIn(0, 150).optional(),
      forwardLeanDeg: degIn(-10, 45).optional(),
    }),
  ),
  'binding.checked': kind(['desk'], (object) =>
    object({
      outcome: z.enum(['passed', 'sent-out', 'declined']),
      reference: text.optional(),
      note: text.optional(),
    }),
  ),
  'handed.over': kind(['desk'], (object) =>
    object({
      acknowledgedBy: z.enum(['owner', 'guardian', 'other']),
      language: name(35).optional(),
      note: text.optional(),
    }),
  ),
  'released.unfit': kind(['desk'], (object) =>
    object({
      what: z.union([text, z.array(text).min(1).max(40)]),
      acknowledgedBy: z.enum(['owner', 'guardian', 'other']),
    }),
  ),
  'home.checked': kind(['desk'], (object) => object({ note: text })),
  'snow.reported': kind(['desk'], (object) =>
    object({ side: side.optional(), note: text, wantsRecheck: yes }),
  ),
  // The picture itself lies beside the log, under the SHA-256 of its bytes, so that it can be erased.
  'photo.taken': kind(['measuring', 'bench'], (object) =>
    object({
      side,
      shows: z.enum(['leg', 'gap', 'boot']),
      sha256,
      widthPx: z.int().min(1).max(LIMIT.photoSidePx),
      heightPx: z.int().min(1).max(LIMIT.photoSidePx),
    }),
  ),
  // What somebody pointed at in a photo. What is read off these marks is worked out, never stored.
  'photo.marked': kind(['measuring', 'bench'], (object) =>
    object({
      side,
      photo: key,
      // The scale. With both, the rectangle counts; with none, nothing can be read off.
      length: object({ points: pixels(object, 2), mm: mmIn(1, 2000) }).optional(),
      rectangle: object({
        points: pixels(object, 4),
        widthMm: mmIn(5, 2000),
        heightMm: mmIn(5, 2000),
      }).optional(),
      legAxis: pixels(object, 2).optional(),
      cuffAxis: pixels(object, 2).optional(),
      gap: pixels(object, 2).optional(),
    }),
  ),
  struck: kind(['desk', 'measuring', 'bench'], (object) =>
    object({ fact: key, reason: text, replacedBy: key.optional() }),
  ),
} as const;

export type Kind = keyof typeof KINDS;
export const KIND_NAMES = Object.keys(KINDS) as Kind[];
/** What a fact of kind `K` says beside its envelope. */
export type Payload<K extends Kind> = z.infer<ReturnType<(typeof KINDS)[K]['payload']>>;

/** The newest version of each kind this program knows. A kind that changes its shape is listed here. */
const NEWEST: Partial<Record<Kind, number>> = {};
export const newestVersion = (kind: Kind): number => NEWEST[kind] ?? 1;
