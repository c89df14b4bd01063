/** One look at the whole session: what steps, next actions and cautions are derived from. */
import { otherSide, SIDES } from '../frame.ts';
import type { Side } from '../frame.ts';
import type { Fact, FactOf } from '../record/facts.ts';
import { SERVICES } from '../record/kinds.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import type { SoleValue } from '../record/slots.ts';
import { compareCants } from '../maths/stance.ts';
import { evenStand } from '../maths/sole.ts';
import { deg, mm } from '../units.ts';
import type { Mm } from '../units.ts';
import { chosenCant } from './cant.ts';
import type { Chosen } from './cant.ts';
import { closingOf } from './closing.ts';
import type { Closing } from './closing.ts';
import { conflictsOf } from './conflicts.ts';
import { cuffOf } from './cuff.ts';
import type { CuffSight } from './cuff.ts';
import { fitOf } from './fit.ts';
import type { FitSight } from './fit.ts';
import { foreAftOf } from './foreaft.ts';
import type { ForeAftSight } from './foreaft.ts';
import type { Problem } from './shape.ts';
import { settingsOf, sideNow } from './side.ts';
import type { SideNow } from './side.ts';
import { soleOf } from './sole.ts';
import type { SoleSight } from './sole.ts';
import { leftOverRight, standProblems } from './stand.ts';
import { stanceOf } from './stance.ts';
import type { StanceSight } from './stance.ts';
import { degWords } from './words.ts';
import { wrongSide } from './wrong-side.ts';

export interface SideScene {
  readonly now: SideNow;
  readonly fit: FitSight;
  readonly sight: CuffSight;
  readonly closing: Closing;
  /** A plate, a planing, or any change from the cant as brought. */
  readonly soleTouched: boolean;
  readonly wedgeIn: boolean;
  readonly stance: StanceSight;
  readonly chosen: Chosen;
  readonly sole: SoleSight;
  readonly foreAft: ForeAftSight;
}

export interface Scene {
  readonly log: Log;
  readonly settings: Settings;
  readonly opened: FactOf<'session.opened'> | null;
  readonly service: (typeof SERVICES)[number];
  readonly health: FactOf<'health.asked'>['outcome'] | null;
  readonly sides: Readonly<Record<Side, SideScene>>;
  /** Both cuffs stand closed. */
  readonly cuffsClosed: boolean;
  readonly problems: readonly Problem[];
}

/** A sole in dispute counts as touched, and as standing on a wedge if either side of the dispute says so. */
function wedgeUnder(log: Log, side: Side): boolean {
  return log.heads(slot.sole(side)).some((id) => {
    const fact = log.get(id);
    return fact?.kind === 'sole.set' && fact.state === 'test-wedge';
  });
}

function touched(log: Log, side: Side, sole: SoleValue | null): boolean {
  if (log.now(slot.sole(side)).is === 'conflict') return true;
  if (log.live('plate.fitted').some((fact) => fact.side === side)) return true;
  const set = log.live('sole.set').filter((fact) => fact.side === side);
  const brought = set.find((fact) => fact.state === 'as-brought')?.cantDeg;
  if (brought === undefined)
    return set.some((fact) => fact.state === 'neutralised' || fact.state === 'fitted');
  return sole !== null && sole.cantDeg !== brought;
}

interface CuffScene {
  readonly now: SideNow;
  readonly fit: FitSight;
  readonly sight: CuffSight;
  readonly closing: Closing;
  readonly problems: readonly Problem[];
}

function cuffScene(log: Log, side: Side, settings: Settings): CuffScene {
  const now = sideNow(log, side);
  const fit = fitOf(log, now, settings);
  const sight = cuffOf(log, now, settings);
  const { closing, problems } = closingOf(log, side, sight.cuff);
  return {
    now,
    fit,
    sight,
    closing,
    problems: [...now.problems, ...fit.problems, ...sight.problems, ...problems],
  };
}

/** Left and right, each solved apart, then compared. */
function comparison(stance: Readonly<Record<Side, StanceSight>>, settings: Settings): Problem[] {
  const cant = ({ plan }: StanceSight) =>
    plan.cantDeg === null || plan.cantSdDeg === null
      ? null
      : { cantDeg: plan.cantDeg, cantSdDeg: plan.cantSdDeg };
  const [left, right] = [cant(stance.left), cant(stance.right)];
  if (!left || !right) return [];
  const { differenceDeg, questioned } = compareCants(left, right, deg(settings.maxDifferenceDeg));
  if (!questioned) return [];
  const text = `Left and right ask for cants ${degWords(Math.abs(differenceDeg))} apart: look at leg length, cuffs and footbeds first.`;
  return [{ code: 'cants-apart', text }];
}

/** Both soles: their thin edges so that the boots stand as they are to, as far as plates can make it. */
function soles(
  log: Log,
  cuffs: Readonly<Record<Side, CuffScene>>,
  chosen: Readonly<Record<Side, Chosen>>,
  settings: Settings,
) {
  const solve = (gain: Readonly<Record<Side, Mm>>) => ({
    left: soleOf(log, cuffs.left.now, chosen.left, settings, gain.left),
    right: soleOf(log, cuffs.right.now, chosen.right, settings, gain.right),
  });
  const heightsOf = ({ left, right }: ReturnType<typeof solve>) => ({
    left: left.plan.standHeightMm,
    right: right.plan.standHeightMm,
  });
  const least = solve({ left: mm(0), right: mm(0) });
  const { left, right } = heightsOf(least);
  const solved =
    (left === null && right === null) || least.left.fitted || least.right.fitted
      ? least
      : solve(gains(left, right, leftOverRight(log)));
  return { ...solved, problems: standProblems(log, heightsOf(solved)) };
}

/** A boot without work under it stands at 0, and gains nothing. */
function gains(left: Mm | null, right: Mm | null, wanted: Mm): Readonly<Record<Side, Mm>> {
  const { leftMm, rightMm } = evenStand(left ?? mm(0), right ?? mm(0), wanted);
  return { left: left === null ? mm(0) : leftMm, right: right === null ? mm(0) : rightMm };
}

function sidesOf(log: Log, settings: Settings) {
  const cuffs = { left: cuffScene(log, 'left', settings), right: cuffScene(log, 'right', settings) };
  const legs = {
    left: { now: cuffs.left.now, readings: cuffs.left.sight.readings },
    right: { now: cuffs.right.now, readings: cuffs.right.sight.readings },
  };
  const cuffsClosed = SIDES.every((side) => cuffs[side].closing.is === 'closed');
  const stance = {
    left: stanceOf(log, 'left', settings, cuffsClosed),
    right: stanceOf(log, 'right', settings, cuffsClosed),
  };
  const picked = {
    left: chosenCant(log, 'left', stance.left),
    right: chosenCant(log, 'right', stance.right),
  };
  const chosen = { left: picked.left.chosen, right: picked.right.chosen };
  const sole = soles(log, cuffs, chosen, settings);
  const foreAft = { left: foreAftOf(log, cuffs.left.now), right: foreAftOf(log, cuffs.right.now) };
  const scene = (side: Side): SideScene => ({
    ...cuffs[side],
    soleTouched: touched(log, side, cuffs[side].now.sole),
    wedgeIn: wedgeUnder(log, side),
    stance: stance[side],
    chosen: chosen[side],
    sole: sole[side],
    foreAft: foreAft[side],
  });
  const problems = [
    ...SIDES.flatMap((side) => [
      ...cuffs[side].problems,
      ...stance[side].problems,
      ...picked[side].problems,
      ...sole[side].problems,
      ...foreAft[side].problems,
    ]),
    ...SIDES.flatMap((side) => wrongSide(log, legs[side], legs[otherSide(side)], settings)),
    ...comparison(stance, settings),
    ...sole.problems,
  ];
  return { sides: { left: scene('left'), right: scene('right') }, cuffsClosed, problems };
}

function ofSession(log: Log, opened: readonly Fact[]): Problem[] {
  const problems: Problem[] = log.badStrikes.map(({ fact, why }) => ({
    fact: fact.id,
    code: 'bad-strike',
    text: `Strike ${fact.id} does nothing: ${why}.`,
  }));
  if (log.facts.length && !opened.length)
    problems.push({ code: 'not-opened', text: 'The session was never opened.' });
  for (const extra of opened.slice(1))
    problems.push({
      fact: extra.id,
      code: 'opened-twice',
      text: `The session is opened a second time by ${extra.id}.`,
    });
  if (opened[0] && log.facts[0] !== opened[0])
    problems.push({
      fact: opened[0].id,
      code: 'opened-late',
      text: 'Facts stand before the opening of the session.',
    });
  return problems;
}

function readyProblems(log: Log, side: Side): Problem[] {
  return log.slots(slot.ready(side, '')).flatMap((name): Problem[] => {
    const state = log.now(name);
    const item = name.slice(slot.ready(side, '').length);
    if (state.is === 'one' && (state.value as { outcome: string }).outcome === 'open')
      return [
        {
          fact: state.facts.at(-1)!,
          side,
          code: 'item-open',
          text: `The ${side} boot: ${item} is still to do.`,
        },
      ];
    return [];
  });
}

/** What cannot be undone, done without the owner's agreement on record, or without the maker's approval where it needs one. */
function notAgreed(log: Log): Problem[] {
  const agreed = log.live('work.agreed');
  const reworked = log.live('pivot.reworked');
  const irreversible = [
    ...reworked,
    ...log.live('plate.fitted').filter((fact) => fact.method === 'plane'),
    ...log.live('shell.worked').filter((fact) => fact.method !== 'stretch'),
  ];
  const problem = (fact: (typeof irreversible)[number], code: string, lacks: string): Problem => ({
    fact: fact.id,
    side: fact.side,
    code,
    text: `The ${fact.side} boot: ${fact.kind} ${fact.id} cannot be undone, and no ${lacks} stood on record before it.`,
  });
  const lacking = (fact: Fact, holds: (agreement: FactOf<'work.agreed'>) => boolean): boolean =>
    !agreed.some((agreement) => holds(agreement) && log.knew(fact.id, agreement.id));
  return [
    ...irreversible
      .filter((fact) => lacking(fact, () => true))
      .map((fact) => problem(fact, 'not-agreed', 'agreement of the owner')),
    ...reworked
      .filter(({ method }) => method !== 'other')
      .filter((fact) => lacking(fact, ({ makerApproval }) => makerApproval !== undefined))
      .map((fact) => problem(fact, 'not-approved', 'approval of the maker')),
  ];
}

const isService = (value: unknown): value is Scene['service'] =>
  (SERVICES as readonly unknown[]).includes(value);

export function sceneOf(log: Log): Scene {
  const settings = settingsOf(log);
  const opened = log.live('session.opened');
  const service = log.now('service');
  const health = log.now('health.asked');
  const { sides, cuffsClosed, problems } = sidesOf(log, settings);
  return {
    log,
    settings,
    opened: opened[0] ?? null,
    // A service in dispute counts as the fullest, so that nothing that was agreed is skipped.
    service:
      service.is === 'one' && isService(service.value)
        ? service.value
        : service.is === 'conflict'
          ? 'full'
          : 'cuffs',
    health: health.is === 'one' ? (health.value as FactOf<'health.asked'>).outcome : null,
    sides,
    cuffsClosed,
    problems: [
      ...ofSession(log, opened),
      ...conflictsOf(log),
      ...SIDES.flatMap((side) => readyProblems(log, side)),
      ...problems,
      ...notAgreed(log),
    ],
  };
}
