/**
 * The shop's numbers beside a shop's own record of what happened, counted by another road: by the texts of its local days and
 * hour by hour on its clock, where the server goes by moments and by rows that it kept.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Bucket, NumbersTold, Service } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { writeShop } from '../helpers/shop-record.ts';
import type { Happened } from '../helpers/shop-record.ts';
import { until } from '../helpers/until.ts';
import { run } from './helpers/running.ts';
import type { Running } from './helpers/running.ts';

const ZONE = 'Europe/Vienna';
const MIN = 60_000;
const HOUR = 60 * MIN;
/** The clock is put forward on 29 March 2026, in the middle of what happened. */
const FIRST = Date.parse('2026-02-20T00:00:00Z');
/** Two at the bench, and a day off other than the usual. */
const OPENING = {
  hands: { measuring: 1, bench: 2, desk: 1 },
  days: [null, ...Array.from({ length: 6 }, () => ({ from: '10:00', to: '19:00' }))],
};

let running: Running;
let data: string;
let desk: Station;
let record: Happened[];
beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'fibula-numbers-'));
  record = writeShop(data, { count: 110, firstMs: FIRST, everyMin: 720, here: 12, timeZone: ZONE });
  seenTurns = turnsSeen();
  running = await run({ data });
  desk = await running.station(['desk']);
  await desk.request('PUT', '/api/opening', OPENING);
  await until(
    async () => (await ask('2026-03-01', '2026-03-01')).uncounted === 0,
    'all to be counted',
    90_000,
  );
});
afterAll(async () => {
  await running.close();
  rmSync(data, { recursive: true, force: true });
});

const ask = (from: string, to: string, by = '') =>
  desk.request<NumbersTold>('GET', `/api/numbers?from=${from}&to=${to}${by && `&by=${by}`}`);

/** What is told once no session is uncounted. */
const allCounted = (told: () => Promise<NumbersTold>) =>
  until(
    async () => {
      const now = await told();
      return now.uncounted === 0 && now;
    },
    'all to be counted again',
    90_000,
  );

/** Asked once for each moment: the server in this process must get its turn. */
const said = new Map<string, string>();
function local(ms: number, format: Intl.DateTimeFormat): string {
  const key = `${ms} ${format.resolvedOptions().locale}`;
  const text = said.get(key) ?? format.format(ms);
  said.set(key, text);
  return text;
}
/** `2026-03-29 02:30`, and `Sun`. */
const STAMP = new Intl.DateTimeFormat('sv-SE', { timeZone: ZONE, dateStyle: 'short', timeStyle: 'short' });
const WEEKDAY = new Intl.DateTimeFormat('en-US', { timeZone: ZONE, weekday: 'short' });
const localDay = (ms: number) => local(ms, STAMP).slice(0, 10);
const localHour = (ms: number) => Number(local(ms, STAMP).slice(11, 13));
const localWeekday = (ms: number) =>
  ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'].indexOf(local(ms, WEEKDAY));

/** Whole hours are open or shut here, so that a clock that goes hour by hour is exact. */
const open = new Map<number, boolean>();
function isOpen(hourMs: number): boolean {
  let is = open.get(hourMs);
  if (is === undefined) {
    const day = OPENING.days[localWeekday(hourMs)];
    const hour = localHour(hourMs);
    is = day !== null && hour >= 10 && hour < 19;
    open.set(hourMs, is);
  }
  return is;
}
function openMinutes(from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to;) {
    const end = Math.min(to, (Math.floor(at / HOUR) + 1) * HOUR);
    if (isOpen(Math.floor(at / HOUR) * HOUR)) sum += (end - at) / MIN;
    at = end;
  }
  return sum;
}

/** The record as one list of things that were seen, each with its moment. */
interface SeenTurn {
  readonly ms: number;
  readonly work: string;
  readonly waited: number;
  readonly worked: number;
  readonly whole: number;
}
const ROLE: Readonly<Record<string, keyof typeof OPENING.hands>> = {
  first: 'measuring',
  again: 'measuring',
  pivots: 'bench',
  check: 'desk',
};
let seenTurns: readonly SeenTurn[] = [];
function turnsSeen(): SeenTurn[] {
  const all = record.flatMap(({ turns }) => turns).sort((a, b) => a.endedMs - b.endedMs);
  return all.map((turn) => {
    const role = ROLE[turn.work]!;
    const ended = all.filter((each) => ROLE[each.work] === role && each.endedMs < turn.endedMs);
    // With so many hands one was free when the one so many before had put its boot down.
    const free = ended.at(-OPENING.hands[role])?.endedMs ?? 0;
    const taken = Math.min(turn.begunMs, Math.max(turn.turnMs, free));
    return {
      ms: turn.endedMs,
      work: turn.work,
      waited: openMinutes(turn.turnMs, taken),
      worked: Math.max(
        0.5,
        openMinutes(taken, turn.endedMs),
        (turn.endedMs - Math.max(turn.begunMs, taken)) / MIN,
      ),
      whole: (turn.endedMs - turn.turnMs) / MIN,
    };
  });
}

/** MEDIAN and PERCENTILE of a spreadsheet. */
function percentile(values: readonly number[], p: number): number {
  const rising = [...values].sort((a, b) => a - b);
  const rank = 1 + (rising.length - 1) * p;
  const [low, high] = [rising[Math.floor(rank) - 1]!, rising[Math.ceil(rank) - 1]!];
  return low + (high - low) * (rank - Math.floor(rank));
}
const halfway = (values: readonly number[]) =>
  values.length === 0
    ? null
    : {
        medianMin: expect.closeTo(percentile(values, 0.5), 6),
        mostMin: expect.closeTo(percentile(values, 0.8), 6),
      };

/** What the record has of a time, which is told by its moments' local texts alone. */
function counted(holds: (ms: number) => boolean) {
  const services = (jobs: readonly { service: Service }[]) => ({
    cuffs: jobs.filter(({ service }) => service === 'cuffs').length,
    full: jobs.filter(({ service }) => service === 'full').length,
    recheck: jobs.filter(({ service }) => service === 'recheck').length,
  });
  const left = (as: string) => record.filter((job) => job.left?.as === as && holds(job.left.ms));
  const cuffs = record.flatMap((job) => job.cuffs).filter(({ ms }) => holds(ms));
  const even = cuffs.filter(({ decision }) => decision === 'even');
  const turns = seenTurns.filter(({ ms }) => holds(ms));
  const times = Object.fromEntries(
    ['first', 'pivots', 'again', 'stance', 'sole', 'check'].map((work) => {
      const own = turns.filter((turn) => turn.work === work);
      return [
        work,
        {
          n: own.length,
          waited: halfway(own.map(({ waited }) => waited)),
          worked: halfway(own.map(({ worked }) => worked)),
          whole: halfway(own.map(({ whole }) => whole)),
        },
      ];
    }),
  );
  const picked = left('handed').map(({ turns: own, left: at }) => [own.at(-1)!.endedMs, at!.ms] as const);
  return {
    opened: services(record.filter(({ openedMs }) => holds(openedMs))),
    handed: services(left('handed')),
    unfit: services(left('unfit')),
    evenAfter: [
      ...[0, 1, 2, 3].map((moves) => even.filter((cuff) => cuff.moves === moves).length),
      even.filter(({ moves }) => moves >= 4).length,
    ],
    evenMoves: even.reduce((sum, { moves }) => sum + moves, 0),
    otherwise: cuffs.length - even.length,
    moved: cuffs.filter(({ moves }) => moves > 0).length,
    firstEnough: even.filter(({ moves }) => moves === 1).length,
    times: {
      ...times,
      pickup: {
        n: picked.length,
        waited: halfway(picked.map(([from, to]) => openMinutes(from, to))),
        worked: null,
        whole: halfway(picked.map(([from, to]) => (to - from) / MIN)),
      },
    },
  };
}

const inDays = (from: string, to: string) => (ms: number) => localDay(ms) >= from && localDay(ms) <= to;

describe('the numbers of a shop', () => {
  it.each([
    ['days', '2026-03-23', '2026-04-05', 'day', 14],
    ['weeks', '2026-02-20', '2026-04-30', 'week', 11],
    ['months', '2025-09-01', '2026-08-31', 'month', 12],
    ['seasons', '2025-01-01', '2026-12-31', 'season', 3],
  ] as const)('[NUM-3] are by %s what the shop’s own record says', async (_, from, to, by, pieces) => {
    const told = await ask(from, to, by);
    expect(told.buckets).toHaveLength(pieces);
    expect(told.buckets[0]!.from).toBe(from);
    expect(told.buckets.at(-1)!.to).toBe(to);
    for (const [i, bucket] of told.buckets.entries()) {
      if (i > 0) expect(bucket.fromMs).toBe(told.buckets[i - 1]!.toMs);
      expect(bucket, bucket.from).toMatchObject(counted(inDays(bucket.from, bucket.to)));
    }
    expect(told.times).toMatchObject(counted(inDays(from, to)).times);
  });

  it('[NUM-1] go by the clock on the wall where a day has 23 hours, and where it has 25', async () => {
    for (const [day, hours] of [
      ['2026-03-29', 23],
      ['2025-10-26', 25],
    ] as const) {
      const told = await ask(day, day);
      expect(told.by).toBe('hour');
      expect(told.buckets).toHaveLength(24);
      expect((told.buckets[23]!.toMs - told.buckets[0]!.fromMs) / HOUR).toBe(hours);
      expect((told.buckets[2]!.toMs - told.buckets[2]!.fromMs) / HOUR).toBe(hours === 23 ? 0 : 2);
    }
    // What happened on the short day stands at the hour that the clock showed.
    const told = await ask('2026-03-29', '2026-03-29');
    for (const bucket of told.buckets)
      expect(bucket, String(bucket.hour)).toMatchObject(
        counted((ms) => localDay(ms) === '2026-03-29' && localHour(ms) === bucket.hour),
      );
  });

  it('[NUM-2] count each job once where it was taken in, and once where it left', async () => {
    const { buckets, here, paused } = await ask('2025-09-01', '2026-08-31');
    const all = (of: (bucket: Bucket) => Record<string, number>) =>
      buckets.flatMap((bucket) => Object.values(of(bucket))).reduce((sum, n) => sum + n, 0);
    expect(all(({ opened }) => opened)).toBe(110);
    expect(all(({ handed }) => handed) + all(({ unfit }) => unfit)).toBe(98);
    expect(here).toBe(12);
    expect(paused).toBe(0);
  });

  it('[NUM-7] are a table for other programs: the same figures, as RFC 4180 has it', async () => {
    const answer = await fetch(new URL('/api/numbers/table?from=2026-03-01&to=2026-03-31', desk.url), {
      headers: { cookie: desk.cookie },
    });
    expect(answer.headers.get('content-type')).toBe('text/csv; charset=utf-8; header=present');
    expect(answer.headers.get('content-disposition')).toMatch(/filename="numbers-2026-03-01-2026-03-31.csv"/);
    const bytes = new Uint8Array(await answer.arrayBuffer());
    expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    const text = new TextDecoder().decode(bytes);
    expect(text.split('\r\n')).toHaveLength(33);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const rows: Record<string, string>[] = parse(text, { columns: true });
    const told = await ask('2026-03-01', '2026-03-31');
    expect(rows).toHaveLength(31);
    for (const [i, row] of rows.entries()) {
      const bucket = told.buckets[i]!;
      expect(row['first_day']).toBe(bucket.from);
      expect(Date.parse(row['begins_utc']!)).toBe(bucket.fromMs);
      expect(Number(row['jobs_taken_in_full'])).toBe(bucket.opened.full);
      expect(Number(row['cuffs_even_after_4_or_more_moves'])).toBe(bucket.evenAfter[4]);
      expect(Number(row['pickup_count'])).toBe(bucket.times.pickup.n);
      const { waited } = bucket.times.first;
      expect(row['first_waited_open_median_min']).toBe(
        waited ? String(Number(waited.medianMin.toFixed(2))) : '',
      );
    }
  });

  it.each([
    [
      'where nothing of them was kept',
      'DELETE FROM turns; DELETE FROM journeys; DELETE FROM closed_cuffs; DELETE FROM lessons',
    ],
    [
      'in a database of an older program',
      `DROP TABLE closed_cuffs; DROP INDEX turns_ended; DROP INDEX journeys_left; DROP INDEX journeys_here;
       ALTER TABLE journeys DROP COLUMN left_as; PRAGMA user_version = 10;
       CREATE INDEX journeys_closed ON journeys (closed_ms) WHERE closed_ms IS NOT NULL`,
    ],
  ])('[NUM-6] are there again %s', async (_, sql) => {
    const at = async () => ask('2026-02-01', '2026-05-31');
    const before = await at();
    expect(before.uncounted).toBe(0);
    await running.stop();
    const db = new Database(join(data, 'fibula.db'));
    db.exec(sql);
    db.close();
    running = await run({ data });
    desk = await running.station(['desk']);
    expect((await at()).uncounted).toBeGreaterThan(0);
    const after = await allCounted(at);
    expect({ ...after, atMs: 0 }).toEqual({ ...before, atMs: 0 });
  });

  it('[NUM-2] stay as they were when a client’s data are erased', async () => {
    const at = async () => ask('2026-02-01', '2026-05-31');
    const before = await at();
    for (const { clientRef } of record.slice(40, 44)) {
      const erased = await running.server.keeper.erase(clientRef, false);
      expect(erased?.sessions).toBe(1);
    }
    const after = await allCounted(at);
    expect({ ...after, atMs: 0 }).toEqual({ ...before, atMs: 0 });
    // Also where all of it is worked out from what is left of the sessions.
    await running.stop();
    const db = new Database(join(data, 'fibula.db'));
    db.exec('DELETE FROM turns; DELETE FROM journeys; DELETE FROM closed_cuffs; DELETE FROM lessons');
    db.close();
    running = await run({ data });
    desk = await running.station(['desk']);
    const again = await allCounted(at);
    expect({ ...again, atMs: 0 }).toEqual({ ...before, atMs: 0 });
  });

  it.each([
    ['from=2026-02-30&to=2026-03-01', /^from: must be a day/],
    ['from=2026-03-01&to=1.3.2026', /^to: must be a day/],
    ['from=2026-03-01&to=2026-02-28', /^to: must not be before from/],
    ['from=2026-03-01&to=2026-03-02&by=year', /^by: must be hour, day, week, month, season/],
    ['from=1990-01-01&to=2026-03-02&by=day', /^to: must make at most 400 pieces/],
  ])('say what is wrong with %s', async (query, says) => {
    const answer = await fetch(new URL(`/api/numbers?${query}`, desk.url), {
      headers: { cookie: desk.cookie },
    });
    expect(answer.status).toBe(400);
    expect(((await answer.json()) as { error: { text: string } }).error.text).toMatch(says);
  });

  it('are the desk’s alone', async () => {
    const bench = await running.station(['bench']);
    for (const path of ['/api/numbers', '/api/numbers/table']) {
      const answer = await fetch(new URL(`${path}?from=2026-03-01&to=2026-03-01`, desk.url), {
        headers: { cookie: bench.cookie },
      });
      expect(answer.status).toBe(403);
    }
  });
});
