/** The storms as commands. Each prints its seed first and one line that sums up last; 1 when a promise was broken. */
import { randomInt } from 'node:crypto';
import { parseArgs } from 'node:util';
import { killStorm } from './kills.ts';

const USAGE = `usage: npm run storm -- --kills N [--seed S]

  --kills N   a real server, killed N times in the middle of a burst from twelve stations
  --seed S    the same decisions again (what the clock decides differs)`;

const say = (text: string) => process.stdout.write(`${text}\n`);

/** Throws on anything but a whole number from `least` to a million. */
function count(name: string, text: string | undefined, least: number): number | undefined {
  if (text === undefined) return undefined;
  const number = Number(text);
  if (!Number.isInteger(number) || number < least || number > 1_000_000)
    throw new Error(`--${name} must be a whole number from ${least} to 1000000 (is ${text}).`);
  return number;
}

function readOptions() {
  const { values } = parseArgs({ options: { kills: { type: 'string' }, seed: { type: 'string' } } });
  const kills = count('kills', values.kills, 1);
  if (kills === undefined) throw new Error('say which storm.');
  return { kills, seed: count('seed', values.seed, 0) ?? randomInt(1_000_000) };
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

async function main(): Promise<void> {
  let options: ReturnType<typeof readOptions>;
  try {
    options = readOptions();
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n\n${USAGE}\n`);
    process.exitCode = 2;
    return;
  }
  const broken = await kills(options.seed, options.kills);
  process.exitCode = broken.length > 0 ? 1 : 0;
}

await main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
  process.exitCode = 1;
});
