/**
 * Limits that a shop may set, by `--limit name=value`: what one address, one station and everybody together may ask
 * of this machine. Those that stations must know too are in `core/wire.ts`, and nobody sets them.
 */

export interface Settable {
  readonly standard: number;
  /** Smallest and largest value that is taken: below, an honest station would not get by. */
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly why: string;
}

const MANY = 10_000_000;

export const SETTABLE = {
  connections: {
    standard: 1_000,
    least: 20,
    most: 100_000,
    unit: 'connections',
    why: 'Open in all. A browser holds up to 6 beside its sync connections; a shop has some twenty screens.',
  },
  connectionsPerAddress: {
    standard: 200,
    least: 10,
    most: 100_000,
    unit: 'connections',
    why: 'Open from one address, so that one device does not take them all. Several stations may share a machine.',
  },
  requestsPer10s: {
    standard: 1_000,
    least: 50,
    most: MANY,
    unit: 'requests in 10 s',
    why: 'HTTP requests of one address, answered with 429 past that. Loading a station’s page takes some twenty.',
  },
  upgradesPer10s: {
    standard: 300,
    least: 20,
    most: MANY,
    unit: 'upgrades in 10 s',
    why: 'Sync connections that one address may try to open, counted before it is known who asks. After a restart, stations come back at once.',
  },
  handshakeSeconds: {
    standard: 10,
    least: 1,
    most: 120,
    unit: 's',
    why: 'Until a new connection has said its first byte, and until its TLS handshake is done.',
  },
  headerSeconds: {
    standard: 10,
    least: 1,
    most: 120,
    unit: 's',
    why: 'Until a request’s headers are here. Whoever sends them a byte at a time only holds a connection.',
  },
  requestSeconds: {
    standard: 30,
    least: 1,
    most: 600,
    unit: 's',
    why: 'Until a whole request is here, its body too.',
  },
  stalledSeconds: {
    standard: 60,
    least: 2,
    most: 600,
    unit: 's',
    why: 'Without a byte either way before an HTTP connection is closed: an answer that nobody reads.',
  },
  headerBytes: {
    standard: 16_384,
    least: 2_048,
    most: 65_536,
    unit: 'bytes',
    why: 'All headers of a request; 431 past that.',
  },
  bodyBytes: {
    standard: 16_384,
    least: 4_096,
    most: 1_048_576,
    unit: 'bytes',
    why: 'A request’s body; 413 past that. The longest is one person.',
  },
  sockets: {
    standard: 500,
    least: 10,
    most: 100_000,
    unit: 'connections',
    why: 'Sync connections of paired stations, in all.',
  },
  socketsPerStation: {
    standard: 12,
    least: 3,
    most: 1_000,
    unit: 'connections',
    why: 'Sync connections a station may hold: a session, a board and a reload overlapping.',
  },
  framesPer10s: {
    standard: 2_000,
    least: 100,
    most: MANY,
    unit: 'frames in 10 s',
    why: 'What one sync connection may send, pings too.',
  },
  bytesPer10s: {
    standard: 16_777_216,
    least: 2_097_152,
    most: 1_000_000_000,
    unit: 'bytes in 10 s',
    why: 'What one sync connection may send. Even a tablet that was away for a season has less to say.',
  },
  questionsPer10s: {
    standard: 20,
    least: 5,
    most: MANY,
    unit: 'SyncStep1 in 10 s',
    why: 'Each makes the server encode the document.',
  },
  gapsPer10s: {
    standard: 20,
    least: 5,
    most: MANY,
    unit: 'updates in 10 s',
    why: 'That build on what is not here; each is answered with SyncStep1. An honest reconnect causes one.',
  },
  backlogBytes: {
    standard: 8_388_608,
    least: 65_536,
    most: 268_435_456,
    unit: 'bytes',
    why: 'That may wait for a station that reads slowly before its connection is closed; it catches up when it comes back.',
  },
  sessionIdleSeconds: {
    standard: 60,
    least: 1,
    most: 86_400,
    unit: 's',
    why: 'A session that nobody has open stays in memory.',
  },
} as const satisfies Readonly<Record<string, Settable>>;

export type LimitName = keyof typeof SETTABLE;
export type Limits = Readonly<Record<LimitName, number>>;

export const LIMIT_NAMES = Object.keys(SETTABLE) as readonly LimitName[];

export const STANDARD_LIMITS = Object.fromEntries(
  LIMIT_NAMES.map((name) => [name, SETTABLE[name].standard]),
) as Limits;

const isLimitName = (name: string): name is LimitName => Object.hasOwn(SETTABLE, name);

/**
 * The standard limits, but for those that `settings` name, each `name=value`; of two for one name the last holds.
 * Throws an `Error` with one sentence for the person who typed them.
 */
export function readLimits(settings: readonly string[]): Limits {
  const limits: Record<LimitName, number> = { ...STANDARD_LIMITS };
  for (const setting of settings) {
    const [, name = '', value = ''] = /^([^=]*)=(.*)$/s.exec(setting) ?? [];
    if (name === '') throw new Error(`--limit must be name=value, like requestsPer10s=500 (is ${setting}).`);
    if (!isLimitName(name))
      throw new Error(`--limit ${name} is no limit of this server; there are ${LIMIT_NAMES.join(', ')}.`);
    const { least, most, unit } = SETTABLE[name];
    const number = Number(value);
    if (!/^\d{1,15}$/.test(value) || number < least || number > most)
      throw new Error(
        `--limit ${name} must be a whole number from ${least} to ${most} ${unit} (is ${value}).`,
      );
    limits[name] = number;
  }
  if (limits.headerSeconds > limits.requestSeconds)
    throw new Error(
      `--limit headerSeconds (${limits.headerSeconds}) may not be more than requestSeconds (${limits.requestSeconds}).`,
    );
  return limits;
}
