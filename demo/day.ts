/** A dozen jobs of one shop day, each left at another stage. */
import type { CuffVerdict, NextAction, Side, StepName } from '../core/index.ts';
import { askHealth, check, describe, finishCuff, open, prepare, read, setAsTold } from './acts.ts';
import { grat, kar, nadel, tarn } from './boots.ts';
import type { BootModel } from './boots.ts';
import { Job } from './job.ts';
import type { Skier } from './job.ts';
import { PEOPLE } from './people.ts';
import { randomFrom } from './random.ts';
import type { Shop } from './shop.ts';

/** Where a job shall stand when it is entered; what is not named is not claimed. */
export interface Claim {
  readonly stage: StepName | null;
  readonly left?: CuffVerdict;
  readonly right?: CuffVerdict;
  /** Among the next acts; null: nothing is left to do. */
  readonly next: Pick<NextAction, 'role' | 'do'> | null;
}

interface Story {
  readonly about: string;
  readonly boots: BootModel;
  /** Where each leg stands lateral of the cuff's centre, mm. */
  readonly placeMm: readonly [left: number, right: number];
  readonly roomMm?: number;
  readonly claim: Claim;
  readonly enter: (job: Job) => Promise<void>;
}

const both = async (job: Job, act: (job: Job, side: Side) => Promise<void>) => {
  await act(job, 'left');
  await act(job, 'right');
};

const BENCH_SETS = { role: 'bench', do: 'cuff.set' } as const;
const FLOOR_READS = { role: 'measuring', do: 'cuff.read' } as const;

export const STORIES: readonly Story[] = [
  {
    about: 'just taken in',
    boots: tarn(26.5),
    placeMm: [3, 2],
    claim: { stage: 'intake', next: { role: 'desk', do: 'boot.described' } },
    enter: open,
  },
  {
    about: 'being made ready',
    boots: tarn(25.5),
    placeMm: [4, 4],
    claim: { stage: 'ready', next: { role: 'measuring', do: 'ready.checked' } },
    enter: async (job) => {
      await open(job);
      await askHealth(job);
      await both(job, describe);
      await check(job, 'left', 'footbed');
      await check(job, 'left', 'shell');
    },
  },
  {
    about: 'read, waiting for the bench',
    boots: tarn(27.5),
    placeMm: [6, 5],
    claim: { stage: 'cuff', left: 'uneven', right: 'uneven', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await both(job, read);
    },
  },
  {
    about: 'set at the bench, to be read again',
    boots: tarn(24.5),
    placeMm: [-6, 5],
    claim: { stage: 'cuff', left: 'unread', right: 'unread', next: FLOOR_READS },
    enter: async (job) => {
      await prepare(job);
      await both(job, read);
      await both(job, setAsTold);
    },
  },
  {
    about: 'the left leg presses on the cuff',
    boots: tarn(26.5),
    placeMm: [11, 5],
    roomMm: 16,
    claim: { stage: 'cuff', left: 'contact', right: 'uneven', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await both(job, read);
    },
  },
  {
    about: 'single pivots, the left one even',
    boots: nadel(23.5),
    placeMm: [-5, 6],
    claim: { stage: 'cuff', left: 'even', right: 'uneven', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await finishCuff(job, 'left');
      await read(job, 'right');
    },
  },
  {
    about: 'round eccentrics, their places unequal',
    boots: grat(28.5),
    placeMm: [7, -6],
    claim: { stage: 'cuff', left: 'uneven', right: 'uneven', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await both(job, read);
    },
  },
  {
    about: 'at the end of the travel',
    boots: kar(27.5),
    placeMm: [10, 2],
    roomMm: 26,
    claim: {
      stage: 'cuff',
      left: 'out-of-travel',
      next: { role: 'measuring', do: 'cuff.closed' },
    },
    enter: async (job) => {
      await prepare(job);
      await read(job, 'left');
      await setAsTold(job, 'left');
      await read(job, 'left');
    },
  },
  {
    about: 'two stations said the same at once: no conflict',
    boots: grat(25.5),
    placeMm: [4, 5],
    claim: { stage: 'cuff', left: 'uneven', right: 'unread', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await job.writeAtOnce(['measuring', 'bench'], 'ready.checked', {
        side: 'left',
        item: 'footbed',
        outcome: 'done',
      });
      await read(job, 'left');
    },
  },
  {
    about: 'paused over lunch',
    boots: nadel(26.5),
    placeMm: [5, 5],
    claim: { stage: 'cuff', left: 'uneven', right: 'unread', next: BENCH_SETS },
    enter: async (job) => {
      await prepare(job);
      await read(job, 'left');
      await job.write('measuring', 'paused', {
        bootsAre: 'on the rack by the stove',
        wedgesOut: true,
        pivotsTight: true,
      });
    },
  },
  {
    about: 'both cuffs closed, to be picked up',
    boots: tarn(25.5),
    placeMm: [5, -4],
    claim: { stage: 'handover', left: 'even', right: 'even', next: { role: 'desk', do: 'handed.over' } },
    enter: async (job) => {
      await prepare(job);
      await both(job, finishCuff);
    },
  },
  {
    about: 'handed over this morning',
    boots: grat(26.5),
    placeMm: [-4, -5],
    claim: { stage: null, left: 'even', right: 'even', next: null },
    enter: async (job) => {
      await prepare(job);
      await both(job, finishCuff);
      await job.write('desk', 'handed.over', { acknowledgedBy: 'owner', language: 'de' });
    },
  },
];

/** Standard deviation of a gap reading by the demo's floor, mm. */
const ERROR_SD_MM = 0.6;

export interface Entered {
  readonly ticket: string;
  readonly session: string;
  readonly about: string;
  readonly claim: Claim;
}

/** Enter the whole day. The same seed gives the same readings. */
export async function enterDay(shop: Shop, seed: number): Promise<Entered[]> {
  const entered: Entered[] = [];
  for (const [i, story] of STORIES.entries()) {
    const random = randomFrom(seed + i);
    const leg = (placeMm: number) => ({
      placeMm,
      roomMm: story.roomMm ?? 20,
      response: random.between(0.85, 1),
    });
    const skier: Skier = {
      person: PEOPLE[i]!,
      boots: story.boots,
      legs: { left: leg(story.placeMm[0]), right: leg(story.placeMm[1]) },
      errorSdMm: ERROR_SD_MM,
      stanceWidthMm: Math.round(random.between(150, 230)),
    };
    const job = new Job(shop, `${shop.desk.me.number}-${i + 1}`, skier, random);
    try {
      await story.enter(job);
    } finally {
      await job.leave();
    }
    entered.push({ ticket: job.ticket, session: job.session, about: story.about, claim: story.claim });
  }
  return entered;
}
