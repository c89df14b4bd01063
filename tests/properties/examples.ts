/** One full example of each kind, as it should be taken, with the fields that may be missing. */
import type { Kind } from '../../core/index.ts';
import { DUAL, POSTURE } from './story.ts';

export interface Example {
  readonly payload: Readonly<Record<string, unknown>>;
  /** Dotted paths of optional fields, in the payload. */
  readonly optional: readonly string[];
  /** Fields that take texts as well as numbers or yes and no. */
  readonly mixed?: readonly string[];
}

const side = 'left';
const example = (
  payload: object,
  optional: readonly string[] = [],
  mixed: readonly string[] = [],
): Example => ({
  payload: payload as Record<string, unknown>,
  optional,
  mixed,
});
const every = (payload: object): string[] => Object.keys(payload);

const assessed = {
  footLengthMm: 268,
  footWidthMm: 101,
  calfGirthMm: 372,
  dorsiflexionBentDeg: 14,
  dorsiflexionStraightDeg: 9,
  forefoot: 'varus 4',
  rearfoot: -2,
  arch: 'high',
  toeOutDeg: 7,
  legLengthMm: 872,
  shinCurve: 'slight',
  shellGapMm: 12,
  hotSpots: ['navicular'],
  note: 'left calf fuller',
};
const settings = { gapErrorMm: 1.2, evenToleranceMm: 3, minLugLeftMm: 6, minHoleEdgeMm: 5, kneeTargetMm: -4 };
const inside = {
  boardHeelMm: 12,
  heelLiftMm: 3,
  boardCantDeg: 0,
  forwardLeanPos: '2',
  spoiler: true,
};
const zone = { heightMedialMm: 30, heightLateralMm: 30, widthMm: 69 };
const two = () => [
  { x: 120, y: 100.5 },
  { x: 720, y: 110 },
];
const edges = { medialMm: 5, lateralMm: 4 };

export const EXAMPLES: Readonly<Record<Kind, Example>> = {
  'session.opened': example(
    {
      ticket: '1-42',
      clientRef: 'c-42',
      service: 'full',
      linkedTo: 's-41',
      promisedAt: '2026-01-09T17:00:00+01:00',
      racing: false,
      youth: true,
      raceClass: 'children',
      notes: 'n',
    },
    ['linkedTo', 'promisedAt', 'racing', 'youth', 'raceClass', 'notes'],
  ),
  'service.changed': example(
    { service: 'cuffs', promisedAt: '2026-01-09T17:00:00+01:00', reason: 'soles later' },
    ['promisedAt'],
  ),
  'work.agreed': example(
    {
      irreversible: ['slot'],
      agreedBy: 'owner',
      price: 120,
      deposit: 20,
      reworkUntil: '2026-03-31',
      warrantyTold: true,
    },
    ['agreedBy', 'price', 'deposit', 'reworkUntil'],
  ),
  'health.asked': example({ outcome: 'proceed' }),
  assessed: example({ side, ...assessed }, every(assessed), ['forefoot', 'rearfoot', 'shinCurve']),
  'stand.wanted': example({ side, higherMm: 4, onWordOf: 'clinician', note: 'n' }, ['note']),
  paused: example(
    { bootsAre: 'shelf 3', wedgesOut: true, pivotsTight: true, backAt: '2026-01-10T09:00:00Z', note: 'n' },
    ['backAt', 'note'],
  ),
  'settings.used': example(settings, every(settings)),
  'leg.known': example({ side, mLegMm: 4, sdMm: 3, line: { offsetMm: 1, angleDeg: 2 } }, ['line']),
  'floor.checked': example({ crossDeg: 0.2, alongDeg: -0.1 }),
  'boot.described': example(
    {
      side,
      model: 'Larkspur 110',
      mondo: 265,
      soleLengthMm: 305,
      soleStandard: 'iso5355-a',
      hardware: {
        ...DUAL,
        positions: {
          lateral: [
            { label: 'A', mm: -2 },
            { label: 'B', mm: 1.4 },
          ],
          medial: [{ label: 'A', mm: 0 }],
        },
        holeEdgeMm: 9,
        slotsMayLengthen: true,
        minHoleEdgeMm: 5,
      },
      soleWidthToeMm: 69,
      soleWidthHeelMm: 69,
      soleReplaceable: true,
      soleInsertMm: 4,
      soleMaterialMm: 14,
      inserts: true,
      walkMode: false,
      tag: 'B-17',
    },
    [
      'hardware.factoryLeanDeg',
      'hardware.travel.medial',
      'hardware.markMm',
      'hardware.positions',
      'hardware.positions.medial',
      'hardware.holeEdgeMm',
      'hardware.slotsMayLengthen',
      'hardware.minHoleEdgeMm',
      'soleWidthToeMm',
      'soleWidthHeelMm',
      'soleReplaceable',
      'soleInsertMm',
      'soleMaterialMm',
      'inserts',
      'walkMode',
      'tag',
    ],
    ['inserts'],
  ),
  'response.known': example({ side, k: 0.9, sd: 0.1, pairs: 12 }),
  'ready.checked': example({ side, item: 'footbed', outcome: 'done', note: 'cork' }, ['note']),
  'inside.set': example(
    { side, ...inside, liner: { id: 'L-4', heated: true } },
    [...every(inside), 'liner'],
    ['forwardLeanPos', 'spoiler'],
  ),
  'shell.worked': example({ side, spot: 'navicular', method: 'punch', amountMm: 3 }, ['amountMm']),
  'pivot.reworked': example(
    { side, adjuster: 'lateral', method: 'slot', newUpMm: 5, newDownMm: 8, neutralShiftMm: 1, edgeMm: 7 },
    ['neutralShiftMm', 'edgeMm'],
  ),
  'sole.set': example({ side, cantDeg: -1.5, state: 'as-brought' }),
  'cuff.set': example({ side, medialMm: 1, lateralMm: -2, state: 'set' }, ['medialMm', 'state']),
  'cuff.read': example(
    {
      side,
      medialMm: 14,
      lateralMm: 4,
      contact: 'none',
      pressure: 'graze',
      to: 'shell',
      liner: 'out',
      stanceWidthMm: 240,
      widestAt: 'middle',
      heightMm: 165,
      lower: { medialMm: 9, lateralMm: 6, heightMm: 90, contact: 'none' },
      shinMm: 12,
      calfMm: 11,
      posture: { ...POSTURE },
      fromPhoto: { marks: ['f5'], medialSdMm: 0.4, lateralSdMm: 0.5 },
    },
    [
      'pressure',
      'heightMm',
      'lower',
      'shinMm',
      'calfMm',
      'fromPhoto',
      'fromPhoto.medialSdMm',
      'fromPhoto.lateralSdMm',
    ],
  ),
  'cuff.closed': example({ side, decision: 'even', note: 'n' }, ['note']),
  'stance.read': example(
    {
      side,
      kneeOffsetMm: -6,
      kneeHeightMm: 468,
      stanceWidthMm: 240,
      kneeMark: 'patella',
      restood: true,
      posture: { ...POSTURE },
      toeOutDeg: 7,
    },
    ['toeOutDeg'],
  ),
  'cant.chosen': example(
    { side, cantDeg: 1.5, method: 'plate', foreAftDeg: 0.5, override: 'asked for', note: 'n' },
    ['foreAftDeg', 'override', 'note'],
  ),
  'plate.fitted': example(
    {
      side,
      cantDeg: 1.5,
      method: 'plate',
      thinEdgeMm: 3,
      lifterMm: 4,
      foreAftDeg: 0.5,
      toe: { ...edges },
      heel: { ...edges },
    },
    ['lifterMm', 'foreAftDeg', 'toe', 'heel'],
  ),
  'sole.measured': example({ side, when: 'before', toe: { ...zone }, heel: { ...zone }, soleHeightMm: 40 }, [
    'when',
    'soleHeightMm',
  ]),
  'foreaft.read': example(
    {
      side,
      boardHeelMm: 24,
      boardToeMm: 10,
      boardSpanMm: 190,
      standHeelMm: 30,
      standToeMm: 26,
      skiStandMm: 45,
      forwardLeanDeg: 13,
    },
    ['standHeelMm', 'standToeMm', 'skiStandMm', 'forwardLeanDeg'],
  ),
  'binding.checked': example({ outcome: 'passed', reference: 'T-9', note: 'n' }, ['reference', 'note']),
  'handed.over': example({ acknowledgedBy: 'owner', language: 'de', note: 'n' }, ['language', 'note']),
  'released.unfit': example({ what: 'unmeasured sole', acknowledgedBy: 'owner' }, [], ['what']),
  'home.checked': example({ note: 'n' }),
  'snow.reported': example({ side, note: 'n', wantsRecheck: true }, ['side']),
  'photo.taken': example({ side, shows: 'gap', sha256: '0f'.repeat(32), widthPx: 2048, heightPx: 1536 }),
  'photo.marked': example(
    {
      side,
      photo: 'f3',
      length: { points: two(), mm: 85.6 },
      rectangle: {
        points: [...two(), { x: 700, y: 500 }, { x: 100, y: 480 }],
        widthMm: 85.6,
        heightMm: 53.98,
      },
      legAxis: two(),
      cuffAxis: two(),
      gap: two(),
    },
    ['length', 'rectangle', 'legAxis', 'cuffAxis', 'gap'],
  ),
  struck: example({ fact: 'f3', reason: 'undo', replacedBy: 'f9' }, ['replacedBy']),
};
