/** The fuzz as a command. Its seed is printed first and what it found last; 1 when anything was wrong. */
import { randomInt } from 'node:crypto';
import { parseArgs } from 'node:util';
import { attack } from './campaign.ts';
import type { Report } from './campaign.ts';

const USAGE = `usage: npm run fuzz -- --frames N [--seed S]

  --frames N   frames in all, from 1000 to 100000000; requests and broken sockets come with them
  --seed S     the same frames and requests again (in what order the server reads them differs)`;

/** Bytes of heap that 100,000 frames may leave behind. */
const SLOPE = 1_000_000;
/** One frame in this many, and no fewer than these, are sent to a server with the standard limits. */
const STANDARD = 50;
const LEAST_STANDARD = 8_000;

const say = (text: string) => process.stdout.write(`${text}\n`);
const megabytes = (bytes: number) => (bytes / 1e6).toFixed(2);
const counts = (map: ReadonlyMap<number, number>) =>
  [...map]
    .sort(([a], [b]) => a - b)
    .map(([code, count]) => `${code || 'none'} ×${count}`)
    .join(', ');

function count(name: string, text: string, least: number, most: number): number {
  const number = Number(text);
  if (!/^\d+$/.test(text) || number < least || number > most)
    throw new Error(`--${name} must be a whole number from ${least} to ${most} (is ${text}).`);
  return number;
}

function readOptions() {
  const { values } = parseArgs({ options: { frames: { type: 'string' }, seed: { type: 'string' } } });
  if (values.frames === undefined) throw new Error('Say how many frames.');
  return {
    frames: count('frames', values.frames, 1_000, 100_000_000),
    seed: values.seed === undefined ? randomInt(2 ** 31) : count('seed', values.seed, 0, 2 ** 31),
  };
}

function tell(name: string, { tally, http, honestFacts, slope, heap, seconds, faults }: Report): void {
  say(`\n${name}: ${seconds} s`);
  say(
    `  ${tally.frames} frames read on ${tally.connections} connections, ${tally.limited} stopped by a limit`,
  );
  say(`  connections closed: ${counts(tally.closed)}`);
  say(`  ${http.requests} requests, answers: ${counts(http.statuses)}`);
  say(`  honest stations: ${honestFacts} facts saved and seen by each other, both as the disk`);
  if (slope !== null)
    say(
      `  heap after collection: ${megabytes(heap[0]!.heap)} MB at first, ${megabytes(heap.at(-1)!.heap)} MB at last, ` +
        `${megabytes(slope)} MB per 100,000 frames after warm-up`,
    );
  for (const fault of faults) say(`  FAULT ${fault}`);
}

async function main(): Promise<number> {
  let options: ReturnType<typeof readOptions>;
  try {
    options = readOptions();
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n\n${USAGE}\n`);
    return 2;
  }
  const { frames, seed } = options;
  say(`seed ${seed}: ${frames} frames`);
  const limited = Math.min(frames / 2, Math.max(LEAST_STANDARD, Math.floor(frames / STANDARD)));
  const report = await attack({
    seed,
    frames: frames - limited,
    limits: 'raised',
    samples: 40,
    onSample: ({ frames: sent, heap }) => say(`  ${sent} frames, heap ${megabytes(heap)} MB`),
  });
  tell('limits raised', report);
  const standard = await attack({ seed: seed + 1, frames: limited, limits: 'standard', samples: 2 });
  tell('standard limits', standard);

  const wrong = [...report.faults, ...standard.faults];
  if (report.slope === null || report.slope >= SLOPE) wrong.push('the heap grows with the frames');
  if (standard.tally.limited === 0) wrong.push('no limit stopped anything');
  say(
    wrong.length === 0
      ? `\nseed ${seed}: nothing wrong`
      : `\nseed ${seed}: ${wrong.length} wrong: ${wrong[0]}`,
  );
  return wrong.length === 0 ? 0 : 1;
}

process.exitCode = await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
  return 1;
});
