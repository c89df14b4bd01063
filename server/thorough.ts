/** Reads all of the database while the server serves, in another process: a large one after the start, each every day. */
import type { Logger } from 'pino';
import { examineApart } from './backup.ts';
import { Damaged } from './examine.ts';
import type { Health } from './health.ts';
import { DamagedRows } from './trouble.ts';

const DAY_MS = 24 * 3_600_000;
/** Milliseconds after the start: the stations come back first. */
const FIRST_MS = 30_000;

export interface Thorough {
  /** Reads now. Never rejects: what is found goes to the log and to `health`. */
  read(): Promise<void>;
  stop(): void;
}

/** @param soon whether not all was read at the start. */
export function readEveryDay(path: string, soon: boolean, health: Health, log: Logger): Thorough {
  const ending = new AbortController();
  const read = async (): Promise<void> => {
    try {
      const { sessions, facts } = await examineApart(path, ending.signal);
      log.info({ sessions, facts }, 'the whole database was read and is good');
    } catch (error) {
      if (ending.signal.aborted) return;
      log.error({ err: error }, 'the whole database could not be read');
      if (error instanceof Damaged) health.failed(new DamagedRows(error.message, { cause: error }));
    }
  };
  const first = soon ? setTimeout(() => void read(), FIRST_MS).unref() : undefined;
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
