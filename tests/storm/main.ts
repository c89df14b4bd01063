/** The storms as commands. Each prints its seed first and one line that sums up last; 1 when a promise was broken. */
import { randomInt } from 'node:crypto';
import { parseArgs } from 'node:util';
import { noCounts } from '../helpers/proxy.ts';
import type { Counts } from '../helpers/proxy.ts';
import { killStorm } from './kills.ts';
import { networkStorm } from './network.ts';
import type { SeedReport } from './network.ts';
import { restoreStorm } from './restores.ts';
import type { RestoreReport } from './restores.ts';

const USAGE = `usage: npm run storm -- --kills N | --network | --restore [--seeds N] [--seed S]

  --kills N   a real server, killed N times in the middle of a burst from twelve stations
  --network   stations on bad networks, cut off here and there; as many times as --seeds says (200), each seed
              one higher than the one before; with --seed alone, that one
  --restore   a backup in the middle of a burst, restored while the stations hold later entries; --seeds (12) as above
  --seed S    the same decisions again (what the clock decides differs)`;

/** Seeds of the network storm that run side by side. */
const AT_ONCE = 4;

const say = (text: string) => process.stdout.write(`${text}\n`);

/** Throws on anything but a whole number from `least` to a million. */
function count(name: string, text: string | undefined, least: number): number | undefined {
  if (text === undefined) return undefined;
  const number = Number(text);
  if (!Number.isInteger(number) || number < least || number > 1_000_000)
    throw new Error(`--${name} must be a whole number from ${least} to 1000000 (is ${text}).`);
  return number;
}

type Options = { readonly seed: number } & (
  { readonly kills: number } | { readonly storm: 'network' | 'restore'; readonly seeds: number }
);

/** Seeds of a storm where nobody says how many. */
const SEEDS = { network: 200, restore: 12 } as const;

function readOptions(): Options {
  const { values } = parseArgs({
    options: {
      kills: { type: 'string' },
      network: { type: 'boolean', default: false },
      restore: { type: 'boolean', default: false },
      seeds: { type: 'string' },
      seed: { type: 'string' },
    },
  });
  const kills = count('kills', values.kills, 1);
  const asked = count('seed', values.seed, 0);
  const seed = asked ?? randomInt(1_000_000);
  const { network, restore } = values;
  if ([kills !== undefined, network, restore].filter(Boolean).length !== 1)
    throw new Error('say which storm.');
  if (kills !== undefined) return { seed, kills };
  const storm = network ? 'network' : 'restore';
  return {
    seed,
    storm,
    seeds: count('seeds', values.seeds, 1) ?? (asked === undefined ? SEEDS[storm] : 1),
  };
}

async function kills(seed: number, wanted: number): Promise<readonly string[]> {
  say(`seed ${seed}: ${wanted} kills`);
  const started = performance.now();
  const report = await killStorm({ seed, kills: wanted, onRound: say });
  const seconds = Math.round((performance.now() - started) / 1000);
  for (const line of report.breaks) say(line);
  say(
    `seed ${seed}: ${report.kills} kills, ${report.sessions} sessions, ${report.entered} facts entered, ` +
      `${report.acknowledged} acknowledged, ${report.lost} lost, ${report.twice} twice, ` +
      `${report.breaks.length} promises broken; ${report.outages} lines out, ${report.reloads} pages reloaded; ${seconds} s`,
  );
  return report.breaks;
}

const seedLine = ({ seed, entered, inPartition, network, breaks }: SeedReport): string =>
  `seed ${seed}: ${entered} facts, ${inPartition} while cut off, ${network.connections} connections; ` +
  (breaks.length === 0 ? 'all the same' : `FAILED, again with --network --seed ${seed}`);

/** Many seeds, and one more storm in which nobody hangs up what is half open. */
async function network(first: number, many: number): Promise<readonly string[]> {
  say(`seeds ${first} to ${first + many - 1}`);
  const started = performance.now();
  const seeds = Array.from({ length: many }, (_, i) => first + i);
  const onSeed = (report: SeedReport) => say([seedLine(report), ...report.breaks].join('\n  '));
  const reports = await networkStorm({ seeds, atOnce: AT_ONCE, onSeed });
  if (many > 1) {
    say('and once more where both ends of a dead connection must find out by themselves');
    reports.push(...(await networkStorm({ seeds: [first], atOnce: 1, nobodyHangsUp: true, onSeed })));
  }
  const sum = (of: (report: SeedReport) => number) => reports.reduce((all, one) => all + of(one), 0);
  const counts = (Object.keys(noCounts()) as (keyof Counts)[]).map(
    (name) => `${name} ${sum((report) => report.network[name])}`,
  );
  const failed = reports.filter(({ breaks }) => breaks.length > 0);
  say(
    `seeds ${first} to ${first + many - 1}: ${reports.length} storms, ${sum(({ entered }) => entered)} facts, ` +
      `${sum(({ inPartition }) => inPartition)} of them while cut off, ${sum(({ reloads }) => reloads)} pages reloaded; ` +
      `${counts.join(', ')}; ${reports.length - failed.length} ended all the same, ${failed.length} failed` +
      `${failed.length > 0 ? ` (${failed.map(({ seed }) => seed).join(', ')})` : ''}; ` +
      `${Math.round((performance.now() - started) / 1000)} s`,
  );
  return failed.flatMap(({ breaks }) => breaks);
}

const restoreLine = ({ seed, sessions, young, acknowledged, later, ...rest }: RestoreReport): string =>
  `seed ${seed}: ${sessions} sessions, ${young} of them opened after the backup; ${rest.entered} facts entered, ` +
  `${acknowledged} acknowledged before the kill, ${later} of them after the backup; ${rest.reloads} pages reloaded; ` +
  `${rest.lost} lost, ${rest.twice} twice, ` +
  (rest.breaks.length === 0 ? 'all the same' : `FAILED, again with --restore --seed ${seed}`);

async function restores(first: number, many: number): Promise<readonly string[]> {
  say(`seeds ${first} to ${first + many - 1}`);
  const started = performance.now();
  const reports: RestoreReport[] = [];
  for (let seed = first; seed < first + many; seed++) {
    const report = await restoreStorm(seed);
    reports.push(report);
    say([restoreLine(report), ...report.breaks].join('\n  '));
  }
  const sum = (of: (report: RestoreReport) => number) => reports.reduce((all, one) => all + of(one), 0);
  const failed = reports.filter(({ breaks }) => breaks.length > 0);
  say(
    `seeds ${first} to ${first + many - 1}: ${many} restores, ${sum(({ entered }) => entered)} facts entered, ` +
      `${sum(({ later }) => later)} acknowledged after the backup, ${sum(({ lost }) => lost)} lost, ` +
      `${sum(({ twice }) => twice)} twice, ${failed.length} failed` +
      `${failed.length > 0 ? ` (${failed.map(({ seed }) => seed).join(', ')})` : ''}; ` +
      `${Math.round((performance.now() - started) / 1000)} s`,
  );
  return failed.flatMap(({ breaks }) => breaks);
}

const ride = (options: Options): Promise<readonly string[]> => {
  const { seed } = options;
  if ('kills' in options) return kills(seed, options.kills);
  return options.storm === 'network' ? network(seed, options.seeds) : restores(seed, options.seeds);
};

async function main(): Promise<void> {
  let options: Options;
  try {
    options = readOptions();
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n\n${USAGE}\n`);
    process.exitCode = 2;
    return;
  }
  const broken = await ride(options);
  process.exitCode = broken.length > 0 ? 1 : 0;
}

await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
  process.exitCode = 1;
});
