/** `npm run demo`: a made-up shop with a dozen jobs, and on request skiers who move through it. */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { enterCatalogue } from './catalogue.ts';
import { enterDay, STORIES } from './day.ts';
import { runLive } from './live.ts';
import { operatorCode, startServer } from './serve.ts';
import type { ServerProcess } from './serve.ts';
import { openShop } from './shop.ts';
import type { Shop } from './shop.ts';

const USAGE = `npm run demo -- [options]
  --port N       port of the demo's own server (4180)
  --host ADDR    address it listens on (127.0.0.1; 0.0.0.0 for tablets on a closed network)
  --data DIR     keep its data in this empty folder (a temporary one, removed at the end)
  --url URL      use a server that runs already, over plain http, with --code
  --code N       a pairing code of that server that grants the desk
  --live         skiers move through the shop in real time
  --speed N      shop seconds in one real second (10)
  --skiers N     how many come (until stopped)
  --seed N       another shop day (1)`;

const SETTABLE = {
  port: { type: 'string', default: '4180' },
  host: { type: 'string', default: '127.0.0.1' },
  data: { type: 'string' },
  url: { type: 'string' },
  code: { type: 'string' },
  live: { type: 'boolean', default: false },
  speed: { type: 'string', default: '10' },
  skiers: { type: 'string' },
  seed: { type: 'string', default: '1' },
  help: { type: 'boolean', default: false },
} as const;

/** There is no such place. */
const SHOP = 'Quirlbach Boot Bench';

/** What the person who typed it can mend; shown without a stack. */
class Misuse extends Error {}

function numberOf(name: string, text: string, min: number, max: number): number {
  const value = Number(text);
  if (text.trim() === '' || !(value >= min && value <= max))
    throw new Misuse(`--${name} must be a number from ${min} to ${max}, and is ${text}`);
  return value;
}

function options() {
  try {
    const { values } = parseArgs({ options: SETTABLE });
    if (!values.url !== !values.code) throw new Misuse('--url and --code go together');
    return {
      ...values,
      port: numberOf('port', values.port, 0, 65_535),
      speed: numberOf('speed', values.speed, 0.1, 10_000),
      seed: numberOf('seed', values.seed, 0, 2 ** 31),
      skiers: values.skiers === undefined ? Infinity : numberOf('skiers', values.skiers, 1, 10_000),
    };
  } catch (error) {
    throw new Misuse((error as Error).message);
  }
}

type Options = ReturnType<typeof options>;

/** A server of the demo's own, in an empty folder. */
async function ownServer({ port, host, data }: Options) {
  if (data && existsSync(data) && readdirSync(data).length > 0)
    throw new Misuse(`--data ${data} is not empty: the demo starts with an empty folder`);
  if (data) mkdirSync(data, { recursive: true });
  const folder = data ?? mkdtempSync(join(tmpdir(), 'fibula-demo-'));
  const remove = () => data ?? rmSync(folder, { recursive: true, force: true });
  try {
    const where = ['--plain', '--host', host, '--port', String(port)];
    const server = await startServer(folder, [...where, '--shop', SHOP, '--log-level', 'warn']);
    return { server, code: operatorCode(folder, ['desk']), remove };
  } catch (error) {
    remove();
    throw error;
  }
}

async function invite(shop: Shop, url: string): Promise<void> {
  console.log(
    `\nOpen ${url} in three browsers (or browser profiles) and pair them; a code works once, for ten minutes:`,
  );
  for (const role of ['measuring', 'bench', 'desk'] as const)
    console.log(`  ${`/${role}`.padEnd(10)} ${await shop.desk.code([role])}`);
  console.log('More codes: on the desk.');
}

async function runDay(url: string, code: string, chosen: Options, stopped: AbortSignal): Promise<void> {
  const shop = await openShop(url, code);
  await enterCatalogue(shop);
  for (const { ticket, about } of await enterDay(shop, chosen.seed))
    console.log(`  ${ticket.padEnd(6)} ${about}`);
  await invite(shop, url);
  if (!chosen.live) return;
  console.log(`\nSkiers come in (seed ${chosen.seed}, speed ${chosen.speed}).`);
  await runLive(shop, {
    ...chosen,
    seed: chosen.seed * 1000,
    firstTicket: STORIES.length + 1,
    stopped,
    tell: (line) => console.log(`  ${line}`),
  });
  if (!stopped.aborted) console.log('All skiers have gone home.');
}

async function main(): Promise<void> {
  const chosen = options();
  if (chosen.help) return console.log(USAGE);
  const stop = new AbortController();
  const asked = new Promise<void>((resolve) => stop.signal.addEventListener('abort', () => resolve()));
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => stop.abort());

  const own = chosen.url ? null : await ownServer(chosen);
  const url = chosen.url ?? own!.server.url;
  const ended = own ? untilEnded(own.server) : new Promise<never>(() => undefined);
  try {
    await Promise.race([runDay(url, chosen.code ?? own!.code, chosen, stop.signal), ended, asked]);
    if (own && !stop.signal.aborted) {
      console.log('\nThe server keeps running; Ctrl-C ends it.');
      await Promise.race([asked, ended]);
    }
  } finally {
    stop.abort();
    await own?.server.stop();
    own?.remove();
  }
}

/** Rejects when the demo's server ends by itself. */
function untilEnded(server: ServerProcess): Promise<never> {
  const ended = new Promise<never>((_, reject) =>
    server.process.once('exit', (code) =>
      reject(new Error(`the server ended (${code}):\n${server.output()}`)),
    ),
  );
  // Waited for by the race alone: an end that comes after it is no error.
  ended.catch(() => undefined);
  return ended;
}

main().then(
  () => process.exit(0),
  (error: unknown) => {
    console.error(error instanceof Misuse ? `${error.message}\n${USAGE}` : error);
    process.exit(error instanceof Misuse ? 2 : 1);
  },
);
