/**
 * A job's way through the shop as turns of its stations, and what it still has before it. A turn is an unbroken run of
 * one role's entries; it began when the role before had made its last one.
 */
import type { Role } from '../record/kinds.ts';
import type { DurationPrior, LogNormal } from '../maths/duration.ts';
import type { RemainingStep } from '../maths/forecast.ts';
import type { TurnTimes } from '../maths/worked.ts';
import type { JobRow } from './board.ts';

/** What is done in one turn: the first readings, pivots, readings after a move, stance, soles, the binding check. */
export const WORKS = ['first', 'pivots', 'again', 'stance', 'sole', 'check'] as const;
export type Work = (typeof WORKS)[number];

export type FloorRole = Exclude<Role, 'server'>;
export const FLOOR_ROLES: readonly FloorRole[] = ['measuring', 'bench', 'desk'];

export const roleOfWork: Readonly<Record<Work, FloorRole>> = {
  first: 'measuring',
  pivots: 'bench',
  again: 'measuring',
  stance: 'measuring',
  sole: 'bench',
  check: 'desk',
};

/** Until the shop has done it itself; from memory, low. Five seen ones weigh as much. */
const prior = (medianMin: number): DurationPrior => ({ medianMin, spread: 0.5, weight: 5 });
export const WORK_PRIORS: Readonly<Record<Work, DurationPrior>> = {
  first: prior(20),
  pivots: prior(12),
  again: prior(8),
  stance: prior(20),
  sole: prior(40),
  check: prior(10),
};

export interface Turn extends TurnTimes {
  readonly work: Work;
  /** Somebody else has gone on, or the job is finished. */
  readonly done: boolean;
}

export interface Journey {
  readonly turns: readonly Turn[];
  /** When the boots were handed over, or left unfit; null while they are here. */
  readonly closedMs: number | null;
  /** The last entry of the work on it, ms since 1970; null where nothing was done. */
  readonly workedMs: number | null;
}

interface Told {
  readonly id: string;
  readonly kind: string;
  readonly by: { readonly role: string };
}

const STANCE = new Set(['stance.read', 'cant.chosen', 'foreaft.read']);
const SOLE = new Set(['plate.fitted', 'sole.measured']);
const LEFT = new Set(['handed.over', 'released.unfit']);
/** After the boots have left, or beside the work. */
const BESIDE = new Set(['home.checked', 'snow.reported', 'paused', 'struck', 'photo.taken', 'photo.marked']);

function workOf(role: string, kinds: readonly string[], before: readonly { work: Work }[]): Work {
  if (role === 'desk') return 'check';
  if (role === 'bench') return kinds.some((kind) => SOLE.has(kind)) ? 'sole' : 'pivots';
  if (kinds.some((kind) => STANCE.has(kind))) return 'stance';
  return before.some(({ work }) => work === 'pivots') ? 'again' : 'first';
}

/** @param timeOf when an entry was committed, ms since 1970; undefined: it is left out */
export function journeyOf(facts: readonly Told[], timeOf: (id: string) => number | undefined): Journey {
  const told = facts
    .map((fact) => ({ kind: fact.kind, role: fact.by.role, ms: timeOf(fact.id) ?? NaN }))
    .filter(({ ms, role, kind }) => Number.isFinite(ms) && role !== 'server' && !BESIDE.has(kind))
    .sort((a, b) => a.ms - b.ms);
  const closedMs = told.find(({ kind }) => LEFT.has(kind))?.ms ?? null;
  // What the desk enters beside the floor's work is none of the floor's turns; its check of the bindings is its own.
  const work = told.filter(
    ({ role, kind, ms }) =>
      (role !== 'desk' || kind === 'binding.checked') && (closedMs === null || ms <= closedMs),
  );
  const runs: (typeof work)[] = [];
  for (const fact of work) {
    const run = runs.at(-1);
    if (run && run[0]!.role === fact.role) run.push(fact);
    else runs.push([fact]);
  }
  const firstMs = work[0]?.ms ?? Infinity;
  const takenInMs = told.findLast(({ role, ms }) => role === 'desk' && ms <= firstMs)?.ms ?? firstMs;
  const turns: Turn[] = [];
  for (const [i, run] of runs.entries()) {
    const begunMs = run[0]!.ms;
    turns.push({
      work: workOf(
        run[0]!.role,
        run.map(({ kind }) => kind),
        turns,
      ),
      turnMs: Math.min(begunMs, turns.at(-1)?.endedMs ?? takenInMs),
      begunMs,
      endedMs: run.at(-1)!.ms,
      done: i < runs.length - 1 || closedMs !== null,
    });
  }
  return { turns, closedMs, workedMs: work.at(-1)?.ms ?? null };
}

/** How the shop works: what its turns last, and how often there is another. */
export interface ShopWays {
  readonly lasts: Readonly<Record<Work, LogNormal>>;
  /** Chance that the first readings ask for a move, and that the readings after a move do. */
  readonly moves: number;
  readonly movesAgain: number;
  /** Chance that a stance asks for work under the boot. */
  readonly soles: number;
}

const step = (ways: ShopWays, work: Work): RemainingStep => ({
  station: roleOfWork[work],
  duration: ways.lasts[work],
});

/** From the bench on: the move, the readings after it, and with a chance both once more. */
const rounds = (ways: ShopWays): RemainingStep[] => [
  step(ways, 'pivots'),
  { ...step(ways, 'again'), again: { chance: ways.movesAgain, steps: 2 } },
];

const fromStance = (ways: ShopWays): RemainingStep[] => [
  step(ways, 'stance'),
  { ...step(ways, 'sole'), skip: { chance: 1 - ways.soles, steps: 2 } },
  step(ways, 'check'),
];

/** A job of this service that has just been taken in. */
export function stepsOfNew(service: JobRow['service'], ways: ShopWays): RemainingStep[] {
  const [move, again] = rounds(ways) as [RemainingStep, RemainingStep];
  return [
    step(ways, 'first'),
    { ...move, skip: { chance: 1 - ways.moves, steps: 2 } },
    again,
    ...(service === 'full' ? fromStance(ways) : []),
  ];
}

type Standing = Pick<JobRow, 'service' | 'stage' | 'steps' | 'next'>;

/** What a job has before it until it can be picked up; nothing where it can be. */
export function stepsAhead(
  row: Standing,
  turns: readonly Pick<Turn, 'work'>[],
  ways: ShopWays,
): RemainingStep[] {
  const open = (name: string) =>
    row.steps.some(({ step, status }) => step === name && status !== 'done' && status !== 'waived');
  const turn = turnOf(row);
  const after = [
    ...(open('sole') ? [step(ways, 'sole')] : []),
    ...(open('binding') ? [step(ways, 'check')] : []),
  ];
  switch (row.stage) {
    case null:
    case 'handover':
      return [];
    case 'binding':
      return after;
    case 'sole':
      return row.service === 'full' && !open('binding') ? [...after, step(ways, 'check')] : after;
    case 'stance':
    case 'cant':
      return fromStance(ways);
    case 'intake':
    case 'ready':
    case 'cuff': {
      const later = row.service === 'full' ? fromStance(ways) : after;
      if (turn === 'bench' && turns.length > 0) return [...rounds(ways), ...later];
      if (!turns.some(({ work }) => work === 'pivots')) return [...stepsOfNew('cuffs', ways), ...later];
      const [move, again] = rounds(ways) as [RemainingStep, RemainingStep];
      return [
        step(ways, 'again'),
        { ...move, skip: { chance: 1 - ways.movesAgain, steps: 2 } },
        again,
        ...later,
      ];
    }
    default:
      return row.stage satisfies never;
  }
}

/** Whose turn it is first of all: the skier stands there, so measuring goes before the bench. */
export const turnOf = (row: Pick<JobRow, 'next'>): FloorRole | null =>
  FLOOR_ROLES.find((role) => row.next.some((action) => action.role === role)) ?? null;
