/** What is left to a person whose database cannot be used: the newest good copy, and the command that brings it back. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { examineApart } from './backup.ts';
import { examine } from './examine.ts';

/** Copies that are read through before it is given up: each may be large. */
const TRIED = 5;

export interface GoodCopy {
  readonly file: string;
  /** When it was made, ms since 1970. */
  readonly madeMs: number;
}

/** The newest copy in `backups` that can be read through; null where there is none among the newest few. */
export function newestGood(backups: string): GoodCopy | null {
  const isGood = ({ file }: GoodCopy): boolean => {
    try {
      examine(file);
      return true;
    } catch {
      return false;
    }
  };
  return copiesIn(backups).slice(0, TRIED).find(isGood) ?? null;
}

const when = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

/** Newest first. */
function copiesIn(backups: string): GoodCopy[] {
  if (!statSync(backups, { throwIfNoEntry: false })?.isDirectory()) return [];
  return readdirSync(backups)
    .filter((name) => name.endsWith('.db'))
    .map((name) => ({ file: join(backups, name), madeMs: statSync(join(backups, name)).mtimeMs }))
    .sort((a, b) => b.madeMs - a.madeMs);
}

/** Sentences that offer it, with the exact command. */
export const offer = (directory: string, backups: string): string =>
  words(newestGood(backups), directory, backups);

/** The same while the server serves: the copies are read in another process. Null when `signal` ends it; never rejects. */
export async function offerApart(
  directory: string,
  backups: string,
  signal: AbortSignal,
): Promise<string | null> {
  const isGood = (file: string): Promise<boolean> =>
    examineApart(file, signal).then(
      () => true,
      () => false,
    );
  for (const copy of copiesIn(backups).slice(0, TRIED)) {
    if (await isGood(copy.file)) return words(copy, directory, backups);
    if (signal.aborted) return null;
  }
  return words(null, directory, backups);
}

function words(good: GoodCopy | null, directory: string, backups: string): string {
  if (!good)
    return (
      `No good backup was found in ${backups}. If you have one elsewhere: npm run restore -- FILE --replace --data ${quoted(directory)}\n` +
      'Keep the damaged file. Without a backup, start with another directory (--data): the tablets still hold their latest entries.'
    );
  return (
    `The newest good backup is ${good.file} of ${when.format(good.madeMs)}. To go back to it, with the server stopped:\n\n` +
    `    npm run restore -- ${quoted(good.file)} --replace --data ${quoted(directory)}\n\n` +
    'The damaged file is kept under another name, and stations offer again what they still hold of later entries.'
  );
}

/** As a shell takes it. */
const quoted = (path: string): string => (/^[\w./:\\-]+$/.test(path) ? path : `"${path}"`);
