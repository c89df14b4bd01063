/** The demo as a newcomer meets it: a real server, real sockets, a real database file. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from '../core/index.ts';
import type { Plan } from '../core/index.ts';
import { CATALOGUE, enterCatalogue } from '../demo/catalogue.ts';
import { enterDay, STORIES } from '../demo/day.ts';
import type { Entered } from '../demo/day.ts';
import { runLive } from '../demo/live.ts';
import { openShop } from '../demo/shop.ts';
import type { Shop } from '../demo/shop.ts';
import { serve } from './helpers/server.ts';
import type { TestServer } from './helpers/server.ts';

let server: TestServer;
let shop: Shop;

beforeAll(async () => {
  server = await serve();
  shop = await openShop(server.url, server.code(['desk']));
});
afterAll(async () => {
  await server?.close();
});

const stageOf = (of: Plan) =>
  of.steps.find((s) => s.status !== 'done' && s.status !== 'waived')?.step ?? null;

/** The session as a station that had no part in it finds it. */
async function factsOf(session: string) {
  const room = await shop.bench.enter(session);
  try {
    return room.facts;
  } finally {
    room.close();
  }
}

it('the shop’s catalogue is taken as it is', async () => {
  await enterCatalogue(shop);
  const { models } = await shop.bench.request<{ models: unknown[] }>('GET', '/api/models');
  expect(models).toHaveLength(CATALOGUE.length);
  expect(models).toEqual(expect.arrayContaining([...CATALOGUE]));
});

describe('the shop day', () => {
  let day: Entered[];
  beforeAll(async () => {
    day = await enterDay(shop, 1);
  });

  it('has a dozen jobs', () => {
    expect(day).toHaveLength(12);
    expect(new Set(day.map((job) => job.ticket)).size).toBe(12);
  });

  it.each(STORIES.map((story, i) => [story.about, i] as const))(
    'has one where it is said to be: %s',
    async (_, i) => {
      const { session, ticket, claim } = day[i]!;
      const facts = await factsOf(session);
      expect(facts[0]).toMatchObject({ kind: 'session.opened', ticket });
      const found = plan(facts);
      expect(stageOf(found)).toBe(claim.stage);
      if (claim.left) expect(found.sides.left.cuff.verdict).toBe(claim.left);
      if (claim.right) expect(found.sides.right.cuff.verdict).toBe(claim.right);
      if (claim.next) expect(found.next).toContainEqual(expect.objectContaining(claim.next));
      else expect(found.next).toEqual([]);
      expect(found.problems).toEqual([]);
    },
  );

  const at = async (about: string) => {
    const facts = await factsOf(day.find((job) => job.about.includes(about))!.session);
    return { facts, found: plan(facts) };
  };

  it('shows a press as a bound', async () => {
    const { cuff } = (await at('presses')).found.sides.left;
    expect(cuff.bound).toBe('at-least');
    expect(cuff.reading).toMatchObject({ contact: 'lateral', pressure: 'press' });
  });

  it('moves round eccentrics to places that they have', async () => {
    const { cuff } = (await at('eccentrics')).found.sides.left;
    const places = cuff.hardware!.lateral!.stops!.map((stop) => stop.mm);
    expect(places).toContain(cuff.target!.lateralMm);
    expect(places).toContain(cuff.target!.medialMm);
    expect(Math.abs(cuff.target!.lateralMm)).toBeGreaterThan(0);
  });

  it('says at the end of the travel what is missing', async () => {
    const { shortBy } = (await at('end of the travel')).found.sides.left.cuff;
    expect(shortBy!.pivotMm).toBeGreaterThan(0);
  });

  it('has one with two entries that did not know each other', async () => {
    const { facts } = await at('at once');
    const beds = facts.filter(
      (fact) => fact.kind === 'ready.checked' && fact.side === 'left' && fact.item === 'footbed',
    );
    expect(beds.map((fact) => fact.by.role).sort()).toEqual(['bench', 'measuring', 'measuring']);
    const [first, ...both] = beds;
    for (const bed of both) expect(bed.basis).toEqual([first!.id]);
  });

  it('has one that is paused', async () => {
    expect((await at('paused')).facts.at(-1)!.kind).toBe('paused');
  });
});

describe('live', () => {
  it('takes a skier from the door to even cuffs and home', async () => {
    const told: string[] = [];
    const sessions = await runLive(shop, {
      seed: 4,
      speed: 10_000,
      skiers: 1,
      firstTicket: 101,
      stopped: AbortSignal.timeout(100_000),
      tell: (line) => told.push(line),
    });
    expect(sessions).toHaveLength(1);
    const facts = await factsOf(sessions[0]!);
    const decisions = facts.flatMap((fact) => (fact.kind === 'cuff.closed' ? [fact.decision] : []));
    expect(decisions).toEqual(['even', 'even']);
    expect(facts.filter((fact) => fact.kind === 'cuff.set').length).toBeGreaterThan(0);
    expect(facts.at(-1)!.kind).toBe('handed.over');
    expect(told.at(-1)).toContain('desk:');
  });
});
