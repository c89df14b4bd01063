/** How long the whole plan of a session takes, and whether a fact costs more as the session grows. */
import { performance } from 'node:perf_hooks';
import { plan } from '../../core/index.ts';
import type { Fact } from '../../core/index.ts';
import { longSession } from './helpers/session.ts';

const SIZES = [50, 200, 800, 3200];
const ROUNDS = 9;
/** One round of a size lasts at least this long, so that a clock's step is no part of it. */
const LEAST_MS = 40;

interface Row {
  readonly facts: number;
  readonly basis: boolean;
  readonly medianMs: number;
  readonly fastestMs: number;
  readonly slowestMs: number;
  readonly usPerFact: number;
  /** Microseconds a fact, over those of the smallest session of its kind. */
  readonly growth: number;
}

function timed(facts: readonly Fact[], times: number): number {
  const from = performance.now();
  for (let i = 0; i < times; i++) plan(facts);
  return (performance.now() - from) / times;
}

/** All sizes in turn, again and again: what else the machine does then falls on each alike. */
function rows(basis: boolean): Row[] {
  const longest = longSession(SIZES.at(-1)!, basis);
  const sessions = SIZES.map((size) => longest.slice(0, size));
  // The smallest sessions make the compiler think longest of what is worth its while.
  for (const facts of sessions) timed(facts, Math.ceil(4000 / facts.length));
  const times = sessions.map((facts) => Math.max(1, Math.ceil(LEAST_MS / timed(facts, 3))));
  const rounds = sessions.map((): number[] => []);
  for (let i = 0; i < ROUNDS; i++)
    sessions.forEach((facts, which) => rounds[which]!.push(timed(facts, times[which]!)));
  const perFact = (which: number) => (median(rounds[which]!) * 1000) / SIZES[which]!;
  return SIZES.map((facts, which) => ({
    facts,
    basis,
    medianMs: median(rounds[which]!),
    fastestMs: Math.min(...rounds[which]!),
    slowestMs: Math.max(...rounds[which]!),
    usPerFact: perFact(which),
    growth: perFact(which) / perFact(0),
  }));
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;

const all = [true, false].flatMap(rows);
if (process.argv.includes('--json'))
  console.log(JSON.stringify({ node: process.version, rounds: ROUNDS, rows: all }, null, 2));
else {
  const shown = (value: number, digits: number) => Number(value.toFixed(digits));
  console.log(`Whole plan of a session; median of ${ROUNDS} rounds, Node ${process.version}`);
  console.table(
    all.map((row) => ({
      facts: row.facts,
      basis: row.basis ? 'named' : 'by order',
      'ms a plan': shown(row.medianMs, 2),
      fastest: shown(row.fastestMs, 2),
      slowest: shown(row.slowestMs, 2),
      'µs a fact': shown(row.usPerFact, 1),
      'over the smallest': shown(row.growth, 2),
    })),
  );
}
