/**
 * A revoked station's entries: handed in to the desk's quarantine, and what the desk decided written down here.
 *
 * Nothing is dropped from the device by handing it in. An entry is `saved` here when the desk has taken it in, and
 * `refused` when the desk threw it away; until then it waits, and goes up by itself if the station is let back in.
 */
import type { Fact } from '../../core/index.ts';
import { ask } from './api.ts';
import type { Outbox } from './store/outbox.ts';
import { noInWords } from './no.ts';
import { planText } from './words/plan.ts';
import { revoked } from './words/revoked.ts';

export interface HandedIn {
  /** Entries at the desk, by what became of them. */
  readonly atDesk: number;
  readonly taken: number;
  readonly thrown: number;
  /** Entries that are on this device only. */
  readonly here: number;
  /** Why these are not at the desk; null when they are being sent. */
  readonly problem: string | null;
}

interface Told {
  readonly session: string;
  readonly fact: string;
  readonly state: 'waiting' | 'refused' | 'taken' | 'thrown';
}

/** Entries a request: the server takes some more. */
const PART = 100;
/** Says that this device has handed something in, so that it must ask what became of it. */
const HANDED = 'fibula.handed-in';

export async function handIn(outbox: Outbox): Promise<HandedIn> {
  localStorage.setItem(HANDED, 'yes');
  let told = await decided(outbox);
  let problem: string | null = told ? null : revoked.unreachable;
  if (told) {
    for (const [session, facts] of await notAtDesk(outbox, told))
      for (let i = 0; i < facts.length; i += PART)
        problem = (await send(session, facts.slice(i, i + PART))) ?? problem;
    told = (await decided(outbox)) ?? told;
  }
  const count = (...states: Told['state'][]) =>
    (told ?? []).filter(({ state }) => states.includes(state)).length;
  const left = await notAtDesk(outbox, told ?? []);
  const here = [...left.values()].reduce((sum, facts) => sum + facts.length, 0);
  return {
    atDesk: count('waiting', 'refused'),
    taken: count('taken'),
    thrown: count('thrown'),
    here,
    problem: here > 0 ? problem : null,
  };
}

/** Let back in: what the desk has thrown away must not go up again by itself. */
export async function settleHandedIn(outbox: Outbox): Promise<void> {
  if (localStorage.getItem(HANDED) === null) return;
  if (await decided(outbox)) localStorage.removeItem(HANDED);
}

/** Entries that wait here and are not among those `told`, by session, in the order in which they were written. */
async function notAtDesk(outbox: Outbox, told: readonly Told[]): Promise<Map<string, Fact[]>> {
  const there = new Set(told.map(({ session, fact }) => `${session} ${fact}`));
  const bySession = new Map<string, Fact[]>();
  for (const { session, id, fact } of await outbox.all('waiting'))
    if (!there.has(`${session} ${id}`)) bySession.set(session, [...(bySession.get(session) ?? []), fact]);
  return bySession;
}

/** Why the desk's quarantine did not keep them all; null when it did. */
async function send(session: string, facts: readonly Fact[]): Promise<string | null> {
  const answer = await ask<{ full: boolean; refused: readonly { reason: string }[] }>(
    'POST',
    '/api/quarantine',
    {
      session,
      facts,
    },
  );
  if (!answer.ok) return await noInWords(answer.error, revoked.unreachable);
  if (answer.value.full) return revoked.full;
  const [first] = answer.value.refused;
  return first ? revoked.notKept(planText(first.reason)) : null;
}

/** What the desk decided so far, written down on this device; null when the server does not say. */
async function decided(outbox: Outbox): Promise<readonly Told[] | null> {
  const answer = await ask<{ entries: readonly Told[] }>('GET', '/api/quarantine');
  if (!answer.ok) return null;
  const { entries } = answer.value;
  const waiting = new Set((await outbox.all('waiting')).map(({ session, id }) => `${session} ${id}`));
  for (const { session, fact, state } of entries) {
    if (!waiting.has(`${session} ${fact}`)) continue;
    // The generation is not known here: an older one is offered again some day, and is there already.
    if (state === 'taken') await outbox.markSaved(session, [fact], 1, null);
    if (state === 'thrown')
      await outbox.markRefused(session, fact, {
        code: 'permission',
        fact,
        field: '',
        wants: revoked.thrownWhy,
      });
  }
  return entries;
}
