/** Plates, planing and routing for the chosen cant, and the finished sole against its standard. */
import type { Side } from '../frame.ts';
import { leastLifter, routing } from '../maths/routing.ts';
import type { RoutingFault } from '../maths/routing.ts';
import { foreAftRise, planing, plates, standHeight } from '../maths/sole.ts';
import type { SoleWork, Zones } from '../maths/sole.ts';
import { leastThinEdge } from '../maths/screw.ts';
import { conformance, SOLE_PRESETS } from '../maths/standards.ts';
import type { Conformance, SolePlace, SolePreset } from '../maths/standards.ts';
import type { Pair } from '../maths/hardware.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import { slot } from '../record/slots.ts';
import { deg, mm } from '../units.ts';
import type { Mm } from '../units.ts';
import type { Settings } from '../record/settings.ts';
import type { Chosen } from './cant.ts';
import { racingOf, racingProblems } from './racing.ts';
import { changesSince } from './rests.ts';
import { headDepthOf, screwsOf } from './screws.ts';
import type { Problem, SolePlan } from './shape.ts';
import { cantUnder } from './side.ts';
import type { SideNow } from './side.ts';
import { wantedStand } from './stand.ts';
import { degWords, mmWords } from './words.ts';

type Measured = FactOf<'sole.measured'>;

export interface SoleSight {
  readonly plan: SolePlan;
  readonly before: Measured | null;
  readonly after: Measured | null;
  readonly fitted: FactOf<'plate.fitted'> | null;
  /** Why the finished measurement no longer counts. */
  readonly staleBecause: readonly string[];
  /** Why nothing is proposed, in words; empty when something is, or nothing is due. */
  readonly withheld: readonly string[];
  readonly problems: readonly Problem[];
  /** What the proposed work was made from; null when none is proposed. */
  readonly grounds: SoleGrounds | null;
}

export interface SoleGrounds {
  readonly job: Job;
  readonly widths: Zones<Mm>;
  readonly work: SoleWork;
}

const one = <T>(log: Log, name: string): { value: T; id: string } | null => {
  const state = log.now(name);
  return state.is === 'one' ? { value: state.value as T, id: state.facts.at(-1)! } : null;
};

/** Inserts and rockered touring soles: nothing without the maker's approval on record. */
function needsApproval(boot: FactOf<'boot.described'>): string | null {
  if (boot.inserts) return 'the sole has moulded or metal binding inserts';
  return boot.soleStandard.startsWith('iso9523') ? 'a touring sole is rockered' : null;
}

/** What a plan of the work needs to be known. */
export interface Job {
  readonly boot: FactOf<'boot.described'>;
  readonly preset: SolePreset;
  readonly before: Measured | null;
  readonly cantDeg: number;
  readonly method: 'plate' | 'plane';
  readonly foreAftDeg: number;
  readonly thinEdgeMm: Mm;
  readonly lifterMm: Mm | null;
}

function widthsOf({ boot, preset, before }: Job): Zones<Mm> | null {
  const toe = boot.soleWidthToeMm ?? before?.toe.widthMm ?? preset.toe.widthMm?.nominalMm;
  const heel = boot.soleWidthHeelMm ?? before?.heel.widthMm ?? preset.heel.widthMm?.nominalMm;
  return toe === undefined || heel === undefined ? null : { toe, heel };
}

const lugs = ({ toe, heel }: Measured): Zones<Pair> => ({
  toe: { medialMm: toe.heightMedialMm, lateralMm: toe.heightLateralMm },
  heel: { medialMm: heel.heightMedialMm, lateralMm: heel.heightLateralMm },
});

/** The work that makes a cant, or in words what is not known yet. */
function workOf(job: Job): SoleWork | string {
  const widths = widthsOf(job);
  if (!widths) return 'Measure the sole’s width at toe and heel.';
  if (job.foreAftDeg !== 0 && job.boot.zoneSpacingMm === undefined)
    return 'Enter the distance between the centres of the two bearing zones: a fore-aft wedge is measured over it.';
  const rise = foreAftRise(deg(job.foreAftDeg), job.boot.zoneSpacingMm ?? mm(0));
  if (job.method === 'plate')
    return { method: 'plate', plates: plates(widths, deg(job.cantDeg), job.thinEdgeMm, rise) };
  const cut = planing(widths, deg(job.cantDeg), rise);
  if (job.lifterMm !== null) return { method: 'plane', cut, lifterMm: job.lifterMm };
  const [toe, heel] = [job.preset.toe.heightMm?.nominalMm, job.preset.heel.heightMm?.nominalMm];
  if (!job.before || toe === undefined || heel === undefined)
    return 'Measure the lugs before the work, and enter their standard heights: the lifter follows from them.';
  return { method: 'plane', cut, lifterMm: leastLifter(cut, lugs(job.before), { toe, heel }) };
}

function faultWords(fault: RoutingFault): string {
  switch (fault.code) {
    case 'lug-unmeasured':
      return 'Measure the lugs before the work: no routing is told without.';
    case 'minimum-unknown':
      return 'Enter the least lug that must be left (maker’s or shop’s figure): no routing is told without.';
    case 'loose-sole-unknown':
      return 'Enter how thick the replaceable sole is: it is no solid lug.';
    case 'nominal-unknown':
      return `The standard height of the ${fault.zone} lug is not known: enter it from your copy of the standard.`;
    case 'lug-too-low':
      return `The ${fault.zone} lug would stand ${mmWords(fault.byMm)} too low at its ${fault.edge} edge.`;
    case 'lug-too-thin':
      return `Only ${mmWords(fault.leftMm)} of the ${fault.zone} lug would be left at its ${fault.edge} edge; at least ${mmWords(fault.minMm)} must be.`;
    default:
      return fault satisfies never;
  }
}

const MEASURE_WORDS = {
  heightMedialMm: 'height medial',
  heightLateralMm: 'height lateral',
  widthMm: 'width',
  parallelMm: 'medial against lateral height',
} as const;

const placeWords = (where: SolePlace): string => {
  const [zone, measure] = where.split('.') as ['toe' | 'heel', keyof typeof MEASURE_WORDS];
  return `${zone} ${MEASURE_WORDS[measure]}`;
};

const EMPTY = {
  plate: null,
  planing: null,
  screws: null,
  rout: null,
  lugLeft: null,
  standHeightMm: null,
} as const;

/** Thicknesses, routing and stand height of a job, with what keeps any of them from being told. */
function proposed(
  log: Log,
  job: Job,
  minLeftMm: Mm | null,
): { plan: Pick<SolePlan, keyof typeof EMPTY>; withheld: string[]; grounds: SoleGrounds | null } {
  const work = workOf(job);
  if (typeof work === 'string') return { plan: EMPTY, withheld: [work], grounds: null };
  const { boot, preset, before } = job;
  const told = routing(work, {
    measured: before && lugs(before),
    nominalMm: { toe: preset.toe.heightMm?.nominalMm ?? null, heel: preset.heel.heightMm?.nominalMm ?? null },
    looseSoleMm: boot.soleReplaceable ? (boot.soleInsertMm ?? null) : mm(0),
    minLeftMm,
  });
  return {
    withheld: told.told ? [] : told.faults.map(faultWords),
    grounds: { job, widths: widthsOf(job)!, work },
    plan: {
      plate: work.method === 'plate' ? work.plates : null,
      planing: work.method === 'plane' ? { ...work.cut, lifterMm: work.lifterMm } : null,
      screws: screwsOf(log, boot, work),
      rout: told.told ? told.rout : null,
      lugLeft: told.told ? told.lugLeft : null,
      standHeightMm: standHeight(work),
    },
  };
}

/** The finished sole, judged; null before it is measured, or when what it was measured on has changed. */
function judged(log: Log, after: { value: Measured; id: string } | null, preset: SolePreset | null) {
  if (!after) return { result: null, staleBecause: [] };
  const staleBecause = changesSince(log, log.get(after.id)!);
  if (staleBecause.length || !preset) return { result: null, staleBecause };
  return { result: conformance(after.value, preset), staleBecause };
}

function failureProblems(side: Side, fact: string, result: Conformance | null): Problem[] {
  return (result?.failures ?? []).map(({ where, is, min, max }) => ({
    fact,
    side,
    code: 'sole-out-of-limits',
    text: `The ${side} sole is out of its limits, ${placeWords(where)}: ${mmWords(is)}, and must be ${mmWords(min)} to ${mmWords(max)}.`,
  }));
}

/** With what is the same whatever work is proposed: how the boot is to stand, and what a racer may have under it. */
function completed(log: Log, side: Side, sight: SoleWithout): SoleSight {
  const { before, after, staleBecause, grounds, plan, problems } = sight;
  const racing = racingOf(log, side, {
    before,
    after: staleBecause.length ? null : after,
    work: grounds?.work ?? null,
  });
  return {
    ...sight,
    plan: { ...plan, racing, wantedStand: wantedStand(log, side) },
    problems: [...problems, ...racingProblems(side, racing)],
  };
}

/** @param moreMm what this side's thin edge or lifter gains, so that both boots stand as they are to */
export const soleOf = (log: Log, now: SideNow, chosen: Chosen, settings: Settings, moreMm: Mm): SoleSight =>
  completed(log, now.side, workUnder(log, now, chosen, settings, moreMm));

type SoleWithout = Omit<SoleSight, 'plan'> & { readonly plan: Omit<SolePlan, 'racing' | 'wantedStand'> };

function workUnder(log: Log, now: SideNow, chosen: Chosen, settings: Settings, moreMm: Mm): SoleWithout {
  const { side, boot } = now;
  const before = one<Measured>(log, slot.measured(side, 'before'));
  const after = one<Measured>(log, slot.measured(side, 'after'));
  const fitted = one<FactOf<'plate.fitted'>>(log, slot.plate(side));
  const preset: SolePreset | null = boot && SOLE_PRESETS[boot.soleStandard];
  const { result, staleBecause } = judged(log, after, preset);
  const problems = failureProblems(side, after?.id ?? '', result);
  const base = {
    before: before?.value ?? null,
    after: after?.value ?? null,
    fitted: fitted?.value ?? null,
    staleBecause,
    problems,
    grounds: null,
  };
  const checked = {
    cantDeg: cantUnder(now.sole),
    conforms: result?.conforms ?? null,
    unchecked: result?.unchecked ?? [],
    failures: result?.failures ?? [],
  };
  const wanted = chosen.is === 'chosen' ? chosen.fact : null;
  if (!boot || !preset || !wanted || (wanted.cantDeg === 0 && !wanted.foreAftDeg))
    return { ...base, plan: { ...checked, ...EMPTY }, withheld: [] };
  const hindrance = needsApproval(boot);
  const approved = log.live('work.agreed').some((agreement) => agreement.makerApproval !== undefined);
  if (hindrance && !approved)
    return {
      ...base,
      plan: { ...checked, ...EMPTY },
      withheld: [
        `Nothing is proposed for the ${side} sole without the maker’s approval on record: ${hindrance}.`,
      ],
    };
  if (wanted.method === 'plane' && boot.soleReplaceable)
    problems.push({
      side,
      code: 'replace-not-cut',
      text: `The ${side} sole is replaceable: replace or plate it rather than plane ${degWords(wanted.cantDeg)} off it.`,
    });
  const done = fitted?.value;
  const minLeft = one<Mm>(log, slot.setting('minLugLeftMm'));
  const thinEdge = leastThinEdge(mm(settings.minThinEdgeMm), headDepthOf(log));
  const { plan, withheld, grounds } = proposed(
    log,
    {
      boot,
      preset,
      before: base.before,
      cantDeg: wanted.cantDeg,
      method: wanted.method,
      foreAftDeg: wanted.foreAftDeg ?? 0,
      thinEdgeMm: done?.thinEdgeMm ?? mm(thinEdge + moreMm),
      lifterMm: done?.lifterMm ?? null,
    },
    minLeft?.value ?? null,
  );
  return { ...base, plan: { ...checked, ...plan }, withheld, grounds };
}
