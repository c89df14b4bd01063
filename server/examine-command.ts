/** Examines one file in a process of its own, so that neither time nor a crash is the server's. JSON on stdout. */
import { BadBackup, Damaged, examine } from './examine.ts';

const answer = (): object => {
  try {
    return { ok: true, examined: examine(process.argv[2]!) };
  } catch (error) {
    const is = error instanceof Damaged ? 'damaged' : error instanceof BadBackup ? 'bad' : 'other';
    return { ok: false, is, text: (error as Error).message };
  }
};
process.stdout.write(`${JSON.stringify(answer())}\n`);
