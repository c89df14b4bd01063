/** Where a client's legs stood in earlier sessions. Of clients whose data were erased there is nothing. */
import type { LegTold, SeenLeg } from '../core/index.ts';
import type { Db } from './schema.ts';

/** Sessions of one client that are read at most: more than a life of skiing. */
const MOST = 100;

export class Legs {
  readonly #rows;

  constructor(db: Db) {
    this.#rows = db.prepare<
      [string, string, number],
      Omit<LegTold, 'leg'> & { readonly legJson: string | null }
    >(
      `SELECT b.session, b.side, b.name AS model, b.tag, b.opened_ms AS openedMs, b.leg AS legJson,
         json_extract(d.job, '$.ticket') AS ticket
       FROM documents AS d JOIN lesson_boots AS b ON b.session = d.session
       WHERE d.client = ? AND d.session != ?
         AND d.generation = (SELECT max(generation) FROM documents AS other WHERE other.session = d.session)
         AND NOT EXISTS (SELECT 1 FROM erased WHERE erased.session = d.session)
       ORDER BY d.id DESC, b.side LIMIT ?`,
    );
  }

  /** Newest first. @param except a session that is not asked for, or '' */
  of(client: string, except = ''): LegTold[] {
    return this.#rows.all(client, except, 2 * MOST).map(({ legJson, ...row }) => ({
      ...row,
      leg: legJson === null ? null : (JSON.parse(legJson) as SeenLeg),
    }));
  }
}
