/**
 * Where the knees stand over the boots, once both cuffs are closed, and the cant that follows: each knee from its
 * own readings alone.
 *
 * A stance reading rests on the pivots of both cuffs, on the footbed, on what is inside the boot and on shell work;
 * its wedge is the cant its author knew under the boot.
 */
import { otherSide } from '../frame.ts';
import type { Side } from '../frame.ts';
import { cantRange, missingForChoice, stance, thickEdge, toStep } from '../maths/stance.ts';
import type { Stance, StanceRules } from '../maths/stance.ts';
import { Z90 } from '../maths/quantile.ts';
import { nextWedge } from '../maths/wedge.ts';
import type { FactOf } from '../record/facts.ts';
import type { Log } from '../record/log.ts';
import type { Settings } from '../record/settings.ts';
import { slot } from '../record/slots.ts';
import type { SoleValue } from '../record/slots.ts';
import { deg, mm } from '../units.ts';
import type { Deg, Mm } from '../units.ts';
import { unheld } from './readings.ts';
import { changesSince } from './rests.ts';
import type { Problem, StancePlan } from './shape.ts';
import { capital, degWords, listed } from './words.ts';

/** What one knee was solved from. */
export interface StanceGrounds {
  readonly readings: readonly { readonly fact: FactOf<'stance.read'>; readonly wedgeDeg: Deg }[];
  /** Mean height of the knee centre above the sole. */
  readonly heightMm: Mm;
  readonly rules: StanceRules;
  readonly solved: Stance;
}

export interface StanceSight {
  readonly plan: StancePlan;
  /** Null while a cuff is open. */
  readonly grounds: StanceGrounds | null;
  /** What is missing before a cant may be chosen without an override. */
  readonly missing: ReturnType<typeof missingForChoice>;
  /** Ids of the readings that count today. */
  readonly facts: readonly string[];
  /** Why the newest reading no longer counts; empty when it does, or when there is none. */
  readonly staleBecause: readonly string[];
  readonly secondLook: boolean;
  readonly problems: readonly Problem[];
}

export const stanceRules = (settings: Settings): StanceRules => ({
  errorMm: mm(settings.kneeErrorMm),
  targetMm: mm(settings.kneeTargetMm),
  slopeShare: settings.kneeSlopeShare,
  plateStepDeg: deg(settings.plateStepDeg),
  secondLookDeg: deg(settings.secondLookDeg),
  maxCantDeg: deg(settings.maxCantDeg),
});

const NOTHING: StancePlan = {
  offsetMm: null,
  slopeMmPerDeg: null,
  cantDeg: null,
  cantSdDeg: null,
  cantRange: null,
  roundedDeg: null,
  thickEdge: null,
  verdict: 'blocked',
  nextWedgeDeg: null,
};

interface Judged {
  readonly fact: FactOf<'stance.read'>;
  readonly wedgeDeg: Deg | null;
  readonly refused: readonly Problem[];
  readonly staleBecause: readonly string[];
}

/** The cant in all under a boot as one author knew it, board and sole together; null when the sole's was unknown. */
function wedgeOf(log: Log, { side, id }: FactOf<'stance.read'>): Deg | null {
  const sole = log.asOf(slot.sole(side), id);
  const board = log.asOf(slot.inside(side, 'boardCantDeg'), id);
  if (sole.is !== 'one') return null;
  return deg((sole.value as SoleValue).cantDeg + (board.is === 'one' ? (board.value as number) : 0));
}

function refusals(log: Log, fact: FactOf<'stance.read'>, wedge: Deg | null): Problem[] {
  const { side, id, posture } = fact;
  const problem = (code: string, text: string): Problem => ({ fact: id, side, code, text });
  const found: Problem[] = [];
  const open = [side, otherSide(side)].filter((one) => log.asOf(slot.closed(one), id).is !== 'one');
  if (open.length)
    found.push(
      problem(
        'stance-open-cuffs',
        `The ${side} knee was read over open cuffs (${listed(open)}): a cant would only hide the fault.`,
      ),
    );
  if (wedge === null)
    found.push(
      problem(
        'sole-unknown',
        `The ${side} knee was read over a sole whose cant is not known: record it, then read again.`,
      ),
    );
  // Buckles are closed as for skiing here, so their lightness is no condition.
  const wrong = unheld(posture, ['bucklesLight']);
  if (wrong.length)
    found.push(
      problem('posture', `The ${side} knee was read without saying that ${listed(wrong)}: read again.`),
    );
  return found;
}

function judge(log: Log, side: Side): Judged[] {
  return log
    .live('stance.read')
    .filter((fact) => fact.side === side)
    .map((fact) => {
      const wedgeDeg = wedgeOf(log, fact);
      return {
        fact,
        wedgeDeg,
        refused: refusals(log, fact, wedgeDeg),
        staleBecause: changesSince(log, fact),
      };
    });
}

function planOf(solved: Stance, rules: StanceRules): StancePlan {
  const next = nextWedge(solved, rules)?.wedgeDeg ?? null;
  switch (solved.verdict) {
    case 'unread':
      return { ...NOTHING, verdict: 'unread', nextWedgeDeg: deg(0) };
    case 'contradictory':
      return {
        ...NOTHING,
        verdict: 'contradictory',
        offsetMm: solved.line.offsetMm,
        slopeMmPerDeg: solved.line.slopeMmPerDeg,
        nextWedgeDeg: next,
      };
    case 'refer':
    case 'flat-enough':
    case 'cant': {
      const roundedDeg = toStep(solved.cantDeg, rules.plateStepDeg);
      const { line, cantDeg, cantSdDeg, verdict } = solved;
      return {
        verdict,
        offsetMm: line.offsetMm,
        slopeMmPerDeg: line.slopeMmPerDeg,
        cantDeg,
        cantSdDeg,
        cantRange: cantRange(line, rules.targetMm, Z90),
        // Past the limit no plate is proposed.
        roundedDeg: verdict === 'refer' ? null : roundedDeg,
        thickEdge: thickEdge(roundedDeg),
        nextWedgeDeg: next,
      };
    }
    default:
      return solved satisfies never;
  }
}

const mean = (values: readonly Mm[]): Mm => mm(values.reduce((sum, v) => sum + v, 0) / values.length);

function contradictionProblem(side: Side, solved: Stance, fact: string): Problem[] {
  if (solved.verdict !== 'contradictory') return [];
  const text =
    solved.contradiction.cause === 'signs'
      ? `The ${side} knee moves against its wedges: are the wedges' thick edges, or medial and lateral, mixed up?`
      : `The ${side} knee's readings contradict each other: stand afresh and read once more.`;
  return [{ fact, side, code: 'contradictory', text }];
}

function floorProblem(log: Log, side: Side, fact: string): Problem[] {
  const floor = log.now('floor.checked');
  if (floor.is !== 'one')
    return [
      {
        fact,
        side,
        code: 'floor-unchecked',
        text: 'The floor under the skier was not checked level today: half a degree is 4 mm at the knee.',
      },
    ];
  const { crossDeg } = floor.value as FactOf<'floor.checked'>;
  if (Math.abs(crossDeg) < 0.5) return [];
  return [
    {
      fact,
      side,
      code: 'floor-canted',
      text: `The floor slopes ${degWords(Math.abs(crossDeg))} across: level it, or stand elsewhere.`,
    },
  ];
}

/** One knee. `cuffsClosed`: both cuffs stand closed today. */
export function stanceOf(log: Log, side: Side, settings: Settings, cuffsClosed: boolean): StanceSight {
  const judged = judge(log, side);
  const problems: Problem[] = judged.flatMap((one) => [...one.refused]);
  for (const { fact, refused, staleBecause } of judged)
    if (staleBecause.length && !refused.length)
      problems.push({
        fact: fact.id,
        side,
        code: 'stale',
        text: `${capital(side)} knee reading ${fact.id} is stale: ${staleBecause.join('; ')}.`,
      });
  const usable = judged.filter((one) => !one.refused.length && !one.staleBecause.length);
  const readings = usable.map(({ fact, wedgeDeg }) => ({
    wedgeDeg: wedgeDeg!,
    offsetMm: fact.kneeOffsetMm,
    restood: fact.restood,
  }));
  const missing = missingForChoice(readings);
  const facts = usable.map(({ fact }) => fact.id);
  const last = judged.at(-1);
  const base = { missing, facts, staleBecause: last && !last.refused.length ? last.staleBecause : [] };
  if (!cuffsClosed) return { ...base, plan: NOTHING, grounds: null, secondLook: false, problems };
  const rules = stanceRules(settings);
  const height = usable.length ? mean(usable.map(({ fact }) => fact.kneeHeightMm)) : mm(0);
  const solved = stance(readings, height, rules);
  if (usable.length)
    problems.push(
      ...floorProblem(log, side, facts.at(-1)!),
      ...contradictionProblem(side, solved, facts.at(-1)!),
    );
  return {
    ...base,
    plan: planOf(solved, rules),
    grounds: {
      readings: usable.map(({ fact, wedgeDeg }) => ({ fact, wedgeDeg: wedgeDeg! })),
      heightMm: height,
      rules,
      solved,
    },
    secondLook: 'secondLook' in solved && solved.secondLook,
    problems,
  };
}
