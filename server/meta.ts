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

/** The shop as stored; what `given` says replaces it, and `first` is used where nothing is known yet. */
export function shopOf(db: Db, given: Partial<Shop>, first: Shop): Shop {
  const get = db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck();
  return {
    name: given.name ?? get.get('shop.name') ?? first.name,
    timeZone: given.timeZone ?? get.get('shop.timeZone') ?? first.timeZone,
  };
}

/** Keeps it for the next start. */
export function keepShop(db: Db, { name, timeZone }: Shop): void {
  const set = db.prepare<[string, string]>(
    'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  );
  db.transaction(() => {
    set.run('shop.name', name);
    set.run('shop.timeZone', timeZone);
  }).immediate();
}

/** What was last kept under `key`. */
export const remembered = (db: Db, key: string): string | undefined =>
  db.prepare<[string], string>('SELECT value FROM meta WHERE key = ?').pluck().get(key);

export const remember = (db: Db, key: string, value: string): void => {
  db.prepare<[string, string]>(
    'INSERT INTO meta (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
  ).run(key, value);
};
