/**
 * Generations of a session's document. What takes something back (a restore, an erasure) writes the facts that
 * stay into a new document under another room name.
 *
 * The new document is the server's own: one client id, of station number 0, and nothing of the old bytes. So a
 * copy of an older generation can never merge with it, numbers of stations that a restore takes back can be met
 * again without harm, and what was left out is provably not carried over. The list's order keeps what the old
 * document's origins said: an entry stands behind all that its author had seen.
 */
import * as Y from 'yjs';
import type { Fact } from '../core/index.ts';
import { factsOf, readable } from './document.ts';
import { rowReader, rowWriter } from './rows.ts';
import type { Db } from './schema.ts';

/** Past this there is no room name. */
export const LAST_GENERATION = 999_999_999;

/** One update that makes a document of these facts. The client id is the generation: below 2³², so the server's. */
export function documentOf(facts: readonly Fact[], generation: number): Uint8Array {
  const doc = new Y.Doc();
  doc.clientID = generation;
  doc.getArray('facts').push([...facts]);
  const bytes = Y.encodeStateAsUpdate(doc);
  doc.destroy();
  return bytes;
}

/** The generation of sessions that a database does not hold yet. */
export const baseGeneration = (db: Db): number =>
  Number(db.prepare("SELECT value FROM meta WHERE key = 'generation'").pluck().get() ?? 1);

/** The greatest generation that anybody can have seen of this database. */
export const greatestGeneration = (db: Db): number =>
  Math.max(
    baseGeneration(db),
    Number(db.prepare('SELECT max(generation) FROM documents').pluck().get() ?? 0),
  );

/**
 * Puts a session's newest document under `generation`, its facts put through `change`, and drops the older ones.
 * Commit times stay. Inside the caller's transaction. Throws `SpoiltSession` when it cannot be read.
 */
export function regenerate(
  db: Db,
  session: string,
  generation: number,
  change: (facts: Fact[]) => Fact[] = (facts) => facts,
): void {
  const [newest, ...older] = db
    .prepare<[string], { id: number; n: number; lastMs: number }>(
      'SELECT id, last_n AS n, last_ms AS lastMs FROM documents WHERE session = ? ORDER BY generation DESC',
    )
    .all(session);
  if (!newest) return;
  for (const { id } of older) {
    for (const table of ['updates', 'facts']) db.prepare(`DELETE FROM ${table} WHERE document = ?`).run(id);
    db.prepare('DELETE FROM documents WHERE id = ?').run(id);
  }
  const bytes = documentOf(change(factsOf(rowReader(db)(newest.id), session)), generation);
  db.prepare('DELETE FROM updates WHERE document = ?').run(newest.id);
  const place = { session, generation, n: newest.n, committedMs: newest.lastMs };
  rowWriter(db)(newest.id, place, bytes);
  // The board's row names the generation and may quote a text: it is computed again.
  db.prepare('UPDATE documents SET generation = ?, job = NULL WHERE id = ?').run(generation, newest.id);
}

/** Reads the client's reference of sessions that were stored before it was kept. Changes nothing else. */
export function nameClients(db: Db): void {
  const unread = db
    .prepare<[], { id: number; session: string }>('SELECT id, session FROM documents WHERE client IS NULL')
    .all();
  if (unread.length === 0) return;
  const rows = rowReader(db);
  const set = db.prepare<[string, number]>('UPDATE documents SET client = ? WHERE id = ?');
  db.transaction(() => {
    for (const { id, session } of unread) {
      const opened = readable(() => factsOf(rows(id), session))?.find(
        (fact) => fact.kind === 'session.opened',
      );
      if (opened?.kind === 'session.opened') set.run(opened.clientRef, id);
    }
  }).immediate();
}
