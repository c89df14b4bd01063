/** The program: the only place with the environment, ports, the clock and chance. */
import { randomBytes, randomInt } from 'node:crypto';
import { isIP } from 'node:net';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import pino from 'pino';
import type { Logger } from 'pino';
import { banner, codesText, MORE_CODES, noticeText, plainWarning } from './banner.ts';
import { canonicalName, isLoopback, machineNames } from './machine.ts';
import { keepsOthersOut } from './lock.ts';
import { LogFile } from './log-file.ts';
import { readOptions, USAGE } from './options.ts';
import type { Options } from './options.ts';
import type { Code } from './codes.ts';
import { UnusableData } from './schema.ts';
import { startServer } from './server.ts';
import type { RunningServer } from './server.ts';
import { TROUBLE_TEXT } from './trouble.ts';

const PAGES = fileURLToPath(new URL('../build/stations', import.meta.url));

const say = (text: string) => process.stdout.write(`${text}\n`);
// Whoever read the console may be gone; the shop's server goes on without them.
for (const stream of [process.stdout, process.stderr]) stream.on('error', () => undefined);

/** Ends the program with one line that says why. */
function fail(error: unknown): never {
  const expected = error instanceof UnusableData || (error instanceof Error && 'syscall' in error);
  process.stderr.write(`${expected ? sentence(error) : String((error as Error)?.stack ?? error)}\n`);
  process.exit(1);
}

function sentence(error: Error & { code?: unknown; port?: unknown }): string {
  if (error.code === 'EADDRINUSE') return `Port ${String(error.port)} is taken; give another with --port.`;
  if (error.code === 'EACCES' && error.port)
    return `Port ${String(error.port)} needs more rights; give another with --port.`;
  if (error.code === 'ENOSPC')
    return 'The disk of the data directory is full: free some space, then start again.';
  if (error.code === 'EADDRNOTAVAIL') return 'This machine does not have the address given with --host.';
  return error.message;
}

/** Logs go to standard error, but not between the lines a person reads: at a terminal, to a file. */
function logFile(options: Options): string | undefined {
  if (options.logFile !== undefined) return resolve(options.logFile);
  return process.stderr.isTTY ? resolve(options.data, 'server.log') : undefined;
}

function openLog(level: string, file: string | undefined): Logger {
  if (file !== undefined) return pino({ level }, new LogFile(file));
  const destination = pino.destination({ dest: 2, sync: true });
  destination.on('error', () => undefined); // whoever read it may be gone
  return pino({ level }, destination);
}

/**
 * While no desk is paired nobody else can make codes: the console shows one for each role, and new ones when
 * those have expired. @returns what ends that.
 */
function offerCodes({ stations, health }: RunningServer, timeZone: string): () => void {
  let timer: NodeJS.Timeout | undefined;
  const offer = () => health.attempt(show, () => void (timer = setTimeout(offer, 60_000).unref()));
  const show = () => {
    if (stations.hasDesk()) return say(MORE_CODES);
    const roles = [['desk'], ['measuring'], ['bench'], ['desk', 'measuring', 'bench']] as const;
    const codes = roles
      .map((role) => stations.createCode(role))
      .filter((code): code is Code => code !== null);
    if (codes.length > 0) say(codesText(codes, timeZone));
    const next = Math.min(...codes.map(({ expiresMs }) => expiresMs)) - Date.now();
    timer = setTimeout(offer, Number.isFinite(next) ? next : 60_000).unref();
  };
  offer();
  return () => clearTimeout(timer);
}

async function main(options: Options): Promise<void> {
  process.umask(0o077); // what is kept is the owner's, and nobody else's
  const outside = { now: () => Date.now(), randomBytes: (count: number) => randomBytes(count), randomInt };
  const timeZone = options.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  const file = logFile(options);
  const log = openLog(options.logLevel, file);
  const server = await startServer(
    {
      port: options.port,
      host: options.host,
      data: options.data,
      plain: options.plain,
      canonical: () => canonicalName(options.host, options.names),
      names: () => machineNames(options.names),
      mdns: mdnsOf(options),
      onNotice: (notice) => say(noticeText(notice)),
      pages: PAGES,
      shop: {
        ...(options.shop === undefined ? {} : { name: options.shop }),
        ...(options.timeZone === undefined ? {} : { timeZone: options.timeZone }),
      },
      firstShop: { name: 'Boot workshop', timeZone },
      limits: options.limits,
      lowSpaceMb: options.lowSpaceMb,
      say,
      keepsOthersOut,
      keeping: options.keeping,
    },
    outside,
    log,
  );
  const { address, fingerprint, shop } = server;
  say(
    banner({
      shop: shop.name,
      address,
      fingerprint,
      name: mdnsOf(options)?.base ?? null,
      notices: server.notices(),
      isTerminal: process.stdout.isTTY,
      logFile: file,
    }),
  );
  if (options.plain) say(plainWarning(!isLoopback(options.host)));
  stopOnSignals(server, offerCodes(server, shop.timeZone));
  say(`ready ${address}`);
}

/** Nobody could reach a name of this machine alone. */
function mdnsOf({ mdns, host }: Options) {
  if (mdns === null || isLoopback(host)) return null;
  const one = host !== undefined && isIP(host) === 4 && host !== '0.0.0.0' ? { interface: host } : {};
  return { base: mdns, ...one };
}

function stopOnSignals(server: RunningServer, first: () => void): void {
  const stop = async (signal: string) => {
    say(`\n${signal}: stopping.`);
    first();
    const { readOnly } = server.health;
    const unsaved = await server.stop();
    if (readOnly !== null) say(TROUBLE_TEXT[readOnly]);
    else if (unsaved.length > 0)
      say(`Not stored, stations will offer it again: entries of session ${unsaved.join(', ')}.`);
    else say('Everything entered is stored.');
    process.exitCode = unsaved.length > 0 || readOnly !== null ? 1 : 0;
  };
  for (const signal of ['SIGTERM', 'SIGINT'] as const)
    process.once(signal, () => void stop(signal).catch(fail));
}

let options: Options;
try {
  options = readOptions(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${(error as Error).message}\n`);
  process.exit(2);
}
if (options.help) say(USAGE);
else await main(options).catch(fail);
