/**
 * A shop that never was, and its own record of what happened there: who came when, what was done, how it left. Its sessions are
 * put on the disk entry by entry, as stations write them; the record is told apart, and never read from them.
 */
import * as Y from 'yjs';
import { CLIENT_SPAN, SERVICES } from '../../core/index.ts';
import type { Fact, FloorRole, Service, Side } from '../../core/index.ts';
import { shift } from '../../core/maths/cuff.ts';
import { hardwareOf } from '../../core/guide/side.ts';
import { mm } from '../../core/units.ts';
import { openDatabase } from '../../server/schema.ts';
import { Store } from '../../server/store.ts';
import { randomFrom } from '../outside/random.ts';
import type { Random } from '../outside/random.ts';
import { DUAL, Story } from './facts.ts';

export interface HappenedTurn {
  readonly work: 'first' | 'pivots' | 'again' | 'check';
  /** Since when it was theirs; their first entry; their last. */
  readonly turnMs: number;
  readonly begunMs: number;
  readonly endedMs: number;
}

/** One job, as somebody who stood beside it would tell it. */
export interface Happened {
  readonly session: string;
  readonly clientRef: string;
  readonly service: Service;
  readonly openedMs: number;
  readonly left: { readonly as: 'handed' | 'unfit'; readonly ms: number } | null;
  readonly cuffs: readonly {
    readonly moves: number;
    readonly decision: 'even' | 'accepted';
    readonly ms: number;
  }[];
  /** Those that are done: the last one of a job that is here goes on. */
  readonly turns: readonly HappenedTurn[];
}

const MIN = 60_000;
const STATION: Readonly<Record<FloorRole, number>> = { desk: 1, measuring: 2, bench: 3 };
const hardware = hardwareOf(DUAL);
const oneOf = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.uniform() * all.length)]!;
const hex = (random: Random): string =>
  Array.from({ length: 32 }, () => Math.floor(random.uniform() * 16).toString(16)).join('');

interface Entry {
  readonly fact: Fact;
  readonly ms: number;
}

/** A job's entries and their times, told one after the other. */
class Telling {
  readonly story = new Story();
  readonly entries: Entry[] = [];
  readonly #next: (afterMs: number) => number;
  ms: number;

  constructor(ms: number, next: (afterMs: number) => number) {
    this.ms = ms;
    this.#next = next;
  }

  /** `gapMin`: whole minutes since the entry before. */
  told(gapMin: number, ...tell: (() => unknown)[]): number {
    for (const [i, each] of tell.entries()) {
      const from = this.story.facts.length;
      each();
      for (const fact of this.story.facts.slice(from)) {
        this.ms = this.#next(this.ms + (i === 0 && fact === this.story.facts[from] ? gapMin : 1) * MIN);
        this.entries.push({ fact, ms: this.ms });
      }
    }
    return this.ms;
  }
}

/** Until the next entry, min: mostly within the hour, now and then the next day or the one after. */
const gap = (random: Random): number =>
  Math.ceil(random.uniform() < 0.2 ? random.between(500, 3_300) : random.between(2, 70));

function oneJob(random: Random, openedMs: number, next: (afterMs: number) => number, stillHere: boolean) {
  const job = new Telling(openedMs - MIN, next);
  const { story } = job;
  const clientRef = `p${hex(random).slice(0, 8)}`;
  const service = oneOf(random, SERVICES);
  const left = ['left', 'right'] as const;
  const moves: Record<Side, number> = {
    left: oneOf(random, [0, 1, 1, 1, 2, 2, 3, 5]),
    right: oneOf(random, [0, 1, 1, 1, 2, 3, 4]),
  };
  const accepted: Record<Side, boolean> = { left: random.uniform() < 0.15, right: random.uniform() < 0.15 };
  const at = (move: number) => 0.3 * move;
  const shiftAt = (move: number) => shift(hardware, { medialMm: mm(at(move)), lateralMm: mm(-at(move)) });
  const read = (side: Side, move: number) => () => {
    // The last setting stands even, unless it is taken as it is.
    const bias = 2 * (shiftAt(moves[side] + (accepted[side] ? 2 : 0)) - shiftAt(move));
    story.read(side, Number((12 + bias / 2).toFixed(3)), Number((12 - bias / 2).toFixed(3)));
  };
  const opened = job.told(1, () => story.add('session.opened', { ticket: '1-1', clientRef, service }));
  job.told(2, () => story.add('health.asked', { outcome: 'proceed' }));
  const takenInMs = job.told(3, ...left.map((side) => () => story.boot(side, DUAL)));
  const turns: HappenedTurn[] = [];
  const turn = (work: HappenedTurn['work'], ...tell: (() => unknown)[]) => {
    const turnMs = turns.at(-1)?.endedMs ?? takenInMs;
    const from = job.entries.length;
    job.told(gap(random), ...tell);
    turns.push({ work, turnMs, begunMs: job.entries[from]!.ms, endedMs: job.ms });
  };
  const cuffs: { moves: number; decision: 'even' | 'accepted'; ms: number }[] = [];
  const close = (move: number) =>
    left
      .filter((side) => moves[side] === move)
      .map((side) => () => {
        const decision = accepted[side] ? 'accepted' : 'even';
        story.add('cuff.closed', { side, decision }, { role: 'measuring' });
        cuffs.push({ moves: moves[side], decision, ms: job.entries.length });
      });
  turn(
    'first',
    ...left.map((side) => () => story.ready(side)),
    ...left.map((side) => read(side, 0)),
    ...close(0),
  );
  for (let move = 1; move <= Math.max(moves.left, moves.right); move++) {
    const moved = left.filter((side) => moves[side] >= move);
    turn('pivots', ...moved.map((side) => () => story.set(side, -at(move), at(move))));
    turn('again', ...moved.map((side) => read(side, move)), ...close(move));
  }
  const checked = service === 'full';
  if (checked) turn('check', () => story.add('binding.checked', { outcome: 'passed', reference: 'R-1' }));
  let leftAs: Happened['left'] = null;
  if (!stillHere) {
    if (random.uniform() < 0.1) {
      const slip = story.facts.length;
      job.told(gap(random), () => story.add('handed.over', { acknowledgedBy: 'owner' }));
      job.told(1, () =>
        story.add('struck', { fact: story.facts[slip]!.id, reason: 'a slip' }, { role: 'desk' }),
      );
    }
    const as = random.uniform() < 0.12 ? 'unfit' : 'handed';
    const ms = job.told(gap(random), () =>
      as === 'handed'
        ? story.add('handed.over', { acknowledgedBy: 'owner' })
        : story.add('released.unfit', { what: 'a crack in the shell', acknowledgedBy: 'owner' }),
    );
    leftAs = { as, ms };
  }
  return { job, clientRef, service, opened, turns, cuffs, leftAs };
}

/** Writes `count` jobs into the database of `directory`, one after the other from `firstMs` on, `everyMin` apart. */
export function writeShop(
  directory: string,
  of: { count: number; firstMs: number; everyMin: number; here?: number; start?: number; timeZone?: string },
): Happened[] {
  const random = randomFrom(of.start ?? 77);
  const db = openDatabase(directory);
  db.pragma('synchronous = OFF');
  try {
    let now = 0;
    const store = new Store(db, () => now, of.timeZone);
    /** No two entries in one minute: in which order they came is known. */
    const taken = new Set<number>();
    const next = (ms: number): number => {
      while (taken.has(ms)) ms += MIN;
      taken.add(ms);
      return ms;
    };
    const entries: (Entry & { session: string })[] = [];
    const record: Happened[] = [];
    for (let i = 0; i < of.count; i++) {
      const session = hex(random);
      const openedMs = of.firstMs + Math.round(i * of.everyMin + random.between(0, of.everyMin)) * MIN;
      const told = oneJob(random, openedMs, next, i >= of.count - (of.here ?? 0));
      entries.push(...told.job.entries.map((entry) => ({ ...entry, session })));
      record.push({
        session,
        clientRef: told.clientRef,
        service: told.service,
        openedMs: told.opened,
        left: told.leftAs,
        cuffs: told.cuffs.map(({ ms: entry, ...cuff }) => ({ ...cuff, ms: told.job.entries[entry]!.ms })),
        turns: told.leftAs ? told.turns : told.turns.slice(0, -1),
      });
    }
    const docs = new Map<string, Y.Doc>();
    for (const { fact, ms, session } of entries.sort((a, b) => a.ms - b.ms)) {
      now = ms;
      const doc = docs.get(session) ?? new Y.Doc();
      docs.set(session, doc);
      const before = Y.encodeStateVector(doc);
      doc.clientID = STATION[fact.by.role as FloorRole] * CLIENT_SPAN + 7;
      doc.getArray('facts').push([fact]);
      const client = fact.kind === 'session.opened' ? { client: fact.clientRef } : {};
      store.commit([
        {
          session,
          generation: store.base,
          bytes: Y.encodeStateAsUpdate(doc, before),
          facts: [fact.id],
          ...client,
        },
      ]);
    }
    return record;
  } finally {
    db.close();
  }
}
