/** What people do to a session, one act each, with the simulated leg where something is read. */
import { deg, mm, SIDES } from '../core/index.ts';
import type { NextAction, Side } from '../core/index.ts';
import type { Job } from './job.ts';
import { readGaps, trueGaps } from './leg.ts';

/** Hours from now until the boots are promised. */
const PROMISED_HOURS = 5;

export async function open(job: Job): Promise<void> {
  const { ref, ...person } = job.skier.person;
  await job.desk.request('PUT', `/api/people/${ref}`, person);
  const promisedAt = new Date(Date.now() + PROMISED_HOURS * 3_600_000).toISOString();
  await job.write('desk', 'session.opened', {
    ticket: job.ticket,
    clientRef: ref,
    service: 'cuffs',
    promisedAt,
  });
}

export const askHealth = (job: Job) => job.write('desk', 'health.asked', { outcome: 'proceed' });

export const describe = (job: Job, side: Side) =>
  job.write('desk', 'boot.described', {
    ...job.skier.boots,
    side,
    tag: `${job.ticket}-${side === 'left' ? 'L' : 'R'}`,
  });

export const check = (job: Job, side: Side, item: 'footbed' | 'shell' | 'cuff-neutral') =>
  job.write('measuring', 'ready.checked', { side, item, outcome: 'done' });

/** A sole that came flat. */
export const lookAtSole = (job: Job, side: Side) =>
  job.write('measuring', 'sole.set', { side, cantDeg: deg(0), state: 'as-brought' });

/** Intake and readiness of both boots, up to the first reading. */
export async function prepare(job: Job): Promise<void> {
  await open(job);
  await askHealth(job);
  for (const side of SIDES) await describe(job, side);
  for (const side of SIDES) {
    for (const item of ['footbed', 'shell', 'cuff-neutral'] as const) await check(job, side, item);
    await lookAtSole(job, side);
  }
}

/** Read both gaps of one leg as it truly stands in the cuff as it is set now. */
export async function read(job: Job, side: Side): Promise<void> {
  const { cuff } = (await job.plan('measuring')).sides[side];
  const { skier } = job;
  if (!cuff.set)
    throw new Error(`${job.ticket}: the ${side} pivots are unknown, so nobody can read the cuff`);
  const { hardware } = skier.boots;
  const truth = trueGaps(
    skier.legs[side],
    { ...hardware, factoryLeanDeg: hardware.factoryLeanDeg ?? 0 },
    cuff.set,
  );
  const { medialMm, lateralMm, ...touch } = readGaps(truth, skier.errorSdMm, job.random);
  await job.write('measuring', 'cuff.read', {
    side,
    medialMm: mm(medialMm),
    lateralMm: mm(lateralMm),
    ...touch,
    to: 'liner',
    liner: 'in',
    stanceWidthMm: mm(skier.stanceWidthMm),
    widestAt: 'middle',
    posture: { parallel: true, straightRunStance: true, bucklesLight: true, midFlex: true },
  });
}

/** The bench does as told. */
export async function setAsTold(job: Job, side: Side): Promise<void> {
  const { cuff } = (await job.plan('bench')).sides[side];
  if (!cuff.target) throw new Error(`${job.ticket}: the plan has no target for the ${side} pivots`);
  const { medialMm, lateralMm } = cuff.target;
  await job.write('bench', 'cuff.set', {
    side,
    lateralMm,
    ...(cuff.hardware?.medial ? { medialMm } : {}),
  });
}

export async function close(job: Job, side: Side): Promise<void> {
  const { verdict } = (await job.plan('measuring')).sides[side].cuff;
  await job.write('measuring', 'cuff.closed', { side, decision: verdict === 'even' ? 'even' : 'accepted' });
}

/** Readings at one setting before a technician goes on with what they say. */
const MOST_REPEATS = 3;

/** Once more where the plan asks for it, and then the decision. */
async function closeOrReadAgain(job: Job, side: Side): Promise<void> {
  const { cuff } = (await job.plan('measuring')).sides[side];
  const again = cuff.verdict === 'even' && cuff.readAgain !== null;
  await (again && (cuff.reading?.repeats ?? 0) < MOST_REPEATS ? read(job, side) : close(job, side));
}

/** Do what the plan says is next. Throws for an act that the demo's people have not learned. */
export async function act(job: Job, next: NextAction): Promise<void> {
  const { side } = next;
  if (next.do === 'health.asked') return askHealth(job);
  if (next.do === 'handed.over')
    return job.write('desk', 'handed.over', { acknowledgedBy: 'owner', language: job.skier.person.language });
  if (side)
    switch (next.do) {
      case 'boot.described':
        return describe(job, side);
      case 'ready.checked':
        return check(job, side, next.item as 'footbed');
      case 'sole.set':
        return lookAtSole(job, side);
      case 'cuff.read':
        return read(job, side);
      case 'cuff.set':
        return setAsTold(job, side);
      case 'cuff.closed':
        return closeOrReadAgain(job, side);
    }
  throw new Error(`${job.ticket}: nobody in the demo knows how to do ${next.do}: ${next.text}`);
}

/** Read, set and read again until this cuff is closed, as the plan says. */
export async function finishCuff(job: Job, side: Side): Promise<void> {
  for (;;) {
    const { next } = await job.plan();
    const mine = next.find((action) => action.side === side && action.do.startsWith('cuff.'));
    if (!mine) return;
    await act(job, mine);
  }
}
