/** All that is kept of one client: found, given out as one file, and due to be erased. */
import { SESSION_FORMAT } from '../core/index.ts';
import type { Fact } from '../core/index.ts';
import { factsOf } from './document.ts';
import type { Person } from './people.ts';
import { exportedPhotos } from './photos.ts';
import { rowReader } from './rows.ts';
import type { Db } from './schema.ts';

export interface ClientFile {
  readonly format: 'fibula-client/1';
  readonly ref: string;
  readonly person: Omit<Person, 'ref'> | null;
  readonly sessions: readonly {
    readonly session: string;
    /** Server's commit time of the first and the last entry, ISO 8601. */
    readonly openedAt: string;
    readonly lastAt: string;
    readonly closed: boolean;
    readonly format: typeof SESSION_FORMAT;
    readonly facts: readonly Fact[];
    /** Named by `photo.taken`; `base64` is the file. */
    readonly photos: readonly { readonly sha256: string; readonly type: string; readonly base64: string }[];
  }[];
}

interface Row {
  readonly id: number;
  readonly session: string;
  readonly openedMs: number;
  readonly lastMs: number;
  readonly closed: number;
}

/** Null when neither a person nor a session has this reference. Reads what is on disk. Throws `SpoiltSession`. */
export function clientFile(db: Db, ref: string): ClientFile | null {
  const person = db
    .prepare<[string], Omit<Person, 'ref'>>('SELECT name, contact, language FROM people WHERE ref = ?')
    .get(ref);
  const rows = db
    .prepare<[string], Row>(
      `SELECT id, session, opened_ms AS openedMs, last_ms AS lastMs, closed FROM documents WHERE client = ?
       AND generation = (SELECT max(generation) FROM documents AS other WHERE other.session = documents.session)
       ORDER BY id`,
    )
    .all(ref);
  if (!person && rows.length === 0) return null;
  const updates = rowReader(db);
  const sessions = rows.map(({ id, session, openedMs, lastMs, closed }) => ({
    session,
    openedAt: new Date(openedMs).toISOString(),
    lastAt: new Date(lastMs).toISOString(),
    closed: closed === 1,
    format: SESSION_FORMAT as typeof SESSION_FORMAT,
    facts: factsOf(updates(id), session),
    photos: exportedPhotos(db, session),
  }));
  return { format: 'fibula-client/1', ref, person: person ?? null, sessions };
}

/** Sessions of a client. */
export const sessionsOf = (db: Db, ref: string): string[] =>
  db.prepare<[string], string>('SELECT DISTINCT session FROM documents WHERE client = ?').pluck().all(ref);

/**
 * References of clients whose personal data are kept long enough: every session of theirs is closed, and neither
 * a session had an entry nor the person a change since `beforeMs`. Those already erased are not among them.
 */
export const dueClients = (db: Db, beforeMs: number): string[] =>
  db
    .prepare<{ beforeMs: number }, string>(
      `WITH refs AS (
         SELECT ref FROM people
         UNION SELECT client FROM documents WHERE client IS NOT NULL AND session NOT IN (SELECT session FROM erased))
       SELECT ref FROM refs
       WHERE NOT EXISTS (SELECT 1 FROM documents WHERE client = ref AND (closed = 0 OR last_ms >= @beforeMs))
         AND NOT EXISTS (SELECT 1 FROM people WHERE people.ref = refs.ref AND changed_ms >= @beforeMs)`,
    )
    .pluck()
    .all({ beforeMs });
