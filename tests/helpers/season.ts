/**
 * A season that never was: sessions as stations write them, put on the disk by the store itself, without a server. The
 * same `start` makes the same season.
 */
import * as Y from 'yjs';
import { CLIENT_SPAN, jobOf, Log, plan } from '../../core/index.ts';
import type { Fact, JobRow } from '../../core/index.ts';
import { PEOPLE } from '../../demo/people.ts';
import { People } from '../../server/people.ts';
import { openDatabase } from '../../server/schema.ts';
import type { Db } from '../../server/schema.ts';
import { shownOf } from '../../server/session-words.ts';
import { Store } from '../../server/store.ts';
import type { JobToKeep, NewRow } from '../../server/store.ts';
import { Turns } from '../../server/turns.ts';
import { randomFrom } from '../outside/random.ts';
import type { Random } from '../outside/random.ts';
import { DUAL, SINGLE, Story, withMarks } from './facts.ts';

export interface Told {
  readonly session: string;
  readonly ticket: string;
  readonly ref: string;
  readonly name: string;
  readonly model: string;
  readonly tag: string;
  /** `2026-01-09`, in the shop's zone. */
  readonly day: string;
  readonly closed: boolean;
}

/** Oldest first. */
export type Season = readonly Told[];

const TIME_ZONE = 'Europe/Vienna';
const DAY_MS = 86_400_000;
/** Noon of the first day: no zone makes another day of it. */
const FIRST_MS = Date.parse('2025-10-01T11:00:00Z');
const DAYS = 150;
/** Not handed over yet on the last day. */
const OPEN = 40;
const MODELS = ['Larkspur 110', 'Grat 120', 'Kar 130', 'Nadel 90', 'Föhnwand 100', 'Tarn 95'];
/** Beside the village's own: names with letters that not every keyboard has. */
const FIRST = ['Jürgen', 'Zoë', 'Søren', 'Änne', 'Łucja', ...PEOPLE.map(({ name }) => name.split(' ')[0]!)];
const LAST = [
  'Großglück',
  'Müllerin',
  'Ölmoos',
  'Huebenthal',
  ...PEOPLE.map(({ name }) => name.split(' ')[1]!),
];

/** A whole job on two boots, as it is handed over; without its last entry, it is still here. */
function told(model: string, rounds: number): Fact[] {
  const s = new Story().open('cuffs');
  for (const side of ['left', 'right'] as const) {
    const hardware = withMarks(side === 'left' ? DUAL : SINGLE, 1);
    s.add('boot.described', {
      side,
      model,
      mondo: 265,
      soleLengthMm: 305,
      soleStandard: 'iso5355-a',
      hardware,
      tag: `TAG-${side}`,
    } as never);
    s.ready(side);
    for (let round = 0; round < rounds; round++) {
      s.read(side, 12 - 2 * round, 6 + round);
      s.set(side, 1, side === 'left' ? -1 : undefined);
    }
    s.read(side, 8, 8);
    s.add('cuff.closed', { side, decision: 'even' });
  }
  s.add('handed.over', { acknowledgedBy: 'owner' });
  return s.facts;
}

interface Template {
  readonly model: string;
  readonly facts: readonly Fact[];
  /** By whether it is handed over. */
  readonly job: { readonly [closed in 'true' | 'false']: NonNullable<ReturnType<typeof jobOf>> };
}

/** What a row of the board costs to work out is not what a season is about: it is worked out once a kind of job. */
const templates = (): Template[] =>
  MODELS.map((model, i) => {
    const facts = told(model, 1 + (i % 3));
    const rowOf = (some: readonly Fact[]) => jobOf(new Log(some), plan(some))!;
    return { model, facts, job: { true: rowOf(facts), false: rowOf(facts.slice(0, -1)) } };
  });

const STATION = { desk: 1, measuring: 2, bench: 3 } as const;

/** One row for each time that the floor changes hands. */
function rowsOf(session: string, generation: number, facts: readonly Fact[], client: string): NewRow[] {
  const doc = new Y.Doc();
  const rows: NewRow[] = [];
  let ids: string[] = [];
  doc.on('update', (bytes: Uint8Array) =>
    rows.push({ session, generation, bytes, facts: ids, ...(rows.length === 0 ? { client } : {}) }),
  );
  for (let i = 0; i < facts.length;) {
    const { role } = facts[i]!.by;
    let end = i;
    while (facts[end]?.by.role === role) end += 1;
    const turn = facts.slice(i, end);
    ids = turn.map(({ id }) => id);
    doc.clientID = STATION[role as keyof typeof STATION] * CLIENT_SPAN + 7;
    doc.getArray('facts').push(turn);
    i = end;
  }
  doc.destroy();
  return rows;
}

const hex = (random: Random, digits: number): string =>
  Array.from({ length: digits }, () => Math.floor(random.uniform() * 16).toString(16)).join('');
const oneOf = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.uniform() * all.length)]!;

/** What else is kept beside sessions: nothing, so that a server has to work it out, or their ways through the shop. */
type Kept = 'nothing' | 'ways';

/** As a server does it in idle time, which for twenty thousand sessions is a quarter of an hour. */
function keepWays(db: Db, store: Store, documents: readonly Pick<Written, 'session' | 'facts'>[]): void {
  const turns = new Turns(db, (document) => store.factTimes(document));
  db.transaction(() => {
    for (const { session, facts } of documents) turns.keep(store.find(session)!, facts);
    db.exec(`INSERT OR REPLACE INTO lessons SELECT session, generation, last_n FROM documents`);
  })();
}

/** Writes `count` sessions into the database of `directory`, which is made if it is not there. */
export function writeSeason(directory: string, count: number, start = 4180, kept: Kept = 'nothing'): Season {
  const random = randomFrom(start);
  const db = openDatabase(directory);
  // Nothing of this is worth a wait for the disk: it is made again from the same number.
  db.pragma('synchronous = OFF');
  try {
    let ms = FIRST_MS;
    const store = new Store(db, () => ms, TIME_ZONE);
    const people = new People(db, () => ms);
    const kinds = templates();
    const season: Told[] = [];
    const names = new Map<string, string>();
    const written: Pick<Written, 'session' | 'facts'>[] = [];
    for (let day = 0; season.length < count; day++) {
      ms = FIRST_MS + Math.min(day, DAYS - 1) * DAY_MS;
      const today = day >= DAYS - 1 ? count - season.length : Math.max(1, Math.round(count / DAYS));
      const rows: NewRow[] = [];
      const jobs: JobToKeep[] = [];
      for (let i = 0; i < today && season.length < count; i++) {
        const {
          told: one,
          rows: its,
          job,
          facts,
        } = oneSession(random, kinds, season.length, count, ms, store.base);
        if (!names.has(one.ref)) {
          people.put({ ref: one.ref, name: one.name, contact: `${one.ref}@village.example`, language: 'de' });
          names.set(one.ref, one.name);
        }
        season.push({ ...one, name: names.get(one.ref)! });
        rows.push(...its);
        jobs.push(job);
        if (kept === 'ways') written.push({ session: one.session, facts });
      }
      store.commit(rows);
      store.keepJobs(jobs);
    }
    if (kept === 'ways') keepWays(db, store, written);
    return season;
  } finally {
    db.close();
  }
}

interface Written {
  readonly session: string;
  readonly told: Told;
  readonly rows: NewRow[];
  readonly job: JobToKeep;
  readonly facts: readonly Fact[];
}

function oneSession(
  random: Random,
  kinds: readonly Template[],
  index: number,
  count: number,
  ms: number,
  generation: number,
): Written {
  const { model, facts, job } = oneOf(random, kinds);
  const closed = index < count - Math.min(OPEN, count >> 1);
  const session = hex(random, 32);
  const ticket = `1-${index + 1}`;
  // Two in three have been here before, or come again.
  const ref = `p${Math.floor(random.uniform() * count * 0.6)}`;
  const name = `${oneOf(random, FIRST)} ${oneOf(random, LAST)}`;
  const day = new Date(ms).toISOString().slice(0, 10);
  const tag = `T${String(index + 1).padStart(6, '0')}`;
  const own = facts.slice(0, closed ? undefined : -1).map((fact) => ({
    ...fact,
    at: `${day}T12:00:00+01:00`,
    ...(fact.kind === 'session.opened' ? { ticket, clientRef: ref } : {}),
    ...(fact.kind === 'boot.described' ? { tag: `${tag}-${fact.side === 'left' ? 'L' : 'R'}` } : {}),
  })) as Fact[];
  const row: JobRow = {
    ...job[`${closed}`],
    ticket,
    clientRef: ref,
    session,
    generation,
    openedMs: ms,
    lastMs: ms,
    sinceMs: ms,
  };
  return {
    session,
    facts: own,
    told: { session, ticket, ref, name, model, tag, day, closed },
    rows: rowsOf(session, generation, own, ref),
    job: { session, generation, job: JSON.stringify(row), closed, shown: shownOf(new Log(own)) },
  };
}
