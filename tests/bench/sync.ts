/**
 * `npm run bench -- sync`: our server beside a bare relay, a relay that keeps each frame, the stock y-websocket server and
 * hocuspocus with SQLite, all in one run: latency from an entry to another station, processor time, what a burst takes,
 * memory, a cold copy.
 * `--rounds N` (3); `--quick` for a look whether it works; `--servers ours,stock` for some of them; `--json`; `--markdown`
 * for the table of `docs/bench-sync.md`.
 */
import { availableParallelism, tmpdir, totalmem } from 'node:os';
import { parseArgs } from 'node:util';
import { compileSqlite3 } from './helpers/sync/compiled.ts';
import { fsyncMs } from './helpers/sync/disk.ts';
import { median, quantile } from './helpers/sync/figures.ts';
import type { Flow, Held } from './helpers/sync/load.ts';
import { play, start } from './helpers/sync/servers.ts';
import { SERVERS } from './helpers/sync/speech.ts';
import type { ServerName } from './helpers/sync/speech.ts';
import { asMarkdown, tableOf } from './helpers/sync/table.ts';

const { values } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    rounds: { type: 'string' },
    servers: { type: 'string', default: SERVERS.join() },
    markdown: { type: 'boolean', default: false },
  },
});
const size = values.quick
  ? { trickles: [5, 10], seconds: 3, burst: 10, held: [0, 20, 50], settleMs: 500, cold: 10, rounds: 1 }
  : {
      trickles: [20, 100],
      seconds: 10,
      burst: 50,
      held: [0, 100, 1000],
      // Until a server that has nothing to do has put away what it needed: two of our heartbeats, and as long for all.
      settleMs: 22_000,
      cold: 50,
      rounds: 3,
    };
const BURST_SESSIONS = 20;
const rounds = values.rounds === undefined ? size.rounds : Math.max(1, Number(values.rounds) || 1);
const names = SERVERS.filter((name) => values.servers.split(',').includes(name));

/** No two loads of one server have a session in common. */
async function measure(name: ServerName, seed: number) {
  const measured: Record<string, number> = {};
  const server = await start(name);
  try {
    const burst = (round: number) =>
      play<Flow>(name, server, seed + round, { do: 'burst', sessions: BURST_SESSIONS, entries: size.burst });
    // The second counts, and what comes behind it: a shop's server runs all day, and programs are slow until they are warm.
    await burst(1);
    const { facts, seconds, cpuSPer1000 } = await burst(2);
    measured['burst, facts/s'] = facts / seconds;
    measured['burst, CPU s per 1,000'] = cpuSPer1000;
    for (const sessions of size.trickles) {
      const flow = await play<Flow>(name, server, seed + 2 + sessions, {
        do: 'trickle',
        sessions,
        seconds: size.seconds,
      });
      measured[`p50 ms, ${sessions} × 3`] = flow.p50Ms;
      measured[`p99 ms, ${sessions} × 3`] = flow.p99Ms;
      measured[`CPU s per 1,000, ${sessions} × 3`] = flow.cpuSPer1000;
    }
  } finally {
    await server.close();
  }
  // A process that has served no burst: what it holds is what the sessions need.
  const fresh = await start(name);
  try {
    const held = await play<Held>(name, fresh, seed + 3, {
      do: 'hold',
      sessions: size.held,
      settleMs: size.settleMs,
      cold: size.cold,
    });
    for (const { sessions, mb } of held.rssMb) measured[`RSS MB, ${sessions} open`] = mb;
    if (held.coldP50Ms !== null) measured['cold copy of 200, p50 ms'] = held.coldP50Ms;
  } finally {
    await fresh.close();
  }
  return measured;
}

if (names.includes('hocuspocus')) await compileSqlite3();
const all = new Map<ServerName, Record<string, number>[]>(names.map((name) => [name, []]));
const disk: number[] = [];
for (let round = 0; round < rounds; round++) {
  for (let i = 0; i < names.length; i++) {
    // Who comes first has the machine at another moment each round.
    const name = names[(i + round) % names.length]!;
    process.stderr.write(`round ${round + 1} of ${rounds}: ${name}\n`);
    disk.push(...fsyncMs(tmpdir()));
    all.get(name)!.push(await measure(name, 4180 + round * 1000));
  }
}

const middle = (each: readonly Record<string, number>[]) =>
  Object.fromEntries(Object.keys(each[0]!).map((what) => [what, median(each.map((one) => one[what]!))]));
const result = {
  node: process.version,
  cores: availableParallelism(),
  memoryGb: Math.round(totalmem() / 1e9),
  rounds,
  fsyncMs: { p50: quantile(disk, 0.5), p99: quantile(disk, 0.99) },
  medians: Object.fromEntries([...all].map(([name, each]) => [name, middle(each)])),
};
if (values.markdown) console.log(asMarkdown(result.medians));
else if (values.json) console.log(JSON.stringify(result, null, 2));
else {
  console.log(
    `Median of ${rounds} rounds, Node ${result.node}, ${result.cores} cores, ${result.memoryGb} GB; ` +
      `fsync of this disk ${result.fsyncMs.p50.toFixed(2)} ms (p99 ${result.fsyncMs.p99.toFixed(2)}). ` +
      'In brackets: over ours.',
  );
  console.table(tableOf(result.medians));
}
