/** Where the numbers under a boot come from: the plates of the chosen cant, routing, and the finished sole. */
import type { Edge, Zone } from '../../maths/routing.ts';
import type { RacePlace } from '../../maths/racing.ts';
import { leastThinEdge } from '../../maths/screw.ts';
import type { SoleWork } from '../../maths/sole.ts';
import { slot } from '../../record/slots.ts';
import type { Failure } from '../../maths/standards.ts';
import type { SoleGrounds } from '../sole.ts';
import { headDepthOf } from '../screws.ts';
import { mm } from '../../units.ts';
import { entered, input, recorded, setting, stated } from './formula.ts';
import type { Formula, FormulasOf, Ground, Input } from './formula.ts';
import { bootFacts, soleFacts } from './hardware.ts';

const grounds = (g: Ground): SoleGrounds | null => g.own.sole.grounds;
const chosenFacts = (g: Ground): string[] => stated(g, slot.cant(g.side));
const fittedFacts = (g: Ground): string[] => stated(g, slot.plate(g.side));
const beforeFacts = (g: Ground): string[] => stated(g, slot.measured(g.side, 'before'));
const afterFacts = (g: Ground): string[] => stated(g, slot.measured(g.side, 'after'));
/** All that a proposed work rests on. */
const workFacts = (g: Ground): string[] => [
  ...chosenFacts(g),
  ...bootFacts(g),
  ...beforeFacts(g),
  ...fittedFacts(g),
];

const width = (g: Ground, zone: Zone): Input[] => {
  const stated_ = zone === 'toe' ? g.own.now.boot?.soleWidthToeMm : g.own.now.boot?.soleWidthHeelMm;
  // As described, else as measured, else the standard's own, which the description names.
  const facts = stated_ === undefined && beforeFacts(g).length ? beforeFacts(g) : bootFacts(g);
  return input(`W_${zone}`, grounds(g)?.widths[zone], 'mm', facts);
};

/** The thin edge: as fitted, else the least one and what this side gains so that both boots stand equally high. */
function thinEdge(g: Ground): Input[] {
  const job = grounds(g)?.job;
  if (!job) return [];
  if (g.own.sole.fitted) return input('t_min', job.thinEdgeMm, 'mm', fittedFacts(g));
  const head = headDepthOf(g.scene.log);
  const gained = job.thinEdgeMm - leastThinEdge(mm(g.scene.settings.minThinEdgeMm), head);
  return [
    ...input('t_min', job.thinEdgeMm, 'mm', [
      ...stated(g, slot.setting('minThinEdgeMm')),
      ...stated(g, slot.setting('screwHeadDepthMm')),
      ...(gained > 0
        ? [...stated(g, slot.cant('left')), ...stated(g, slot.cant('right')), ...stated(g, 'stand.wanted')]
        : []),
    ]),
    ...setting(g, 'least', 'minThinEdgeMm'),
  ];
}

const plateInputs = (g: Ground): Input[] => [
  ...thinEdge(g),
  ...width(g, 'toe'),
  ...width(g, 'heel'),
  ...input('δ', grounds(g)?.job.cantDeg, '°', chosenFacts(g)),
  ...input('β', grounds(g)?.job.foreAftDeg, '°', chosenFacts(g)),
  ...input('L', g.own.now.boot?.zoneSpacingMm ?? 0, 'mm', bootFacts(g)),
];

const CENTRE =
  't_toe = max(t_min + (W_toe/2)·tan|δ|, t_min + (W_heel/2)·tan|δ| − L·tan β), t_heel = t_toe + L·tan β';
const PLATES = 'core/maths/sole.ts, plates';

const plate = (zone: Zone, what: string): Formula => ({
  unit: 'mm',
  formula: `t_${zone}${what}; ${CENTRE}`,
  source: PLATES,
  inputs: plateInputs,
});

const half = (zone: Zone, sign: '+' | '−', angle: string): string => ` ${sign} (W_${zone}/2)·tan ${angle}`;

const platesOf = <Z extends Zone>(zone: Z) =>
  ({
    [`sole.plate.${zone}.thinEdgeMm`]: plate(zone, half(zone, '−', '|δ|')),
    [`sole.plate.${zone}.thickEdgeMm`]: plate(zone, half(zone, '+', '|δ|')),
    [`sole.plate.${zone}.centreMm`]: plate(zone, ''),
    [`sole.plate.${zone}.medialMm`]: plate(zone, half(zone, '+', 'δ')),
    [`sole.plate.${zone}.lateralMm`]: plate(zone, half(zone, '−', 'δ')),
  }) as Record<
    `sole.plate.${Z}.${'thinEdgeMm' | 'thickEdgeMm' | 'centreMm' | 'medialMm' | 'lateralMm'}`,
    Formula
  >;

const planed = (zone: Zone, formula: string): Formula => ({
  unit: 'mm',
  formula: `${formula}; r_rise is max(0, L·tan β) at the toe, max(0, −L·tan β) at the heel`,
  source: 'core/maths/sole.ts, planing',
  inputs: (g) => [
    ...width(g, zone),
    ...input('δ', grounds(g)?.job.cantDeg, '°', chosenFacts(g)),
    ...input('β', grounds(g)?.job.foreAftDeg, '°', chosenFacts(g)),
    ...input('L', g.own.now.boot?.zoneSpacingMm ?? 0, 'mm', bootFacts(g)),
  ],
});

const planingOf = <Z extends Zone>(zone: Z) =>
  ({
    [`sole.planing.${zone}.medialMm`]: planed(zone, `r_rise + max(0, −W_${zone}·tan δ)`),
    [`sole.planing.${zone}.lateralMm`]: planed(zone, `r_rise + max(0, W_${zone}·tan δ)`),
    [`sole.planing.${zone}.centreMm`]: planed(zone, `r_rise + (W_${zone}/2)·tan|δ|`),
  }) as Record<`sole.planing.${Z}.${'medialMm' | 'lateralMm' | 'centreMm'}`, Formula>;

const screw = (zone: Zone, edge: Edge, formula: string): Formula => ({
  unit: 'mm',
  formula,
  source: 'core/maths/screw.ts, screwWindow',
  inputs: (g) => {
    const work = grounds(g)?.work;
    const plate_ = work?.method === 'plate' ? work.plates[zone][`${edge}Mm`] : null;
    return [
      ...input('t', plate_, 'mm', workFacts(g)),
      ...entered(g, 'c', 'screwHeadDepthMm'),
      ...entered(g, 'd', 'screwDiameterMm'),
      ...entered(g, 'margin', 'screwMarginMm'),
      ...input('depth', g.own.now.boot?.soleMaterialMm, 'mm', bootFacts(g)),
    ];
  },
});

const SCREWS = Object.fromEntries(
  (['toe', 'heel'] as const).flatMap((zone) =>
    (['medial', 'lateral'] as const).flatMap((edge) => [
      [`sole.screws.${zone}.${edge}.minMm`, screw(zone, edge, 't − c + 2·d')],
      [`sole.screws.${zone}.${edge}.maxMm`, screw(zone, edge, 't − c + depth − margin')],
      [`sole.screws.${zone}.${edge}.usefulMm`, screw(zone, edge, 'min(t − c + depth − margin, t − c + 3·d)')],
    ]),
  ),
) as Record<`sole.screws.${Zone}.${Edge}.${'minMm' | 'maxMm' | 'usefulMm'}`, Formula>;

const raceFacts = (g: Ground, place: RacePlace): string[] =>
  place === 'standHeightMm' ? stated(g, slot.foreAft(g.side)) : [...workFacts(g), ...afterFacts(g)];
const raceIs = (g: Ground, place: RacePlace): Input[] =>
  input('is', g.plan.sole.racing?.[place].isMm, 'mm', raceFacts(g, place));
const raceMax = (g: Ground, place: RacePlace): Input[] =>
  input(
    'max',
    g.plan.sole.racing?.[place].maxMm,
    'mm',
    stated(g, slot.setting(place === 'standHeightMm' ? 'raceStandMaxMm' : 'raceSoleMaxMm')),
  );

const raceOf = <P extends RacePlace>(place: P, formula: string) =>
  ({
    [`sole.racing.${place}.isMm`]: {
      unit: 'mm',
      formula,
      source: 'foreaft.read, sole.measured; core/maths/racing.ts, soleHeightWith',
      inputs: (g: Ground) => raceIs(g, place),
    },
    [`sole.racing.${place}.maxMm`]: recorded('mm', 'the limit, with its provenance beside it', (g) =>
      raceMax(g, place),
    ),
    [`sole.racing.${place}.roomMm`]: {
      unit: 'mm',
      formula: 'max − is',
      source: 'core/maths/racing.ts, raceCheck',
      inputs: (g: Ground) => [...raceMax(g, place), ...raceIs(g, place)],
    },
  }) as Record<`sole.racing.${P}.${'isMm' | 'maxMm' | 'roomMm'}`, Formula>;

const RACING = {
  ...raceOf('standHeightMm', 'as measured on the ski'),
  ...raceOf(
    'soleHeightMm',
    'as measured when finished; else as measured before, and the thick edge of the heel’s plate, or lifter less what is planed off there',
  ),
};

/** What stands under one edge of a lug, and what was planed off below it. */
function changed(g: Ground, zone: Zone, edge: Edge): Input[] {
  const work = grounds(g)?.work;
  if (!work) return [];
  const key = `${edge}Mm` as const;
  return work.method === 'plate'
    ? input('t', work.plates[zone][key], 'mm', workFacts(g))
    : [
        ...input('lifter', work.lifterMm, 'mm', workFacts(g)),
        ...input('r', work.cut[zone][key], 'mm', workFacts(g)),
      ];
}

const lug = (g: Ground, zone: Zone, edge: Edge): Input[] =>
  input(
    'h0',
    g.own.sole.before?.[zone][edge === 'medial' ? 'heightMedialMm' : 'heightLateralMm'],
    'mm',
    beforeFacts(g),
  );

const rout = (zone: Zone, edge: Edge): Formula => ({
  unit: 'mm',
  formula: 't + (h0 − nominal) over plates; lifter − r + (h0 − nominal) after planing; never under 0',
  source: 'core/maths/routing.ts, routing',
  inputs: (g) => [
    ...changed(g, zone, edge),
    ...lug(g, zone, edge),
    ...input('nominal', grounds(g)?.job.preset[zone].heightMm?.nominalMm, 'mm', bootFacts(g)),
  ],
});

const left = (zone: Zone, edge: Edge): Formula => ({
  unit: 'mm',
  formula: 'h0 − depth − r − loose; r is 0 over plates',
  source: 'core/maths/routing.ts, routing',
  inputs: (g) => [
    ...lug(g, zone, edge),
    ...input('depth', g.plan.sole.rout?.[zone][`${edge}Mm`], 'mm', workFacts(g)),
    ...changed(g, zone, edge).filter(({ name }) => name === 'r'),
    ...input('loose', g.own.now.boot?.soleReplaceable ? g.own.now.boot.soleInsertMm : 0, 'mm', bootFacts(g)),
    ...entered(g, 'least', 'minLugLeftMm'),
  ],
});

const four = <P extends 'rout' | 'lugLeft'>(part: P, formula: typeof rout) =>
  Object.fromEntries(
    (['toe', 'heel'] as const).flatMap((zone) =>
      (['medial', 'lateral'] as const).map((edge) => [`sole.${part}.${zone}.${edge}Mm`, formula(zone, edge)]),
    ),
  ) as Record<`sole.${P}.${Zone}.${Edge}Mm`, Formula>;

const raised = (work: SoleWork, zone: Zone): number =>
  work.method === 'plate' ? work.plates[zone].centreMm : work.lifterMm - work.cut[zone].centreMm;

function standing(g: Ground): Input[] {
  const work = grounds(g)?.work;
  if (!work) return [];
  return (['toe', 'heel'] as const).flatMap((zone) =>
    input(`raised_${zone}`, raised(work, zone), 'mm', workFacts(g)),
  );
}

const failure = (g: Ground): Failure => g.plan.sole.failures[g.at[0]!]! as Failure;

/** One bound of a limit of the sole's standard, which the boot's description names. */
const limit = (which: 'min' | 'max'): Formula => ({
  unit: 'mm',
  formula: which === 'min' ? 'nominal − tolerance; 0 for parallelism' : 'nominal + tolerance',
  source: 'the limits of the sole’s standard, with their provenance; core/maths/standards.ts',
  inputs: (g) => input(which, failure(g)[which], 'mm', bootFacts(g)),
});

export const SOLE: FormulasOf<'sole'> = {
  'sole.cantDeg': recorded('°', 'sole.set, plate.fitted, or a sole brought to flat', (g) =>
    input('δ', g.own.now.sole?.cantDeg, '°', soleFacts(g)),
  ),
  ...platesOf('toe'),
  ...platesOf('heel'),
  ...planingOf('toe'),
  ...planingOf('heel'),
  'sole.planing.lifterMm': {
    unit: 'mm',
    formula: 'as fitted, else max(0, r − (h0 − nominal)) over the four corners',
    source: 'plate.fitted, or core/maths/routing.ts, leastLifter',
    inputs: (g) => input('lifter', g.plan.sole.planing?.lifterMm, 'mm', workFacts(g)),
  },
  ...SCREWS,
  ...RACING,
  'sole.wantedStand.overMm': recorded('mm', 'stand.wanted; negative on the other side', (g) =>
    input('over', g.plan.sole.wantedStand?.overMm, 'mm', stated(g, 'stand.wanted')),
  ),
  ...four('rout', rout),
  ...four('lugLeft', left),
  'sole.standHeightMm': {
    unit: 'mm',
    formula: '(raised_toe + raised_heel)/2: a plate’s centre, or lifter − what was planed off there',
    source: 'core/maths/sole.ts, standHeight',
    inputs: standing,
  },
  'sole.failures.*.is': {
    unit: 'mm',
    formula: 'as measured; parallelism: |medial − lateral height|',
    source: 'sole.measured; core/maths/standards.ts, conformance',
    inputs: (g) => input('is', failure(g).is, 'mm', afterFacts(g)),
  },
  'sole.failures.*.min': limit('min'),
  'sole.failures.*.max': limit('max'),
};
