/** Reads all of the database while the server serves, in another process: a large one after the start, each every day. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Logger } from 'pino';
import { examineApart } from './backup.ts';
import { Damaged, DamagedSessions } from './examine.ts';
import type { Health } from './health.ts';
import { addSums } from './rows.ts';
import type { Db } from './schema.ts';
import type { Spoilt } from './spoilt.ts';
import { DamagedFile } from './trouble.ts';

const DAY_MS = 24 * 3_600_000;
/** Milliseconds after the start: the stations come back first. */
const FIRST_MS = 30_000;

export interface Thorough {
  /** Reads now. Never rejects: what is found goes to the log, to `health` and to `spoilt`. */
  read(): Promise<void>;
  stop(): void;
}

export interface ThoroughOutside {
  readonly path: string;
  readonly db: Db;
  readonly health: Health;
  readonly spoilt: Spoilt;
  readonly log: Logger;
}

/** @param was what was read at the start: of a `large` one, not all. */
export function readEveryDay(outside: ThoroughOutside, was: 'new' | 'read' | 'large'): Thorough {
  const { path, health, spoilt, log } = outside;
  const ending = new AbortController();
  const { signal } = ending;
  const read = async (): Promise<void> => {
    try {
      const { sessions, facts } = await examineApart(path, signal);
      log.info({ sessions, facts }, 'the whole database was read and is good');
      await sumOldRows(outside, signal);
    } catch (error) {
      if (signal.aborted) return;
      log.error({ err: error }, 'the whole database could not be read');
      if (error instanceof DamagedSessions) for (const one of error.spoilt) spoilt.mark(one);
      else if (error instanceof Damaged) health.failed(new DamagedFile(error.message, { cause: error }));
    }
  };
  const first = was === 'large' ? setTimeout(() => void read(), FIRST_MS).unref() : undefined;
  if (was === 'read') void sumOldRows(outside, signal);
  const daily = setInterval(() => void read(), DAY_MS).unref();
  return {
    read,
    stop: () => {
      clearTimeout(first);
      clearInterval(daily);
      ending.abort();
    },
  };
}

/** A few at a time, between other work. What the disk will not take is left to the next day. Never rejects. */
async function sumOldRows({ db, health, log }: ThoroughOutside, signal: AbortSignal): Promise<void> {
  try {
    for (let more = true; more;) {
      await nextTurn();
      if (signal.aborted || health.readOnly !== null) return;
      more = addSums(db);
    }
  } catch (error) {
    log.warn({ err: error }, 'rows of an older program have no checksum yet');
    health.failed(error);
  }
}
