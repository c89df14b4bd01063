/** What was asked on the command line. */
import { parseArgs } from 'node:util';
import type { KeepingOptions } from './keeper.ts';
import { KEEPING_ARGS, KEEPING_USAGE, readKeeping } from './keeping-options.ts';
import { readLimits } from './limit-table.ts';
import type { Limits } from './limit-table.ts';

export interface Options {
  readonly port: number;
  readonly host: string | undefined;
  readonly data: string;
  readonly plain: boolean;
  readonly names: readonly string[];
  /** Name to announce in the network, without `.local`; null for none. */
  readonly mdns: string | null;
  readonly shop: string | undefined;
  readonly timeZone: string | undefined;
  readonly lowSpaceMb: number | undefined;
  readonly logLevel: string;
  readonly logFile: string | undefined;
  readonly limits: Limits;
  readonly keeping: KeepingOptions;
  readonly help: boolean;
}

export const USAGE = `npm start -- [options]

  --port N          port to listen on; 0 for any free one (4180)
  --host ADDRESS    address to listen on (every interface)
  --data DIR        where everything is kept (./data)
  --plain           http in the place of https; see the README for what is lost
  --name NAME       one more name by which stations reach this machine; may be given again
  --mdns NAME       name announced in the shop's network: https://NAME.local (fibula)
  --no-mdns         announce no name
  --shop NAME       what the shop is called, from now on
  --time-zone ZONE  the shop's IANA time zone, from now on
  --low-space MB    warn when less is free on the disk of the data (1000)
  --log-level L     trace, debug, info, warn, error or silent (info)
  --log-file FILE   where logs go (standard error; at a terminal, server.log in the data directory)
  --limit NAME=N    set one limit; may be given again; docs/limits.md lists them
${KEEPING_USAGE}`;

const LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'];

/** Throws an `Error` with one sentence for the person who typed it. */
export function readOptions(args: readonly string[]): Options {
  const { values } = parseArgs({
    args: [...args],
    options: {
      port: { type: 'string', default: '4180' },
      host: { type: 'string' },
      data: { type: 'string', default: './data' },
      plain: { type: 'boolean', default: false },
      name: { type: 'string', multiple: true, default: [] },
      mdns: { type: 'string', default: 'fibula' },
      'no-mdns': { type: 'boolean', default: false },
      shop: { type: 'string' },
      'time-zone': { type: 'string' },
      'low-space': { type: 'string' },
      'log-level': { type: 'string', default: 'info' },
      'log-file': { type: 'string' },
      ...KEEPING_ARGS,
      limit: { type: 'string', multiple: true, default: [] },
      help: { type: 'boolean', default: false },
    },
  });
  const port = Number(values.port);
  if (!/^\d+$/.test(values.port) || port > 65_535)
    throw new Error(`--port must be a number from 0 to 65535 (is ${values.port}).`);
  const lowSpace = values['low-space'];
  if (lowSpace !== undefined && !/^\d{1,12}$/.test(lowSpace))
    throw new Error(`--low-space must be a number of megabytes (is ${lowSpace}).`);
  if (!LEVELS.includes(values['log-level']))
    throw new Error(`--log-level must be ${LEVELS.join(', ')} (is ${values['log-level']}).`);
  const zone = values['time-zone'];
  if (zone !== undefined && !isTimeZone(zone)) throw new Error(`--time-zone ${zone} is no IANA time zone.`);
  const bad = values.name.find((name) => !/^[a-z0-9]([a-z0-9.-]{0,250}[a-z0-9])?$/i.test(name));
  if (bad !== undefined) throw new Error(`--name ${bad} is no name of a machine.`);
  const mdns = values.mdns.toLowerCase().replace(/\.local$/, '');
  if (!/^[a-z0-9]([a-z0-9-]{0,50}[a-z0-9])?$/.test(mdns))
    throw new Error(
      `--mdns ${values.mdns} is no name for a network: letters, digits and hyphens, at most 52 of them.`,
    );
  return {
    port,
    host: values.host,
    data: values.data,
    plain: values.plain,
    names: values.name.map((name) => name.toLowerCase()),
    mdns: values['no-mdns'] ? null : mdns,
    shop: values.shop,
    timeZone: zone,
    lowSpaceMb: lowSpace === undefined ? undefined : Number(lowSpace),
    logLevel: values['log-level'],
    logFile: values['log-file'],
    limits: readLimits(values.limit),
    keeping: readKeeping(values),
    help: values.help,
  };
}

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
