/** Waits until nothing waits any more: stations and disk hold the same and show the same plan, or it is said who does not. */
import { until } from '../helpers/until.ts';
import { agree, checkPlans } from './check.ts';
import type { Breaks } from './check.ts';
import { diskOf, listOnDisk } from './disk.ts';
import type { Disk } from './disk.ts';
import type { Tablet } from './tablet.ts';

/** Milliseconds that anything waited for may take, on a busy machine. */
export const LIMIT_MS = 60_000;

export interface Settling {
  readonly data: string;
  /** Each session with the stations that must agree on it. */
  readonly sessions: ReadonlyMap<string, readonly Tablet[]>;
  /** Names the moment, for an error. */
  readonly when: string;
  readonly breaks: Breaks;
  readonly limitMs?: number;
}

/** @returns what is on disk of these sessions. */
export async function settle({ data, sessions, when, breaks, limitMs = LIMIT_MS }: Settling): Promise<Disk> {
  for (const [session, tablets] of sessions) {
    const complaints = () => tablets.flatMap((tablet) => tablet.complaints());
    await until(
      async () => {
        if (complaints().length > 0) return true;
        if (!agree(tablets, session, () => listOnDisk(data, session))) return false;
        // A page that was just loaded may not have read yet what its device holds.
        const inStores = await Promise.all(tablets.map((tablet) => tablet.waitingInStore(session)));
        return inStores.every((waiting) => waiting === 0);
      },
      `${session} to be the same everywhere, ${when}`,
      limitMs,
    ).catch((error: Error) => breaks.other.push(`${error.message}; ${standing(tablets, session)}`));
    breaks.other.push(...complaints());
    if (breaks.other.length > 0) break;
  }
  const disk = diskOf(data, new Set(sessions.keys()));
  for (const [session, there] of disk.sessions) checkPlans(sessions.get(session)!, session, there, breaks);
  return disk;
}

const standing = (tablets: readonly Tablet[], session: string): string =>
  tablets
    .map((tablet) => {
      const shown = tablet.sessions.get(session);
      return `${tablet.name}: ${shown?.state}, ${shown?.facts.length} facts, ${shown?.waiting} waiting`;
    })
    .join('; ');
