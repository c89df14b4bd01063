/**
 * Simulated skiers who move through the shop: each station does what the plan says is its turn, until the cuffs
 * are even and the boots are handed over.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import type { NextAction } from '../core/index.ts';
import { act, open } from './acts.ts';
import { grat, nadel, tarn } from './boots.ts';
import { Job } from './job.ts';
import type { Skier } from './job.ts';
import { PEOPLE } from './people.ts';
import { randomFrom } from './random.ts';
import type { Random } from './random.ts';
import type { Shop, ShopRole } from './shop.ts';

export interface LiveOptions {
  readonly seed: number;
  /** Shop seconds in one real second. */
  readonly speed: number;
  /** How many come in all; Infinity: until stopped. */
  readonly skiers: number;
  /** Number of the first ticket. */
  readonly firstTicket: number;
  readonly stopped: AbortSignal;
  /** Told in words what happens. */
  readonly tell: (line: string) => void;
}

/** Seconds that an act takes in a shop [from memory]. */
const SECONDS: Readonly<Record<string, number>> = {
  'health.asked': 40,
  'boot.described': 45,
  'ready.checked': 60,
  'sole.set': 20,
  'cuff.read': 60,
  'cuff.set': 180,
  'cuff.closed': 15,
  'handed.over': 90,
};

/** Skiers in the shop at one time: there is one bench to stand at. */
const AT_ONCE = 3;
/** Seconds between two who come in. */
const BETWEEN_S = 240;
/** Acts after which a skier is given up on: a demo that cannot end is a fault. */
const MOST_ACTS = 120;

/** Somebody with legs out of a made-up but likely spread. */
function skierFrom(random: Random, number: number): Skier {
  const leg = () => ({
    placeMm: random.normal(5),
    roomMm: random.between(16, 24),
    response: Math.max(0.6, 1 + random.normal(0.12)),
  });
  return {
    person: PEOPLE[number % PEOPLE.length]!,
    boots: random.pick([tarn, nadel, grat])(random.pick([23.5, 24.5, 25.5, 26.5, 27.5, 28.5])),
    legs: { left: leg(), right: leg() },
    errorSdMm: random.between(0.5, 1.2),
    stanceWidthMm: Math.round(random.between(150, 230)),
  };
}

class Floor {
  /** In the order in which they came. */
  readonly jobs: Job[] = [];
  readonly #taken = new Set<Job>();
  readonly #acts = new Map<Job, number>();

  /** The oldest job whose turn is at this station and that no other station has in hand. */
  async take(role: ShopRole): Promise<{ job: Job; next: NextAction } | null> {
    for (const job of this.jobs) {
      if (this.#taken.has(job)) continue;
      // Taken before it is looked at, since another station may look in the meantime.
      this.#taken.add(job);
      const next = (await job.plan(role)).next.find((action) => action.role === role);
      if (next) return { job, next };
      this.#taken.delete(job);
    }
    return null;
  }

  async giveBack(job: Job): Promise<void> {
    const acts = (this.#acts.get(job) ?? 0) + 1;
    this.#acts.set(job, acts);
    if (acts > MOST_ACTS) throw new Error(`${job.ticket}: still not done after ${acts} acts`);
    if ((await job.plan()).next.length === 0) {
      this.jobs.splice(this.jobs.indexOf(job), 1);
      await job.leave();
    }
    this.#taken.delete(job);
  }
}

/**
 * Resolves to the sessions of all who came, when they have gone home or when stopped. Rejects when the server
 * refuses anything.
 */
export async function runLive(shop: Shop, options: LiveOptions): Promise<string[]> {
  const { seed, speed, skiers, tell } = options;
  const floor = new Floor();
  const failed = new AbortController();
  const halted = AbortSignal.any([options.stopped, failed.signal]);
  const sessions: string[] = [];
  const going = () => !halted.aborted && (sessions.length < skiers || floor.jobs.length > 0);
  /** In shop seconds; over at once when halted. */
  const wait = (seconds: number) =>
    sleep((seconds * 1000) / speed, undefined, { signal: halted }).catch(() => undefined);

  async function door(): Promise<void> {
    while (going() && sessions.length < skiers) {
      if (floor.jobs.length < AT_ONCE) {
        const number = sessions.length;
        const random = randomFrom(seed + number);
        const ticket = `${shop.desk.me.number}-${options.firstTicket + number}`;
        const job = new Job(shop, ticket, skierFrom(random, number), random);
        await open(job);
        tell(`${ticket} ${job.skier.person.name} comes in with ${job.skier.boots.model}`);
        floor.jobs.push(job);
        sessions.push(job.session);
      }
      await wait(BETWEEN_S);
    }
  }

  async function station(role: ShopRole): Promise<void> {
    while (going()) {
      const turn = await floor.take(role);
      if (!turn) {
        await wait(5);
        continue;
      }
      const { job, next } = turn;
      await wait(SECONDS[next.do] ?? 60);
      if (halted.aborted) return;
      await act(job, next);
      tell(`${job.ticket} ${role}: ${next.text}`);
      await floor.giveBack(job);
    }
  }

  const parts = [door(), station('desk'), station('measuring'), station('bench')];
  try {
    await Promise.all(
      parts.map((part) =>
        part.catch((error: unknown) => {
          failed.abort();
          throw error;
        }),
      ),
    );
  } finally {
    await Promise.allSettled(parts);
    for (const job of floor.jobs) await job.leave();
  }
  return sessions;
}
