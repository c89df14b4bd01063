/** What a session is found by, and what is shown of it there: its ticket, its boots and their tags, its days. No name. */
import { Log, SIDES } from '../core/index.ts';
import { shopTime } from './days.ts';
import { factsOf, readable } from './document.ts';
import { rowReader } from './rows.ts';
import type { Db } from './schema.ts';
import { dayWords, wordsOf } from './words.ts';

export interface Shown {
  readonly ticket: string;
  readonly service: string;
  /** Of its boots as they were described last; both alike: one. */
  readonly models: readonly string[];
  readonly tags: readonly string[];
}

/** Null before the session is opened. */
export function shownOf(log: Log): Shown | null {
  const opened = log.live('session.opened')[0];
  if (!opened) return null;
  const described = log.live('boot.described');
  const boots = SIDES.flatMap((side) => described.findLast((boot) => boot.side === side) ?? []);
  const each = (values: readonly (string | undefined)[]) => [
    ...new Set(values.filter((value) => value !== undefined)),
  ];
  return {
    ticket: opened.ticket,
    service: (log.live('service.changed').at(-1) ?? opened).service,
    models: each(boots.map(({ model }) => model)),
    tags: each(boots.map(({ tag }) => tag)),
  };
}

interface Noted {
  readonly id: number;
  readonly openedMs: number;
  readonly lastMs: number;
}

/** Writes down what a document is found by, in the place of what was written before. */
export type WordWriter = (document: Noted, shown: Shown) => void;

export function wordWriter(db: Db, timeZone: string): WordWriter {
  const set = db.prepare<[string, number]>('UPDATE documents SET shown = ? WHERE id = ?');
  const clear = db.prepare<[number]>('DELETE FROM session_words WHERE document = ?');
  const add = db.prepare<[string, number]>('INSERT INTO session_words (word, document) VALUES (?, ?)');
  return ({ id, openedMs, lastMs }, shown) => {
    const { ticket, models, tags } = shown;
    // The desk's people say the last part of a ticket alone.
    const words = wordsOf([ticket, ticket.split('-').at(-1), ...models, ...tags].join(' '));
    const days = [openedMs, lastMs].flatMap((ms) => dayWords(shopTime(ms, timeZone).day));
    set.run(JSON.stringify(shown), id);
    clear.run(id);
    for (const word of new Set([...words, ...days])) add.run(word, id);
  };
}

/**
 * Reads some sessions of which it is not known yet what they are found by: of an older program, or of a copy that
 * was restored. @returns how many, 0 when none is left. Throws when the disk will not have it.
 */
export function noteSome(db: Db, write: WordWriter, most: number): number {
  const unread = db
    .prepare<[number], Noted & { session: string }>(
      `SELECT id, session, opened_ms AS openedMs, last_ms AS lastMs FROM documents WHERE shown IS NULL
       ORDER BY id DESC LIMIT ?`,
    )
    .all(most);
  if (unread.length === 0) return 0;
  const rows = rowReader(db);
  const unreadable = db.prepare<[number]>("UPDATE documents SET shown = 'null' WHERE id = ?");
  db.transaction(() => {
    for (const document of unread) {
      const shown = readable(() => shownOf(new Log(factsOf(rows(document.id), document.session))));
      if (shown) write(document, shown);
      else unreadable.run(document.id);
    }
  }).immediate();
  return unread.length;
}
