/** The disk under the data: how much is free, and whether it takes what is written. */
import { statfsSync } from 'node:fs';
import type { Db } from './schema.ts';

/** Bytes that this server may still use on the disk of `directory`. Throws where that cannot be asked. */
export function freeBytes(directory: string): number {
  const { bavail, bsize } = statfsSync(directory);
  return bavail * bsize;
}

/**
 * Commits about `bytes`, and takes them away again with a second commit: within one, pages that go again would
 * never be written. Throws when the disk will not have them.
 */
export function writeProbe(db: Db, bytes: number): void {
  db.prepare(
    `INSERT INTO meta (key, value) VALUES ('probe', hex(zeroblob(?)))
     ON CONFLICT (key) DO UPDATE SET value = excluded.value`,
  ).run(Math.ceil(bytes / 2));
  db.prepare(`DELETE FROM meta WHERE key = 'probe'`).run();
}
