/** What the shop is called, where its clock stands, and how often this server has started. */
import type { Db } from './schema.ts';

export interface Shop {
  readonly name: string;
  /** IANA time zone. */
  readonly timeZone: string;
}

/** Counts one more start. The number names this run's boards, so that an old copy never merges with a new one. */
export function countBoot(db: Db): number {
  return db
    .prepare<[], number>(
      `INSERT INTO meta (key, value) VALUES ('boot', '1')
       ON CONFLICT (key) DO UPDATE SET value = CAST(CAST(value AS INTEGER) + 1 AS TEXT)
       RETURNING CAST(value AS INTEGER)`,
    )
    .pluck()
    .get()!;
}

/** The shop as stored; what `given` says replaces it for good, and `first` is used where nothing is known yet. */
export function shopOf(db: Db, given: Partial<Shop>, first: Shop): Shop {
  const get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
  const set = db.prepare<[string, string]>(
    'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  );
  const settle = (key: string, wanted: string | undefined, otherwise: string): string => {
    const value = wanted ?? get.get(key) ?? otherwise;
    set.run(key, value);
    return value;
  };
  return db.transaction(() => ({
    name: settle('shop.name', given.name, first.name),
    timeZone: settle('shop.timeZone', given.timeZone, first.timeZone),
  }))();
}
