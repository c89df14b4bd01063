/**
 * The rows of a session's document. Each has a checksum of its bytes and of where it belongs, written with it: a bit
 * that flips inside an entry is none that SQLite itself would notice.
 */
import { crc32 } from 'node:zlib';
import type { Db } from './schema.ts';
import { SpoiltSession } from './spoilt.ts';

export interface RowPlace {
  readonly session: string;
  readonly generation: number;
  readonly n: number;
  readonly committedMs: number;
}

/** CRC-32, 0 to 2³² − 1. */
export const sumOf = ({ session, generation, n, committedMs }: RowPlace, bytes: Uint8Array): number =>
  crc32(bytes, crc32(`${session} ${generation} ${n} ${committedMs}\n`));

interface Row extends RowPlace {
  readonly bytes: Buffer;
  /** Null in a row of an older program. */
  readonly sum: number | null;
  readonly lastN: number;
}

/** The rows of a document, oldest first, or those up to a number. Throws `SpoiltSession` when one is not as it was written. */
export type RowReader = (document: number, upTo?: number) => Buffer[];

/** @param hasSums false for a database of a format before there were any. */
export function rowReader(db: Db, hasSums = true): RowReader {
  const find = db.prepare<[number, number], Row>(
    `SELECT session, generation, last_n AS lastN, n, committed_ms AS committedMs, bytes,
       ${hasSums ? 'sum' : 'NULL AS sum'}
     FROM updates JOIN documents ON documents.id = document WHERE document = ? AND n <= ? ORDER BY n`,
  );
  return (document, upTo) => {
    const rows = find.all(document, upTo ?? Number.MAX_SAFE_INTEGER);
    for (const row of rows)
      if (row.sum !== null && row.sum !== sumOf(row, row.bytes))
        throw new SpoiltSession(row.session, `its row ${row.n} is not what was written`);
    const last = rows.at(-1);
    if (last && upTo === undefined && last.n !== last.lastN)
      throw new SpoiltSession(last.session, `its last row is ${last.n} and should be ${last.lastN}`);
    return rows.map(({ bytes }) => bytes);
  };
}

/** Writes a row with its checksum. */
export type RowWriter = (document: number, place: RowPlace, bytes: Uint8Array) => void;

export function rowWriter(db: Db): RowWriter {
  const insert = db.prepare<[number, number, number, Uint8Array, number]>(
    'INSERT INTO updates (document, n, committed_ms, bytes, sum) VALUES (?, ?, ?, ?, ?)',
  );
  return (document, place, bytes) =>
    void insert.run(document, place.n, place.committedMs, bytes, sumOf(place, bytes));
}

/** Rows that are given their checksum in one transaction: nobody waits long behind it. */
const AT_ONCE = 500;

/**
 * Gives rows of an older program their checksum, some of them, oldest first; they have just been read and are good.
 * @returns whether more are left. Throws when the disk will not have it.
 */
export function addSums(db: Db): boolean {
  const rows = db
    .prepare<[number], RowPlace & { readonly document: number; readonly bytes: Buffer }>(
      `SELECT document, session, generation, n, committed_ms AS committedMs, bytes
       FROM updates JOIN documents ON documents.id = document WHERE sum IS NULL LIMIT ?`,
    )
    .all(AT_ONCE);
  const set = db.prepare<[number, number, number]>('UPDATE updates SET sum = ? WHERE document = ? AND n = ?');
  db.transaction(() => {
    for (const row of rows) set.run(sumOf(row, row.bytes), row.document, row.n);
  }).immediate();
  return rows.length === AT_ONCE;
}
