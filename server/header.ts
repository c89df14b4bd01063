/** The first bytes of a database file, read without opening it as one: a foreign file is not touched at all. */
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { APPLICATION_ID } from './schema.ts';

const MAGIC = 'SQLite format 3\0';
const BYTES = 100;
/** Where SQLite keeps the application's number, four bytes with the highest first. */
const APPLICATION_AT = 68;

/** `none`: no database at all, with what it is in words. `foreign`: another program's. */
export type Header =
  | { readonly is: 'ours' }
  | { readonly is: 'unnamed' }
  | { readonly is: 'foreign' }
  | { readonly is: 'none'; readonly words: string };

/** Throws the system's error when it cannot be read. */
export function headerOf(path: string): Header {
  if (!statSync(path).isFile()) return { is: 'none', words: 'it is no file' };
  const start = Buffer.alloc(BYTES);
  const handle = openSync(path, 'r');
  let read: number;
  try {
    read = readSync(handle, start);
  } finally {
    closeSync(handle);
  }
  if (read === 0) return { is: 'none', words: 'it is empty' };
  if (start.every((byte) => byte === 0)) return { is: 'none', words: 'it begins with nothing but zeros' };
  if (read < BYTES || start.toString('latin1', 0, MAGIC.length) !== MAGIC)
    return { is: 'none', words: 'it does not begin as a database does' };
  const application = start.readUInt32BE(APPLICATION_AT);
  if (application === APPLICATION_ID) return { is: 'ours' };
  return { is: application === 0 ? 'unnamed' : 'foreign' };
}
