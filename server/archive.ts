/**
 * The sessions of all seasons, found by ticket, name, tag, boot or day. Words stand in ordinary tables, sorted: what
 * begins so is one look into a tree, however many sessions there are, and what is erased is overwritten.
 */
import { z } from 'zod';
import type { Found, FoundSession, Standing } from '../core/index.ts';
import { BOUND } from './limits.ts';
import type { Db } from './schema.ts';
import type { Shown } from './session-words.ts';
import { range, soughtIn } from './words.ts';
import type { Sought } from './words.ts';

interface Row extends Omit<FoundSession, 'closed' | keyof Shown> {
  readonly closed: number;
  readonly shown: string | null;
}

const ShownJson = z.object({
  ticket: z.string(),
  service: z.string(),
  models: z.array(z.string()),
  tags: z.array(z.string()),
});
const NOTHING: Shown = { ticket: '', service: '', models: [], tags: [] };

export class Archive {
  readonly #words;
  readonly #names;
  readonly #open;
  readonly #every;
  readonly #ofClient;
  readonly #row;
  readonly #unread;

  constructor(db: Db) {
    const ids = <Bound extends unknown[]>(sql: string) => db.prepare<Bound, number>(sql).pluck();
    this.#words = ids<[string, string]>('SELECT document FROM session_words WHERE word >= ? AND word < ?');
    this.#names = ids<[string, string]>(
      `SELECT documents.id FROM (SELECT DISTINCT ref FROM people_words WHERE word >= ? AND word < ?) AS people
       JOIN documents ON documents.client = people.ref`,
    );
    this.#open = ids<[]>('SELECT id FROM documents WHERE closed = 0');
    this.#every = ids<[]>('SELECT id FROM documents INDEXED BY documents_client');
    this.#ofClient = ids<[string]>('SELECT id FROM documents WHERE client = ?');
    this.#row = db.prepare<[number], Row>(
      `SELECT session, generation, client AS clientRef, people.name AS name, shown, opened_ms AS openedMs,
         last_ms AS lastMs, closed
       FROM documents LEFT JOIN people ON people.ref = documents.client WHERE id = ?`,
    );
    this.#unread = ids<[]>('SELECT count(*) FROM documents WHERE shown IS NULL');
  }

  /** Sessions in which every word of `typed` is found; all for none. */
  find(typed: string, standing: Standing = 'all', most: number = BOUND.found): Found {
    const sought = soughtIn(typed);
    const sets = sought.map((each) => this.#having(each));
    if (standing === 'open') sets.push(new Set(this.#open.all()));
    if (sets.length === 0 || (standing === 'finished' && sought.length === 0))
      sets.push(new Set(this.#every.all()));
    const [fewest, ...others] = sets.toSorted((a, b) => a.size - b.size);
    const not = standing === 'finished' ? new Set(this.#open.all()) : new Set<number>();
    return this.#told(
      [...fewest!].filter((id) => !not.has(id) && others.every((other) => other.has(id))),
      most,
    );
  }

  /** What one client had done here before. */
  ofClient(ref: string, most: number = BOUND.found): Found {
    return this.#told(this.#ofClient.all(ref), most);
  }

  #having({ begins, day }: Sought): Set<number> {
    const ofDay = day === null ? [] : this.#words.all(...range(day));
    if (begins.length === 0) return new Set(ofDay);
    const [first, ...others] = begins.map(
      (begin) => new Set([...this.#words.all(...range(begin)), ...this.#names.all(...range(begin))]),
    );
    const all =
      others.length === 0 ? first! : [...first!].filter((id) => others.every((other) => other.has(id)));
    return ofDay.length === 0 && all instanceof Set ? all : new Set([...all, ...ofDay]);
  }

  /** A session that was opened later has a greater id. */
  #told(ids: number[], most: number): Found {
    ids.sort((a, b) => b - a);
    return {
      found: ids.slice(0, most).map((id) => this.#foundAs(this.#row.get(id)!)),
      more: Math.max(0, ids.length - most),
      unread: this.#unread.get() ?? 0,
    };
  }

  #foundAs({ shown, closed, ...row }: Row): FoundSession {
    const read = ShownJson.safeParse(JSON.parse(shown ?? 'null'));
    return { ...row, ...(read.success ? read.data : NOTHING), closed: closed === 1 };
  }
}
