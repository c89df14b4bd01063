/**
 * `npm run bench -- season`: what a season's archive costs. Sessions are made by the store itself (the same each time), and
 * then a real server is timed with each archive: its start, the board, a search at each key, a client's history, the
 * shop's numbers, an import of boots, and its memory before and after a thousand sessions were opened and put down. `--archives 0,2000,20000`;
 * `--json`.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { PROTOCOL } from '../../core/index.ts';
import type { Station } from '../../demo/station.ts';
import { HEADS, row } from '../helpers/model-rows.ts';
import { writeSeason } from '../helpers/season.ts';
import type { Season } from '../helpers/season.ts';
import { serve } from '../helpers/server.ts';
import { median, quantile } from './helpers/sync/figures.ts';
import { rssMb } from './helpers/sync/usage.ts';
import { Client } from './helpers/sync/client.ts';
import { speechOf } from './helpers/sync/speech.ts';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    archives: { type: 'string', default: '0,2000,20000' },
    opened: { type: 'string', default: '1000' },
  },
});
const ARCHIVES = values.archives.split(',').map(Number);
const OPENED = Number(values.opened);
const SEARCHES = 40;
const MODELS = 500;
/** A session that nobody has open, and that was left alone from one look to the next but one, is put down; looked at every ten seconds. */
const IDLE_S = 1;
const PUT_DOWN_MS = 25_000;
/** Opened before the memory is read first: a program that has opened none has parts that it has not yet needed. */
const WARM = 100;

const pause = (ms: number) => new Promise<void>((resolve) => void setTimeout(resolve, ms));

async function timed(work: () => Promise<unknown>): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

/** The board as a desk gets it: from opening the socket to the answer that holds all rows. */
async function board(station: Station): Promise<void> {
  const badge = { cookie: station.cookie, device: '', number: station.me.number, generation: 1 };
  const speech = speechOf('ours', badge);
  const client = await Client.open({
    speech: {
      ...speech,
      address: (url) =>
        `${url.replace(/^http/, 'ws')}/sync/board/desk/${station.me.boot}?protocol=${PROTOCOL}`,
    },
    url: station.url,
    session: '',
    random: 1,
  });
  client.close();
}

/** Opens and closes each as a desk that looks through them. */
async function lookThrough(station: Station, season: Season, from: number, to: number): Promise<void> {
  for (let i = from; i < Math.min(to, season.length); i++) {
    const badge = {
      cookie: station.cookie,
      device: '',
      number: station.me.number,
      generation: station.me.generation,
    };
    const client = await Client.open({
      speech: speechOf('ours', badge),
      url: station.url,
      session: season[i]!.session,
      random: 1_000 + i,
    });
    if (client.facts === 0) throw new Error(`session ${season[i]!.session} came empty`);
    client.close();
  }
  await pause(PUT_DOWN_MS);
}

/** Every key of what is typed is a question of its own. */
async function searches(station: Station, season: Season): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < SEARCHES; i++) {
    const one = season[Math.floor((i * season.length) / SEARCHES)];
    const text = one ? [one.name.toLowerCase(), one.ticket, one.model][i % 3]! : 'jürgen';
    for (let end = 1; end <= text.length; end++)
      times.push(
        await timed(() => station.request('GET', `/api/archive?q=${encodeURIComponent(text.slice(0, end))}`)),
      );
  }
  return times;
}

const PERIODS = {
  day: ['2026-01-09', '2026-01-09'],
  month: ['2026-01-01', '2026-01-31'],
  season: ['2025-09-01', '2026-08-31'],
} as const;
const TIMES = 7;

/** The shop's numbers of a day, a month and a season; and how long anything else waited for an answer meanwhile. */
async function numbersOf(station: Station): Promise<Record<string, number>> {
  const found: Record<string, number> = {};
  for (const [period, [from, to]] of Object.entries(PERIODS)) {
    const times: number[] = [];
    for (let i = 0; i < TIMES; i++)
      times.push(await timed(() => station.request('GET', `/api/numbers?from=${from}&to=${to}`)));
    found[`numbers of a ${period} ms`] = median(times);
  }
  const [from, to] = PERIODS.season;
  let [asking, waitedMs] = [true, 0];
  const asked = station.request('GET', `/api/numbers?from=${from}&to=${to}`).then(() => (asking = false));
  while (asking) waitedMs = Math.max(waitedMs, await timed(() => fetch(new URL('/healthz', station.url))));
  await asked;
  found['longest wait meanwhile ms'] = waitedMs;
  return found;
}

async function importModels(station: Station): Promise<void> {
  const rows = Array.from({ length: MODELS }, (_, i) => row({ model: `Tarn ${i}` }));
  const csv = [HEADS, ...rows].map((cells) => cells.join(';')).join('\n');
  const answer = await fetch(new URL('/api/models/table', station.url), {
    method: 'POST',
    headers: { cookie: station.cookie, origin: station.url, 'content-type': 'text/csv' },
    body: csv,
  });
  const { taken } = (await answer.json()) as { taken: number };
  if (taken !== MODELS) throw new Error(`${taken} of ${MODELS} models were taken`);
}

async function measure(sessions: number): Promise<Record<string, number>> {
  const data = mkdtempSync(join(tmpdir(), 'fibula-season-'));
  try {
    const season = writeSeason(data, sessions, undefined, 'ways');
    const from = performance.now();
    const limits = ['requestsPer10s=100000', 'upgradesPer10s=100000', `sessionIdleSeconds=${IDLE_S}`];
    const shop = await serve({
      data,
      args: ['--no-mdns', '--log-level', 'warn', ...limits.flatMap((limit) => ['--limit', limit])],
    });
    const startMs = performance.now() - from;
    try {
      const pid = shop.server.process.pid!;
      const desk = await shop.station(['desk', 'measuring', 'bench'], 'the desk');
      await pause(3_000);
      const rssBefore = rssMb(pid);
      const boards: number[] = [];
      for (let i = 0; i < 10; i++) boards.push(await timed(() => board(desk)));
      const keys = await searches(desk, season);
      const histories: number[] = [];
      for (let i = 0; i < SEARCHES; i++) {
        const ref = season[Math.floor((i * season.length) / SEARCHES)]?.ref ?? 'p0';
        histories.push(await timed(() => desk.request('GET', `/api/people/${ref}/sessions`)));
      }
      const numbers = await numbersOf(desk);
      const importMs = await timed(() => importModels(desk));
      await lookThrough(desk, season, 0, WARM);
      const rssWarm = rssMb(pid);
      await lookThrough(desk, season, WARM, WARM + OPENED);
      return {
        'database MB': statSync(join(data, 'fibula.db')).size / 1e6,
        'start ms': startMs,
        'board ms': median(boards),
        'key p50 ms': median(keys),
        'key p99 ms': quantile(keys, 0.99),
        'history p50 ms': median(histories),
        ...numbers,
        [`import of ${MODELS} boots ms`]: importMs,
        'RSS MB': rssBefore,
        [`RSS MB after ${WARM} opened`]: rssWarm,
        [`RSS MB after ${OPENED} more`]: rssMb(pid),
      };
    } finally {
      await shop.server.stop();
    }
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

const results: Record<string, Record<string, number>> = {};
for (const sessions of ARCHIVES) {
  process.stderr.write(`an archive of ${sessions}\n`);
  results[sessions] = await measure(sessions);
}
if (values.json) console.log(JSON.stringify({ node: process.version, archives: results }, null, 2));
else {
  console.log(`With an archive of so many sessions; Node ${process.version}`);
  console.table(
    Object.fromEntries(
      Object.keys(Object.values(results)[0]!).map((what) => [
        what,
        Object.fromEntries(
          Object.entries(results).map(([sessions, of]) => [sessions, Number(of[what]!.toPrecision(3))]),
        ),
      ]),
    ),
  );
}
