/**
 * What each session teaches, kept beside it so that nobody has to read the archive to learn from it. It follows from
 * the facts on disk and from what people decided on pairs that are far off; what is missing or older than its
 * document is worked out again in idle time.
 */
import { doubtOf, isFarOff, lessonsOf, measuredResponse, sameModel } from '../core/index.ts';
import type { Fact, Lesson, MoveChoice, MoveState, ReadStop, SideLessons } from '../core/index.ts';
import type { Db } from './schema.ts';
import type { StoredDocument } from './store.ts';

export interface Pair {
  readonly session: string;
  readonly before: string;
  readonly after: string;
}

const statements = (db: Db) => ({
  noted: db.prepare<[string], { generation: number; lastN: number }>(
    'SELECT generation, last_n AS lastN FROM lessons WHERE session = ?',
  ),
  note: db.prepare<[string, number, number]>(
    `INSERT INTO lessons (session, generation, last_n) VALUES (?, ?, ?)
     ON CONFLICT (session) DO UPDATE SET generation = excluded.generation, last_n = excluded.last_n`,
  ),
  boots: db.prepare<[string], object>('SELECT * FROM lesson_boots WHERE session = ? ORDER BY side'),
  pairs: db.prepare<[string], object>(
    'SELECT * FROM lesson_pairs WHERE session = ? ORDER BY side, before, after',
  ),
  dropBoots: db.prepare<[string]>('DELETE FROM lesson_boots WHERE session = ?'),
  dropPairs: db.prepare<[string]>('DELETE FROM lesson_pairs WHERE session = ?'),
  addBoot: db.prepare<[BootRow]>(
    `INSERT INTO lesson_boots VALUES (@session, @side, @model, @name, @boot, @tag, @opened_ms, @k, @weight, @pairs,
       @first_enough, @leg, @stops)`,
  ),
  addPair: db.prepare<[PairRow]>(
    `INSERT INTO lesson_pairs VALUES (@session, @side, @before, @after, @model, @opened_ms, @predicted_mm,
       @observed_mm, @sd_mm, @state)`,
  ),
  chosen: db
    .prepare<[string, string, string], 'kept' | 'out' | 'asked'>(
      'SELECT choice FROM lesson_choices WHERE session = ? AND before = ? AND after = ? ORDER BY id DESC LIMIT 1',
    )
    .pluck(),
  choose: db.prepare<[string, string, string, string, string | null, string, string, number]>(
    `INSERT INTO lesson_choices (session, before, after, choice, reason, station, name, decided_ms)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  ),
  farOff: db
    .prepare<[string, string, string], 1>(
      `SELECT 1 FROM lesson_pairs WHERE session = ? AND before = ? AND after = ? AND state != 'used'`,
    )
    .pluck(),
  unnoted: db
    .prepare<[], number>(
      'SELECT (SELECT count(DISTINCT session) FROM documents) - (SELECT count(*) FROM lessons)',
    )
    .pluck(),
  erased: db.prepare<[string], 1>('SELECT 1 FROM erased WHERE session = ?').pluck(),
  due: db
    .prepare<[number], string>(
      `SELECT session FROM documents
     WHERE generation = (SELECT max(generation) FROM documents AS other WHERE other.session = documents.session)
       AND NOT EXISTS (SELECT 1 FROM lessons WHERE lessons.session = documents.session
         AND lessons.generation = documents.generation AND lessons.last_n = documents.last_n)
     ORDER BY id DESC LIMIT ?`,
    )
    .pluck(),
});

interface BootRow {
  readonly session: string;
  readonly side: string;
  readonly model: string;
  readonly name: string;
  readonly boot: string;
  readonly tag: string | null;
  readonly opened_ms: number;
  readonly k: number;
  readonly weight: number;
  readonly pairs: number;
  readonly first_enough: 0 | 1 | null;
  readonly leg: string | null;
  readonly stops: string;
}

interface PairRow extends Pair {
  readonly side: string;
  readonly model: string;
  readonly opened_ms: number;
  readonly predicted_mm: number;
  readonly observed_mm: number;
  readonly sd_mm: number;
  readonly state: MoveState;
}

/** Boots are one where their tag is; without a tag each session has boots of its own. */
export const bootKey = (session: string, side: string, tag: string | null | undefined): string =>
  tag ? `tag ${side} ${tag}` : `${session} ${side}`;

export class Lessons {
  readonly #db: Db;
  readonly #now: () => number;
  readonly #sql: ReturnType<typeof statements>;
  /** Documents that taught nothing new, by session: written down together. */
  readonly #unchanged = new Map<string, Pick<StoredDocument, 'generation' | 'lastN'>>();

  constructor(db: Db, now: () => number) {
    this.#db = db;
    this.#now = now;
    this.#sql = statements(db);
  }

  /** Keeps what these facts teach, in the place of what the session taught before. */
  keep(document: StoredDocument, facts: readonly Fact[]): void {
    const { session, generation, lastN } = document;
    const rows = this.#rows(document, lessonsOf(facts));
    const before = { boots: this.#sql.boots.all(session), pairs: this.#sql.pairs.all(session) };
    if (JSON.stringify(rows) === JSON.stringify(before)) {
      this.#unchanged.set(session, { generation, lastN });
      return;
    }
    this.#db
      .transaction(() => {
        this.#sql.dropBoots.run(session);
        this.#sql.dropPairs.run(session);
        for (const row of rows.boots) this.#sql.addBoot.run(row);
        for (const row of rows.pairs) this.#sql.addPair.run(row);
        this.#sql.note.run(session, generation, lastN);
      })
      .immediate();
    this.#unchanged.delete(session);
  }

  /** Writes down which documents taught nothing new, so that the next start does not ask them again. */
  flush(): void {
    if (this.#unchanged.size === 0) return;
    this.#db
      .transaction(() => {
        for (const [session, { generation, lastN }] of this.#unchanged)
          this.#sql.note.run(session, generation, lastN);
      })
      .immediate();
    this.#unchanged.clear();
  }

  /** Sessions whose lessons are missing or older than the document, the newest first. */
  due(limit: number): string[] {
    this.flush();
    return this.#sql.due.all(limit);
  }

  /** How many sessions were not read yet. */
  unread(): number {
    const toNote = [...this.#unchanged.keys()].filter((session) => !this.#sql.noted.get(session)).length;
    return Math.max(0, (this.#sql.unnoted.get() ?? 0) - toNote);
  }

  /** Whether this pair is far off, decided or not: only such a pair is a person's to decide on. */
  isFarOff({ session, before, after }: Pair): boolean {
    return this.#sql.farOff.get(session, before, after) !== undefined;
  }

  /** Writes down what a person decided, and what the session teaches with that: both or neither. */
  decide(
    { document, facts }: { readonly document: StoredDocument; readonly facts: readonly Fact[] },
    pair: Pair,
    choice: MoveChoice,
    station: { readonly device: string; readonly name: string },
  ): void {
    this.#db
      .transaction(() => {
        this.#choose(pair, choice, station);
        this.keep(document, facts);
      })
      .immediate();
  }

  #choose(pair: Pair, choice: MoveChoice, station: { readonly device: string; readonly name: string }): void {
    const reason = choice.choice === 'out' ? choice.reason : null;
    const { session, before, after } = pair;
    this.#sql.choose.run(
      session,
      before,
      after,
      choice.choice,
      reason,
      station.device,
      station.name,
      this.#now(),
    );
  }

  #rows({ session, openedMs }: StoredDocument, sides: readonly SideLessons[]) {
    const erased = this.#sql.erased.get(session) !== undefined;
    const pairs: PairRow[] = [];
    const boots: BootRow[] = [];
    for (const { side, model: name, tag, stops, lessons, firstEnough, leg } of sides) {
      const model = sameModel(name);
      const own = lessons.map((lesson) => ({ lesson, state: this.#stateOf(session, lesson) }));
      const measured = measuredResponse(withJumps(stops, own));
      boots.push({
        session,
        side,
        model,
        name,
        boot: bootKey(session, side, tag),
        tag,
        opened_ms: openedMs,
        k: measured?.k ?? 1,
        weight: measured?.weight ?? 0,
        pairs: own.filter(({ state }) => state !== 'out').length,
        first_enough: firstEnough === null ? null : firstEnough ? 1 : 0,
        leg: leg && !erased ? JSON.stringify(leg) : null,
        stops: JSON.stringify(stops),
      });
      for (const { lesson, state } of own)
        pairs.push({
          session,
          side,
          before: lesson.before,
          after: lesson.after,
          model,
          opened_ms: openedMs,
          predicted_mm: lesson.predictedMm,
          observed_mm: lesson.observedMm,
          sd_mm: lesson.sdMm,
          state,
        });
    }
    const order = (row: PairRow) => `${row.side} ${row.before} ${row.after}`;
    return { boots, pairs: pairs.sort((a, b) => (order(a) < order(b) ? -1 : 1)) };
  }

  #stateOf(session: string, lesson: Lesson): MoveState {
    if (!isFarOff(lesson)) return 'used';
    return this.#sql.chosen.get(session, lesson.before, lesson.after) ?? 'asked';
  }
}

/** What a pair that is out, or asked about, lets the leg have moved by beside the pivots. */
const withJumps = (
  stops: readonly ReadStop[],
  pairs: readonly { readonly lesson: Lesson; readonly state: MoveState }[],
): ReadStop[] =>
  stops.map((stop, i) => {
    const pair = pairs[i - 1];
    if (!pair || pair.state === 'used' || pair.state === 'kept') return stop;
    return { ...stop, jump: pair.state === 'out' ? Infinity : doubtOf(pair.lesson) };
  });
