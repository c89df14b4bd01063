/** The data directory: taken by one server, looked over, opened, and watched for how its disk does. */
import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Logger } from 'pino';
import { freeBytes, writeProbe } from './disk.ts';
import { Health } from './health.ts';
import { BOUND } from './limits.ts';
import { lockDirectory } from './lock.ts';
import { lookOver } from './look.ts';
import { markClosed, markOpen } from './open-mark.ts';
import { offerApart } from './rescue.ts';
import { openDatabase, syncDirectory, UnusableData } from './schema.ts';
import type { Db } from './schema.ts';
import { Spoilt } from './spoilt.ts';
import { readEveryDay } from './thorough.ts';
import type { Thorough } from './thorough.ts';
import { TROUBLE_TEXT } from './trouble.ts';

export interface DataOptions {
  readonly data: string;
  /** Where the daily copies go; undefined for `backups` in the data directory. */
  readonly backups: string | undefined;
  /** Millions of bytes free on the disk under which people are warned. */
  readonly lowSpaceMb?: number | undefined;
  /** For the person at the console. */
  readonly say?: ((text: string) => void) | undefined;
}

export interface Data {
  readonly db: Db;
  readonly health: Health;
  readonly thorough: Thorough;
  readonly spoilt: Spoilt;
}

/** Remembers how to close what was opened. */
type OnClose = (close: () => unknown) => void;

/** Makes the directory where it is missing, and keeps other servers out. Throws `UnusableData`. */
export function takeDirectory(
  directory: string,
  onClose: OnClose,
  keepsOut?: (lock: string) => boolean,
): void {
  if (existsSync(directory)) checkWritable(directory);
  else makeDirectory(directory);
  const lock = lockDirectory(directory, keepsOut);
  onClose(() => lock.release());
}

function makeDirectory(directory: string): void {
  try {
    mkdirSync(directory, { recursive: true, mode: 0o700 });
    syncDirectory(dirname(directory));
  } catch (error) {
    throw new UnusableData(`${directory} cannot be made: ${String(error)}.`, { cause: error });
  }
}

function checkWritable(directory: string): void {
  try {
    accessSync(directory, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    throw new UnusableData(
      `${directory} may not be written by the user who starts the server: change its rights, or give another directory with --data.`,
      { cause: error },
    );
  }
}

/** Of a directory that was taken. Throws `UnusableData`, having changed nothing, when the database is not whole. */
export function openData(options: DataOptions, log: Logger, onClose: OnClose): Data {
  const { data } = options;
  const path = join(data, 'fibula.db');
  const backups = options.backups ?? join(data, 'backups');
  const looked = lookOver(data, backups);
  const db = openDatabase(data);
  markOpen(path);
  onClose(() => {
    db.close();
    markClosed(path);
  });
  const health = watchDisk(db, options, log);
  onClose(() => health.stop());
  // Begins the log anew, so that what a kill left unfinished at its end is not mistaken for damage later.
  health.attempt(
    () => void db.pragma('wal_checkpoint(TRUNCATE)'),
    () => undefined,
  );
  const spoilt = new Spoilt();
  const thorough = readEveryDay({ path, db, health, spoilt, log }, looked.was);
  onClose(() => thorough.stop());
  onClose(tellOfSpoilt(spoilt, { ...options, backups }, log));
  for (const one of looked.spoilt) spoilt.mark(one);
  return { db, health, thorough, spoilt };
}

/** Names each at the console, and below them, once for all, what to do. @returns what ends that. */
function tellOfSpoilt(
  spoilt: Spoilt,
  { data, backups, say }: DataOptions & { backups: string },
  log: Logger,
): () => void {
  const ending = new AbortController();
  let isOffering = false;
  spoilt.onNew((one) => {
    log.error({ session: one.session }, one.message);
    say?.(
      `WARNING: ${one.message} It is not opened; entries for it wait on their stations. All else goes on, and nothing was changed.`,
    );
    if (isOffering) return;
    isOffering = true;
    void offerApart(data, backups, ending.signal).then((text) => {
      isOffering = false;
      if (text !== null) say?.(text);
    });
  });
  return () => ending.abort();
}

/** Says at the console what stations are told of the disk. */
function watchDisk(db: Db, { data, lowSpaceMb, say }: DataOptions, log: Logger): Health {
  const health = new Health({
    log,
    probe: (bytes) => writeProbe(db, bytes),
    freeBytes: () => freeBytes(data),
    lowSpaceBytes: (lowSpaceMb ?? BOUND.lowSpaceMb) * 1e6,
  });
  health.onChange((now, before) => {
    if (now.readOnly === 'damaged') db.pragma('query_only = ON');
    if (now.readOnly !== null && now.readOnly !== before.readOnly) say?.(TROUBLE_TEXT[now.readOnly]);
    if (now.readOnly === null && before.readOnly !== null) say?.('The disk takes entries again.');
    if (now.lowSpace && !before.lowSpace) say?.(lowSpaceText(now.lowSpace.freeMb, data));
  });
  const { lowSpace } = health.status;
  if (lowSpace) say?.(lowSpaceText(lowSpace.freeMb, data));
  return health;
}

const lowSpaceText = (freeMb: number, data: string): string =>
  `WARNING: only ${freeMb} MB are free on the disk of ${data}. Free some space before it is full.`;
