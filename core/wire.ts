/**
 * What stations and server agree on: message numbers, close codes, codes of a no, the server's state, and every limit
 * with its unit and reason.
 */
import { z } from 'zod';

/** Raised when an older station could misread a newer server, or the other way round. */
export const PROTOCOL = 1;

/** First varUint of a frame. 0 to 3 are y-websocket's own. */
export const MESSAGE = {
  sync: 0,
  awareness: 1,
  auth: 2,
  queryAwareness: 3,
  /** Server to station: varUint8Array, the state vector of what is on disk (deltas only). Also the heartbeat. */
  durable: 100,
  /** Server to station: varString, a JSON `Refused`. The client id that sent it is blocked from then on. */
  refused: 101,
  /** Server to station: varString, a JSON list of fact ids that were there already with the same value. */
  alreadySaved: 102,
  /** Server to station: varString, a JSON `ServerStatus`. On connecting, and whenever it changes. */
  status: 103,
} as const;

/** Why the server takes no entries: its disk is full, may not be written, fails, is held by another, is damaged. */
export const READ_ONLY = ['full', 'forbidden', 'failing', 'locked', 'damaged'] as const;
export type ReadOnly = (typeof READ_ONLY)[number];

/** Why the server says no to a request. A closed list: stations have a sentence for each, in each language. */
export const NO_CODES = [
  'all-photos-full',
  'broken-photo',
  'changed',
  'damaged',
  'differs',
  'easy',
  'ended-early',
  'erased',
  'expired-code',
  'failed',
  'forbidden',
  'foreign-origin',
  'gone',
  'locked',
  'models-full',
  'no-photo',
  'no-pin',
  'no-session',
  'no-table',
  'not-found',
  'not-json',
  'other-name',
  'own',
  'photos-full',
  'read-only',
  'revoked',
  'set',
  'shape',
  'studies-full',
  'too-large',
  'too-many',
  'too-many-pixels',
  'unknown-host',
  'unknown-session',
  'unpaired',
  'wait',
  'wrong-code',
  'wrong-pin',
] as const;

export type NoCode = (typeof NO_CODES)[number];

export const isNoCode = (code: string): code is NoCode => NO_CODES.some((each) => each === code);

/** Why a move is not learned from: misread, pivots not as recorded, stood otherwise, something wrong with the boot, other. */
export const LEFT_OUT_BECAUSE = ['misread', 'pivots', 'stance', 'boot', 'other'] as const;
export type LeftOutBecause = (typeof LEFT_OUT_BECAUSE)[number];

/** What a person decides on a move that is far off; `asked` takes a decision back. */
export type MoveChoice =
  { readonly choice: 'kept' | 'asked' } | { readonly choice: 'out'; readonly reason: LeftOutBecause };

/** Learned from as it is; far off and asked about; decided on. */
export type MoveState = 'used' | 'asked' | 'kept' | 'out';

/** One session of the archive, as it is found there. Times by the server's clock, ms since 1970. */
export interface FoundSession {
  readonly session: string;
  readonly generation: number;
  readonly ticket: string;
  readonly clientRef: string | null;
  /** Null when it was erased, or never told. */
  readonly name: string | null;
  readonly service: string;
  readonly models: readonly string[];
  readonly tags: readonly string[];
  readonly openedMs: number;
  readonly lastMs: number;
  readonly closed: boolean;
}

/** The newest first; `more` are found beside them. `unread`: sessions whose words are not known yet. */
export interface Found {
  readonly found: readonly FoundSession[];
  readonly more: number;
  readonly unread: number;
}

export const STANDINGS = ['all', 'open', 'finished'] as const;
export type Standing = (typeof STANDINGS)[number];

/** How the daily backups are. */
export interface BackupStatus {
  /** Whether nothing needs to be done about them. */
  readonly ok: boolean;
  /** When the last good one was made, ms since 1970; null for never. */
  readonly atMs: number | null;
  /** How large that one is; null for none. */
  readonly bytes: number | null;
  /** One sentence for a person when it is not ok. */
  readonly reason: string | null;
}

/** The server's state, as far as a station's people can do something about it. */
export interface ServerStatus {
  /** Null: entries are taken. Otherwise they wait at the stations. */
  readonly readOnly: ReadOnly | null;
  /** Set when little is left on the server's disk. `freeMb` in millions of bytes. */
  readonly lowSpace: { readonly freeMb: number } | null;
  /** Null where nothing is known of the backups. */
  readonly backup: BackupStatus | null;
}

export const ALL_WELL: ServerStatus = { readOnly: null, lowSpace: null, backup: null };

const Status = z.object({
  // A reason that only a newer server knows is still a reason.
  readOnly: z
    .enum(READ_ONLY)
    .nullable()
    .or(z.string().transform(() => 'failing' as const))
    .catch(null),
  lowSpace: z.object({ freeMb: z.number() }).nullable().catch(null),
  backup: z
    .object({
      ok: z.boolean(),
      atMs: z.number().nullable().catch(null),
      bytes: z.number().nullable().catch(null),
      reason: z.string().nullable().catch(null),
    })
    .nullable()
    .catch(null),
});

/** Reads a status leniently: what is missing or not understood counts as well. Never throws. */
export function readStatus(json: string): ServerStatus {
  try {
    return Status.parse(JSON.parse(json));
  } catch {
    return ALL_WELL;
  }
}

/** 4400 to 4499 stop y-websocket's reconnecting; anything else makes it try again. */
export const CLOSE = {
  /** A frame or an update that no station of ours writes. Sending it again would not help. */
  malformed: 4400,
  /** Not paired, or no longer. */
  unpaired: 4401,
  /** Paired, but not for this room. */
  forbidden: 4403,
  /** No such room: an unknown name, an old generation or an old boot number. */
  gone: 4404,
  /** This session is damaged on the server's disk and is not opened; all others are. */
  damaged: 4423,
  /** Too many sockets, frames or bytes. */
  tooMuch: 4429,
  /** The station speaks another protocol version: reload the page. */
  version: 4426,
  /** The server is stopping, or could not store: come back. Not in 44xx, since the station shall reconnect. */
  again: 1012,
} as const;

/** One Yjs client id is `station × CLIENT_SPAN + a random part`: whose it is can be seen from the number. */
export const CLIENT_SPAN = 2 ** 32;

/** The station number that a Yjs client id belongs to. The server's own is 0. */
export const stationOf = (clientId: number): number => Math.floor(clientId / CLIENT_SPAN);

export const LIMIT = {
  /** Bytes a frame. An honest backlog of 200 facts is 36 KB; this holds some 5,000. */
  frameBytes: 1_048_576,
  /** Facts an update. */
  factsPerUpdate: 5_000,
  /** Facts a session. A long session of a shop day is 200. */
  factsPerSession: 20_000,
  /** Yjs client ids a station may use in one document: one a page load. */
  clientsPerStation: 200,
  /** Nesting of one fact. The deepest kind (`boot.described`) has 5. */
  depth: 8,
  /** Characters of any string. */
  text: 2_000,
  /** Characters of a fact id. */
  id: 40,
  /** Ids in one basis: heads of some 20 slots, twice as many in a conflict. */
  basis: 100,
  /** Bytes of a photo. Stations make JPEGs of some 600 KB. */
  photoBytes: 3_145_728,
  /** Pixels of a photo's longer side that are taken; stations make 2,048. More would fill a tablet's memory. */
  photoSidePx: 4_096,
  /** Photos of a session: a few of each leg before and after. */
  photosPerSession: 30,
  /** Minutes a pairing code lives. */
  codeMinutes: 10,
  /** Wrong pairing codes an address may try in ten minutes. */
  guesses: 10,
  /** Wrong pairing codes in ten minutes from everywhere. */
  guessesInAll: 100,
} as const;

/** Roles a station may be granted. `wall` reads the wall board and nothing else. */
export const STATION_ROLES = ['desk', 'measuring', 'bench', 'wall'] as const;
export type StationRole = (typeof STATION_ROLES)[number];
