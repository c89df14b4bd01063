/** Examines one file in a process of its own, so that neither time nor a crash is the server's. JSON on stdout. */
import { BadBackup, Damaged, DamagedSessions, examine } from './examine.ts';

const answer = (): object => {
  try {
    return { ok: true, examined: examine(process.argv[2]!) };
  } catch (error) {
    const is = error instanceof Damaged ? 'damaged' : error instanceof BadBackup ? 'bad' : 'other';
    const spoilt =
      error instanceof DamagedSessions ? error.spoilt.map(({ session, what }) => ({ session, what })) : [];
    return { ok: false, is, text: (error as Error).message, spoilt };
  }
};
process.stdout.write(`${JSON.stringify(answer())}\n`);
