/**
 * A shop of which everything is known: customers come at random, hands take up who came first, work lasts as it lasts.
 * It has an event loop of its own, so that the forecast is not measured by itself. Each customer is told a time.
 */
import {
  FLOOR_ROLES,
  Forecaster,
  minutesAt,
  roleOfWork,
  stepsAhead,
  stepsOfNew,
  waysOf,
} from '../../../core/index.ts';
import type { FloorRole, ForecastJob, JobRow, ShopWays, Turn, Work } from '../../../core/index.ts';
import { randomStream } from '../../../core/maths/random.ts';

export interface TrueShop {
  readonly hands: Readonly<Record<FloorRole, number>>;
  /** True median of each work, minutes, and the spread of its logarithm. */
  readonly medianMin: Readonly<Record<Work, number>>;
  readonly spread: number;
  readonly perMin: number;
  readonly fullShare: number;
  readonly moves: number;
  readonly movesAgain: number;
  readonly soles: number;
}

interface Customer {
  readonly id: string;
  readonly service: JobRow['service'];
  readonly cameMin: number;
  promisedMin: number;
  readyMin: number | null;
  /** The work that it waits for or that is in hand; null once it is ready. */
  work: Work | null;
  sinceMin: number;
  takenMin: number | null;
  readonly turns: Turn[];
}

const MS = 60_000;
/** The doors never close: opening hours are looked at elsewhere. */
const SPANS = [{ fromMs: -1, toMs: 1e15 }];

function next(shop: TrueShop, done: Work, service: string, random: () => number): Work | null {
  const cuffsDone = service === 'full' ? 'stance' : null;
  switch (done) {
    case 'first':
      return random() < shop.moves ? 'pivots' : cuffsDone;
    case 'pivots':
      return 'again';
    case 'again':
      return random() < shop.movesAgain ? 'pivots' : cuffsDone;
    case 'stance':
      return random() < shop.soles ? 'sole' : null;
    case 'sole':
      return 'check';
    case 'check':
      return null;
    default:
      return done satisfies never;
  }
}

/** A board's row as far as the forecast reads it. */
function rowOf({ service, work }: Customer) {
  const stage = {
    first: 'cuff',
    pivots: 'cuff',
    again: 'cuff',
    stance: 'stance',
    sole: 'sole',
    check: 'binding',
  };
  const open = { sole: ['sole', 'binding'], check: ['binding'] }[work as string] ?? [];
  return {
    service,
    stage: work === null ? 'handover' : stage[work],
    steps: open.map((step) => ({ step, status: 'ready' })),
    next: work === null ? [] : [{ role: roleOfWork[work] }],
  } as unknown as JobRow;
}

function learned(shop: TrueShop, customers: readonly Customer[]): ShopWays {
  const all = customers.flatMap(({ turns }) => turns).sort((a, b) => a.endedMs - b.endedMs);
  const pairs = customers.flatMap(({ turns, work }) =>
    turns.map((turn, i) => [turn.work, turns[i + 1]?.work ?? work] as const),
  );
  return waysOf({
    turns: Object.fromEntries(
      FLOOR_ROLES.map((role) => [role, all.filter(({ work }) => roleOfWork[work] === role).slice(-400)]),
    ) as Record<FloorRole, Turn[]>,
    hands: shop.hands,
    spans: SPANS,
    followed: (work, by) => {
      const of = pairs.filter(([before]) => before === work).slice(-200);
      return { n: of.length, followed: of.filter(([, after]) => after === by).length };
    },
  }).ways;
}

export interface Kept {
  readonly told: number;
  readonly kept: number;
  /** Mean minutes from coming to the promise, and to being ready. */
  readonly promisedMin: number;
  readonly tookMin: number;
}

/**
 * @param warm customers before the first whose promise counts: the shop learns from them
 * @param runs of the floor behind each promise
 */
export function simulate(shop: TrueShop, counted: number, seed: number, warm = 150, runs = 150): Kept {
  const random = randomStream(seed, 77);
  const coming = randomStream(seed, 78);
  const customers: Customer[] = [];
  const waiting: Record<FloorRole, Customer[]> = { measuring: [], bench: [], desk: [] };
  const busy: { customer: Customer; untilMin: number }[] = [];
  let comesMin = -Math.log(coming()) / shop.perMin;
  const readied: Customer[] = [];

  const promise = (fresh: Customer, now: number): number => {
    const ways = learned(shop, customers);
    const jobs: ForecastJob[] = customers
      .filter(({ work, id }) => work !== null && id !== fresh.id)
      .sort((a, b) => a.sinceMin - b.sinceMin)
      .map((one) => ({
        id: one.id,
        steps: stepsAhead(rowOf(one), one.turns, ways),
        fromMin: 0,
        priority: 0,
        inHandMin: one.takenMin === null ? null : now - one.takenMin,
      }));
    jobs.push({
      id: fresh.id,
      steps: stepsOfNew(fresh.service, ways),
      fromMin: 0,
      priority: 0,
      inHandMin: null,
    });
    const cuffs = stepsOfNew('cuffs', ways);
    const [stance, ...soles] = stepsOfNew('full', ways).slice(cuffs.length);
    const forecaster = new Forecaster(
      FLOOR_ROLES.map((id) => ({ id, hands: shop.hands[id] })),
      jobs,
      customers.length,
      {
        perMin: shop.perMin,
        steps: [...cuffs, { ...stance!, skip: { chance: 1 - shop.fullShare, steps: 3 } }, ...soles],
        untilMin: 960,
      },
    );
    forecaster.run(runs);
    return now + forecaster.result().at(-1)!.promiseMin;
  };

  while (readied.length < warm + counted) {
    const soonest = Math.min(...busy.map(({ untilMin }) => untilMin), Infinity);
    const now = Math.min(comesMin, soonest);
    if (comesMin <= soonest) {
      const one: Customer = {
        id: `c${customers.length}`,
        service: coming() < shop.fullShare ? 'full' : 'cuffs',
        cameMin: now,
        promisedMin: 0,
        readyMin: null,
        work: 'first',
        sinceMin: now,
        takenMin: null,
        turns: [],
      };
      customers.push(one);
      if (customers.length > warm) one.promisedMin = promise(one, now);
      waiting.measuring.push(one);
      comesMin = now - Math.log(coming()) / shop.perMin;
    } else {
      const at = busy.findIndex(({ untilMin }) => untilMin === soonest);
      const { customer: one } = busy.splice(at, 1)[0]!;
      const done = one.work!;
      // Its first entry is made half way through.
      const begun = (one.takenMin! + now) / 2;
      one.turns.push({
        work: done,
        turnMs: one.sinceMin * MS,
        begunMs: begun * MS,
        endedMs: now * MS,
        done: true,
      });
      one.work = next(shop, done, one.service, random);
      one.takenMin = null;
      one.sinceMin = now;
      if (one.work) waiting[roleOfWork[one.work]].push(one);
      else {
        one.readyMin = now;
        readied.push(one);
      }
    }
    for (const role of FLOOR_ROLES)
      while (
        waiting[role].length > 0 &&
        busy.filter(({ customer }) => roleOfWork[customer.work!] === role).length < shop.hands[role]
      ) {
        const one = waiting[role].shift()!;
        one.takenMin = now;
        const lasts = {
          kind: 'lognormal',
          medianMin: shop.medianMin[one.work!],
          spread: shop.spread,
        } as const;
        busy.push({ customer: one, untilMin: now + minutesAt(lasts, random()) });
      }
  }
  // All who came until the last that counts, and no choice among them by how soon they were ready.
  const told = customers.slice(warm, warm + counted).filter(({ readyMin }) => readyMin !== null);
  const mean = (of: (one: Customer) => number) => told.reduce((sum, one) => sum + of(one), 0) / told.length;
  return {
    told: told.length,
    kept: mean(({ readyMin, promisedMin }) => (readyMin! <= promisedMin ? 1 : 0)),
    promisedMin: mean(({ promisedMin, cameMin }) => promisedMin - cameMin),
    tookMin: mean(({ readyMin, cameMin }) => readyMin! - cameMin),
  };
}

const USUAL = {
  hands: { measuring: 1, bench: 1, desk: 1 },
  medianMin: { first: 16, pivots: 14, again: 7, stance: 15, sole: 30, check: 6 },
  spread: 0.5,
  fullShare: 0.3,
  moves: 0.85,
  movesAgain: 0.35,
  soles: 0.6,
} as const;

/** From a shop with time to one whose bench is the narrow place. */
export const SHOPS: Readonly<Record<string, TrueShop>> = {
  'a quiet shop': { ...USUAL, perMin: 1 / 90 },
  'a busy shop': { ...USUAL, perMin: 1 / 45 },
  'a busy shop with two at the bench': {
    ...USUAL,
    hands: { measuring: 1, bench: 2, desk: 1 },
    fullShare: 0.6,
    perMin: 1 / 45,
  },
  'a busy shop of uneven work': { ...USUAL, spread: 0.8, perMin: 1 / 55 },
};
