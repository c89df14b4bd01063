/** A random payload for each kind of fact: mostly what a shop would write, sometimes what only the bounds allow. */
import fc from 'fast-check';
import {
  ASKED_ITEMS,
  ENTERED_SETTINGS,
  READY_ITEMS,
  SERVICES,
  SETTINGS,
  SIDES,
  SOLE_STANDARDS,
} from '../../core/index.ts';
import type { Kind } from '../../core/index.ts';

type Any = fc.Arbitrary<unknown>;
const some = <T>(...values: T[]) => fc.constantFrom(...values);
const yes = fc.boolean();
const side = some(...SIDES);
const words = some('', 'cork', 'navicular', 'says it feels better', 'ü→ß “quoted”');
const name = some('A', 'Larkspur 110', 'x');

/** Mostly in halves between `low` and `high`; now and then anything down to `min` and up to `max`. */
const number = (low: number, high: number, min = low, max = high) =>
  fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: low * 2, max: high * 2 }).map((n) => n / 2) },
    { weight: 1, arbitrary: some(min, max, 0 < min ? min : 0) },
    { weight: 1, arbitrary: fc.double({ min, max, noNaN: true }) },
  );

const object = (required: Record<string, Any>, optional: Record<string, Any> = {}) =>
  fc.record({ ...required, ...optional } as Record<string, Any>, {
    requiredKeys: Object.keys(required),
    noNullPrototype: true,
  });

const ofSide = (required: Record<string, Any>, optional: Record<string, Any> = {}) =>
  object({ side, ...required }, optional);

const posture = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constant({ parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true }),
  },
  {
    weight: 1,
    arbitrary: object({ parallel: yes, straightRunStance: yes, bucklesLight: yes, midFlex: yes }),
  },
);

const pivot = number(-4, 4, -25, 25);
const reach = object({ upMm: number(0, 6, 0, 25), downMm: number(0, 6, 0, 25) });
const stops = fc
  .uniqueArray(number(-5, 5, -25, 25), { minLength: 1, maxLength: 7 })
  .map((places) => places.map((mm, i) => ({ label: String(i), mm })));
const hardware = object(
  {
    pivots: some('dual', 'dual', 'single', 'fixed'),
    pivotSpacingMm: number(70, 95, 40, 150),
    readingHeightMm: number(120, 190, 40, 320),
    travel: object({ lateral: reach }, { medial: reach }),
  },
  {
    factoryLeanDeg: number(-2, 2, -10, 10),
    markMm: some(0.5, 1, 1.5, 2, 10),
    positions: object({ lateral: stops }, { medial: stops }),
    holeEdgeMm: number(2, 12, 0, 80),
    slotsMayLengthen: some(true, true, false),
    minHoleEdgeMm: number(2, 8, 0, 80),
  },
);

const pixels = (count: number) =>
  fc.array(object({ x: number(0, 2048, 0, 4096), y: number(0, 2048, 0, 4096) }), {
    minLength: count,
    maxLength: count,
  });

const gap = number(0, 20, 0, 60);
/** A reading with its contact: a side that touches reads 0. */
const reading = fc
  .record({
    gaps: fc.tuple(gap, gap),
    contact: some('none', 'none', 'none', 'none', 'medial', 'lateral', 'both'),
    pressure: some('graze', 'press'),
  })
  .map(({ gaps: [medial, lateral], contact, pressure }) => ({
    medialMm: contact === 'medial' || contact === 'both' ? 0 : medial,
    lateralMm: contact === 'lateral' || contact === 'both' ? 0 : lateral,
    contact,
    ...(contact !== 'none' && { pressure }),
  }));
const lower = fc
  .tuple(reading, number(50, 120, 0, 320))
  .map(([{ medialMm, lateralMm, contact }, heightMm]) => ({ medialMm, lateralMm, contact, heightMm }));
const cuffRead = fc
  .tuple(
    reading,
    ofSide(
      {
        to: some('shell', 'shell', 'shell', 'liner'),
        liner: some('out', 'out', 'out', 'in'),
        stanceWidthMm: some(240, 240, 240, 245, 262),
        widestAt: some('front', 'middle', 'rear'),
        posture,
      },
      {
        heightMm: number(120, 190, 40, 320),
        lower,
        shinMm: number(0, 30, 0, 120),
        calfMm: number(0, 30, 0, 120),
        fromPhoto: object(
          { marks: fc.constant(['f1']) },
          { medialSdMm: number(0, 2, 0, 20), lateralSdMm: number(0, 2, 0, 20) },
        ),
      },
    ),
  )
  .map(([gaps, rest]) => ({
    // Whatever touches, above or below, it is said how hard.
    ...((rest as { lower?: { contact: string } }).lower?.contact.match(/al|both/) && { pressure: 'graze' }),
    ...rest,
    ...gaps,
  }));

const cant = some(0, 0, 0, 1, -0.5, 2, 12);
const zone = object({
  heightMedialMm: number(20, 35, 0, 80),
  heightLateralMm: number(20, 35, 0, 80),
  widthMm: number(60, 72, 30, 130),
});
const edges = object({ medialMm: number(2, 9, 0, 40), lateralMm: number(2, 9, 0, 40) });
const at = some('2026-02-03T17:00:00+01:00', '2026-02-03T16:00:00Z');

const settings = fc.record(
  Object.fromEntries([
    ...Object.entries(SETTINGS).map(([key, { default: usual, min, max }]) => [
      key,
      some(usual, usual, min, max),
    ]),
    ...Object.entries(ENTERED_SETTINGS).map(([key, { min, max }]) => [
      key,
      some(min + (max - min) / 8, min, max),
    ]),
  ]) as Record<string, Any>,
  { requiredKeys: [], noNullPrototype: true },
);

/** `struck` names its target by the session that it stands in, so it is not here. */
export const PAYLOADS: Readonly<Record<Exclude<Kind, 'struck'>, Any>> = {
  'session.opened': object(
    { ticket: name, clientRef: name, service: some(...SERVICES) },
    {
      linkedTo: name,
      promisedAt: at,
      racing: yes,
      youth: yes,
      raceClass: some('general', 'masters', 'children'),
      notes: words,
    },
  ),
  'service.changed': object({ service: some(...SERVICES), reason: words }, { promisedAt: at }),
  'work.agreed': object(
    {
      irreversible: fc.array(some('slot', 'punch', 'plane'), { maxLength: 3 }),
      agreedBy: some('owner', 'guardian'),
      warrantyTold: yes,
    },
    { makerApproval: name, price: number(0, 200), deposit: number(0, 50), reworkUntil: some('2026-03-31') },
  ),
  'health.asked': object({ outcome: some('proceed', 'proceed', 'proceed', 'refer', 'stop') }),
  assessed: ofSide(
    {},
    {
      footLengthMm: number(230, 300, 120, 380),
      calfGirthMm: number(300, 450, 150, 650),
      forefoot: fc.oneof(words, number(-10, 10, -45, 45)),
      arch: words,
      shellGapMm: number(4, 24, 0, 60),
      hotSpots: fc.array(some('navicular', 'sixth toe'), { maxLength: 2 }),
      legLengthMm: number(700, 950, 300, 1400),
      note: words,
    },
  ),
  'stand.wanted': ofSide(
    { higherMm: number(0, 8, 0, 40), onWordOf: some('clinician', 'skier') },
    { note: words },
  ),
  paused: object({ bootsAre: words, wedgesOut: yes, pivotsTight: yes }, { backAt: at, note: words }),
  'settings.used': settings,
  'leg.known': ofSide(
    { mLegMm: number(-8, 8, -80, 80), sdMm: number(1, 8, 0.01, 100) },
    { line: object({ offsetMm: number(-4, 4, -60, 60), angleDeg: number(-3, 3, -30, 30) }) },
  ),
  'floor.checked': object({ crossDeg: number(-1, 1, -15, 15), alongDeg: number(-1, 1, -15, 15) }),
  'boot.described': ofSide(
    {
      model: name,
      mondo: some(265, 26.5, 150, 36),
      soleLengthMm: number(280, 330, 150, 420),
      soleStandard: some(...SOLE_STANDARDS),
      hardware,
    },
    {
      soleWidthToeMm: number(60, 72, 30, 130),
      soleReplaceable: yes,
      soleMaterialMm: number(6, 20, 0, 60),
      inserts: fc.oneof(yes, words),
      walkMode: yes,
      tag: name,
    },
  ),
  'response.known': ofSide({
    k: some(0.8, 1, 1.2, 0.1, 3),
    sd: some(0.1, 0.2, 0.001, 1),
    pairs: some(0, 3, 1_000_000),
  }),
  'ready.checked': ofSide(
    {
      item: some(...READY_ITEMS, ...READY_ITEMS, ...ASKED_ITEMS),
      outcome: some('done', 'done', 'not-needed', 'kept-as-found', 'open'),
    },
    { note: words },
  ),
  'inside.set': ofSide(
    {},
    {
      boardHeelMm: number(8, 16, 0, 80),
      heelLiftMm: number(0, 6, 0, 40),
      boardCantDeg: cant,
      forwardLeanPos: some<unknown>('2', 1),
      spoiler: some<unknown>(true, false, 'thin'),
      liner: object({ id: name, heated: yes }),
    },
  ),
  'shell.worked': ofSide(
    { spot: some('navicular', 'sixth toe'), method: some('punch', 'grind', 'stretch') },
    { amountMm: number(1, 6, 0, 30) },
  ),
  'pivot.reworked': ofSide(
    {
      adjuster: some('lateral', 'medial'),
      method: some('slot', 'moved-hole', 'other'),
      newUpMm: number(0, 9, 0, 25),
      newDownMm: number(0, 9, 0, 25),
    },
    { neutralShiftMm: number(-3, 3, -25, 25), edgeMm: number(3, 9, 0, 80) },
  ),
  'sole.set': ofSide({ cantDeg: cant, state: some('as-brought', 'neutralised', 'test-wedge', 'fitted') }),
  'cuff.set': ofSide({ lateralMm: pivot }, { medialMm: pivot, state: some('as-found', 'set') }),
  'cuff.read': cuffRead,
  'cuff.closed': ofSide({ decision: some('even', 'even', 'accepted', 'other-boot') }, { note: words }),
  'stance.read': ofSide(
    {
      kneeOffsetMm: number(-15, 15, -120, 120),
      kneeHeightMm: number(430, 500, 200, 750),
      stanceWidthMm: number(200, 300, 40, 700),
      kneeMark: some('patella', 'condyles'),
      restood: yes,
      posture,
    },
    { toeOutDeg: number(0, 12, -45, 60) },
  ),
  'cant.chosen': ofSide(
    { cantDeg: cant, method: some('plate', 'plane') },
    { foreAftDeg: number(-1, 1, -8, 8), override: words, note: words },
  ),
  'plate.fitted': ofSide(
    { cantDeg: cant, method: some('plate', 'plane'), thinEdgeMm: number(3, 6, 0, 30) },
    { lifterMm: number(3, 6, 0, 40), toe: edges, heel: edges },
  ),
  'sole.measured': ofSide(
    { toe: zone, heel: zone },
    { when: some('before', 'after'), soleHeightMm: number(35, 45, 0, 100) },
  ),
  'foreaft.read': ofSide(
    {
      boardHeelMm: number(20, 30, 0, 100),
      boardToeMm: number(8, 16, 0, 100),
      boardSpanMm: number(160, 220, 50, 400),
    },
    {
      standHeelMm: number(20, 60, 0, 150),
      standToeMm: number(20, 60, 0, 150),
      skiStandMm: number(35, 55, 0, 150),
      forwardLeanDeg: number(10, 17, -10, 45),
    },
  ),
  'binding.checked': object(
    { outcome: some('passed', 'sent-out', 'declined') },
    { reference: words, note: words },
  ),
  'handed.over': object(
    { acknowledgedBy: some('owner', 'guardian', 'other') },
    { language: some('de'), note: words },
  ),
  'released.unfit': object({
    what: fc.oneof(words, fc.array(words, { minLength: 1, maxLength: 2 })),
    acknowledgedBy: some('owner', 'other'),
  }),
  'home.checked': object({ note: words }),
  'photo.taken': ofSide({
    shows: some('leg', 'gap', 'boot'),
    sha256: some('0a'.repeat(32), 'f3'.repeat(32)),
    widthPx: fc.integer({ min: 1, max: 4096 }),
    heightPx: fc.integer({ min: 1, max: 4096 }),
  }),
  'photo.marked': ofSide(
    { photo: some('f1', 'none') },
    {
      length: object({ points: pixels(2), mm: number(1, 300, 1, 2000) }),
      rectangle: object({
        points: pixels(4),
        widthMm: number(50, 300, 5, 2000),
        heightMm: number(50, 300, 5, 2000),
      }),
      legAxis: pixels(2),
      cuffAxis: pixels(2),
      gap: pixels(2),
    },
  ),
  'snow.reported': object({ note: words, wantsRecheck: yes }, { side }),
};

/** The kinds that the cuff loop lives on come more often than the rest. */
export const someKind: fc.Arbitrary<Kind> = fc.oneof(
  { weight: 5, arbitrary: some<Kind>('cuff.read', 'cuff.read', 'cuff.set', 'cuff.closed', 'ready.checked') },
  {
    weight: 3,
    arbitrary: some<Kind>(
      'struck',
      'sole.set',
      'inside.set',
      'shell.worked',
      'pivot.reworked',
      'boot.described',
    ),
  },
  { weight: 2, arbitrary: some<Kind>(...(Object.keys(PAYLOADS) as Kind[])) },
);
