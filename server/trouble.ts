/** What an error says of the disk, and the sentence for it. */
import type { ReadOnly } from '../core/index.ts';

/** What reading the whole file has found. */
export class DamagedFile extends Error {
  readonly code = 'SQLITE_CORRUPT';
}

const BY_CODE: readonly (readonly [RegExp, ReadOnly])[] = [
  [/^(SQLITE_FULL|ENOSPC$|EDQUOT$)/, 'full'],
  [/^(SQLITE_READONLY|SQLITE_PERM|EROFS$)/, 'forbidden'],
  [/^(SQLITE_CORRUPT|SQLITE_NOTADB)/, 'damaged'],
  [/^(SQLITE_BUSY|SQLITE_LOCKED|SQLITE_PROTOCOL)/, 'locked'],
  [/^(SQLITE_IOERR_CORRUPTFS)/, 'damaged'],
  [/^(SQLITE_IOERR|SQLITE_CANTOPEN|EIO$)/, 'failing'],
];

/** Null when it is not the disk's: a bug, or another matter. */
export function troubleOf(error: unknown): ReadOnly | null {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return BY_CODE.find(([pattern]) => pattern.test(code))?.[1] ?? null;
}

/** For the person at the server, in one or two sentences. */
export const TROUBLE_TEXT: Readonly<Record<ReadOnly, string>> = {
  full: 'The disk is full: no entries are taken until some space is free. They wait on the stations.',
  forbidden:
    'The data directory may not be written: no entries are taken until it may. They wait on the stations.',
  failing: 'The disk does not take what is written: no entries are taken for now. They wait on the stations.',
  locked:
    'Another program holds the database: no entries are taken until it lets go. They wait on the stations.',
  damaged:
    'The database is damaged: no entries are taken. They wait on the stations. Start the server again: it says what to do.',
};
